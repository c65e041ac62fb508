/// @file
/// The vapour balance of a cooker's air during a stage, as rates of lumped states.
#pragma once

#include <optional>

#include "cook/cooker/pit_air.hpp"

namespace cook::engine {

/// What the balance needs during a stage.
struct AirBalance {
  PitAir air{};
  std::optional<PanSetting> pan{};
};

/// Conditions that the rates depend on: the air's temperature [°C], vapour in the chamber [kg], and how far
/// the lid is open (0 shut, 1 with the air of the outside in it).
struct ChamberState {
  double temperature = 100.0;
  double vapour = 0.0;
  double open = 0.0;
  double pan_temperature = 20.0;
  double pan_water = 0.0;
};

/// Rates [kg s⁻¹, K s⁻¹] and their derivatives by vapour, pan temperature and pan water.
struct ChamberRates {
  struct Term {
    double value = 0.0, vapour = 0.0, pan_temperature = 0.0, pan_water = 0.0;
  };
  Term in;      ///< vapour with the air, and from the fuel
  Term out;     ///< vapour with the air, and what condenses where the air holds no more
  Term pan;     ///< vapour from the pan
  Term warming; ///< of the pan
};

/// Chamber air that an open lid changes for outside air, per second: within the 15 s in which it also cools.
inline constexpr double lid_exchange_rate = 1.0 / 15.0;

/// Vapour beyond saturation condenses on what is as cold as the air, at once: so much of the excess a second,
/// fast enough that even a boiling pan leaves no more than some 20 Pa of it; and its smooth onset [Pa].
inline constexpr double condensation_rate = 100.0;
inline constexpr double condensation_width = 20.0;

[[nodiscard]] ChamberRates chamber_rates(const AirBalance &balance, const ChamberState &state);

} // namespace cook::engine
