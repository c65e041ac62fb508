/// @file
/// Finding places in a SectionGrid.
#include <cmath>

#include "cook/errors.hpp"
#include "engine/grids/section_grid.hpp"
#include "plan/locate_place.hpp"

namespace cook::engine {

std::size_t SectionGrid::nearest(double at_x, double at_z) const {
  std::size_t best = 0;
  double least = HUGE_VAL;
  for (std::size_t p = 0; p < x.size(); ++p) {
    const double off = std::hypot(x[p] - at_x, z[p] - at_z);
    if (off < least) {
      least = off;
      best = p;
    }
  }
  return best;
}

SectionGrid::Weights SectionGrid::locate(double at_x, double at_z, const std::string &field) const {
  constexpr double rounding = 1e-9;
  check::within(field + ".x", at_x, -rounding, profile.length() + rounding, "m",
                "measured from the flat end, in metres");
  check::within(field + ".z", at_z, -rounding, profile(at_x).height + rounding, "m",
                "measured up from the bottom face, in metres; the meat ends at its thickness there");
  const LocatedPlace place = locate_place(x, z, nz, at_x, at_z);
  return {place.node, place.weight};
}

} // namespace cook::engine
