/// @file
/// Cookers as chambers: walls, fuel and vents of the generic kinds, and the air flow that follows from them.
///
/// A cooker that burns something draws the air of its fire: fuel for the heat that walls, food and flue gas
/// take, times the air that the fuel needs, times the kind's air ratio. An electric one breathes through its
/// leaks by the draught of its own warm air. No published air ratio of a smoker was found; the kinds' numbers
/// are common practice and their ranges wide, see the table of parameters.
#pragma once

#include <string>
#include <vector>

#include "cook/cooker/fuel.hpp"
#include "cook/cooker/pit_air.hpp"

namespace cook {

/// Film coefficient inside a cooker's wall [W m-2 K-1]: natural convection, and part of the radiation.
/// Judgement.
inline constexpr double inner_wall_film = 8.0;
/// Emissivity of a cooker's outside [-]: paint, enamel or glazed ceramic (0.85 to 0.95).
inline constexpr double outer_wall_emissivity = 0.9;
/// Discharge coefficient of an opening [-]: ASHRAE Handbook - Fundamentals, ch. 16, flow one way (from
/// memory).
inline constexpr double opening_discharge = 0.65;

/// A cooker's body.
struct Chamber {
  std::string fuel = "charcoal"; ///< a name that `fuel()` knows
  double volume = 0.15;          ///< [m3]
  double wall_area = 1.5;        ///< all that loses heat to the outside [m2]
  double wall_resistance = 0.0;  ///< of the wall itself, without films [m2 K W-1]; 0: a single metal sheet
  double air_ratio = 6.0;        ///< air drawn over the least that burns the fuel [-]; unused when electric
  double vent_area = 1e-3;       ///< of all openings low down, and as much again on top [m2]; electric only
  double vent_height = 0.5;      ///< between the two [m]; electric only
  double food_heat = 150.0;      ///< what the food takes up, by warming and evaporating [W]

  /// Throws InvalidInput naming `field`.member.
  void validate(const std::string &field = "chamber") const;
};

/// Kinds that `chamber()` knows: pit_kinds(), and "oven".
[[nodiscard]] const std::vector<std::string> &chamber_kinds();
/// The kind that words of the trade name, such as "cabinet" of "electric smoker"; empty where they name none.
[[nodiscard]] std::string cooker_called(const std::string &words);
/// The chamber of a generic kind. @throws InvalidInput for another name.
[[nodiscard]] Chamber chamber(const std::string &kind);

/// Convective film coefficient outside in wind [W m-2 K-1]: 4 + 4 v, EN ISO 6946 (2007), annex A.
/// @param wind [m s-1] beside the wall, 0 to 20  @throws InvalidInput outside
[[nodiscard]] double wind_film_coefficient(double wind);
/// Radiative film coefficient [W m-2 K-1] between surfaces at a mean temperature [°C]: 4 eps sigma T^3, EN
/// ISO 6946, annex A.
[[nodiscard]] double radiative_film_coefficient(double emissivity, double mean_temperature) noexcept;
/// Heat through a cooker's wall per area and K [W m-2 K-1]: inner film, wall and outer film in series. The
/// outer skin radiates at the mean of pit and ambient temperature, which a single sheet nearly has.
/// @param wall_resistance [m2 K W-1], 0 or more  @param air_temperature, ambient_temperature [°C], -60 to 400
/// @param wind [m s-1], 0 to 20  @throws InvalidInput outside
[[nodiscard]] double wall_transmittance(double wall_resistance, double air_temperature,
                                        double ambient_temperature, double wind = 0.0);
/// How many times more heat a wall loses in wind than in still air [-]; arguments as above.
[[nodiscard]] double wind_loss_factor(double wall_resistance, double air_temperature,
                                      double ambient_temperature, double wind);

/// Dry air that the draught of warm air drives through two openings of one size [kg s-1]:
///
///     m = C A sqrt(2 g H (rho_out - rho_in) rho_out rho_in / (rho_out + rho_in))
///
/// Bernoulli with a discharge coefficient at both openings in series; with equal densities in the last factor
/// it is the stack flow of ASHRAE Handbook - Fundamentals, ch. 16, about the level half-way. Zero when the
/// air inside is not the warmer.
/// @param area of each opening [m2]  @param height between them [m]
[[nodiscard]] double stack_flow(double area, double height, double air_temperature,
                                double ambient_temperature, double pressure = standard_atmosphere) noexcept;

/// Heat that walls lose to ambient [W], at an air temperature [°C].
[[nodiscard]] double wall_loss(const Chamber &chamber, double air_temperature, double ambient_temperature,
                               double wind = 0.0);
/// The fire that holds a chamber at an air temperature: its fuel and its air.
///
/// @param air_temperature [°C], from 10 K above ambient to 300
/// @param ambient_temperature [°C], -40 to 45  @param ambient_humidity relative humidity outside [-], 0 to 1
/// @param wind [m s-1], 0 to 20; it raises the loss, thereby fuel and air  @throws InvalidInput outside these
[[nodiscard]] Combustion firing(const Chamber &chamber, double air_temperature,
                                double ambient_temperature = 20.0, double ambient_humidity = 0.5,
                                double wind = 0.0, double pressure = standard_atmosphere);
/// The vapour balance of a chamber; arguments as firing().
[[nodiscard]] PitAir pit_air(const Chamber &chamber, double air_temperature,
                             double ambient_temperature = 20.0, double ambient_humidity = 0.5,
                             double wind = 0.0, double pressure = standard_atmosphere);
/// The vapour balance of a generic kind of cooker.
[[nodiscard]] PitAir pit_air(const std::string &kind, double air_temperature,
                             double ambient_temperature = 20.0, double ambient_humidity = 0.5,
                             double wind = 0.0, double pressure = standard_atmosphere);

} // namespace cook
