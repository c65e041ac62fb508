/// @file
/// Where the meat is: a pit, an oven, a counter, an insulated box.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "cook/signal.hpp"
#include "cook/units.hpp"

namespace cook {

/// How heat passes from the air to a face.
enum class Convection {
  given,   ///< `value` is the film coefficient [W m⁻² K⁻¹]
  natural, ///< horizontal plate in still air; `length` is area / perimeter [m]
  forced   ///< flat plate in a stream; `value` is the air speed [m s⁻¹], `length` along it [m]
};

/// Film coefficient of one face.
struct Film {
  Convection kind = Convection::natural;
  double value = 0.0;   ///< W m⁻² K⁻¹ (given) or m s⁻¹ (forced); unused for natural
  double length = 0.06; ///< characteristic length [m]
};

/// A lumped insulated box around the meat: air, liner and walls share one temperature.
struct Box {
  double heat_capacity = 6000.0; ///< of liner, towels and inner wall that warm up with it [J K⁻¹]
  double loss = 1.0;             ///< to the room [W K⁻¹]
  double start = 30.0;           ///< temperature when the meat goes in [°C]
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
  Signal vapour_pressure{8000.0};        ///< of water in the air [Pa]
  double pressure = standard_atmosphere; ///< total [Pa]
  double ambient = 20.0;                 ///< outside, for lid openings [°C]
  std::optional<Box> box{};

  void validate(const std::string &field) const;
};

/// Kinds that `pit()` knows, in the order of their air flow.
[[nodiscard]] const std::vector<std::string> &pit_kinds();

/// A generic cooker at an air temperature [°C]: "kettle", "drum", "offset", "pellet", "ceramic", "cabinet".
/// What sets the kinds apart (vapour pressure, air speed, coals below) is common practice, no source.
[[nodiscard]] Surroundings pit(const std::string &kind, Signal air);
/// A kitchen oven; `fan` moves the air at 0.4 m/s.
[[nodiscard]] Surroundings oven(Signal air, bool fan = false);
/// A kitchen counter: still air and walls at one temperature, 50 % relative humidity.
[[nodiscard]] Surroundings counter(double room = 21.0);
/// A towel-lined insulated box standing in a room.
[[nodiscard]] Surroundings insulated_box(double room = 21.0, Box box = {});

} // namespace cook
