/// @file
/// A pan of water in a cooker: how fast it warms and how fast it evaporates.
///
/// The same film physics as on a wet face of the meat: natural, forced or given convection, the Chilton &
/// Colburn analogy, Stefan flow, and venting where the water boils (evaporation.hpp, film_coefficient.hpp).
/// The water is one lump at one temperature. Air heats it at its surface and at the pan's bottom, and so does
/// radiation; only the surface gives vapour.
#pragma once

#include <string>

#include "cook/cooker/film.hpp"
#include "cook/units.hpp"

namespace cook {

/// Water over pan area at which half of the pan is still wet [kg m-2]: the last of the water leaves
/// ever more slowly, so that it cannot go below zero.
inline constexpr double pan_last_film = 0.2;
/// Specific heat of liquid water [J kg-1 K-1] at the temperatures of a pan, 20 to 100 °C, within 0.5 %
/// (IAPWS; from memory).
inline constexpr double water_specific_heat = 4190.0;

/// A water pan.
struct WaterPan {
  double area = 0.05;           ///< water surface, and pan bottom [m2]
  double water = 2.0;           ///< at the start [kg]
  double temperature = 20.0;    ///< of the water at the start [°C]
  Film film{.length = 0.06};    ///< convection at the surface, and under the bottom
  double emissivity = 0.95;     ///< of water and pan [-]
  double view = 1.0;            ///< factor on the radiation exchange [-]
  double radiant_bottom = 0.0;  ///< what the bottom sees, above air temperature (coals) [K]
  double heat_capacity = 500.0; ///< of the empty pan [J K-1]

  /// Throws InvalidInput naming `field`.member.
  void validate(const std::string &field = "water_pan") const;
  [[nodiscard]] bool operator==(const WaterPan &) const = default;
};

/// What a pan exchanges, prepared once for an air temperature.
struct PanSetting {
  double area = 0.0;           ///< [m2]
  double given = 0.0;          ///< film coefficient, given or forced [W m-2 K-1]
  double surface_cold = 0.0;   ///< b in h = b |dT|^(1/4) at the surface while water is colder than the air
  double surface_hot = 0.0;    ///< b while it is warmer [W m-2 K-5/4]
  double bottom_cold = 0.0;    ///< b under the bottom while it is colder than the air
  double bottom_hot = 0.0;     ///< b while it is warmer
  double lewis = 0.0;          ///< lewis_factor [m3 K J-1]
  double radiation = 0.0;      ///< emissivity x view x sigma [W m-2 K-4]
  double radiant_bottom = 0.0; ///< [K]
  double heat_capacity = 0.0;  ///< of the empty pan [J K-1]
  double pressure = standard_atmosphere; ///< [Pa]
};

/// Prepares a pan; film properties are taken at `film_temperature` [°C] and held, as for the meat's faces.
/// @throws InvalidInput as WaterPan::validate() does
[[nodiscard]] PanSetting pan_setting(const WaterPan &pan, double film_temperature,
                                     double pressure = standard_atmosphere);

/// A quantity and its derivatives by air temperature, pan temperature, vapour pressure of the air, and water.
struct PanTerm {
  double value = 0.0;
  double air = 0.0;    ///< per K
  double pan = 0.0;    ///< per K
  double vapour = 0.0; ///< per Pa
  double water = 0.0;  ///< per kg
};

/// What a pan does at a moment.
struct PanRates {
  PanTerm
      evaporation; ///< vapour out of the pan [kg s-1]; negative when it condenses. The water falls as fast
  PanTerm heat;    ///< convection and radiation into the pan [W]
  PanTerm warming; ///< rate of the pan's temperature [K s-1]
};

/// Rates of a pan:
///
///     evaporation = share A { h_m p / (R_v T_film) [potential(p_s) - potential(p_v)] + venting }
///     heat        = A (h_surface + h_bottom) (T_air - T) + A eps F sigma (both sides' T_rad^4 - T^4)
///     dT/dt       = (heat - L(T) evaporation) / (c_w water + heat_capacity)
///
/// with share = water / (water + pan_last_film x area). Water overdrawn below zero within a solver's
/// tolerance comes back: there the share goes on straight, and the heat capacity is the pan's.
/// @param air_temperature, pan_temperature [°C], -40 to 300  @param vapour_pressure [Pa]  @param water [kg]
[[nodiscard]] PanRates pan_rates(const PanSetting &pan, double air_temperature, double pan_temperature,
                                 double vapour_pressure, double water) noexcept;

} // namespace cook
