/// @file
/// What the pit may do in the hours to come.
#pragma once

#include <vector>

#include "cook/fit/forecast.hpp"

namespace cook::fit {

/// How far the level of a pit wanders within a cook, known as it may be so far [K].
inline constexpr double outlook_drift = 2.0;

/// From how the pit kept to the plan over the last three hours; the defaults where there are no readings.
[[nodiscard]] PitOutlook look_ahead(const Plan &plan, const CookLog &log,
                                    const std::vector<double> &stage_end, double now);

/// One possible course of a stage's air from `now` on: plan + level + ripple.
/// @param normals standard normal numbers: the level's first, then one a step
[[nodiscard]] Signal possible_air(const Signal &planned, const PitOutlook &outlook, double now,
                                  const std::vector<double> &normals, double hottest);

/// Numbers that possible_air() takes.
inline constexpr std::size_t outlook_normals = 97;

} // namespace cook::fit
