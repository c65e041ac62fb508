/// @file
/// What is cooked in the reference slab: the numbers of one cook, and a set of varied ones.
///
/// It is simpler than libcook's model on purpose: constant properties, one mobility, the same two
/// faces, so that any integrator can be put to the same equations. Invented, and no check of anything.
#pragma once

#include <array>
#include <cstddef>

#include "benchmarks/reference/halton.hpp"

namespace cook::reference {

/// Conditions around the piece.
struct Phase {
  double film;        ///< heat transfer coefficient [W m⁻² K⁻¹]
  double vapour_film; ///< mass transfer coefficient [m/s]
  double air;         ///< temperature [°C]
};

/// One cook: open until `until[0]`, wrapped until `until[1]` (in the middle, °C), then a rest.
struct Recipe {
  double length = 0.07;   ///< thickness of the slab [m]
  double mobility = 3e-9; ///< of moist meat at 60 °C [m²/s]
  double start = 4.0;     ///< [°C]
  double water = 0.70;    ///< at the start [kg/kg]
  std::array<Phase, 3> phases{{{18.0, 0.012, 121.0}, {12.0, 1e-4, 121.0}, {6.0, 0.0, 21.0}}};
  std::array<double, 2> until{68.0, 95.0};
  double rest = 7200.0;     ///< [s]
  double longest = 43200.0; ///< a cook that is not done by then stops [s]
};

/// Constants of all cooks.
struct Constants {
  static constexpr double density = 1060.0;      ///< [kg/m³]
  static constexpr double capacity = 3500.0;     ///< [J kg⁻¹ K⁻¹]
  static constexpr double conductivity = 0.45;   ///< [W m⁻¹ K⁻¹]
  static constexpr double activation = 25000.0;  ///< of the mobility [J/mol]
  static constexpr double gas = 8.314462618;     ///< [J mol⁻¹ K⁻¹]
  static constexpr double vapour_gas = 461.5;    ///< [J kg⁻¹ K⁻¹]
  static constexpr double latent = 2.4e6;        ///< [J/kg]
  static constexpr double air_vapour = 6000.0;   ///< vapour pressure of the air [Pa]
  static constexpr double zero_celsius = 273.15; ///< [K]
  static constexpr double diffusivity = conductivity / (density * capacity); ///< [m²/s]
};

/// Varied cook number `index` (from 0): thickness, both coefficients of the open phase, air and mobility.
inline Recipe varied_recipe(std::size_t index) {
  const auto between = [index](double low, double high, std::size_t base) {
    return low + (high - low) * halton(index + 1, base);
  };
  Recipe recipe;
  recipe.length = between(0.05, 0.08, 2);
  recipe.phases[0].film = between(14.0, 22.0, 3);
  recipe.phases[0].vapour_film = between(0.008, 0.016, 5);
  recipe.phases[0].air = recipe.phases[1].air = between(115.0, 135.0, 7);
  recipe.mobility = between(2e-9, 4e-9, 11);
  return recipe;
}

} // namespace cook::reference
