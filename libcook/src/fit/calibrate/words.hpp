/// @file
/// What a fit found, in words.
#pragma once

#include <string>
#include <vector>

#include "cook/fit/calibrate.hpp"

namespace cook::fit {

/// Correlation from which two numbers count as not told apart [-].
inline constexpr double tied = 0.8;
/// Narrowing below which a log is said to tell little of a number [share].
inline constexpr double told_little = 0.2;

/// What the logs cannot tell, what was widened, whether the search ended.
[[nodiscard]] std::vector<std::string> notes_on(const Fit &fit);

} // namespace cook::fit
