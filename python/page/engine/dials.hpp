/// @file
/// What can be chosen on the page, and between which ends: one list for its form, its links and its checks.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "json/text.hpp"

namespace cook::page {

using json::Json;

/// A number to choose: SI, °C for temperatures.
struct Dial {
  std::string_view key;
  std::string_view label;
  std::string_view kind; ///< "temperature", "mass", "length", "duration", "pressure" or "clock"
  double low = 0.0;
  double high = 0.0;
  double step = 0.0;       ///< as shown: in °C, kg, mm, min, kPa
  double other_step = 0.0; ///< as shown with °F: in °F, lb, in, min, kPa
  /// Where it stands first; empty: what the library takes for this cut or cooker.
  std::optional<double> usual{};
};

[[nodiscard]] const std::vector<Dial> &dials();
/// @throws InvalidInput for a name that is none
[[nodiscard]] const Dial &dial(std::string_view key);

/// Something to choose by its name.
struct Choice {
  std::string name;  ///< in settings and links
  std::string label; ///< as shown
};

[[nodiscard]] std::vector<Choice> cuts_to_choose();
[[nodiscard]] std::vector<Choice> cookers_to_choose();
[[nodiscard]] std::vector<Choice> wraps_to_choose();
[[nodiscard]] std::vector<Choice> rests_to_choose();

/// All of it for the form: lists, dials, the settings that it begins with, cooks to begin from, the lesson's
/// cook, and the numbers that words need.
[[nodiscard]] Json form();

} // namespace cook::page
