/// @file
/// Cross-sections that the tests share.
#pragma once

#include "cook/section.hpp"

namespace cook::testing {

/// Invented, and harsher than any cut: 30 to 90 mm with a bump, slopes up to 0.4.
inline Section bumpy_section() {
  Section s;
  s.length = 0.4;
  s.width = 0.25;
  s.at = {0.0, 0.08, 0.16, 0.24, 0.32, 0.4};
  s.thickness = {0.03, 0.045, 0.07, 0.062, 0.078, 0.09};
  return s;
}

inline Section straight_section(double from, double to) {
  Section s;
  s.length = 0.4;
  s.width = 0.25;
  s.at = {0.0, 0.4};
  s.thickness = {from, to};
  return s;
}

} // namespace cook::testing
