/// @file
/// How heat passes from the air to a face.
#pragma once

namespace cook {

/// How heat passes from the air to a face.
enum class Convection {
  given,   ///< `value` is the film coefficient [W m⁻² K⁻¹]
  natural, ///< horizontal plate in still air; `length` is area / perimeter [m]
  forced ///< flat plate in a stream, beside natural convection; `value` is the air speed [m s⁻¹], `length`
         ///< along it [m]
};

/// Film coefficient of one face.
struct Film {
  Convection kind = Convection::natural;
  double value = 0.0;  ///< W m⁻² K⁻¹ (given) or m s⁻¹ (forced); unused for natural
  double length = 0.0; ///< characteristic length [m]; 0: that of the piece's footprint
  double factor = 1.0; ///< on what the correlation gives: how a cooker differs from it [-]

  [[nodiscard]] bool operator==(const Film &) const = default;
};

} // namespace cook
