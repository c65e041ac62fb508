/// @file
/// What a stage finds as the one before it left it: the same cooker's air, its water pan, the same box.
#pragma once

#include "cook/cooker/surroundings.hpp"

namespace cook::engine {

/// The same cooker, whatever it is set to. Only its air carries on: what it holds, and what an open lid let
/// out.
inline bool is_same_cooker(const Surroundings &a, const Surroundings &b) {
  const bool one_chamber = !a.pit_air || !b.pit_air || a.pit_air->volume == b.pit_air->volume;
  return !a.box && !b.box && a.kind == b.kind && one_chamber;
}

/// The same box, equal in every field, wherever it stands: it is as warm as the meat has made it.
inline bool is_same_box(const Surroundings &a, const Surroundings &b) {
  return a.box && b.box && a.kind == b.kind && *a.box == *b.box;
}

/// The same pan in the same cooker, equal in every field: one that is not has been filled anew.
inline bool is_same_pan(const Surroundings &a, const Surroundings &b) {
  return is_same_cooker(a, b) && a.pit_air && b.pit_air && a.pit_air->pan && b.pit_air->pan &&
         *a.pit_air->pan == *b.pit_air->pan;
}

} // namespace cook::engine
