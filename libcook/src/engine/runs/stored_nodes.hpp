/// @file
/// What is stored of all nodes at a moment, in loops that the compiler makes wide: a long cook stores more
/// moments than it makes steps.
#pragma once

#include <cstddef>

namespace cook::engine {

/// Temperatures of nodes by the tangents at both ends of a step, each a straight line in (eta, X):
/// base + eta x eta + x x X. All arrays have an entry for each node, `y` has eta and X in turn.
struct Tangents {
  const double *base, *eta, *x;
};
/// @param t temperatures at the end of the step where the state is y  @param base of their tangent
void take_base(std::size_t nodes, const double *t, const double *eta, const double *x, const double *y,
               double *base);
void blend_tangents(std::size_t nodes, double share, const Tangents &early, const Tangents &late,
                    const double *y, double *t);

/// Means over the volume, and the lowest temperature.
struct OverNodes {
  double water = 0.0, temperature = 0.0, coldest = 0.0;
};
/// @param share of the volume, of each node
/// @param lines side by side, node by node in turn; they are stored one after the other
/// @param heat_to, water_to where to store; null: nowhere
OverNodes store_nodes(std::size_t nodes, std::size_t lines, const double *t, const double *y,
                      const double *share, double *heat_to, double *water_to);

} // namespace cook::engine
