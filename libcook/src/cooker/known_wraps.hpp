/// @file
/// What is known of each wrap, one entry each: its numbers, how sure they are and where they come from.
#pragma once

#include <optional>
#include <string_view>
#include <vector>

#include "cook/cooker/wrap.hpp"
#include "cook/fields/field.hpp"

namespace cook {

/// A number and how sure it is.
struct SureNumber {
  double value = 0.0;
  Sure sure{};
};

/// What lies on one side of the meat. A number that is left out is that of the meat.
struct KnownCovering {
  SureNumber vapour_resistance; ///< [s/m]
  SureNumber heat_resistance;   ///< [m²K/W]
  std::optional<SureNumber> emissivity{};
  std::optional<SureNumber> juice_capacity{}; ///< [kg/m²]

  [[nodiscard]] Covering covering() const;
};

/// One wrap.
struct KnownWrap {
  std::string_view name;
  KnownCovering bottom;
  KnownCovering top;
  bool ends_as_bottom = false; ///< as it stands up round the sides; else they are as bottom and top are
};

[[nodiscard]] const std::vector<KnownWrap> &known_wraps();

} // namespace cook
