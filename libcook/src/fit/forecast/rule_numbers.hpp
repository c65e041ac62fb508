/// @file
/// Written by `python -m forecasting.learn` (in validation) from cooks whose end is known; see
/// validation/HONESTY.md.
#pragma once

#include <array>

namespace cook::fit {

// clang-format off
/// ln(whole time [h]) of the population: constant, brisket, ln(mass [kg]), pit over 115 °C [20 K],
/// target over 90 °C [10 K], foil, paper.
inline constexpr std::array<double, 7> population_time{2.2108, -0.1887, 0.2104, -0.3873, 0.2150, -0.1253, 0.0880};
/// logit(share of the time passed) = first + second x logit(share of the way to the target).
inline constexpr std::array<double, 2> population_stage{-0.5354, 0.7764};
/// Weight of ln(time left) by physics, the last hour, the population's time, and its stage; what is added;
/// and by how much the bands are widened: before the stall, in it, after it; for a core that is read now
/// and then, and one that is read often.
inline constexpr std::array<std::array<std::array<double, 6>, 3>, 2> rule_weights{{
    {{{1.0000, 0.0000, 0.0000, 0.0000, 0.0000, 1.0000}, {1.0000, 0.0000, 0.0000, 0.0000, 0.0000, 1.0000}, {1.0000, 0.0000, 0.0000, 0.0000, 0.0000, 1.0000}}},
    {{{0.6381, 0.0656, 0.0742, 0.2222, 0.0483, 1.0000}, {0.4692, 0.0839, 0.3136, 0.1333, 0.0000, 1.0000}, {0.4535, 0.3621, 0.1844, 0.0000, 0.0000, 1.0000}}},
}};
// clang-format on

} // namespace cook::fit
