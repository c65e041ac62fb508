#include "cook/meat/food_components.hpp"

#include "cook/errors.hpp"
#include "cook/meat/tissue_fields.hpp"
#include "fields/check.hpp"

#include <array>
#include <cmath>
#include <cstddef>

namespace cook {

namespace {

struct Parabola {
  double a, b, c;
  [[nodiscard]] constexpr double at(double t) const noexcept { return a + t * (b + t * c); }
  [[nodiscard]] constexpr double integral_to(double t) const noexcept {
    return t * (a + t * (b / 2.0 + t * (c / 3.0)));
  }
};

struct Correlations {
  Parabola conductivity;  // [W m-1 K-1]
  Parabola density;       // [kg m-3]
  Parabola specific_heat; // [kJ kg-1 K-1], as published; converted to J below
};

// Choi & Okos (1986), in the order of enum Component. Two traps are avoided here on purpose:
// * The slope of fat's conductivity is -2.7604e-4; copies with e-3 are in circulation and give nonsense at 60
// °C.
// * Water's specific heat starts from 4.1762 as in Choi & Okos. The ASHRAE handbook prints 4.1289, which is 1
// % low: at
//   60 °C it gives 4.143 kJ/(kg K), this one 4.190, and water has 4.185.
constexpr std::array<Correlations, 6> correlations{{
    {{5.7109e-1, 1.7625e-3, -6.7036e-6}, {997.18, 3.1439e-3, -3.7574e-3}, {4.1762, -9.0864e-5, 5.4731e-6}},
    {{1.7881e-1, 1.1958e-3, -2.7178e-6}, {1329.9, -0.51840, 0.0}, {2.0082, 1.2089e-3, -1.3129e-6}},
    {{1.8071e-1, -2.7604e-4, -1.7749e-7}, {925.59, -0.41757, 0.0}, {1.9842, 1.4733e-3, -4.8008e-6}},
    {{2.0141e-1, 1.3874e-3, -4.3312e-6}, {1599.1, -0.31046, 0.0}, {1.5488, 1.9625e-3, -5.9399e-6}},
    {{1.8331e-1, 1.2497e-3, -3.1683e-6}, {1311.5, -0.36589, 0.0}, {1.8459, 1.8306e-3, -4.6509e-6}},
    {{3.2962e-1, 1.4011e-3, -2.9069e-6}, {2423.8, -0.28063, 0.0}, {1.0926, 1.8896e-3, -3.6817e-6}},
}};

constexpr double joules_per_kilojoule = 1000.0;

constexpr const Correlations &of(Component component) noexcept {
  return correlations[static_cast<std::size_t>(component)];
}

struct Share {
  Component component;
  double mass;
};

constexpr std::array<Share, 5> shares(const Composition &c) noexcept {
  return {{{Component::water, c.water},
           {Component::protein, c.protein},
           {Component::fat, c.fat},
           {Component::carbohydrate, c.carbohydrate},
           {Component::ash, c.ash}}};
}

// Sum over the components of mass fraction times weight(component).
template <class Weight> double mass_sum(const Composition &composition, Weight &&weight) {
  double total = 0.0;
  for (const Share &share : shares(composition)) {
    total += share.mass * weight(share.component);
  }
  return total;
}

// Volume of the composition [m3 per kg of its sum].
double volume(const Composition &composition, double temperature) {
  return mass_sum(composition, [=](Component c) { return 1.0 / component_density(c, temperature); });
}

} // namespace

double component_conductivity(Component component, double temperature) noexcept {
  return of(component).conductivity.at(temperature);
}

double component_density(Component component, double temperature) noexcept {
  return of(component).density.at(temperature);
}

double component_specific_heat(Component component, double temperature) noexcept {
  return joules_per_kilojoule * of(component).specific_heat.at(temperature);
}

double component_enthalpy(Component component, double temperature) noexcept {
  return joules_per_kilojoule * of(component).specific_heat.integral_to(temperature);
}

void Composition::validate(const std::string &prefix) const {
  check::members(prefix, *this);
  check::positive(prefix + "water", water, "kg/kg", "a food without water is outside the model");
  constexpr double tolerance = 0.01;
  if (std::abs(sum() - 1.0) > tolerance) {
    std::string message = "the fractions sum to " + format_number(sum()) + "; accepted: 0.99 to 1.01";
    message += sum() < 1.0 ? "; is a component missing (often ash, about 0.01)?"
                           : "; is a component counted twice, or are the figures for different cuts?";
    // The sum belongs to no single member, so the composition itself is named.
    throw InvalidInput(prefix.empty() || prefix.back() != '.' ? "composition"
                                                              : prefix.substr(0, prefix.size() - 1),
                       message);
  }
}

double mixture_density(const Composition &composition, double temperature) noexcept {
  return composition.sum() / volume(composition, temperature);
}

double mixture_specific_heat(const Composition &composition, double temperature) noexcept {
  return mass_sum(composition, [=](Component c) { return component_specific_heat(c, temperature); }) /
         composition.sum();
}

double mixture_enthalpy(const Composition &composition, double temperature) noexcept {
  return mass_sum(composition, [=](Component c) { return component_enthalpy(c, temperature); }) /
         composition.sum();
}

double fat_volume_fraction(const Composition &composition, double temperature) noexcept {
  return composition.fat / component_density(Component::fat, temperature) / volume(composition, temperature);
}

double conductivity_parallel(const Composition &composition, double temperature) noexcept {
  return mass_sum(composition,
                  [=](Component c) {
                    return component_conductivity(c, temperature) / component_density(c, temperature);
                  }) /
         volume(composition, temperature);
}

double conductivity_series(const Composition &composition, double temperature) noexcept {
  return volume(composition, temperature) / mass_sum(composition, [=](Component c) {
           return 1.0 / (component_conductivity(c, temperature) * component_density(c, temperature));
         });
}

double conductivity_maxwell_eucken(double continuous, double dispersed,
                                   double dispersed_volume_fraction) noexcept {
  const double step = dispersed_volume_fraction * (continuous - dispersed);
  const double base = 2.0 * continuous + dispersed;
  return continuous * (base - 2.0 * step) / (base + step);
}

double conductivity_levy(double phase_1, double phase_2, double volume_fraction_1) noexcept {
  const double ratio = phase_1 / phase_2;
  const double sigma = (ratio - 1.0) * (ratio - 1.0) / ((ratio + 1.0) * (ratio + 1.0) + ratio / 2.0);
  // F = (a - sqrt(a^2 - 8 R / sigma)) / 2 with a = 2 / sigma - 1 + 2 R, multiplied out by sigma and
  // rationalised so that equal conductivities (sigma = 0) need no special case.
  const double scaled = 2.0 + sigma * (2.0 * volume_fraction_1 - 1.0);
  const double f =
      4.0 * volume_fraction_1 / (scaled + std::sqrt(scaled * scaled - 8.0 * volume_fraction_1 * sigma));
  return phase_2 * ((2.0 + ratio) + 2.0 * (ratio - 1.0) * f) / ((2.0 + ratio) - (ratio - 1.0) * f);
}

double mixture_conductivity(const Composition &composition, double temperature) noexcept {
  Composition lean = composition;
  lean.fat = 0.0;
  const double fat = component_conductivity(Component::fat, temperature);
  if (!(lean.sum() > 0.0)) {
    return fat; // rendered fat or a pure fat cap: there is no continuous phase to disperse it in
  }
  return conductivity_maxwell_eucken(conductivity_parallel(lean, temperature), fat,
                                     fat_volume_fraction(composition, temperature));
}

} // namespace cook
