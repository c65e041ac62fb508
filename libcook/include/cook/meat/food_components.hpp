/// @file
/// Thermal properties of a food from its composition: component correlations and mixing rules, above
/// freezing.
///
/// The correlations are those of Choi & Okos, "Effects of temperature and composition on the thermal
/// properties of foods", in Food Engineering and Process Applications 1 (1986), as also printed in ASHRAE
/// Handbook - Refrigeration, "Thermal Properties of Foods"; valid from -40 to 150 °C (water here as liquid
/// only). Outside it the parabolas are continued, which is harmless for the few kelvin by which a dry crust
/// exceeds 150 °C.
#pragma once

#include <string>

namespace cook {

/// What a food is made of, thermally.
enum class Component { water, protein, fat, carbohydrate, fibre, ash };

/// Thermal conductivity of a component [W m-1 K-1] at `temperature` [°C].
[[nodiscard]] double component_conductivity(Component component, double temperature) noexcept;
/// Density of a component [kg m-3] at `temperature` [°C].
[[nodiscard]] double component_density(Component component, double temperature) noexcept;
/// Specific heat of a component [J kg-1 K-1] at `temperature` [°C]; without melting.
[[nodiscard]] double component_specific_heat(Component component, double temperature) noexcept;
/// Specific enthalpy of a component [J kg-1] at `temperature` [°C], zero at 0 °C: the exact integral of
/// component_specific_heat.
[[nodiscard]] double component_enthalpy(Component component, double temperature) noexcept;

/// Mass fractions of a raw food [kg per kg]; they should sum to 1.
///
/// The mixing rules divide by the sum, so a composition that is off by rounding still gives consistent
/// properties.
struct Composition {
  double water = 0.0;        ///< [kg kg-1]
  double protein = 0.0;      ///< [kg kg-1]
  double fat = 0.0;          ///< [kg kg-1]
  double carbohydrate = 0.0; ///< [kg kg-1]
  double ash = 0.0;          ///< [kg kg-1]

  /// Sum of the fractions [-].
  [[nodiscard]] constexpr double sum() const noexcept { return water + protein + fat + carbohydrate + ash; }
  /// Throws InvalidInput unless each fraction is in 0 to 1, there is water, and the sum is within 0.01 of 1.
  /// The field is named as `prefix` + member, for instance "meat.composition.water"; percentages are named as
  /// the likely slip.
  void validate(const std::string &prefix = "composition.") const;
  [[nodiscard]] bool operator==(const Composition &) const = default;
};

/// Density without pores [kg m-3]: sum of the component volumes.
[[nodiscard]] double mixture_density(const Composition &composition, double temperature) noexcept;
/// Specific heat [J kg-1 K-1]: mass-weighted.
[[nodiscard]] double mixture_specific_heat(const Composition &composition, double temperature) noexcept;
/// Specific enthalpy [J kg-1], zero at 0 °C: mass-weighted, exact integral of mixture_specific_heat.
[[nodiscard]] double mixture_enthalpy(const Composition &composition, double temperature) noexcept;
/// Volume fraction of the fat [-].
[[nodiscard]] double fat_volume_fraction(const Composition &composition, double temperature) noexcept;

/// Conductivity with all components side by side along the heat flow [W m-1 K-1]: the upper bound.
[[nodiscard]] double conductivity_parallel(const Composition &composition, double temperature) noexcept;
/// Conductivity with all components in layers across the heat flow [W m-1 K-1]: the lower bound.
[[nodiscard]] double conductivity_series(const Composition &composition, double temperature) noexcept;
/// Maxwell-Eucken conductivity of spheres dispersed in a continuous phase [W m-1 K-1]; ASHRAE Handbook -
/// Refrigeration, "Thermal Properties of Foods". Derived for dilute, unconnected spheres; in use up to a
/// volume fraction of about 0.5.
[[nodiscard]] double conductivity_maxwell_eucken(double continuous, double dispersed,
                                                 double dispersed_volume_fraction) noexcept;
/// Levy's (1981) modification of Maxwell-Eucken [W m-1 K-1], which does not depend on which phase is called
/// continuous; formula as given by Fricke & Becker, HVAC&R Research 7(4) 2001 (from memory).
[[nodiscard]] double conductivity_levy(double phase_1, double phase_2, double volume_fraction_1) noexcept;

/// Conductivity of meat [W m-1 K-1], the library's choice.
///
/// Water, protein, carbohydrate and ash in parallel make the continuous phase; the fat lies dispersed in it
/// by Maxwell-Eucken. Why: fat is the one component that sits in separate lumps (cells, marbling) and
/// conducts a third of the rest; water and protein form one gel, for which the parallel rule is the usual
/// one. The series rule is 20 % too low for lean beef. For lean beef with 74.5 % water this gives 0.49 to
/// 0.52 W m-1 K-1 at 3 to 20 °C; measured 0.48 to 0.51 (ASHRAE table after Lentz 1961, from memory). Models
/// of this kind fit measurements within 7 % on average (Baghe-Khandan & Okos, J. Food Sci. 1981); grain
/// direction, not modelled, is inside that scatter.
[[nodiscard]] double mixture_conductivity(const Composition &composition, double temperature) noexcept;

} // namespace cook
