/// @file
/// Convective film coefficients: Nusselt number correlations, and the two cases a pit or a counter presents.
///
/// Nu, Ra, Re are formed with the same length. Correlations reproduce measurements on clean, isolated bodies
/// within 10 to 25 %; a cooker adds more, which is why the film coefficient stays a parameter to calibrate.
/// The Nusselt functions do no checks (noexcept, for inner loops) and are defined for Ra >= 0, Re >= 0, Pr >
/// 0; ask `validity` for the range in which a correlation was fitted.
#pragma once

#include <string>
#include <string_view>

namespace cook {

// ---- Nusselt numbers ----

/// Natural convection, horizontal plate, hot side up or cold side down (buoyant) [-]; length = area /
/// perimeter. McAdams (1954) with the length of Goldstein et al. (1973), as in Incropera & DeWitt ch. 9: 0.54
/// Ra^(1/4) for 1e4 to 1e7, 0.15 Ra^(1/3) for 1e7 to 1e11. The larger of the two is taken, which joins them
/// without the published 6 % jump (they cross at Ra = 4.7e6).
[[nodiscard]] double nusselt_plate_buoyant(double rayleigh) noexcept;
/// Natural convection, horizontal plate, hot side down or cold side up (stable) [-]; length = area /
/// perimeter. McAdams (1954): 0.27 Ra^(1/4), 1e5 to 1e10. Newer editions of the textbook prefer 0.52
/// Ra^(1/5); the quarter power is kept because it makes h proportional to |dT|^(1/4) on both faces.
[[nodiscard]] double nusselt_plate_stable(double rayleigh) noexcept;
/// Natural convection, vertical plate of height L [-]; Churchill & Chu (1975), all Ra up to 1e12.
[[nodiscard]] double nusselt_vertical_plate(double rayleigh, double prandtl) noexcept;
/// Natural convection, vertical plate, laminar form, better below Ra = 1e9 [-]; Churchill & Chu (1975).
[[nodiscard]] double nusselt_vertical_plate_laminar(double rayleigh, double prandtl) noexcept;
/// Natural convection, long horizontal cylinder of diameter D [-]; Churchill & Chu (1975), Ra up to 1e12.
[[nodiscard]] double nusselt_horizontal_cylinder(double rayleigh, double prandtl) noexcept;
/// Natural convection, sphere of diameter D [-]; Churchill (1983), Ra up to 1e13, Pr >= 0.5.
[[nodiscard]] double nusselt_sphere(double rayleigh, double prandtl) noexcept;
/// Forced convection along a flat plate, mean, laminar [-]; Pohlhausen: 0.664 Re^(1/2) Pr^(1/3), Re up to
/// 5e5.
[[nodiscard]] double nusselt_forced_plate_laminar(double reynolds, double prandtl) noexcept;
/// Forced convection along a flat plate, mean, transition at Re = 5e5 [-]: laminar below it,
/// (0.037 Re^(4/5) - 871) Pr^(1/3) above; Incropera & DeWitt ch. 7, Re up to 1e8.
[[nodiscard]] double nusselt_forced_plate(double reynolds, double prandtl) noexcept;
/// Forced convection across a cylinder of diameter D, mean [-]; Churchill & Bernstein (1977), Re Pr >= 0.2.
[[nodiscard]] double nusselt_cross_flow_cylinder(double reynolds, double prandtl) noexcept;

// ---- validity ----

/// The correlations above.
enum class FilmCorrelation {
  plate_buoyant,
  plate_stable,
  vertical_plate,
  vertical_plate_laminar,
  horizontal_cylinder,
  sphere,
  forced_plate_laminar,
  forced_plate,
  cross_flow_cylinder
};

/// The range in which a correlation was fitted.
struct FilmValidity {
  std::string_view name;   ///< of the correlation
  std::string_view number; ///< what is limited: "Ra", "Re" or "Re Pr"
  double low;              ///< smallest value [-]
  double high;             ///< largest value [-]
  /// Whether `value` is inside [-].
  [[nodiscard]] constexpr bool contains(double value) const noexcept { return value >= low && value <= high; }
};

/// The range of a correlation, as its source states it.
[[nodiscard]] FilmValidity validity(FilmCorrelation correlation) noexcept;
/// A sentence about `value` being outside a correlation's range; empty when it is inside. Reports, never
/// throws for a range: below its range a natural-convection correlation still tells that the coefficient is
/// small.
[[nodiscard]] std::string range_report(FilmCorrelation correlation, double value);

// ---- film coefficients in air ----

/// Which way a horizontal face looks.
enum class Facing { up, down };

/// Whether the air next to a horizontal face is set moving by buoyancy: a warm face that looks up or a cold
/// one that looks down. Cold meat in a hot pit: the bottom is; meat resting on a counter: the top is.
[[nodiscard]] bool is_buoyant(double surface_temperature, double air_temperature, Facing facing) noexcept;
/// Rayleigh number in air [-] of a temperature difference [K] over a length [m], properties at the film
/// temperature [°C], thermal expansion of an ideal gas.
[[nodiscard]] double air_rayleigh(double film_temperature, double temperature_difference,
                                  double length) noexcept;
/// Reynolds number in air [-] of a velocity [m s-1] and a length [m] at the film temperature [°C].
[[nodiscard]] double air_reynolds(double film_temperature, double velocity, double length) noexcept;

/// Film coefficient [W m-2 K-1] of natural convection on a horizontal face in air.
/// @param surface_temperature [°C], -40 to 600
/// @param air_temperature [°C], -40 to 600
/// @param length area / perimeter of the face [m], above 0
/// @throws InvalidInput for values outside these.
[[nodiscard]] double natural_plate(double surface_temperature, double air_temperature, double length,
                                   Facing facing);
/// Coefficient b [W m-2 K-5/4] in h = b |dT|^(1/4) for a horizontal face, at a fixed film temperature [°C]
/// and length [m]; quarter-power branch (Ra up to about 5e6, any cut of meat).
///
/// Film properties enter b weakly (2 % for 20 K), so a solver may hold it for a whole stage and keep only the
/// quarter power.
[[nodiscard]] double natural_plate_coefficient(double film_temperature, double length, bool buoyant);
/// Film coefficient [W m-2 K-1] of air at `velocity` [m s-1] along a flat face of `length` [m] in flow
/// direction, film temperature [°C]. Mean over the face. Zero at rest: add natural convection then.
[[nodiscard]] double forced_plate(double velocity, double length, double film_temperature);

} // namespace cook
