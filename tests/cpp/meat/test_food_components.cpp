// Component correlations and mixing rules against tabulated evaluations and measured meat.
#include "cook/errors.hpp"
#include "cook/meat/food_components.hpp"

#include <doctest/doctest.h>

#include <array>
#include <cmath>
#include <string>
#include <vector>

using namespace cook;

namespace {

double relative_error(double value, double reference) { return std::abs(value / reference - 1.0); }

// Evenly spaced values from low up to high: integers count, so no step is lost to rounding.
std::vector<double> steps(double low, double high, double step) {
  std::vector<double> values;
  const int count = static_cast<int>((high - low) / step * (1.0 + 1e-12)) + 1;
  values.reserve(static_cast<std::size_t>(count));
  for (int i = 0; i < count; ++i) {
    values.push_back(low + i * step);
  }
  return values;
}

constexpr std::array<Component, 6> all_components{Component::water, Component::protein,
                                                  Component::fat,   Component::carbohydrate,
                                                  Component::fibre, Component::ash};

// Raw brisket flat, lean and fat: from the USDA-derived protein and fat; water and ash by difference.
constexpr Composition lean_flat{.water = 0.6961, .protein = 0.2015, .fat = 0.0924, .ash = 0.0100};
constexpr Composition fatty_flat{
    .water = 0.5881, .protein = 0.1812, .fat = 0.2215, .carbohydrate = 0.0012, .ash = 0.0080};

std::string message_of(const Composition &composition) {
  try {
    composition.validate();
  } catch (const InvalidInput &error) {
    return error.what();
  }
  return "nothing thrown";
}

bool contains(const std::string &text, const std::string &part) {
  return text.find(part) != std::string::npos;
}

} // namespace

TEST_CASE("Choi & Okos component values") {
  // Published coefficients evaluated separately at 20, 60 and 100 °C; rounded to the digits shown.
  struct Row {
    double t, k_protein, k_fat, k_water, k_ash, rho_protein, rho_fat, rho_water, cp_protein, cp_fat, cp_water;
  };
  constexpr std::array<Row, 3> rows{{
      {20., 0.20164, 0.17512, 0.60366, 0.35648, 1319.532, 917.239, 995.740, 2031.85, 2011.75, 4176.57},
      {60., 0.24077, 0.16351, 0.65271, 0.40322, 1298.796, 900.536, 983.842, 2076.01, 2055.32, 4190.45},
      {100., 0.27121, 0.15133, 0.68030, 0.44066, 1278.060, 883.833, 959.920, 2115.96, 2083.52, 4221.84},
  }};
  for (const Row &r : rows) {
    CAPTURE(r.t);
    CHECK(std::abs(component_conductivity(Component::protein, r.t) - r.k_protein) < 6e-6);
    CHECK(std::abs(component_conductivity(Component::fat, r.t) - r.k_fat) < 6e-6);
    CHECK(std::abs(component_conductivity(Component::water, r.t) - r.k_water) < 6e-6);
    CHECK(std::abs(component_conductivity(Component::ash, r.t) - r.k_ash) < 6e-6);
    CHECK(std::abs(component_density(Component::protein, r.t) - r.rho_protein) < 6e-4);
    CHECK(std::abs(component_density(Component::fat, r.t) - r.rho_fat) < 6e-4);
    CHECK(std::abs(component_density(Component::water, r.t) - r.rho_water) < 6e-4);
    CHECK(std::abs(component_specific_heat(Component::protein, r.t) - r.cp_protein) < 6e-3);
    CHECK(std::abs(component_specific_heat(Component::fat, r.t) - r.cp_fat) < 6e-3);
    CHECK(std::abs(component_specific_heat(Component::water, r.t) - r.cp_water) < 6e-3);
  }
  // Carbohydrate and fibre at 20 °C by hand from the coefficients printed by ASHRAE.
  CHECK(std::abs(component_conductivity(Component::carbohydrate, 20.0) - 0.22743) < 1e-5);
  CHECK(std::abs(component_conductivity(Component::fibre, 20.0) - 0.20704) < 1e-5);
  CHECK(std::abs(component_density(Component::carbohydrate, 20.0) - 1592.891) < 1e-3);
  CHECK(std::abs(component_density(Component::fibre, 20.0) - 1304.182) < 1e-3);
  CHECK(std::abs(component_specific_heat(Component::carbohydrate, 20.0) - 1585.67) < 0.01);
  CHECK(std::abs(component_specific_heat(Component::fibre, 20.0) - 1880.65) < 0.01);
}

