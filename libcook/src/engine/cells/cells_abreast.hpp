/// @file
/// The cells of one cook, eight abreast: the lanes of a pack are neighbours here, not cooks.
///
/// What evaluate_cell() computes cell by cell, but for last digits where denaturation's memory takes over, in
/// some half of the time. Without fused multiply-adds, which round differently: a cook gives the same bits on
/// every machine.
#pragma once

#include <cstddef>
#include <functional>
#include <vector>

#include "engine/cells/cell.hpp"
#include "engine/cells/edge_lines.hpp"
#include "engine/cells/pack_table.hpp"

namespace cook::engine {

class CellsAbreast {
public:
  /// @param table of a node; must outlive this
  CellsAbreast(std::size_t nodes, const std::function<const PropertyTable &(std::size_t)> &table);

  /// Evaluates all cells.
  /// @param y eta and X of each cell in turn  @param liquid per volume, of each [kg m⁻³]
  /// @param arrays if not null, the cells go there too
  void evaluate(Slopes slopes, const double *y, const double *liquid,
                const std::vector<Memory<double>> &memory, std::vector<Cell<double>> &cells,
                CellArrays *arrays = nullptr) const;

private:
  [[nodiscard]] const PackTable &table_of(std::size_t group) const {
    return tables_.size() == 1 ? tables_.front() : tables_[group];
  }
  std::vector<PackTable> tables_; ///< of each eight cells; one, where all are alike
};

} // namespace cook::engine
