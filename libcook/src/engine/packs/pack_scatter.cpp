#include "engine/packs/pack_scatter.hpp"

#include <algorithm>
#include <cstring>

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
void scatter_temperatures(const std::vector<Cell<Pack>> &from, const LaneTargets<Cell<Pack>> &to) {
  for (std::size_t b = 0; b < blocks_for(from.size()); ++b) {
    // Eight cells by eight lanes; beyond the last cell that one again.
    const auto cell = [&](std::size_t i) -> const Cell<Pack> & {
      return from[std::min(b * pack_lanes + i, from.size() - 1)];
    };
    for (Pack Cell<Pack>::*which :
         {&Cell<Pack>::t, &Cell<Pack>::t_eta, &Cell<Pack>::t_x, &Cell<Pack>::t_liquid}) {
      const auto turn = [&](std::size_t first, Pack::Half Pack::*half) {
        return transposed(cell(first).*which.*half, cell(first + 1).*which.*half,
                          cell(first + 2).*which.*half, cell(first + 3).*which.*half);
      };
      for (Pack::Half Pack::*lanes : {&Pack::low, &Pack::high}) {
        const auto early = turn(0, lanes);
        const auto late = turn(half_lanes, lanes);
        for (std::size_t k = 0; k < half_lanes; ++k) {
          if (Cell<Pack> *blocks = to[k + (lanes == &Pack::low ? 0 : half_lanes)]) {
            blocks[b].*which = Pack(early[k], late[k]);
          }
        }
      }
    }
  }
}

} // namespace cook::engine
