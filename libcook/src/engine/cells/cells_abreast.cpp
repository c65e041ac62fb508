#include "engine/cells/cells_abreast.hpp"

#include <algorithm>
#include <cstring>

#include "engine/arithmetic/transpose.hpp"
#include "engine/arithmetic/vector_clones.hpp"

namespace cook::engine {

namespace {

/// Two numbers of each of eight cells, which lie side by side.
struct Two {
  Pack first, second;
};

/// @param count cells that there are; lanes beyond them hold the last one again
[[gnu::always_inline]] inline Two load_two(const double *from, std::size_t count) {
  if (count < pack_lanes) {
    const auto at = [count](std::size_t lane) { return 2 * (lane < count ? lane : count - 1); };
    return {gathered([&](std::size_t lane) { return from[at(lane)]; }),
            gathered([&](std::size_t lane) { return from[at(lane) + 1]; })};
  }
  Pack::Half part[4]; // NOLINT(modernize-avoid-c-arrays): GCC ignores the attributes of a template's argument
  std::memcpy(&part, from, sizeof part);
  return {Pack(__builtin_shufflevector(part[0], part[1], 0, 2, 4, 6),
               __builtin_shufflevector(part[2], part[3], 0, 2, 4, 6)),
          Pack(__builtin_shufflevector(part[0], part[1], 1, 3, 5, 7),
               __builtin_shufflevector(part[2], part[3], 1, 3, 5, 7))};
}

[[gnu::always_inline]] inline Pack load_one(const double *from, std::size_t count) {
  if (count < pack_lanes) {
    return gathered([&](std::size_t lane) { return from[lane < count ? lane : count - 1]; });
  }
  Pack pack;
  std::memcpy(&pack, from, sizeof pack);
  return pack;
}

/// Calls act(block, its first cell, cells that are left, table) for each block.
template <class Act>
[[gnu::always_inline]] inline void for_each_block(const std::vector<PackTable> &tables,
                                                  const CellBlocks &cells, const Act &act) {
  for (std::size_t b = 0; b < cells.blocks(); ++b) {
    const std::size_t first = b * pack_lanes;
    act(b, first, std::min(pack_lanes, cells.size() - first), tables[tables.size() == 1 ? 0 : b]);
  }
}

template <Slopes slopes>
[[gnu::always_inline]] inline void evaluate_all(const std::vector<PackTable> &tables, const double *y,
                                                const double *liquid, const MemoryBlocks &memory,
                                                CellBlocks &cells, CellArrays &arrays) {
  for_each_block(
      tables, cells,
      [&](std::size_t b, std::size_t first, std::size_t count, const PackTable &table)
          __attribute__((always_inline)) {
            const Two state = load_two(y + 2 * first, count);
            const Pack wet = load_one(liquid + first, count);
            Cell<Pack> &cell = cells.block(b);
            evaluate_cell<slopes>(table, state.first, state.second, wet, memory.block(b), cell);
            CellArrays::each<slopes>(
                cell,
                table.solids, [&](CellArrays::Field field, const Pack &value) __attribute__((always_inline)) {
                  std::memcpy(arrays[field] + first, &value, sizeof value);
                });
          });
}

// Functions, not templates: only those are compiled for several widths.

COOK_PACK_CLONES
void with_slopes(const std::vector<PackTable> &tables, const double *y, const double *liquid,
                 const MemoryBlocks &memory, CellBlocks &cells, CellArrays &arrays) {
  evaluate_all<Slopes::yes>(tables, y, liquid, memory, cells, arrays);
}

COOK_PACK_CLONES
void without_slopes(const std::vector<PackTable> &tables, const double *y, const double *liquid,
                    const MemoryBlocks &memory, CellBlocks &cells, CellArrays &arrays) {
  evaluate_all<Slopes::no>(tables, y, liquid, memory, cells, arrays);
}

COOK_PACK_CLONES
void anticipate_all(const std::vector<PackTable> &tables, const double *f, double ahead,
                    const double *learned, CellBlocks &cells, CellArrays &arrays,
                    std::vector<std::size_t> &changed) {
  for_each_block(
      tables, cells,
      [&](std::size_t b, std::size_t first, std::size_t count, const PackTable &table)
          __attribute__((always_inline)) {
            const Pack gain = load_two(f + 2 * first, count).second * Pack(ahead);
            Cell<Pack> &cell = cells.block(b);
            const Pack before = cell.juice_phi;
            anticipate_squeezing(table, gain, cell);
            if (learned) {
              cell.juice_phi = max(cell.juice_phi, load_one(learned + first, count));
            }
            const PackMask more = cell.juice_phi != before;
            if (!any(more)) {
              return;
            }
            std::memcpy(arrays[CellArrays::juice_phi] + first, &cell.juice_phi, sizeof cell.juice_phi);
            for (std::size_t lane = 0; lane < count; ++lane) {
              if (more[lane]) {
                changed.push_back(first + lane);
              }
            }
          });
}

COOK_PACK_CLONES
void remember_all(const CellBlocks &cells, MemoryBlocks &memory) {
  for (std::size_t b = 0; b < cells.blocks(); ++b) {
    remember_peak(cells.block(b), every_lane<Pack>(), memory.block(b));
  }
}

} // namespace

CellsAbreast::CellsAbreast(std::size_t nodes,
                           const std::function<const PropertyTable &(std::size_t)> &table) {
  bool alike = true;
  for (std::size_t i = 1; i < nodes; ++i) {
    alike = alike && &table(i) == &table(0);
  }
  for (std::size_t first = 0; first < (alike ? 1 : nodes); first += pack_lanes) {
    PackTable &eight = tables_.emplace_back();
    for (std::size_t lane = 0; lane < pack_lanes; ++lane) {
      eight.set(lane, table(std::min(first + lane, nodes - 1)));
    }
  }
}

void CellsAbreast::evaluate(Slopes slopes, const double *y, const double *liquid, const MemoryBlocks &memory,
                            CellBlocks &cells, CellArrays &arrays) const {
  (slopes == Slopes::yes ? with_slopes : without_slopes)(tables_, y, liquid, memory, cells, arrays);
}

const std::vector<std::size_t> &CellsAbreast::anticipate(const double *f, double ahead, const double *learned,
                                                         CellBlocks &cells, CellArrays &arrays) {
  changed_.clear();
  anticipate_all(tables_, f, ahead, learned, cells, arrays, changed_);
  return changed_;
}

void remember_peaks(const CellBlocks &cells, MemoryBlocks &memory) { remember_all(cells, memory); }

} // namespace cook::engine
