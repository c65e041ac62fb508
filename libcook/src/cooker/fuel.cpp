#include "cook/cooker/fuel.hpp"

#include <algorithm>
#include <array>

#include "cook/cooker/fire_fields.hpp"
#include "cook/cooker/humid_air.hpp"
#include "cook/errors.hpp"
#include "fields/check.hpp"

namespace cook {

namespace {

struct KnownFuel {
  const char *name;
  double carbon, hydrogen, oxygen, ash, moisture;
  double dry_heating; // J/kg
};

// Provenance of every number: fields/rows/fuel.cpp.
constexpr std::array known_fuels{
    KnownFuel{"charcoal", 0.83, 0.03, 0.10, 0.04, 0.06, 30.7e6},
    KnownFuel{"wood", 0.502, 0.060, 0.433, 0.004, 0.18, 18.8e6},
    KnownFuel{"pellets", 0.502, 0.060, 0.433, 0.004, 0.07, 18.8e6},
    KnownFuel{"propane", 36.033 / 44.097, 8.064 / 44.097, 0.0, 0.0, 0.0, 46.33e6},
    KnownFuel{"electric", 0.0, 0.0, 0.0, 0.0, 0.0, 0.0},
};

} // namespace

void Fuel::validate(const std::string &field) const {
  check::members(field + ".", *this);
  constexpr double rounding = 1e-9;
  check::within(field, carbon + hydrogen + oxygen + ash, 0.0, 1.0 + rounding, "",
                "carbon, hydrogen, oxygen and ash are shares of the dry fuel");
  if (!burns()) {
    return;
  }
  check::member(field + ".", *this, &Fuel::dry_heating);
  if (stoichiometric_air(*this) <= 0.0) {
    throw InvalidInput(field + ".oxygen", format_number(oxygen) +
                                              "; a fuel with as much oxygen as its carbon and hydrogen take "
                                              "up is burnt already");
  }
  if (heating_value(*this) <= 0.0) {
    throw InvalidInput(field + ".moisture",
                       format_number(moisture) + "; drying this fuel takes more heat than burning it gives");
  }
}

const std::vector<std::string> &fuel_names() {
  static const std::vector<std::string> names = [] {
    std::vector<std::string> list;
    list.reserve(known_fuels.size());
    for (const KnownFuel &row : known_fuels) {
      list.emplace_back(row.name);
    }
    return list;
  }();
  return names;
}

Fuel fuel(const std::string &name) {
  const auto *row = std::find_if(known_fuels.begin(), known_fuels.end(),
                                 [&](const KnownFuel &r) { return name == r.name; });
  if (row == known_fuels.end()) {
    std::string names;
    for (const std::string &each : fuel_names()) {
      names += (names.empty() ? "" : ", ") + each;
    }
    throw InvalidInput("fuel", in_quotes(name) + " is not a known fuel; known: " + names);
  }
  return {name, row->carbon, row->hydrogen, row->oxygen, row->ash, row->moisture, row->dry_heating};
}

double stoichiometric_air(const Fuel &fuel) noexcept {
  const double oxygen = fuel.carbon * oxygen_per_carbon + fuel.hydrogen * oxygen_per_hydrogen - fuel.oxygen;
  return (1.0 - fuel.moisture) * oxygen / oxygen_in_air;
}

double water_yield(const Fuel &fuel) noexcept {
  return fuel.moisture + (1.0 - fuel.moisture) * fuel.hydrogen * water_per_hydrogen;
}

double heating_value(const Fuel &fuel) noexcept {
  return (1.0 - fuel.moisture) * fuel.dry_heating - fuel.moisture * heating_value_latent_heat;
}

double water_per_heat(const Fuel &fuel) noexcept {
  return fuel.burns() ? water_yield(fuel) / heating_value(fuel) : 0.0;
}

double dry_flue_gas(const Fuel &fuel, double air_ratio) noexcept {
  if (!fuel.burns()) {
    return 0.0;
  }
  const double ash = (1.0 - fuel.moisture) * fuel.ash;
  return 1.0 - ash + air_ratio * stoichiometric_air(fuel) - water_yield(fuel);
}

Combustion burn(const Fuel &fuel, double heat_demand, double air_ratio, double gas_temperature,
                double ambient_temperature, double ambient_vapour_pressure, double pressure) {
  fuel.validate("fuel");
  check::within("heat_demand", heat_demand, 0.0, 1e5, "W", "a value in kJ/h or BTU/h?");
  check::celsius("ambient_temperature", ambient_temperature, -40.0, 60.0);
  check::celsius("gas_temperature", gas_temperature, ambient_temperature, 400.0);
  check::within("pressure", pressure, 5e4, 1.1e5, "Pa", "pressures are in Pa: 1 atm is 101325");
  check::within("ambient_vapour_pressure", ambient_vapour_pressure, 0.0, 1e4, "Pa",
                "a relative humidity is not a pressure");
  const double ambient_humidity = humidity_ratio(ambient_vapour_pressure, pressure);
  Combustion fire;
  fire.humidity_ratio = ambient_humidity;
  if (!fuel.burns()) {
    return fire;
  }
  check::within("air_ratio", air_ratio, 1.0, 100.0, "",
                "air drawn over the least that burns the fuel: 20 % excess air is 1.2");
  // Per kg of fuel.
  const double air = air_ratio * stoichiometric_air(fuel);
  const double dry_gas = dry_flue_gas(fuel, air_ratio);
  const double humidity = (air * ambient_humidity + water_yield(fuel)) / dry_gas;
  const double carried_off = dry_gas * (humid_air_enthalpy(gas_temperature, humidity) -
                                        humid_air_enthalpy(ambient_temperature, humidity));
  const double kept = heating_value(fuel) - carried_off;
  constexpr double least_share = 0.02; // below it the fuel rate has no sense of scale left
  if (kept < least_share * heating_value(fuel)) {
    throw InvalidInput("air_ratio", format_number(air_ratio) + "; so much air carries off all the heat of " +
                                        fuel.name + " at " + format_number(gas_temperature) + " °C");
  }
  fire.fuel_rate = heat_demand / kept;
  fire.air_flow = fire.fuel_rate * air;
  fire.water = fire.fuel_rate * water_yield(fuel);
  fire.dry_gas = fire.fuel_rate * dry_gas;
  fire.humidity_ratio = humidity;
  return fire;
}

} // namespace cook
