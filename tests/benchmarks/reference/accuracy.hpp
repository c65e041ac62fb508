/// @file
/// How exactly the reference slab is solved by the library's steppers.
#pragma once

namespace cook::reference {

/// Local error per step that is accepted, as root mean square over the nodes.
struct Accuracy {
  double kelvin;
  double water;      ///< [kg/kg]
  double first_step; ///< of a phase [s]

  /// So many times as exact as another.
  [[nodiscard]] constexpr Accuracy times(double finer) const {
    return {kelvin / finer, water / finer, first_step / finer};
  }
};

/// The loosest that keep the middle within 0.05 K, with some room: of the first 200 varied slabs all.
inline constexpr Accuracy slab_accuracy{.kelvin = 0.15, .water = 5.25e-4, .first_step = 20.0};

} // namespace cook::reference
