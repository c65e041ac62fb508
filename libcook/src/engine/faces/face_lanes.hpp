/// @file
/// The settings of several faces as one, a lane for each.
#pragma once

#include <cstddef>

#include "engine/arithmetic/pack.hpp"
#include "engine/faces/face_terms.hpp"

namespace cook::engine {

/// Whether any lane resists heat is for the caller to say: it knows them all.
inline void set_lane(FaceSetting<Pack> &to, std::size_t lane, const FaceSetting<double> &from) {
  to.h_given.set(lane, from.h_given);
  to.natural_cold.set(lane, from.natural_cold);
  to.natural_hot.set(lane, from.natural_hot);
  to.lewis_factor.set(lane, from.lewis_factor);
  to.radiation.set(lane, from.radiation);
  to.radiant_offset.set(lane, from.radiant_offset);
  to.heat_resistance.set(lane, from.heat_resistance);
  to.vapour_resistance.set(lane, from.vapour_resistance);
  to.pressure.set(lane, from.pressure);
  to.liquid_capacity.set(lane, from.liquid_capacity);
  to.run_off_rate.set(lane, from.run_off_rate);
  to.exudation_path.set(lane, from.exudation_path);
  to.evaporates.set(lane, from.evaporates);
  to.exudes.set(lane, from.exudes);
  to.monolayer.set(lane, from.monolayer);
  to.gab_c.set(lane, from.gab_c);
  to.gab_k.set(lane, from.gab_k);
}

} // namespace cook::engine
