#include "cook/cooker/film_coefficient.hpp"

#include "cook/cooker/humid_air.hpp"
#include "cook/errors.hpp"
#include "cook/units.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>

namespace cook {

namespace {

constexpr double plate_buoyant_laminar = 0.54;
constexpr double plate_buoyant_turbulent = 0.15;
constexpr double plate_stable = 0.27;
constexpr double transition_reynolds = 5.0e5;

// Air properties are checked against tables from 250 to 450 K and behave well up to this.
constexpr double lowest_air = -40.0;
constexpr double highest_air = 600.0;
// Longest face considered; a bigger number is a length in millimetres or centimetres.
constexpr double longest_face = 5.0;

double quarter_power(double value) { return std::sqrt(std::sqrt(value)); }

// The Prandtl number function of Churchill and co-workers, [1 + (c / Pr)^(9/16)].
double prandtl_bracket(double c, double prandtl) { return 1.0 + std::pow(c / prandtl, 9.0 / 16.0); }

double churchill_chu(double constant, double c, double rayleigh, double prandtl) {
  const double root =
      constant + 0.387 * std::pow(rayleigh, 1.0 / 6.0) / std::pow(prandtl_bracket(c, prandtl), 8.0 / 27.0);
  return root * root;
}

void check_face(double length) {
  check::positive("length", length, "m");
  check::within("length", length, 0.0, longest_face, "m", "a length in mm or cm?");
}

} // namespace

double nusselt_plate_buoyant(double rayleigh) noexcept {
  return std::max(plate_buoyant_laminar * quarter_power(rayleigh),
                  plate_buoyant_turbulent * std::cbrt(rayleigh));
}

double nusselt_plate_stable(double rayleigh) noexcept { return plate_stable * quarter_power(rayleigh); }

double nusselt_vertical_plate(double rayleigh, double prandtl) noexcept {
  return churchill_chu(0.825, 0.492, rayleigh, prandtl);
}

double nusselt_vertical_plate_laminar(double rayleigh, double prandtl) noexcept {
  return 0.68 + 0.670 * quarter_power(rayleigh) / std::pow(prandtl_bracket(0.492, prandtl), 4.0 / 9.0);
}

double nusselt_horizontal_cylinder(double rayleigh, double prandtl) noexcept {
  return churchill_chu(0.60, 0.559, rayleigh, prandtl);
}

double nusselt_sphere(double rayleigh, double prandtl) noexcept {
  const double bracket = prandtl_bracket(0.469, prandtl);
  const double turbulent = 1.0 + 7.44e-8 * rayleigh / std::pow(bracket, 16.0 / 9.0);
  return 2.0 +
         0.589 * quarter_power(rayleigh) / std::pow(bracket, 4.0 / 9.0) * std::pow(turbulent, 1.0 / 12.0);
}

double nusselt_forced_plate_laminar(double reynolds, double prandtl) noexcept {
  return 0.664 * std::sqrt(reynolds) * std::cbrt(prandtl);
}

double nusselt_forced_plate(double reynolds, double prandtl) noexcept {
  if (reynolds <= transition_reynolds) {
    return nusselt_forced_plate_laminar(reynolds, prandtl);
  }
  return (0.037 * std::pow(reynolds, 0.8) - 871.0) * std::cbrt(prandtl);
}

double nusselt_cross_flow_cylinder(double reynolds, double prandtl) noexcept {
  const double blend = quarter_power(1.0 + std::pow(0.4 / prandtl, 2.0 / 3.0));
  return 0.3 + 0.62 * std::sqrt(reynolds) * std::cbrt(prandtl) / blend *
                   std::pow(1.0 + std::pow(reynolds / 282000.0, 5.0 / 8.0), 4.0 / 5.0);
}

FilmValidity validity(FilmCorrelation correlation) noexcept {
  // In the order of enum FilmCorrelation.
  static constexpr std::array<FilmValidity, 9> ranges{{
      {"horizontal plate, buoyant side", "Ra", 1.0e4, 1.0e11},
      {"horizontal plate, stable side", "Ra", 1.0e5, 1.0e10},
      {"vertical plate", "Ra", 0.0, 1.0e12},
      {"vertical plate, laminar", "Ra", 0.0, 1.0e9},
      {"horizontal cylinder", "Ra", 0.0, 1.0e12},
      {"sphere", "Ra", 0.0, 1.0e13},
      {"forced flow along a plate, laminar", "Re", 0.0, transition_reynolds},
      {"forced flow along a plate", "Re", 0.0, 1.0e8},
      {"flow across a cylinder", "Re Pr", 0.2, 1.0e7},
  }};
  return ranges[static_cast<std::size_t>(correlation)];
}

std::string range_report(FilmCorrelation correlation, double value) {
  const FilmValidity range = validity(correlation);
  if (range.contains(value)) {
    return {};
  }
  return std::string(range.name) + ": " + std::string(range.number) + " = " + format_number(value) +
         " is outside the range of the correlation, " + format_number(range.low) + " to " +
         format_number(range.high);
}

bool is_buoyant(double surface_temperature, double air_temperature, Facing facing) noexcept {
  return (surface_temperature > air_temperature) == (facing == Facing::up);
}

double air_rayleigh(double film_temperature, double temperature_difference, double length) noexcept {
  const double kinematic_viscosity = air_viscosity(film_temperature) / air_density(film_temperature);
  return standard_gravity * std::abs(temperature_difference) / kelvin(film_temperature) * length * length *
         length / (kinematic_viscosity * air_thermal_diffusivity(film_temperature));
}

double air_reynolds(double film_temperature, double velocity, double length) noexcept {
  return air_density(film_temperature) * velocity * length / air_viscosity(film_temperature);
}

double natural_plate(double surface_temperature, double air_temperature, double length, Facing facing) {
  check::celsius("surface_temperature", surface_temperature, lowest_air, highest_air);
  check::celsius("air_temperature", air_temperature, lowest_air, highest_air);
  check_face(length);
  const double film = 0.5 * (surface_temperature + air_temperature);
  const double rayleigh = air_rayleigh(film, surface_temperature - air_temperature, length);
  const double nusselt = is_buoyant(surface_temperature, air_temperature, facing)
                             ? nusselt_plate_buoyant(rayleigh)
                             : nusselt_plate_stable(rayleigh);
  return nusselt * air_conductivity(film) / length;
}

double natural_plate_coefficient(double film_temperature, double length, bool buoyant) {
  check::celsius("film_temperature", film_temperature, lowest_air, highest_air);
  check_face(length);
  const double per_kelvin = quarter_power(air_rayleigh(film_temperature, 1.0, length));
  return (buoyant ? plate_buoyant_laminar : plate_stable) * per_kelvin * air_conductivity(film_temperature) /
         length;
}

double forced_plate(double velocity, double length, double film_temperature) {
  check::within("velocity", velocity, 0.0, 50.0, "m s-1", "a speed in km/h or ft/min?");
  check_face(length);
  check::celsius("film_temperature", film_temperature, lowest_air, highest_air);
  return nusselt_forced_plate(air_reynolds(film_temperature, velocity, length),
                              air_prandtl(film_temperature)) *
         air_conductivity(film_temperature) / length;
}

} // namespace cook