TEST_CASE("water component against the properties of water") {
  // Steam table, saturated liquid at 60 °C (from memory): rho 983.2 kg/m3, cp 4185 J/(kg K), k 0.654 W/(m K).
  CHECK(relative_error(component_density(Component::water, 60.0), 983.2) < 1e-3);
  CHECK(relative_error(component_specific_heat(Component::water, 60.0), 4185.0) < 1.5e-3);
  CHECK(relative_error(component_conductivity(Component::water, 60.0), 0.654) < 5e-3);
}

TEST_CASE("enthalpy is the integral of the specific heat") {
  for (const Component component : all_components) {
    CHECK(component_enthalpy(component, 0.0) == 0.0);
    for (const double t : steps(5.0, 150.0, 29.0)) {
      // Simpson's rule is exact for a parabola.
      const double simpson =
          t / 6.0 *
          (component_specific_heat(component, 0.0) + 4.0 * component_specific_heat(component, t / 2.0) +
           component_specific_heat(component, t));
      CHECK(relative_error(component_enthalpy(component, t), simpson) < 1e-13);
    }
  }
  const double mean = (mixture_enthalpy(lean_flat, 60.001) - mixture_enthalpy(lean_flat, 59.999)) / 0.002;
  CHECK(relative_error(mean, mixture_specific_heat(lean_flat, 60.0)) < 1e-8);
}

TEST_CASE("brisket mixtures") {
  // Evaluated separately with the same mixing rules: density, cp, k parallel, k series; rounded to the digits
  // shown.
  struct Row {
    Composition composition;
    double t, rho, cp, k_parallel, k_series;
  };
  const std::array<Row, 7> rows{{
      {lean_flat, 5., 1048.09, 3507.7, 0.4738, 0.3675},
      {lean_flat, 20., 1045.31, 3513.9, 0.4933, 0.3823},
      {lean_flat, 60., 1031.53, 3537.1, 0.5339, 0.4097},
      {lean_flat, 95., 1011.91, 3565.5, 0.5563, 0.4215},
      {fatty_flat, 5., 1030.69, 3272.6, 0.4241, 0.3122},
      {fatty_flat, 60., 1012.84, 3307.3, 0.4715, 0.3279},
      {fatty_flat, 80., 1002.83, 3322.8, 0.4826, 0.3284},
  }};
  for (const Row &r : rows) {
    CAPTURE(r.t);
    CHECK(std::abs(mixture_density(r.composition, r.t) - r.rho) < 6e-3);
    CHECK(std::abs(mixture_specific_heat(r.composition, r.t) - r.cp) < 6e-2);
    CHECK(std::abs(conductivity_parallel(r.composition, r.t) - r.k_parallel) < 6e-5);
    CHECK(std::abs(conductivity_series(r.composition, r.t) - r.k_series) < 6e-5);
  }
}

TEST_CASE("measured meat") {
  const Composition lean{.water = 0.745, .protein = 0.215, .fat = 0.030, .ash = 0.010};
  // James & James, Meat Refrigeration, table 13.2 (after Morley 1972): lean beef, 74.5 % water, 0-10 °C, 3.6
  // kJ/(kg K).
  CHECK(relative_error(mixture_specific_heat(lean, 5.0), 3600.0) < 0.02);
  // Same table: fatty beef, 51 % water, 0-100 °C, 2.89 kJ/(kg K). How its solids divide into fat and protein
  // is not stated (0.33 fat assumed), and the model reads 8 % high.
  const Composition fatty{.water = 0.51, .protein = 0.15, .fat = 0.332, .ash = 0.008};
  CHECK(relative_error(mixture_enthalpy(fatty, 100.0) / 100.0, 2890.0) < 0.09);
  // Chen (1985), cp = 4.19 - 2.30 x_s - 0.628 x_s^3, x_s solids; an independent rule, 2 to 3 % for meat.
  const double solids = 1.0 - lean_flat.water;
  CHECK(relative_error(mixture_specific_heat(lean_flat, 20.0),
                       4190.0 - 2300.0 * solids - 628.0 * solids * solids * solids) < 0.025);
  // ASHRAE table after Lentz 1961 (from memory): lean beef 0.48 to 0.51 W/(m K) at 3 to 20 °C; 3 % for the
  // choice of composition.
  CHECK(mixture_conductivity(lean, 3.0) > 0.48 * 0.97);
  CHECK(mixture_conductivity(lean, 20.0) < 0.51 * 1.03);
  // The series rule would be far outside: that is why it is not the choice.
  CHECK(conductivity_series(lean, 3.0) < 0.48 * 0.9);
  // James & James: lean conducts about 2.5 times what fat does. Fat tissue holds some water; pure fat
  // gives 2.8.
  CHECK(relative_error(mixture_conductivity(lean, 10.0) / component_conductivity(Component::fat, 10.0), 2.5) <
        0.15);
  // Density of raw lean beef 1050 to 1070 kg/m3 (from memory).
  CHECK(mixture_density(lean, 5.0) > 1050.0);
  CHECK(mixture_density(lean, 5.0) < 1070.0);
}

