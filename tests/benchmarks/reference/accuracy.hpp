/// @file
/// How exactly the reference problems are solved by the library's steppers.
#pragma once

namespace cook::reference {

/// Local error per step that is accepted, as root mean square over the nodes.
struct Accuracy {
  double kelvin;
  double first_step; ///< of a phase [s]

  /// [kg/kg] Per kelvin: the ratio that kept the middle most exact for the fewest steps.
  [[nodiscard]] constexpr double water() const { return 0.0035 * kelvin; }
};

/// The loosest that keep the middle within 0.05 K, with some room: of the first 200 varied slabs all, ...
inline constexpr Accuracy slab_accuracy{.kelvin = 0.15, .first_step = 20.0};
/// ... and of the rectangle.
inline constexpr Accuracy rectangle_accuracy{.kelvin = 0.05, .first_step = 2.0};

} // namespace cook::reference
