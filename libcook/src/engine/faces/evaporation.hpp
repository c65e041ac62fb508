/// @file
/// The evaporation equation: water vapour that leaves a surface through the air beside it, with derivatives.
/// Faces of the meat (vapour.hpp), the water pan (cooker/water_pan.cpp) and the functions of
/// cook/cooker/evaporation.hpp all call it.
///
///     m = F [s(p_s / p) - s(p_env / p)] + venting     [kg m⁻² s⁻¹], negative when vapour condenses
///     F = K p / (R_v T_film),  T_film = (T_s + T_air) / 2
///     s(x) = -ln(1 - x)
///
/// p_s is the vapour pressure at the surface (water activity x saturation pressure), p_env that of the air, p
/// the total pressure [Pa]; K [m s⁻¹] the mass-transfer coefficient h_m = h / (rho c_p Le^(2/3)), with a
/// wrap's resistance in series (wrap_resistance.hpp).
///
/// The logarithm is the high-rate (Stefan flow) correction: at low vapour pressures F s is h_m times the
/// difference of vapour densities. It grows without bound as p_s nears p, which is boiling: there it goes on
/// as a straight line, and vapour vents in bulk through any wrap, so that the flux stays finite and heat, not
/// resistance, limits it.
///
/// Sources: Stefan flow, Bird, Stewart & Lightfoot, Transport Phenomena, ch. 18; the analogy, Chilton &
/// Colburn, Ind. Eng. Chem. 26 (1934) 1183, as in Incropera et al., Fundamentals of Heat and Mass Transfer,
/// ch. 6. Valid up to boiling; the straight line and the venting beyond are judgement and hold a wet surface
/// near boiling.
#pragma once

#include "cook/units.hpp"
#include "engine/arithmetic/smooth.hpp"

namespace cook::engine {

/// Share of the total pressure above which the logarithm goes on straight.
inline constexpr double boiling_corner = 0.98;
inline constexpr double venting = 0.05; ///< bulk vapour flow per excess of p_s/p over 1 [kg m⁻² s⁻¹]
inline constexpr double venting_width = 0.02; ///< its smooth onset [-]

/// s: -ln(1 - share), straight beyond the corner.
template <class Real> [[gnu::always_inline]] inline Slope<Real> stefan(Real share) {
  const Real inside = min(share, Real(boiling_corner));
  const Real slope = 1.0 / (1.0 - inside);
  return {(share - inside) * slope - log(1.0 - inside), slope};
}

/// F [kg m⁻² s⁻¹], and its derivatives by the temperatures of surface and air [K⁻¹].
template <class Real> struct VapourFlow { Real value, surface, air; };

/// F through a coefficient that follows the difference air - outside of the surface.
/// @param k mass-transfer coefficient [m s⁻¹], by that difference
/// @param outer_surface, outer_air how the outside follows the surface's and the air's temperature: 1 and 0
/// unless something resists heat between surface and outside
/// @param film absolute temperature of the film, half-way between surface and air [K]
template <class Real>
[[gnu::always_inline]] inline VapourFlow<Real> vapour_flow(const Slope<Real> &k, Real outer_surface,
                                                           Real outer_air, Real pressure, Real film) {
  const Real per_film = 1.0 / film;
  const Real density = pressure * (1.0 / gas_constant_water) * per_film;
  const Real density_t = -0.5 * density * per_film; // by either temperature
  return {k.value * density, k.value * density_t - k.slope * outer_surface * density,
          k.value * density_t + k.slope * (1.0 - outer_air) * density};
}

/// F where nothing resists heat: the same with one division, which in one number is as fast and rounds once
/// less.
inline VapourFlow<double> vapour_flow(const Slope<double> &k, double pressure, double film) {
  const double per_k = gas_constant_water * film;
  const double value = k.value * pressure / per_k;
  const double by_gap = k.slope * pressure / per_k;
  const double by_film = -0.5 * value / film;
  return {value, by_film - by_gap, by_gap + by_film};
}

/// m, and its derivatives.
template <class Real> struct Evaporation {
  Real by_share; ///< by p_s / p [kg m⁻² s⁻¹]
  Real value;    ///< m [kg m⁻² s⁻¹]
  Real by_flow;  ///< by F [-]; by s(p_env / p) it is -F
};

/// m.
/// @param flow F [kg m⁻² s⁻¹]  @param share p_s / p [-]  @param in_air s(p_env / p) [-]
template <class Real>
[[gnu::always_inline]] inline Evaporation<Real> evaporation(Real flow, Real share, Real in_air) {
  const Slope<Real> at_surface = stefan(share);
  const Slope<Real> vent = smooth_plus(Real(share - 1.0), venting_width);
  const Real drive = at_surface.value - in_air;
  return {flow * at_surface.slope + venting * vent.slope, flow * drive + venting * vent.value, drive};
}

} // namespace cook::engine
