#include "engine/pack_scatter.hpp"

#include <cstring>
#include <type_traits>

#include "engine/vector_clones.hpp"

namespace cook::engine {

namespace {

static_assert(pack_lanes == 8, "the patterns below are written for eight lanes");

/// Two rows of eight lanes as pairs: those of the even lanes, or of the odd ones.
Pack even_pairs(const Pack &a, const Pack &b) {
  return Pack(__builtin_shufflevector(a.lane, b.lane, 0, 8, 2, 10, 4, 12, 6, 14));
}
Pack odd_pairs(const Pack &a, const Pack &b) {
  return Pack(__builtin_shufflevector(a.lane, b.lane, 1, 9, 3, 11, 5, 13, 7, 15));
}
/// Two rows of pairs as fours: of lanes 0 and 4 (or 1 and 5), or of 2 and 6 (or 3 and 7).
Pack first_fours(const Pack &a, const Pack &b) {
  return Pack(__builtin_shufflevector(a.lane, b.lane, 0, 1, 8, 9, 4, 5, 12, 13));
}
Pack last_fours(const Pack &a, const Pack &b) {
  return Pack(__builtin_shufflevector(a.lane, b.lane, 2, 3, 10, 11, 6, 7, 14, 15));
}
/// Two rows of fours as whole lanes.
Pack lower_lane(const Pack &a, const Pack &b) {
  return Pack(__builtin_shufflevector(a.lane, b.lane, 0, 1, 2, 3, 8, 9, 10, 11));
}
Pack upper_lane(const Pack &a, const Pack &b) {
  return Pack(__builtin_shufflevector(a.lane, b.lane, 4, 5, 6, 7, 12, 13, 14, 15));
}

/// Four rows as fours of lanes 0 and 4, 1 and 5, 2 and 6, 3 and 7.
std::array<Pack, 4> fours(const Pack &a, const Pack &b, const Pack &c, const Pack &d) {
  const Pack even_ab = even_pairs(a, b);
  const Pack even_cd = even_pairs(c, d);
  const Pack odd_ab = odd_pairs(a, b);
  const Pack odd_cd = odd_pairs(c, d);
  return {first_fours(even_ab, even_cd), first_fours(odd_ab, odd_cd), last_fours(even_ab, even_cd),
          last_fours(odd_ab, odd_cd)};
}

} // namespace

COOK_PACK_CLONES
void scatter(const std::vector<Pack> &from, const LaneTargets<double> &to) {
  const std::size_t whole = from.size() / pack_lanes * pack_lanes;
  for (std::size_t i = 0; i < whole; i += pack_lanes) {
    const Pack *row = &from[i];
    const auto early = fours(row[0], row[1], row[2], row[3]);
    const auto late = fours(row[4], row[5], row[6], row[7]);
    for (std::size_t k = 0; k < 4; ++k) {
      if (to[k]) {
        const Pack lane = lower_lane(early[k], late[k]);
        std::memcpy(to[k] + i, &lane, sizeof lane);
      }
      if (to[k + 4]) {
        const Pack lane = upper_lane(early[k], late[k]);
        std::memcpy(to[k + 4] + i, &lane, sizeof lane);
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
    const auto four = fours(cell.t, cell.t_eta, cell.t_x, cell.t_liquid);
    for (std::size_t k = 0; k < 4; ++k) {
      std::array<double, pack_lanes> both;
      std::memcpy(both.data(), &four[k], sizeof both);
      if (to[k]) {
        std::memcpy(&to[k][i].t, both.data(), sizeof both / 2);
      }
      if (to[k + 4]) {
        std::memcpy(&to[k + 4][i].t, both.data() + 4, sizeof both / 2);
      }
    }
  }
}

} // namespace cook::engine
