/// @file
/// Finding places among the nodes of a structured mesh.
#pragma once

#include <array>
#include <cstddef>
#include <vector>

namespace cook::engine {

/// The cell that holds a place: its corners and their weights, which sum to one.
struct LocatedPlace {
  std::array<std::size_t, 4> node{};
  std::array<double, 4> weight{};
  double off = 0.0; ///< how far the place is from the cell [m]: 0 inside the mesh
};

/// @param x, z of the nodes, column by column  @param nz nodes in a column
[[nodiscard]] LocatedPlace locate_place(const std::vector<double> &x, const std::vector<double> &z,
                                        std::size_t nz, double at_x, double at_z);

} // namespace cook::engine
