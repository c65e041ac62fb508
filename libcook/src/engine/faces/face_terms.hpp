/// @file
/// What a face is during a stage, what is beyond it and behind it at a moment, and what crosses it.
///
/// One word for one thing: `liquid` is the water on a face (juice, spray, what has condensed) everywhere in
/// the engine. Outside of it the same is Outcome::film, "film" in JSON and Tolerance::film, names that
/// callers know; a film coefficient belongs to the film of air beside a face, and is never called a film
/// alone here.
#pragma once

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
  Real heat_resistance{0.0};     ///< of wrap and fat [m² K W⁻¹]
  Real vapour_resistance{0.0};   ///< of wrap and fat [s m⁻¹]
  Real pressure{101325.0};       ///< [Pa]
  Real liquid_capacity{0.05};    ///< [kg m⁻²]
  Real run_off_rate{1.0 / 60.0}; ///< [s⁻¹]
  Real exudation_path{0.5e-3};   ///< [m]
  Real evaporates{1.0};          ///< 0 switches evaporation off
  Real exudes{1.0};              ///< 0 switches squeezing off
  bool resists_heat = false;     ///< any heat_resistance above zero
  // sorption isotherm
  Real monolayer{0.08}, gab_c{10.0}, gab_k{0.985};

  bool operator==(const FaceSetting &) const = default;
};

/// Conditions beyond the face at a moment.
template <class Real> struct FaceAir {
  Real air{0.0};    ///< [°C]
  Real vapour{0.0}; ///< [Pa]
};

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

/// A flux and its derivatives by surface temperature, surface water, liquid on the face, air temperature and
/// the air's vapour pressure.
template <class Real> struct FaceTerm { Real value{0.0}, t{0.0}, x{0.0}, m{0.0}, a{0.0}, v{0.0}; };

/// Everything that crosses, per area.
template <class Real> struct FaceFlux {
  FaceTerm<Real> convection;  ///< into the meat [W m⁻²]
  FaceTerm<Real> radiation;   ///< into the meat [W m⁻²]
  FaceTerm<Real> vapour;      ///< out [kg m⁻² s⁻¹]
  FaceTerm<Real> from_liquid; ///< the part of `vapour` that the liquid on the face gives
  FaceTerm<Real> seep;        ///< juice from tissue to face [kg m⁻² s⁻¹]
  FaceTerm<Real> run_off;     ///< [kg m⁻² s⁻¹]
};

} // namespace cook::engine
