/// @file
/// The fields of what heats a cooker: fuels and chambers.
#pragma once

#include "cook/cooker/chamber.hpp"
#include "cook/cooker/fuel.hpp"
#include "cook/fields/field.hpp"

namespace cook {

/// Mass fractions of a fuel.
[[nodiscard]] constexpr Range fuel_share(double high) {
  return range::within(0.0, high, "a mass fraction; a value in per cent?");
}

template <>
inline constexpr auto fields_of<Fuel> = std::tuple{
    field("carbon", &Fuel::carbon, kind::share, fuel_share(1.0), "carbon in the dry fuel"),
    field("hydrogen", &Fuel::hydrogen, kind::share, fuel_share(1.0), "hydrogen in the dry fuel"),
    field("oxygen", &Fuel::oxygen, kind::share, fuel_share(1.0), "oxygen in the dry fuel"),
    field("ash", &Fuel::ash, kind::share, fuel_share(1.0), "ash in the dry fuel"),
    field("moisture", &Fuel::moisture, kind::share, fuel_share(0.6), "water in the fuel as fired"),
    field("dry_heating", &Fuel::dry_heating, kind::specific_energy,
          range::within(1e6, 60e6, "a value in MJ/kg or kJ/kg?").at_times(),
          "lower heating value of dry fuel"),
};

template <>
inline constexpr auto fields_of<Chamber> = std::tuple{
    field("volume", &Chamber::volume, kind::volume,
          range::within(1e-3, 100.0, "a volume in litres? 60 l is 0.06 m³"), "of the chamber"),
    field("wall_area", &Chamber::wall_area, kind::area, range::within(0.01, 200.0),
          "all that loses heat to the outside"),
    field("wall_resistance", &Chamber::wall_resistance, kind::heat_resistance, range::within(0.0, 10.0),
          "of the wall itself, without films; 0: a single metal sheet"),
    field("air_ratio", &Chamber::air_ratio, kind::number,
          range::within(1.0, 100.0, "air drawn over the least that burns the fuel: 20 % excess air is 1.2"),
          "air drawn over the least that burns the fuel; unused when electric"),
    field("vent_area", &Chamber::vent_area, kind::area,
          range::within(1e-6, 0.5, "an area in cm²? 10 cm² is 0.001 m²"),
          "of all openings low down, and as much again on top; electric only"),
    field("vent_height", &Chamber::vent_height, kind::length, range::within(0.01, 5.0, "a height in cm?"),
          "between the two; electric only"),
    field("food_heat", &Chamber::food_heat, kind::power, range::within(0.0, 1e4),
          "what the food takes up, by warming and evaporating",
          {30.0, 1000.0, Provenance::derived,
           "one brisket: evaporating 0.2 kg/h takes 130 W, warming it the rest"}),
};

} // namespace cook
