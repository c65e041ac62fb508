/// @file
/// What the manufactured solutions of a cross-section are made of: fields of two dimensions and time.
#pragma once

#include <array>
#include <cmath>

namespace cook::testing {

/// A value with its derivatives by place and time.
struct PlaneJet {
  double value, x, z, laplacian, t;
};

/// The chosen fields, without any symmetry of the section's.
struct PlaneFields {
  double seconds = 7200.0; ///< over which the fields change

  /// Through melting fat, denaturing protein and release of juice [°C].
  [[nodiscard]] PlaneJet temperature(double x, double z, double time) const {
    return moving(x, z, time, {57.0, 9.0, 20.0}, {15.0, 0.3, 29.0, -0.2});
  }
  /// [kg/kg dry]
  [[nodiscard]] PlaneJet water(double x, double z, double time) const {
    return moving(x, z, time, {2.4, 0.6, -0.4}, {-11.0, 0.5, 23.0, 0.4});
  }
  /// Liquid on the boundary [kg m⁻²]: below and above what a face can hold. Value and rate.
  [[nodiscard]] std::array<double, 2> film(double time) const {
    const double w = 3.0 * time / seconds;
    return {0.045 + 0.02 * std::sin(w), 0.06 * std::cos(w) / seconds};
  }

private:
  struct Size {
    double base, wave, rise;
  };
  struct Wave {
    double a, from_x, b, from_z; ///< [1/m], [-], [1/m], [-]
  };
  /// A standing wave that grows by half, on a level that rises.
  [[nodiscard]] PlaneJet moving(double x, double z, double time, const Size &s, const Wave &k) const {
    const double w = time / seconds;
    const double sx = std::sin(k.a * x + k.from_x);
    const double cx = std::cos(k.a * x + k.from_x);
    const double sz = std::sin(k.b * z + k.from_z);
    const double cz = std::cos(k.b * z + k.from_z);
    const double grown = s.wave * (1.0 + 0.5 * w * w);
    return {s.base + s.rise * w * (1.5 - 0.5 * w) + grown * sx * cz, grown * k.a * cx * cz,
            -grown * k.b * sx * sz, -grown * (k.a * k.a + k.b * k.b) * sx * cz,
            (s.rise * (1.5 - w) + s.wave * w * sx * cz) / seconds};
  }
};

} // namespace cook::testing
