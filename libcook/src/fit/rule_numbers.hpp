/// @file
/// Written by `python validation/rules.py` from measured cooks and other worlds; see validation/HONESTY.md.
#pragma once

#include <array>

namespace cook::fit {

// clang-format off
/// ln(whole time [h]) of the population: constant, brisket, ln(mass [kg]), pit over 115 °C [20 K], target over
/// 90 °C [10 K], foil, paper.
inline constexpr std::array<double, 7> population_time{2.2107, -0.1889, 0.2105, -0.3879, 0.2149, -0.1248, 0.0880};
/// logit(share of the time that has passed) = first + second x logit(share of the way to the target).
inline constexpr std::array<double, 2> population_stage{0.0, 1.0};
/// Weight of ln(time left) by physics, the last hour, the population's time, and its stage; and what is added;
/// before the stall, in it, after it.
inline constexpr std::array<std::array<double, 5>, 3> rule_weights{{
    {1.0, 0.0, 0.0, 0.0, 0.0},
    {1.0, 0.0, 0.0, 0.0, 0.0},
    {1.0, 0.0, 0.0, 0.0, 0.0},
}};
// clang-format on

} // namespace cook::fit
