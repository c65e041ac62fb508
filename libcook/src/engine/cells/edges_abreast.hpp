/// @file
/// The edges of one cook's lines, several to an instruction: along each line, and across from the middle to
/// the rim where there are two. What edge_flux() and edge_slopes() compute edge by edge, to the bit.
#pragma once

#include <array>
#include <cstddef>
#include <vector>

#include "engine/cells/edge.hpp"
#include "engine/cells/edge_lines.hpp"

namespace cook::engine {

class EdgesAbreast {
public:
  /// Cell i is on line i % lines.
  /// @param across edge area / spacing from the middle to the rim, level by level; empty on one line
  EdgesAbreast(std::size_t nodes, std::size_t lines, const std::vector<double> &across)
      : cells(nodes), lines_(lines), across_g_(lines == 2 ? nodes : 0, 0.0), along_(nodes),
        across_(across_g_.size()) {
    // Between the rim of a level and the middle of the next there is no edge.
    for (std::size_t level = 0; level < across.size(); ++level) {
      across_g_[2 * level] = across[level];
    }
  }

  /// What the edges see of the cells.
  CellArrays cells;

  /// Fluxes through all edges.
  /// @param along edge area / spacing from cell i to the next on its line
  void evaluate(const std::vector<double> &along) {
    edge_fluxes(cells, along.data(), lines_, along_.heat.data(), along_.water.data());
    if (lines_ == 2) {
      edge_fluxes(cells, across_g_.data(), 1, across_.heat.data(), across_.water.data());
    }
  }
  /// Their derivatives by the unknowns on either side.
  void differentiate(const std::vector<double> &along) {
    edge_jacobian(cells, along.data(), lines_, along_.by_state);
    if (lines_ == 2) {
      edge_jacobian(cells, across_g_.data(), 1, across_.by_state);
    }
  }

  /// From cell i to the next on its line.
  [[nodiscard]] EdgeFlux along(std::size_t i) const { return {along_.heat[i], along_.water[i]}; }
  /// From cell i of the middle to its partner at the rim.
  [[nodiscard]] EdgeFlux across(std::size_t i) const { return {across_.heat[i], across_.water[i]}; }
  // Their derivatives, by the same cell.
  [[nodiscard]] const EdgeJacobian &by_along() const { return along_.by_state; }
  [[nodiscard]] const EdgeJacobian &by_across() const { return across_.by_state; }

private:
  struct Edges {
    explicit Edges(std::size_t count) : heat(count, 0.0), water(count, 0.0) {
      for (auto &v : by_state) {
        v.assign(count, 0.0);
      }
    }
    std::vector<double> heat, water;
    EdgeJacobian by_state;
  };

  std::size_t lines_;
  std::vector<double> across_g_; ///< of every cell, zero for those of the rim
  Edges along_, across_;
};

} // namespace cook::engine
