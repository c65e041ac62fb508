/// @file
/// The two laws of the reference problems, with their derivatives: how fast water moves, and what a face
/// does.
#pragma once

#include <cmath>

#include "benchmarks/reference/lanes.hpp"
#include "benchmarks/reference/quick_exp.hpp"
#include "benchmarks/reference/recipe.hpp"
#include "engine/arithmetic/scalar.hpp"

namespace cook::reference {

/// Mobility of the water [m²/s] and its derivatives by temperature [°C] and water [kg/kg].
template <class Real> struct Mobility { Real value, by_t, by_c; };

/// The part of the mobility that neither temperature nor water changes [m²/s].
inline double mobility_scale(double at_60) {
  return at_60 * std::exp(Constants::activation / (Constants::gas * (60.0 + Constants::zero_celsius)));
}

/// D = D_60 exp(E/R (1/333.15 K - 1/T)) (0.01 + 0.99 / (1 + exp(-(C - 0.2) / 0.03))): falls a hundredfold
/// where the meat is dry.
template <class Real> Mobility<Real> mobility(const Real &t, const Real &c, const Real &scale) {
  constexpr double kelvin = Constants::activation / Constants::gas;
  constexpr double dry = 0.01;
  constexpr double width = 0.03;
  const Real per_t = 1.0 / (t + Constants::zero_celsius);
  const Real hot = scale * quick_exp(Real(-kelvin * per_t));
  const Real moist = 1.0 / (1.0 + quick_exp(Real((0.2 - c) * (1.0 / width))));
  const Real value = hot * (dry + (1.0 - dry) * moist);
  return {value, value * (kelvin * (per_t * per_t)), hot * moist * (1.0 - moist) * ((1.0 - dry) / width)};
}

/// What a face does: heat into the meat [W/m²] and water out of it [kg m⁻² s⁻¹], with their derivatives by
/// the temperature and water of the face.
template <class Real> struct FaceFlow {
  Real heat, heat_by_t, heat_by_c;
  Real water, water_by_t, water_by_c;
};

/// Conditions as a face's equations need them.
template <class Real> struct FaceConditions {
  Real film{0.0}, vapour_film{0.0}, air{0.0};
  Real air_density{0.0}; ///< of the vapour in the air [kg/m³]

  explicit FaceConditions() = default;
  /// The same in another scalar.
  template <class Other> [[nodiscard]] FaceConditions<Other> as() const {
    FaceConditions<Other> other;
    other.film = film;
    other.vapour_film = vapour_film;
    other.air = air;
    other.air_density = air_density;
    return other;
  }
  void set(std::size_t lane, const Phase &phase) {
    set_lane(film, lane, phase.film);
    set_lane(vapour_film, lane, phase.vapour_film);
    set_lane(air, lane, phase.air);
    set_lane(air_density, lane,
             Constants::air_vapour / (Constants::vapour_gas * (phase.air + Constants::zero_celsius)));
  }
};

/// m = h_m (a_w p_sat / (R_v T) - rho_air), q = h (T_air - T) - m L, with a_w = 1 - exp(-(C / 0.15)²) and the
/// saturation pressure by Magnus' formula (O. A. Alduchov, R. E. Eskridge, J. Appl. Meteorol. 35 (1996) 601).
template <class Real> FaceFlow<Real> face_flow(const Real &t, const Real &c, const FaceConditions<Real> &at) {
  constexpr double a = 17.625;
  constexpr double b = 243.04; // °C
  constexpr double bound = 0.15;
  const Real per_magnus = 1.0 / (t + b);
  const Real per_t = 1.0 / (t + Constants::zero_celsius);
  const Real saturated = (610.94 / Constants::vapour_gas) * quick_exp(Real(a * t * per_magnus)) * per_t;
  using engine::max;
  const Real wet = max(c, Real(0.0)) * (1.0 / bound);
  const Real missing = quick_exp(Real(-(wet * wet)));
  const Real density = (1.0 - missing) * saturated;
  FaceFlow<Real> flow;
  flow.water = at.vapour_film * (density - at.air_density);
  flow.water_by_t = at.vapour_film * density * (a * b * (per_magnus * per_magnus) - per_t);
  flow.water_by_c = at.vapour_film * saturated * missing * ((2.0 / bound) * wet);
  flow.heat = at.film * (at.air - t) - flow.water * Constants::latent;
  flow.heat_by_t = -at.film - flow.water_by_t * Constants::latent;
  flow.heat_by_c = -(flow.water_by_c * Constants::latent);
  return flow;
}

} // namespace cook::reference
