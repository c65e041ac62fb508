#include "engine/packs/pack_scatter.hpp"

#include <cstring>
#include <type_traits>

#include "engine/arithmetic/transpose.hpp"
#include "engine/arithmetic/vector_clones.hpp"

namespace cook::engine {

COOK_PACK_CLONES
void scatter(const std::vector<Pack> &from, const LaneTargets<double> &to) {
  const std::size_t whole = from.size() / half_lanes * half_lanes;
  for (std::size_t i = 0; i < whole; i += half_lanes) {
    const Pack *row = &from[i];
    const auto low = transposed(row[0].low, row[1].low, row[2].low, row[3].low);
    const auto high = transposed(row[0].high, row[1].high, row[2].high, row[3].high);
    for (std::size_t k = 0; k < half_lanes; ++k) {
      if (to[k]) {
        std::memcpy(to[k] + i, &low[k], sizeof low[k]);
      }
      if (to[k + half_lanes]) {
        std::memcpy(to[k + half_lanes] + i, &high[k], sizeof high[k]);
      }
    }
  }
  for (std::size_t i = whole; i < from.size(); ++i) {
    for (std::size_t lane = 0; lane < pack_lanes; ++lane) {
      if (to[lane]) {
        to[lane][i] = from[i][lane];
      }
    }
  }
}

COOK_PACK_CLONES
void replace(const PackMask &where, const std::vector<Pack> &from, std::vector<Pack> &to) {
  for (std::size_t i = 0; i < to.size(); ++i) {
    to[i] = select(where, from[i], to[i]);
  }
}

COOK_PACK_CLONES
void scatter_temperatures(const std::vector<Cell<Pack>> &from, const LaneTargets<Cell<double>> &to) {
  using C = Cell<double>;
  static_assert(std::is_standard_layout_v<C> && offsetof(C, t) == 0 && offsetof(C, t_eta) == 8 &&
                    offsetof(C, t_x) == 16 && offsetof(C, t_liquid) == 24,
                "the first four numbers of a cell");
  for (std::size_t i = 0; i < from.size(); ++i) {
    const Cell<Pack> &cell = from[i];
    const auto low = transposed(cell.t.low, cell.t_eta.low, cell.t_x.low, cell.t_liquid.low);
    const auto high = transposed(cell.t.high, cell.t_eta.high, cell.t_x.high, cell.t_liquid.high);
    for (std::size_t k = 0; k < half_lanes; ++k) {
      if (to[k]) {
        std::memcpy(&to[k][i].t, &low[k], sizeof low[k]);
      }
      if (to[k + half_lanes]) {
        std::memcpy(&to[k + half_lanes][i].t, &high[k], sizeof high[k]);
      }
    }
  }
}

} // namespace cook::engine
