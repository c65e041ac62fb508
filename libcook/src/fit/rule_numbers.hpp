/// @file
/// Written by `python -m forecasting.learn` (in validation) from cooks whose end is known; see
/// validation/HONESTY.md.
#pragma once

#include <array>

namespace cook::fit {

// clang-format off
/// ln(whole time [h]) of the population: constant, brisket, ln(mass [kg]), pit over 115 °C [20 K], target over
/// 90 °C [10 K], foil, paper.
inline constexpr std::array<double, 7> population_time{2.2108, -0.1887, 0.2104, -0.3873, 0.2150, -0.1253, 0.0880};
/// logit(share of the time that has passed) = first + second x logit(share of the way to the target).
inline constexpr std::array<double, 2> population_stage{-0.5354, 0.7764};
/// Weight of ln(time left) by physics, the last hour, the population's time, and its stage; what is added; and
/// by how much the bands are widened: before the stall, in it, after it; for a core that is read now and then,
/// and one that is read often.
inline constexpr std::array<std::array<std::array<double, 6>, 3>, 2> rule_weights{{
    {{{0.8117, 0.0000, 0.0000, 0.1883, 0.0000, 1.0119}, {1.0000, 0.0000, 0.0000, 0.0000, 0.0000, 1.0000}, {0.6710, 0.0000, 0.0999, 0.2291, 0.0000, 0.9972}}},
    {{{0.6463, 0.0412, 0.0445, 0.2680, 0.0000, 1.0026}, {0.4023, 0.0529, 0.2602, 0.2847, 0.0532, 0.9816}, {0.5024, 0.4030, 0.0946, 0.0000, 0.0000, 1.0000}}},
}};
// clang-format on

} // namespace cook::fit
