#include "cook/cooker/chamber.hpp"

#include <algorithm>
#include <cmath>

#include "cook/cooker/fire_fields.hpp"
#include "cook/cooker/humid_air.hpp"
#include "cook/cooker/surroundings.hpp"
#include "cook/errors.hpp"
#include "cooker/known_cookers.hpp"
#include "engine/faces/radiation.hpp"
#include "fields/check.hpp"

namespace cook {

namespace {

constexpr double windiest = 20.0;     // m/s, a gale; a bigger number is km/h
constexpr double hottest_air = 300.0; // °C

} // namespace

void Chamber::validate(const std::string &field) const {
  check::members(field + ".", *this);
  if (std::find(fuel_names().begin(), fuel_names().end(), fuel) == fuel_names().end()) {
    (void)cook::fuel(fuel); // names those that are known
  }
}

const std::vector<std::string> &chamber_kinds() {
  static const std::vector<std::string> names = [] {
    std::vector<std::string> list;
    for (const KnownCooker &known : known_cookers()) {
      list.emplace_back(known.name);
    }
    return list;
  }();
  return names;
}

Chamber chamber(const std::string &kind) {
  const KnownCooker &known = known_cooker(kind, true);
  Chamber c;
  c.fuel = known.fuel;
  c.volume = known.volume;
  c.wall_area = known.wall_area;
  c.wall_resistance = known.wall_resistance;
  c.air_ratio = known.air_ratio;
  c.vent_area = known.vent_area;
  c.vent_height = known.vent_height;
  return c;
}

double wind_film_coefficient(double wind) {
  check::within("wind", wind, 0.0, windiest, "m/s", "a speed in km/h or mph?");
  return 4.0 + 4.0 * wind;
}

double radiative_film_coefficient(double emissivity, double mean_temperature) noexcept {
  return emissivity * stefan_boltzmann * engine::fourth_power(kelvin(mean_temperature)).slope;
}

double wall_transmittance(double wall_resistance, double air_temperature, double ambient_temperature,
                          double wind) {
  check::not_negative("wall_resistance", wall_resistance, kind::heat_resistance.unit);
  check::celsius("air_temperature", air_temperature, -60.0, 400.0);
  check::celsius("ambient_temperature", ambient_temperature, -60.0, 400.0);
  const double outer =
      wind_film_coefficient(wind) +
      radiative_film_coefficient(outer_wall_emissivity, 0.5 * (air_temperature + ambient_temperature));
  return 1.0 / (1.0 / inner_wall_film + wall_resistance + 1.0 / outer);
}

double wind_loss_factor(double wall_resistance, double air_temperature, double ambient_temperature,
                        double wind) {
  return wall_transmittance(wall_resistance, air_temperature, ambient_temperature, wind) /
         wall_transmittance(wall_resistance, air_temperature, ambient_temperature);
}

double stack_flow(double area, double height, double air_temperature, double ambient_temperature,
                  double pressure) noexcept {
  const double outside = air_density(ambient_temperature, pressure);
  const double inside = air_density(air_temperature, pressure);
  const double lift = std::max(outside - inside, 0.0);
  return opening_discharge * area *
         std::sqrt(2.0 * standard_gravity * height * lift * outside * inside / (outside + inside));
}

double wall_loss(const Chamber &chamber, double air_temperature, double ambient_temperature, double wind) {
  return chamber.wall_area *
         wall_transmittance(chamber.wall_resistance, air_temperature, ambient_temperature, wind) *
         (air_temperature - ambient_temperature);
}

Combustion firing(const Chamber &chamber, double air_temperature, double ambient_temperature,
                  double ambient_humidity, double wind, double pressure) {
  chamber.validate("chamber");
  check::celsius("ambient_temperature", ambient_temperature, -40.0, 45.0);
  constexpr double least_difference = 10.0; // K; a cooker that is not warm does not breathe
  check::celsius("air_temperature", air_temperature, ambient_temperature + least_difference, hottest_air);
  check::within("ambient_humidity", ambient_humidity, 0.0, 1.0, "",
                "a relative humidity in per cent? 50 % is 0.5");
  check::within("pressure", pressure, 5e4, 1.1e5, "Pa", "pressures are in Pa: 1 atm is 101325");
  const double vapour = vapour_pressure_from_relative_humidity(ambient_temperature, ambient_humidity);
  const double demand = wall_loss(chamber, air_temperature, ambient_temperature, wind) + chamber.food_heat;
  const Fuel burnt = fuel(chamber.fuel);
  Combustion fire =
      burn(burnt, demand, chamber.air_ratio, air_temperature, ambient_temperature, vapour, pressure);
  if (!burnt.burns()) {
    fire.air_flow = fire.dry_gas =
        stack_flow(chamber.vent_area, chamber.vent_height, air_temperature, ambient_temperature, pressure);
  }
  return fire;
}

PitAir pit_air(const Chamber &chamber, double air_temperature, double ambient_temperature,
               double ambient_humidity, double wind, double pressure) {
  const Combustion fire =
      firing(chamber, air_temperature, ambient_temperature, ambient_humidity, wind, pressure);
  PitAir air;
  air.air_flow = fire.air_flow;
  air.inlet_vapour_pressure = vapour_pressure_from_relative_humidity(ambient_temperature, ambient_humidity);
  air.fuel_water = fire.water;
  air.volume = chamber.volume;
  air.pressure = pressure;
  air.validate();
  return air;
}

PitAir pit_air(const std::string &kind, double air_temperature, double ambient_temperature,
               double ambient_humidity, double wind, double pressure) {
  return pit_air(chamber(kind), air_temperature, ambient_temperature, ambient_humidity, wind, pressure);
}

} // namespace cook
