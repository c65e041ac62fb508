/// @file
/// What crosses one face: heat from air and walls, vapour out, juice onto the face and off it; with
/// derivatives.
///
///     heat in      q = h (T_air - T_o) + eps sigma F (T_rad^4 - T_o^4),   (T_o - T_s) = R_heat q   (no
///     storage in the wrap) vapour out   m = K (p / (R_v T_film)) [ln(1/(1 - p_s/p)) - ln(1/(1 - p_env/p))],
///     1/K = 1/h_m + R_vapour h_m = h / (rho c_p Le^(2/3))
///
/// The logarithm is the high-rate (Stefan flow) correction. It grows without bound as the vapour pressure at
/// the face nears the total pressure p, which is boiling: there it goes on as a straight line, and vapour
/// vents in bulk through any wrap, so that the flux stays finite and heat, not resistance, limits it.
/// Sources: Chilton & Colburn analogy and Stefan flow as in Incropera et al., Fundamentals of Heat and Mass
/// Transfer, ch. 6; natural convection h = b |dT|^(1/4) (McAdams), see film_coefficient.hpp.
#pragma once

#include "cook/units.hpp"
#include "engine/arithmetic/smooth.hpp"

namespace cook::engine {

/// Constants of a face during a stage.
template <class Real> struct FaceSetting {
  Real h_given{0.0};             ///< [W m⁻² K⁻¹]
  Real natural_cold{0.0};        ///< b while the face is colder than the air [W m⁻² K^(-5/4)]
  Real natural_hot{0.0};         ///< b while it is hotter
  Real lewis_factor{0.0};        ///< h_m / h [m³ K J⁻¹]
  Real radiation{0.0};           ///< emissivity x view x sigma [W m⁻² K⁻⁴]
  Real radiant_offset{0.0};      ///< T_rad - T_air [K]
  Real heat_resistance{0.0};     ///< [m² K W⁻¹]
  Real vapour_resistance{0.0};   ///< [s m⁻¹]
  Real pressure{101325.0};       ///< [Pa]
  Real film_capacity{0.05};      ///< [kg m⁻²]
  Real run_off_rate{1.0 / 60.0}; ///< [s⁻¹]
  Real exudation_path{0.5e-3};   ///< [m]
  Real evaporates{1.0};          ///< 0 switches evaporation off
  Real exudes{1.0};              ///< 0 switches squeezing off
  bool resists_heat = false;     ///< any heat_resistance above zero
  // sorption isotherm
  Real monolayer{0.08}, gab_c{10.0}, gab_k{0.985};
};

/// Conditions beyond the face at a moment.
template <class Real> struct FaceAir {
  Real air{0.0};    ///< [°C]
  Real vapour{0.0}; ///< [Pa]
};

/// A flux and its derivatives by surface temperature, surface water, film, air temperature and the air's
/// vapour pressure.
template <class Real> struct FaceTerm { Real value{0.0}, t{0.0}, x{0.0}, m{0.0}, a{0.0}, v{0.0}; };

/// Everything that crosses, per area.
template <class Real> struct FaceFlux {
  FaceTerm<Real> convection; ///< into the meat [W m⁻²]
  FaceTerm<Real> radiation;  ///< into the meat [W m⁻²]
  FaceTerm<Real> vapour;     ///< out [kg m⁻² s⁻¹]
  FaceTerm<Real> from_film;  ///< the part of `vapour` that the film gives
  FaceTerm<Real> seep;       ///< juice from tissue to film [kg m⁻² s⁻¹]
  FaceTerm<Real> run_off;    ///< [kg m⁻² s⁻¹]
};

inline constexpr double film_reference = 0.01; ///< film that wets half of the face [kg m⁻²]: 10 micrometres
inline constexpr double boiling_corner =
    0.98; ///< share of total pressure above which the logarithm goes on straight
inline constexpr double venting = 0.05; ///< bulk vapour flow per excess of p_s/p over 1 [kg m⁻² s⁻¹]
inline constexpr double venting_width = 0.02;   ///< its smooth onset [-]
inline constexpr double convection_floor = 0.1; ///< keeps h smooth where the temperatures cross [K]
inline constexpr double soak_width = 0.02;      ///< smooth onset of soaking [kg/kg dry]

/// -ln(1 - x), straight beyond the corner.
template <class Real> Slope<Real> stefan(Real x) {
  const Real inside = min(x, Real(boiling_corner));
  const Real slope = 1.0 / (1.0 - inside);
  return {(x - inside) * slope - log(1.0 - inside), slope};
}

/// Water activity from water content: the isotherm solved for the activity (a quadratic), continued smoothly
/// through 0.
template <class Real> Slope<Real> water_activity(Real x, Real monolayer, Real c, Real k) {
  const Real b = monolayer * c - x * (c - 2.0);
  const Real b_x = 2.0 - c;
  const Real r = sqrt(b * b + 4.0 * x * x * (c - 1.0));
  const Real sum = b + r;
  const Real over = 1.0 / (r * sum); // one division for both; it takes longer than all else here
  const Real r_x = (b * b_x + 4.0 * x * (c - 1.0)) * (over * sum);
  const Real below = over * r;
  const Real twice = 2.0 / k * below;
  const Real a = x * twice;
  const Real a_x = twice * (1.0 - x * below * (b_x + r_x));
  const auto saturated = a > Real(1.0);
  return {select(saturated, Real(1.0), a), select(saturated, Real(0.0), a_x)};
}

/// Film coefficient at air - face temperature difference `gap` [W m⁻² K⁻¹], with its derivative.
template <class Real> Slope<Real> film_coefficient(const FaceSetting<Real> &s, Real gap) {
  const Slope<Real> side = smooth_step(gap, 1.0);
  const Real b = s.natural_hot + (s.natural_cold - s.natural_hot) * side.value;
  const Real b_gap = (s.natural_cold - s.natural_hot) * side.slope;
  const Real square = gap * gap + convection_floor * convection_floor;
  const Real root = sqrt(sqrt(sqrt(square)));
  return {s.h_given + b * root, b_gap * root + 0.25 * b * root * gap / square};
}

/// What the surface tissue brings to its face.
template <class Real> struct FaceTissue {
  Real t;                ///< temperature [°C]
  Real x;                ///< water content [kg/kg dry]
  Real phi, phi_t;       ///< expressible water [kg/kg dry] and its derivative by temperature
  Slope<Real> juice;     ///< expressible part of phi, by phi
  Slope<Real> expressed; ///< solids x mobility of expressed juice [kg m⁻¹ s⁻¹], by temperature
  Real soaking, soaking_t, soaking_x; ///< solids x mobility of the tissue as it is [kg m⁻¹ s⁻¹]
  Slope<Real> saturation;             ///< saturation pressure [Pa], by temperature
};

/// @param m liquid film on the face [kg m⁻²]
template <class Real>
FaceFlux<Real> face_flux(const FaceSetting<Real> &s, const FaceAir<Real> &env, const FaceTissue<Real> &tissue,
                         Real m) {
  const Real t = tissue.t;
  FaceFlux<Real> out;
  // Heat: outer temperature of wrap and fat from a balance without storage, by Newton (q is nearly straight).
  const Real radiant_k = env.air + s.radiant_offset + kelvin_offset;
  const Real radiant_cube = radiant_k * radiant_k * radiant_k;
  Real outer = t;
  Slope<Real> h{};
  Real conv_gap{};               // d(convection)/d(gap)
  Real rad_outer{};              // -d(radiation)/d(outer)
  constexpr double close = 1e-5; // K: a last change as small leaves less than 1e-10 K
  constexpr int most = 60;       // 2 or 3 are usual; a quilt that sees embers takes 15
  MaskOf<Real> settled{};        // a lane's iteration does not go on for its lane mates' sake
  for (int i = 0, left = s.resists_heat ? most : 1; i < left; ++i) {
    const Real gap = env.air - outer;
    h = film_coefficient(s, gap);
    const Real k = outer + kelvin_offset;
    const Real cube = k * k * k;
    out.convection.value = h.value * gap;
    conv_gap = h.value + gap * h.slope;
    out.radiation.value = s.radiation * (radiant_cube * radiant_k - cube * k);
    rad_outer = 4.0 * s.radiation * cube;
    if (i + 1 < left) {
      const Real off = outer - t - s.heat_resistance * (out.convection.value + out.radiation.value);
      const Real change = off / (1.0 + s.heat_resistance * (conv_gap + rad_outer));
      outer = select(settled, outer, Real(outer - change));
      settled = settled || abs(change) < Real(close);
      if (all(settled)) { // once more, for the fluxes there
        left = i + 2;
      }
    }
  }
  const Real share = 1.0 / (1.0 + s.heat_resistance * (conv_gap + rad_outer)); // d(outer)/d(t)
  const Real rad_air = 4.0 * s.radiation * radiant_cube;
  const Real outer_a = s.heat_resistance * (conv_gap + rad_air) * share;
  out.convection.t = -(conv_gap * share);
  out.convection.a = conv_gap * (1.0 - outer_a);
  out.radiation.t = -(rad_outer * share);
  out.radiation.a = rad_air - rad_outer * outer_a;

  // Film: the share of the face it wets, juice arriving and running off.
  const Real film = max(m, Real(0.0));
  const Real wet_below = 1.0 / (film + film_reference);
  // Straight through zero: a film overdrawn within the tolerance takes back from the vapour what it gave too
  // much.
  const Real wet = m * wet_below;
  const Real wet_m = film_reference * wet_below * wet_below;
  // Juice under pressure leaves; dry tissue under a film soaks it up, as fast as its own mobility lets it.
  const Slope<Real> squeeze = tissue.juice;
  const Slope<Real> thirst = smooth_plus(Real(-tissue.phi), soak_width);
  const Real per_path = s.exudes / s.exudation_path;
  const Real drunk = wet * tissue.soaking * per_path;
  out.seep.value = tissue.expressed.value * squeeze.value * per_path - drunk * thirst.value;
  out.seep.t =
      (tissue.expressed.slope * squeeze.value + tissue.expressed.value * squeeze.slope * tissue.phi_t -
       wet * tissue.soaking_t * thirst.value) *
          per_path +
      drunk * thirst.slope * tissue.phi_t;
  out.seep.x = (tissue.expressed.value * squeeze.slope - wet * tissue.soaking_x * thirst.value) * per_path +
               drunk * thirst.slope;
  out.seep.m = -(wet_m * tissue.soaking * per_path * thirst.value);
  const Slope<Real> excess = smooth_plus(Real(m - s.film_capacity), 0.01);
  out.run_off.value = s.run_off_rate * excess.value;
  out.run_off.m = s.run_off_rate * excess.slope;

  // Vapour: from the wetted share of the face at activity one, from the rest at the tissue's.
  const Real per_p = 1.0 / s.pressure;
  const Slope<Real> in_air = stefan(Real(env.vapour * per_p));
  const Real h_m = s.lewis_factor * h.value;
  const Real path = 1.0 / (1.0 + s.vapour_resistance * h_m);
  const Real conductance = h_m * path;
  const Real conductance_gap = s.lewis_factor * h.slope * path * path;
  const Real film_k = 0.5 * (t + env.air) + kelvin_offset;
  const Real per_film = 1.0 / film_k;
  const Real density = s.pressure * (1.0 / gas_constant_water) * per_film;
  const Real density_t = -0.5 * density * per_film; // and the same by air temperature
  const Real flow = conductance * density;
  const Real flow_t = conductance * density_t - conductance_gap * share * density;
  const Real flow_a = conductance * density_t + conductance_gap * (1.0 - outer_a) * density;
  const auto leaving_at = [&](Slope<Real> activity) {
    const Real ratio = activity.value * tissue.saturation.value * per_p;
    const Slope<Real> at_face = stefan(ratio);
    const Slope<Real> vent = smooth_plus(Real(ratio - 1.0), venting_width);
    const Real drive = at_face.value - in_air.value;
    const Real by_ratio = (flow * at_face.slope + venting * vent.slope) * s.evaporates;
    FaceTerm<Real> term;
    term.value = (flow * drive + venting * vent.value) * s.evaporates;
    term.t = by_ratio * activity.value * tissue.saturation.slope * per_p + flow_t * drive * s.evaporates;
    term.x = by_ratio * activity.slope * tissue.saturation.value * per_p;
    term.a = flow_a * drive * s.evaporates;
    term.v = -(flow * in_air.slope * per_p * s.evaporates);
    return term;
  };
  const FaceTerm<Real> from_liquid = leaving_at({Real(1.0), Real(0.0)});
  const FaceTerm<Real> from_tissue = leaving_at(water_activity(tissue.x, s.monolayer, s.gab_c, s.gab_k));
  const Real bare = 1.0 - wet;
  out.vapour.value = wet * from_liquid.value + bare * from_tissue.value;
  out.vapour.t = wet * from_liquid.t + bare * from_tissue.t;
  out.vapour.x = bare * from_tissue.x;
  out.vapour.m = wet_m * (from_liquid.value - from_tissue.value);
  out.vapour.a = wet * from_liquid.a + bare * from_tissue.a;
  out.vapour.v = wet * from_liquid.v + bare * from_tissue.v;
  // What condenses on bare tissue joins the film.
  const auto dries = from_tissue.value > Real(0.0);
  const Real kept = select(dries, Real(0.0), bare);
  out.from_film.value = wet * from_liquid.value + kept * from_tissue.value;
  out.from_film.t = wet * from_liquid.t + kept * from_tissue.t;
  out.from_film.x = kept * from_tissue.x;
  out.from_film.m = wet_m * (from_liquid.value - select(dries, Real(0.0), from_tissue.value));
  out.from_film.a = wet * from_liquid.a + kept * from_tissue.a;
  out.from_film.v = wet * from_liquid.v + kept * from_tissue.v;
  return out;
}

} // namespace cook::engine
