#include "cook/cooker/pit_air.hpp"

#include <algorithm>

#include "cook/cooker/humid_air.hpp"
#include "cook/errors.hpp"

namespace cook {

void PitAir::validate(const std::string &field) const {
  check::within(field + ".air_flow", air_flow, 1e-6, 0.5, "kg/s",
                "a flow in kg/h? Divide by 3600; an airtight chamber has no balance");
  check::within(field + ".pressure", pressure, 5e4, 1.1e5, "Pa", "pressures are in Pa: 1 atm is 101325");
  check::within(field + ".inlet_vapour_pressure", inlet_vapour_pressure, 0.0, 0.5 * pressure, "Pa",
                "a relative humidity is not a pressure");
  check::within(field + ".fuel_water", fuel_water, 0.0, 0.1, "kg/s", "a flow in kg/h? Divide by 3600");
  check::within(field + ".volume", volume, 1e-3, 100.0, "m³", "a volume in litres? 60 l is 0.06 m³");
  check::within(field + ".meat_count", meat_count, 0.0, 1000.0, "");
  if (pan) {
    pan->validate(field + ".pan");
  }
}

double chamber_dry_air(double volume, double temperature, double vapour_pressure, double pressure) noexcept {
  return volume * (pressure - vapour_pressure) / (gas_constant_dry_air * kelvin(temperature));
}

double chamber_vapour_capacity(double volume, double temperature) noexcept {
  return volume / (gas_constant_water * kelvin(temperature));
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
