/// @file
/// Where a temperature probe sits, and how it errs.
#pragma once

#include <optional>
#include <string>

namespace cook {

/// A probe. Without x and z it sits at the place that its name says: "flat" or "point" in a cross-section,
/// the middle of the thickness in a slab.
struct Probe {
  std::string name = "flat";
  std::optional<double> x{}; ///< of the tip, from the flat end [m]; only a cross-section looks at it
  std::optional<double> z{}; ///< of the tip, from the bottom face [m]
  double tip = 0.0;          ///< length that the sensor averages over, from the tip towards the shaft [m]
  double stem = 0.0;         ///< share of (air - meat) that the stem conducts to the tip; see stem_error()

  void validate(const std::string &field) const;
};

/// Share of the difference between air and meat that a probe reads too much, because its stem conducts heat
/// to the tip: 1 / cosh(m L), m^2 = h P / (k A), the temperature at the adiabatic tip of a fin whose base has
/// the air's temperature. A solid rod, or a tube when `wall` is given. Source: Incropera et al., Fundamentals
/// of Heat and Mass Transfer, ch. 3.6, table 3.4, case B (from memory).
/// @param immersion depth of the tip in the meat [m]  @param diameter of the stem [m]
/// @param wall thickness of the tube's wall [m]; 0: solid  @param conductivity of the stem [W m⁻¹ K⁻¹]
/// @param contact heat transfer from meat to stem [W m⁻² K⁻¹]; about k_meat / (radius x ln) : 200 is assumed
[[nodiscard]] double stem_error(double immersion, double diameter = 4e-3, double wall = 0.3e-3,
                                double conductivity = 16.0, double contact = 200.0);

} // namespace cook
