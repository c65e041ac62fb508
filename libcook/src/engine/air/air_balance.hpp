/// @file
/// The vapour balance of a cooker's air during a stage, as rates of lumped states.
#pragma once

#include <optional>

#include "cook/cooker/pit_air.hpp"
#include "engine/air/drive.hpp"
#include "engine/arithmetic/pack.hpp"

namespace cook::engine {

/// What the balance needs during a stage.
struct AirBalance {
  PitAir air{};
  std::optional<PanSetting> pan{};
};

/// Conditions that the rates depend on: the air's temperature [°C], vapour in the chamber [kg], and how far
/// the lid is open (0 shut, 1 with the air of the outside in it).
template <class Real> struct ChamberStateOf {
  Real temperature{100.0};
  Real vapour{0.0};
  Real open{0.0};
  Real pan_temperature{20.0};
  Real pan_water{0.0};
};
using ChamberState = ChamberStateOf<double>;

/// Rates [kg s⁻¹, K s⁻¹] and their derivatives by vapour, pan temperature and pan water.
template <class Real> struct ChamberRatesOf {
  struct Term {
    Real value{0.0}, vapour{0.0}, pan_temperature{0.0}, pan_water{0.0};
  };
  Term in;      ///< vapour with the air, and from the fuel
  Term out;     ///< vapour with the air, and what condenses where the air holds no more
  Term pan;     ///< vapour from the pan
  Term warming; ///< of the pan
};
using ChamberRates = ChamberRatesOf<double>;

/// Chamber air that an open lid changes for outside air, per second: within the 15 s in which it also cools.
inline constexpr double lid_exchange_rate = 1.0 / 15.0;

/// Vapour beyond saturation condenses on what is as cold as the air, at once: so much of the excess a second,
/// fast enough that even a boiling pan leaves no more than some 20 Pa of it; and its smooth onset [Pa].
inline constexpr double condensation_rate = 100.0;
inline constexpr double condensation_width = 20.0;

[[nodiscard]] ChamberRates chamber_rates(const AirBalance &balance, const ChamberState &state);

/// Lane by lane, each by its own balance: few numbers, beside those of sixty cells. A function that no
/// version for wider vectors takes in (vector_clones.hpp), so a lane gets the digits of a cook alone.
/// @param where lanes that are asked for; of others, and of those without a balance, the rates are zero
[[nodiscard, gnu::noinline]] ChamberRatesOf<Pack>
chamber_rates(const BalanceOf<Pack> &balance, const ChamberStateOf<Pack> &state, const PackMask &where);

/// Gives the air of a stage its balance; null: it has none. The drive's `extent` must be there.
void set_balance(Drive<double> &drive, BalancePtr balance);

} // namespace cook::engine