TEST_CASE("mixing rules: bounds and limits") {
  for (const Composition &c : {lean_flat, fatty_flat}) {
    for (double t : {0.0, 40.0, 90.0}) {
      const double k = mixture_conductivity(c, t);
      CHECK(k < conductivity_parallel(c, t));
      CHECK(k > conductivity_series(c, t));
    }
  }
  // Maxwell-Eucken: nothing dispersed, everything dispersed, equal phases, and its dilute limit for an
  // insulator, k = k_c (1 - 1.5 phi).
  CHECK(conductivity_maxwell_eucken(0.5, 0.2, 0.0) == 0.5);
  CHECK(relative_error(conductivity_maxwell_eucken(0.5, 0.2, 1.0), 0.2) < 1e-14);
  CHECK(relative_error(conductivity_maxwell_eucken(0.3, 0.3, 0.4), 0.3) < 1e-14);
  CHECK(std::abs(conductivity_maxwell_eucken(1.0, 0.0, 1e-4) - (1.0 - 1.5e-4)) < 1e-8);
  // Levy: same ends, and the same answer whichever phase is called the first - the property it was made for.
  CHECK(relative_error(conductivity_levy(0.2, 0.5, 0.0), 0.5) < 1e-14);
  CHECK(relative_error(conductivity_levy(0.2, 0.5, 1.0), 0.2) < 1e-14);
  CHECK(relative_error(conductivity_levy(0.3, 0.3, 0.4), 0.3) < 1e-14);
  for (double fraction : {0.1, 0.35, 0.5, 0.8}) {
    const double k = conductivity_levy(0.18, 0.55, fraction);
    CHECK(relative_error(conductivity_levy(0.55, 0.18, 1.0 - fraction), k) < 1e-12);
    // Between Maxwell-Eucken with either phase continuous (the Hashin-Shtrikman bounds).
    CHECK(k < conductivity_maxwell_eucken(0.55, 0.18, fraction));
    CHECK(k > conductivity_maxwell_eucken(0.18, 0.55, 1.0 - fraction));
  }
  // A sum that is off by rounding changes nothing: the rules divide by it.
  const Composition scaled{lean_flat.water * 0.995, lean_flat.protein * 0.995, lean_flat.fat * 0.995, 0.0,
                           lean_flat.ash * 0.995};
  CHECK(relative_error(mixture_density(scaled, 20.0), mixture_density(lean_flat, 20.0)) < 1e-14);
  CHECK(relative_error(mixture_specific_heat(scaled, 20.0), mixture_specific_heat(lean_flat, 20.0)) < 1e-14);
  CHECK(relative_error(mixture_conductivity(scaled, 20.0), mixture_conductivity(lean_flat, 20.0)) < 1e-14);
  // Pure fat.
  const Composition fat{.fat = 1.0};
  CHECK(mixture_conductivity(fat, 20.0) == component_conductivity(Component::fat, 20.0));
  CHECK(relative_error(fat_volume_fraction(fat, 20.0), 1.0) < 1e-14);
}

TEST_CASE("composition errors name the field and the likely slip") {
  CHECK_NOTHROW(lean_flat.validate());
  CHECK_NOTHROW(fatty_flat.validate());
  const std::string percent = message_of({.water = 69.6, .protein = 20.2, .fat = 9.2, .ash = 1.0});
  CHECK(contains(percent, "composition.water"));
  CHECK(contains(percent, "percentage, write 0.696"));
  const std::string ash_in_percent =
      message_of({.water = 0.696, .protein = 0.202, .fat = 0.092, .ash = 1.01});
  CHECK(contains(ash_in_percent, "composition.ash"));
  CHECK(contains(message_of({.water = 0.7, .protein = -0.1, .fat = 0.4}), "composition.protein"));
  CHECK(contains(message_of({.protein = 0.9, .fat = 0.1}), "composition.water"));
  CHECK(contains(message_of({.water = 0.7, .protein = 0.2, .fat = 0.05}), "sum to 0.95"));
  CHECK(contains(message_of({.water = 0.7, .protein = 0.2, .fat = 0.2}), "sum to 1.1"));
  CHECK(contains(message_of({.water = std::nan(""), .protein = 0.2, .fat = 0.2}), "composition.water"));
  try {
    Composition{.water = 0.5}.validate("meat.");
    FAIL("nothing thrown");
  } catch (const InvalidInput &error) {
    CHECK(error.field() == "meat");
  }
}
