/// @file
/// Edges of a mesh by the row: fluxes and Jacobian blocks in loops that the compiler can vectorise.
#pragma once

#include <array>
#include <cstddef>
#include <vector>

#include "engine/cells/cell.hpp"
#include "engine/cells/edge.hpp"
#include "engine/linear/block_lines.hpp"

namespace cook::engine {

/// What the edges need of all cells, one array for each quantity.
class CellArrays {
public:
  enum Field : std::size_t {
    t,
    k,
    phi,
    juice,
    expressed,
    held_mobility,
    give,
    hw,
    k_t,
    k_x,
    phi_t,
    juice_phi,
    expressed_t,
    held_mobility_t,
    held_mobility_x,
    give_x,
    hw_t,
    t_eta,
    t_x,
    fields
  };

  explicit CellArrays(std::size_t nodes) : nodes_(nodes), values_(nodes * fields, 0.0) {}

  [[nodiscard]] std::size_t nodes() const { return nodes_; }
  [[nodiscard]] const double *operator[](Field field) const { return &values_[field * nodes_]; }
  [[nodiscard]] double *operator[](Field field) { return &values_[field * nodes_]; }

  /// @param solids of the cell's tissue [kg m⁻³]
  template <Slopes slopes> void put(std::size_t at, const Cell<double> &c, double solids) {
    double *v = &values_[at];
    const std::size_t n = nodes_;
    v[t * n] = c.t;
    v[k * n] = c.k;
    v[phi * n] = c.phi;
    v[juice * n] = c.juice;
    v[expressed * n] = solids * c.expressed;
    v[held_mobility * n] = solids * c.held_mobility;
    v[give * n] = c.give;
    v[hw * n] = c.hw;
    if constexpr (slopes == Slopes::yes) {
      v[k_t * n] = c.k_t;
      v[k_x * n] = c.k_x;
      v[phi_t * n] = c.phi_t;
      v[juice_phi * n] = c.juice_phi;
      v[expressed_t * n] = solids * c.expressed_t;
      v[held_mobility_t * n] = solids * c.held_mobility_t;
      v[held_mobility_x * n] = solids * c.held_mobility_x;
      v[give_x * n] = c.give_x;
      v[hw_t * n] = c.hw_t;
      v[t_eta * n] = c.t_eta;
      v[t_x * n] = c.t_x;
    }
  }

private:
  std::size_t nodes_;
  std::vector<double> values_;
};

/// Heat and water through the edges from p to p + stride, for all p from 0 to nodes - stride - 1.
/// @param g edge area / spacing; 0 where there is no such edge
void edge_fluxes(const CellArrays &cells, const double *g, std::size_t stride, double *heat, double *water);

/// Sets all blocks of `lines` to what the edges along them give: derivatives of the rates (eta, X) of every
/// node.
/// @param cells, g, per_heat, per_water laid out as the lines; g of the edge from row j to row j + 1
void edge_blocks(const CellArrays &cells, const double *g, const double *per_heat, const double *per_water,
                 BlockLines &lines);

/// (p, q) = A (x, y) for the block-tridiagonal A of all lines at once.
void multiply_lines(const BlockLines &lines, const double *x, const double *y, double *p, double *q);

} // namespace cook::engine
