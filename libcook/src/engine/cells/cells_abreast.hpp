/// @file
/// The cells of one cook, eight abreast: the lanes of a pack are neighbours here, not cooks.
///
/// What evaluate_cell() computes cell by cell, but for last digits where denaturation's memory takes over, in
/// a third of the time. Without fused multiply-adds, which round differently: a cook gives the same bits on
/// every machine.
#pragma once

#include <cstddef>
#include <functional>
#include <vector>

#include "engine/cells/cell_blocks.hpp"
#include "engine/cells/edge_lines.hpp"
#include "engine/cells/pack_table.hpp"

namespace cook::engine {

class CellsAbreast {
public:
  /// @param table of a node; must outlive this
  CellsAbreast(std::size_t nodes, const std::function<const PropertyTable &(std::size_t)> &table);

  /// Evaluates all cells, and tells the edges of them.
  /// @param y eta and X of each cell in turn  @param liquid per volume, of each [kg m⁻³]
  void evaluate(Slopes slopes, const double *y, const double *liquid, const MemoryBlocks &memory,
                CellBlocks &cells, CellArrays &arrays) const;

  /// anticipate_squeezing() in all cells.
  /// @param f rates of eta and X of each cell in turn  @param ahead how far it looks [s]
  /// @param learned juice_phi that cells have at least, or null
  /// @return the cells that it changed, until the next call
  const std::vector<std::size_t> &anticipate(const double *f, double ahead, const double *learned,
                                             CellBlocks &cells, CellArrays &arrays);

private:
  std::vector<PackTable> tables_; ///< of each eight cells; one, where all are alike
  std::vector<std::size_t> changed_;
};

/// remember_peak() of all cells.
void remember_peaks(const CellBlocks &cells, MemoryBlocks &memory);

} // namespace cook::engine
