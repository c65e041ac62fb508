#include "cook/cooker/pit_air.hpp"

#include <algorithm>

#include "cook/cooker/cooker_fields.hpp"
#include "cook/cooker/humid_air.hpp"
#include "cook/errors.hpp"
#include "cooker/vapour_capacity.hpp"
#include "fields/check.hpp"

namespace cook {

void PitAir::validate(const std::string &field) const {
  check::members(field + ".", *this);
  check::within(field + ".inlet_vapour_pressure", inlet_vapour_pressure, 0.0, 0.5 * pressure, "Pa",
                "a relative humidity is not a pressure");
  if (pan) {
    pan->validate(field + ".pan");
  }
}

double chamber_dry_air(double volume, double temperature, double vapour_pressure, double pressure) noexcept {
  return volume * (pressure - vapour_pressure) / (gas_constant_dry_air * kelvin(temperature));
}

double chamber_vapour_capacity(double volume, double temperature) noexcept {
  return engine::vapour_capacity(volume, temperature);
}

double vapour_inflow(const PitAir &air) noexcept {
  return air.air_flow * humidity_ratio(air.inlet_vapour_pressure, air.pressure) + air.fuel_water;
}

VapourTerm vapour_outflow(const PitAir &air, double vapour_pressure) noexcept {
  const double turn = std::min(vapour_pressure, outflow_tangent_share * air.pressure);
  const double rest = air.pressure - turn;
  const double slope = air.air_flow * molar_mass_ratio * air.pressure / (rest * rest);
  return {air.air_flow * humidity_ratio(turn, air.pressure) + slope * (vapour_pressure - turn), slope};
}

double steady_vapour_pressure(const PitAir &air, double evaporation) noexcept {
  const double leaving = std::max(vapour_inflow(air) + evaporation, 0.0);
  const double turn = outflow_tangent_share * air.pressure;
  const VapourTerm corner = vapour_outflow(air, turn);
  if (leaving > corner.value) {
    return turn + (leaving - corner.value) / corner.slope;
  }
  return vapour_pressure_from_humidity_ratio(leaving / air.air_flow, air.pressure);
}

} // namespace cook
