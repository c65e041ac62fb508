/// @file
/// Vapour that a chamber takes up per rise of its vapour pressure, for one chamber or for the lanes of a
/// pack.
#pragma once

#include "cook/units.hpp"

namespace cook::engine {

/// V / (R_v T) [kg Pa⁻¹] of a volume [m³] at a temperature [°C]: ideal gas. chamber_vapour_capacity() in
/// pit_air.hpp is this one.
template <class Real> Real vapour_capacity(Real volume, Real celsius) {
  return volume / (gas_constant_water * (celsius + kelvin_offset));
}

} // namespace cook::engine
