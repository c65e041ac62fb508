/// @file
/// Edges of a mesh by the row: fluxes and Jacobian blocks in loops that the compiler can vectorise.
#pragma once

#include <array>
#include <cstddef>
#include <vector>

#include "engine/cells/cell_blocks.hpp"
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

  explicit CellArrays(std::size_t nodes)
      : nodes_(nodes), room_(blocks_for(nodes) * pack_lanes), values_(room_ * fields, 0.0) {}

  [[nodiscard]] std::size_t nodes() const { return nodes_; }
  [[nodiscard]] const double *operator[](Field field) const { return &values_[field * room_]; }
  [[nodiscard]] double *operator[](Field field) { return &values_[field * room_]; }

  /// Calls act(field, value) for all that edges need of a cell, or of eight cells: the one list of it.
  /// @param solids of the cell's tissue [kg m⁻³]
  template <Slopes slopes, class Real, class Act>
  [[gnu::always_inline]] static void each(const Cell<Real> &c, const Real &solids, const Act &act) {
    act(t, c.t);
    act(k, c.k);
    act(phi, c.phi);
    act(juice, c.juice);
    act(expressed, solids * c.expressed);
    act(held_mobility, solids * c.held_mobility);
    act(give, c.give);
    act(hw, c.hw);
    if constexpr (slopes == Slopes::yes) {
      act(k_t, c.k_t);
      act(k_x, c.k_x);
      act(phi_t, c.phi_t);
      act(juice_phi, c.juice_phi);
      act(expressed_t, solids * c.expressed_t);
      act(held_mobility_t, solids * c.held_mobility_t);
      act(held_mobility_x, solids * c.held_mobility_x);
      act(give_x, c.give_x);
      act(hw_t, c.hw_t);
      act(t_eta, c.t_eta);
      act(t_x, c.t_x);
    }
  }

private:
  std::size_t nodes_;
  std::size_t room_; ///< of an array: whole blocks
  std::vector<double> values_;
};

/// Heat and water through the edges from p to p + stride, for all p from 0 to nodes - stride - 1.
/// @param g edge area / spacing; 0 where there is no such edge
void edge_fluxes(const CellArrays &cells, const double *g, std::size_t stride, double *heat, double *water);

/// Derivatives of an edge's fluxes, from a to b, by the unknowns (eta, X) of the cells on either side.
enum EdgeBy : std::size_t {
  heat_by_eta_a,
  heat_by_x_a,
  water_by_eta_a,
  water_by_x_a,
  heat_by_eta_b,
  heat_by_x_b,
  water_by_eta_b,
  water_by_x_b,
  edge_bys
};
/// Those of many edges, an array for each.
using EdgeJacobian = std::array<std::vector<double>, edge_bys>;

/// Derivatives of what edge_fluxes() gives.
void edge_jacobian(const CellArrays &cells, const double *g, std::size_t stride, EdgeJacobian &by);

/// Sets all blocks of `lines` to what the edges along them give: derivatives of the rates (eta, X) of every
/// node.
/// @param cells, g, per_heat, per_water laid out as the lines; g of the edge from row j to row j + 1
void edge_blocks(const CellArrays &cells, const double *g, const double *per_heat, const double *per_water,
                 BlockLines &lines);

/// (p, q) = A (x, y) for the block-tridiagonal A of all lines at once.
void multiply_lines(const BlockLines &lines, const double *x, const double *y, double *p, double *q);

} // namespace cook::engine
