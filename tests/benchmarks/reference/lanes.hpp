/// @file
/// One lane of a scalar: a double has one, a pack several.
#pragma once

#include <cstddef>

#include "benchmarks/reference/neighbours.hpp"
#include "engine/arithmetic/pack.hpp"

namespace cook::reference {

template <class Real> inline constexpr std::size_t lanes_of = 1;
template <> inline constexpr std::size_t lanes_of<engine::Pack> = engine::pack_lanes;

inline double lane_of(double x, std::size_t /*lane*/) { return x; }
inline double lane_of(const engine::Pack &x, std::size_t lane) { return x[lane]; }

inline void set_lane(double &x, std::size_t /*lane*/, double value) { x = value; }
inline void set_lane(engine::Pack &x, std::size_t lane, double value) { x.set(lane, value); }

inline void set_lane(Neighbours &x, std::size_t lane, double value) { x.set(lane, value); }

inline void set_lane(bool &mask, std::size_t /*lane*/, bool value) { mask = value; }
inline void set_lane(engine::PackMask &mask, std::size_t lane, bool value) { mask.set(lane, value); }

} // namespace cook::reference
