/// @file
/// One lane of a scalar of the engine: a double has one, a pack several. And packs of neighbours in an array.
#pragma once

#include <cstddef>
#include <cstring>

#include "engine/pack.hpp"

namespace cook::reference {

template <class Real> inline constexpr std::size_t lanes_of = 1;
template <> inline constexpr std::size_t lanes_of<engine::Pack> = engine::pack_lanes;

inline double lane_of(double x, std::size_t /*lane*/) { return x; }
inline double lane_of(const engine::Pack &x, std::size_t lane) { return x[lane]; }

inline void set_lane(double &x, std::size_t /*lane*/, double value) { x = value; }
inline void set_lane(engine::Pack &x, std::size_t lane, double value) { x.set(lane, value); }

inline void set_lane(bool &mask, std::size_t /*lane*/, bool value) { mask = value; }
inline void set_lane(engine::PackMask &mask, std::size_t lane, bool value) { mask.set(lane, value); }

/// Neighbours in an array.
inline engine::Pack load(const double *from) {
  engine::Pack pack;
  std::memcpy(&pack.lane, from, sizeof pack.lane);
  return pack;
}

inline void store(const engine::Pack &pack, double *to) { std::memcpy(to, &pack.lane, sizeof pack.lane); }

/// Calls work(first) for every pack of n neighbours; n is at least a pack. The last pack overlaps the one
/// before: the work must not mind being done twice.
template <class Work> void for_packs(std::size_t n, Work work) {
  for (std::size_t at = 0; at < n; at += engine::pack_lanes) {
    work(at + engine::pack_lanes <= n ? at : n - engine::pack_lanes);
  }
}

/// Two unknowns of neighbouring nodes, which lie in turn in an array.
struct PackPair {
  engine::Pack first, second;
};

inline PackPair load_pairs(const double *from) {
  const engine::Pack low = load(from);
  const engine::Pack high = load(from + engine::pack_lanes);
  return {engine::Pack(__builtin_shufflevector(low.lane, high.lane, 0, 2, 4, 6, 8, 10, 12, 14)),
          engine::Pack(__builtin_shufflevector(low.lane, high.lane, 1, 3, 5, 7, 9, 11, 13, 15))};
}

inline void store_pairs(const PackPair &pair, double *to) {
  const auto &p = pair.first.lane;
  const auto &q = pair.second.lane;
  store(engine::Pack(__builtin_shufflevector(p, q, 0, 8, 1, 9, 2, 10, 3, 11)), to);
  store(engine::Pack(__builtin_shufflevector(p, q, 4, 12, 5, 13, 6, 14, 7, 15)), to + engine::pack_lanes);
}

} // namespace cook::reference
