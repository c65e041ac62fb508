/// @file
/// The kinds of quantity that a field can be: each has one unit, spelled in one way.
#pragma once

#include <array>
#include <string_view>

namespace cook {

/// What sort of quantity a number is.
struct Kind {
  std::string_view name; ///< a key of libcook.units.KINDS where people may write a unit with it
  std::string_view unit; ///< SI and °C; "-" for a pure number, empty where there is none to tell
  bool written = true;   ///< whether it may be written as text with a unit; a plain number otherwise

  [[nodiscard]] constexpr bool operator==(const Kind &) const = default;
};

namespace kind {

inline constexpr Kind none{"", "", false};          ///< no quantity: a name, a list, a struct
inline constexpr Kind number{"number", "-", false}; ///< a plain number
inline constexpr Kind share{"dimensionless", "-"};  ///< may be written in per cent
inline constexpr Kind mass_fraction{"dimensionless", "kg/kg"};
inline constexpr Kind water_content{"water_content", "kg/kg"}; ///< per fat-free dry solids
inline constexpr Kind temperature{"temperature", "°C"};
inline constexpr Kind difference{"temperature_difference", "K"};
inline constexpr Kind length{"length", "m"};
inline constexpr Kind area{"area", "m²"};
/// Of a slab; of a cylinder its length instead. Read by what the shape is.
inline constexpr Kind face_area{"face_area", "m²", false};
inline constexpr Kind volume{"volume", "m³"};
inline constexpr Kind mass{"mass", "kg"};
inline constexpr Kind duration{"duration", "s"};
inline constexpr Kind clock{"clock", "s after midnight"};
inline constexpr Kind rate{"rate", "1/s"};
inline constexpr Kind velocity{"velocity", "m/s"};
inline constexpr Kind diffusivity{"diffusivity", "m²/s"};
inline constexpr Kind mass_flow{"mass_flow", "kg/s"};
inline constexpr Kind mass_flux{"mass_flux", "kg/(m²·s)"};
inline constexpr Kind areal_mass{"areal_mass", "kg/m²"};
inline constexpr Kind pressure{"pressure", "Pa"};
inline constexpr Kind power{"power", "W"};
inline constexpr Kind energy{"energy", "J"};
inline constexpr Kind specific_energy{"specific_energy", "J/kg"};
inline constexpr Kind molar_energy{"molar_energy", "J/mol"};
inline constexpr Kind heat_capacity{"heat_capacity", "J/K"};
inline constexpr Kind volumetric_heat_capacity{"volumetric_heat_capacity", "J/(m³·K)"};
inline constexpr Kind conductance{"conductance", "W/K"};
inline constexpr Kind conductivity{"conductivity", "W/(m·K)"};
inline constexpr Kind film_coefficient{"film_coefficient", "W/(m²·K)"};
/// Or an air speed: read by what the film is, see Convection.
inline constexpr Kind film_value{"film_value", "W/(m²·K)", false};
inline constexpr Kind heat_resistance{"heat_resistance", "m²·K/W"};
inline constexpr Kind vapour_resistance{"vapour_resistance", "s/m"};
inline constexpr Kind vapour_resistivity{"vapour_resistivity", "s/m²"};

/// Those that a name of its own belongs to.
inline constexpr std::array all{share,
                                water_content,
                                temperature,
                                difference,
                                length,
                                area,
                                face_area,
                                volume,
                                mass,
                                duration,
                                clock,
                                rate,
                                velocity,
                                diffusivity,
                                mass_flow,
                                mass_flux,
                                areal_mass,
                                pressure,
                                power,
                                energy,
                                specific_energy,
                                molar_energy,
                                heat_capacity,
                                volumetric_heat_capacity,
                                conductance,
                                conductivity,
                                film_coefficient,
                                film_value,
                                heat_resistance,
                                vapour_resistance,
                                vapour_resistivity};

} // namespace kind

} // namespace cook
