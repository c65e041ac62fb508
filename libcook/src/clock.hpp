/// @file
/// Time of day.
#pragma once

#include <cmath>

namespace cook {

inline constexpr double seconds_per_day = 86400.0;

/// How long after `from` [s after some midnight] a time of day [s after midnight] comes [s]: from zero up to
/// a day. A time of day that rounding alone has put into the past is now, not tomorrow.
[[nodiscard]] inline double time_until_clock(double from, double time_of_day) {
  constexpr double rounding = 1e-6; // s: that of times of months is far below
  const double wait = std::fmod(time_of_day - from, seconds_per_day);
  const double ahead = wait < 0.0 ? wait + seconds_per_day : wait;
  return seconds_per_day - ahead < rounding ? 0.0 : ahead;
}

} // namespace cook
