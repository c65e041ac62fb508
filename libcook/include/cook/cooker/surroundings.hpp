/// @file
/// Where the meat is: a pit, an oven, a counter, an insulated box.
///
/// The table of all defaults, their sources and how sure we are of them is `parameters.hpp`.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "cook/cooker/film.hpp"
#include "cook/cooker/pit_air.hpp"
#include "cook/cooker/signal.hpp"
#include "cook/units.hpp"

namespace cook {

/// Hottest air outside that a cooker stands in [°C].
inline constexpr double hottest_outside = 60.0;

/// A lumped insulated box around the meat: air, liner and walls share one temperature. A stage that follows
/// in an equal box goes on in the same one, as warm as it has become.
struct Box {
  double heat_capacity = 6000.0; ///< of liner, towels and inner wall that warm up with it [J K⁻¹]
  double loss = 0.8;             ///< to the room [W K⁻¹]
  double start = 30.0;           ///< temperature when the meat goes in [°C]

  [[nodiscard]] bool operator==(const Box &) const = default;
};

/// The surroundings of a stage. Times of signals count from the start of the cook.
struct Surroundings {
  std::string kind = "pit";
  Signal air{110.0}; ///< air temperature; with a box: the room's [°C]
  std::optional<Signal>
      air_below{};             ///< air under the bottom face where it differs (layered pit, cold plate) [°C]
  double radiant_bottom = 0.0; ///< what the bottom face sees, above air temperature (coals) [K]
  double radiant_top = 0.0;    ///< what the top face sees, above air temperature [K]
  double view = 1.0;           ///< factor on the radiation exchange [-]
  Film bottom{};
  Film top{};
  /// Of water in the air [Pa]. Where air or box are colder than its dew point, the air is saturated: the rest
  /// condenses.
  Signal vapour_pressure{8000.0};
  double pressure = standard_atmosphere; ///< total [Pa]
  double ambient = 20.0;                 ///< outside, for lid openings [°C]
  std::optional<Box> box{};
  /// Vapour balance of the cooker's own air; empty: vapour_pressure is given. With it, vapour_pressure is
  /// what the balance starts from, unless the stage before was in the same cooker; a water pan that equals
  /// the one before in every field is the same pan, as warm and as full as it was left.
  std::optional<PitAir> pit_air{};

  void validate(const std::string &field) const;
};

/// Whether a pit's hottest air [°C] is a whole number as hot pits have it in °F, such as 225: a likely slip.
[[nodiscard]] bool looks_like_fahrenheit(const Surroundings &s);

/// By how much air is given more vapour than it holds, at worst, between two times, ripple included and lid
/// openings left out [Pa]; at least zero. A box, and a cooker with a balance of its own, are given none.
struct Supersaturation {
  double excess = 0.0; ///< [Pa]
  double air = 0.0;    ///< temperature there [°C]
  double given = 0.0;  ///< vapour pressure there [Pa]
};
[[nodiscard]] Supersaturation supersaturation(const Surroundings &s, double from, double to);

/// Surroundings::kind of what holding_oven() makes.
inline constexpr std::string_view holding_oven_kind = "holding oven";

/// Kinds that `pit()` knows, in the order of their air flow.
[[nodiscard]] const std::vector<std::string> &pit_kinds();

/// A generic cooker at an air temperature [°C]: the entries of known_cookers.cpp.
/// What sets the kinds apart (vapour pressure, air speed, coals below) is common practice, no source.
[[nodiscard]] Surroundings pit(const std::string &kind, Signal air);
/// A kitchen oven; `fan` moves the air at 1.5 m/s.
[[nodiscard]] Surroundings oven(Signal air, bool fan = false);
/// Set temperature of a holding oven [°C]: 150 °F, common practice, no source.
inline constexpr double holding_air = 66.0;
/// Its relative humidity [-]; assumed: closed holding cabinets run humid.
inline constexpr double holding_humidity = 0.4;
/// An oven that holds finished meat: gently moving air [°C], with a relative humidity [-], 0 to 1.
[[nodiscard]] Surroundings holding_oven(double air = holding_air, double humidity = holding_humidity);
/// A kitchen counter: still air and walls at one temperature, 50 % relative humidity.
[[nodiscard]] Surroundings counter(double room = 21.0);
/// A towel-lined insulated box standing in a room.
[[nodiscard]] Surroundings insulated_box(double room = 21.0, Box box = {});

} // namespace cook
