/// The one-dimensional reference problem of the benchmarks: its equations against numbers worked out by hand
/// and against differences, its cooks against converged ones, and packs against single cooks.
#include <doctest/doctest.h>

#include <cmath>
#include <vector>

#include "benchmarks/reference/arithmetic.hpp"
#include "benchmarks/reference/equations.hpp"
#include "benchmarks/reference/halton.hpp"
#include "benchmarks/reference/quick_exp.hpp"
#include "benchmarks/reference/slab_cooks.hpp"

using namespace cook::reference;

namespace {

constexpr double minute = 60.0; // s

/// A state in which neighbours differ, from wet to dry.
std::vector<double> uneven_state(std::size_t size) {
  std::vector<double> y(size);
  const std::size_t nodes = size / 2;
  for (std::size_t i = 0; i < nodes; ++i) {
    const double x = static_cast<double>(i) / static_cast<double>(nodes - 1);
    y[2 * i] = 40.0 + 45.0 * x * x + 3.0 * std::sin(7.0 * x);
    y[2 * i + 1] = 0.7 - 0.62 * x + 0.02 * std::cos(11.0 * x);
  }
  return y;
}

} // namespace

TEST_CASE("Halton's points mirror the digits of the count") {
  CHECK(halton(1, 2) == 0.5);
  CHECK(halton(6, 2) == doctest::Approx(0.375));     // 110 -> 0.011
  CHECK(halton(5, 3) == doctest::Approx(7.0 / 9.0)); // 12 -> 0.21
  // The first varied cook: count 1 in every base.
  const Recipe first = varied_recipe(0);
  CHECK(first.length == doctest::Approx(0.065));
  CHECK(first.phases[0].film == doctest::Approx(14.0 + 8.0 / 3.0));
  CHECK(first.phases[0].vapour_film == doctest::Approx(0.0096));
  CHECK(first.phases[1].air == doctest::Approx(115.0 + 20.0 / 7.0));
  CHECK(first.mobility == doctest::Approx(2e-9 + 2e-9 / 11.0));
}

TEST_CASE("exp of a pack is exp, to its stated error") {
  double worst = 0.0;
  for (int step = 0; step < 50000; ++step) {
    cook::engine::Pack x;
    for (std::size_t l = 0; l < cook::engine::pack_lanes; ++l) {
      x.set(l, -700.0 + 0.028 * step + 0.0031 * static_cast<double>(l));
    }
    const cook::engine::Pack y = quick_exp(x);
    for (std::size_t l = 0; l < cook::engine::pack_lanes; ++l) {
      worst = std::fmax(worst, std::fabs(y[l] / std::exp(x[l]) - 1.0));
    }
  }
  MESSAGE("largest relative error ", worst);
  CHECK(worst < quick_exp_error);
  CHECK(worst > 0.0);
  CHECK(quick_exp(cook::engine::Pack(0.0))[3] == 1.0);
  CHECK(quick_exp(cook::engine::Pack(-1e9))[3] == doctest::Approx(std::exp(-700.0)));
}

TEST_CASE("rates of the reference slab are those worked out by hand") {
  // Eight intervals of 0.01 m, 60 °C and 0.5 kg/kg all over but for one warmer and drier node: there the
  // mobility's Arrhenius factor is one.
  SlabEquations system(8);
  Recipe recipe;
  recipe.length = 0.08;
  system.set(recipe, 0);
  std::vector<double> y(system.size());
  for (std::size_t i = 0; i < y.size(); i += 2) {
    y[i] = 60.0;
    y[i + 1] = 0.5;
  }
  y[8] = 61.0; // node 4
  y[13] = 0.2; // node 6
  std::vector<double> f(system.size());
  system.rates(y.data(), f.data());
  const double diffusivity = 0.45 / (1060.0 * 3500.0);
  CHECK(f[8] == doctest::Approx(-2.0 * diffusivity / 1e-4));
  CHECK(f[6] == doctest::Approx(diffusivity / 1e-4));
  CHECK(f[4] == doctest::Approx(0.0));
  // The logistic curve is 1 / (1 + e^-10) at 0.5 and 1/2 at 0.2.
  const double wet = 3e-9 * (0.01 + 0.99 / (1.0 + std::exp(-10.0)));
  const double dry = 3e-9 * (0.01 + 0.99 * 0.5);
  CHECK(f[13] == doctest::Approx(2.0 * 0.5 * (wet + dry) * 0.3 / 1e-4));
  // The face.
  const double pressure = 610.94 * std::exp(17.625 * 60.0 / 303.04);
  CHECK(pressure == doctest::Approx(19.9e3).epsilon(0.01)); // steam tables: 19.95 kPa
  const double water = 0.012 * ((1.0 - std::exp(-100.0 / 9.0)) * pressure / (461.5 * 333.15) -
                                6000.0 / (461.5 * (121.0 + 273.15)));
  const double heat = 18.0 * 61.0 - water * 2.4e6;
  CHECK(f[1] == doctest::Approx(-2.0 * water / (1060.0 * 0.01)));
  CHECK(f[0] == doctest::Approx(2.0 * heat / (1060.0 * 3500.0 * 0.01)));
  CHECK(f[0] == doctest::Approx(f[16])); // both faces alike
}

TEST_CASE("the Jacobian of the reference slab is the derivative of its rates") {
  SlabEquations system(20);
  system.set(varied_recipe(3), 0);
  const std::vector<double> y = uneven_state(system.size());
  const std::size_t n = y.size();
  std::vector<double> jacobian(n * n);
  system.jacobian(y.data(),
                  [&](std::size_t i, std::size_t j, double value) { jacobian[i * n + j] += value; });
  std::vector<double> up(n);
  std::vector<double> down(n);
  for (std::size_t j = 0; j < n; ++j) {
    const double h = j % 2 == 0 ? 1e-3 : 1e-5;
    std::vector<double> z = y;
    z[j] += h;
    system.rates(z.data(), up.data());
    z[j] -= 2.0 * h;
    system.rates(z.data(), down.data());
    for (std::size_t i = 0; i < n; ++i) {
      const double difference = (up[i] - down[i]) / (2.0 * h);
      INFO("row ", i, " column ", j);
      CHECK(jacobian[i * n + j] == doctest::Approx(difference).epsilon(1e-5).scale(1e-5));
    }
  }
}

TEST_CASE("the reference slab reaches its targets when the converged cook does") {
  // Converged in time with other integrators, 60 intervals: 283.159 and 517.510 min; 120: 280.494, 514.664.
  SlabOptions options;
  options.accuracy = slab_accuracy.times(1000.0);
  const Trace fine = cook_slabs({Recipe{}}, options)[0];
  CHECK(std::fabs(fine.reached[0] / minute - 283.159) < 1e-3);
  CHECK(std::fabs(fine.reached[1] / minute - 517.510) < 1e-3);
  CHECK(fine.end == doctest::Approx(fine.reached[1] + 7200.0));
  options.intervals = 120;
  const Trace finer = cook_slabs({Recipe{}}, options)[0];
  CHECK(std::fabs(finer.reached[0] / minute - 280.494) < 1e-3);
  CHECK(std::fabs(finer.reached[1] / minute - 514.664) < 1e-3);
}

TEST_CASE("at the benchmark's tolerance the middle of varied slabs stays within 0.05 K") {
  // The tolerance was chosen on the first 200 cooks; on the others nothing was.
  std::vector<Recipe> recipes;
  for (std::size_t i = 0; i < 400; ++i) {
    recipes.push_back(varied_recipe(i));
  }
  SlabOptions fine;
  fine.accuracy = slab_accuracy.times(300.0);
  const auto converged = cook_slabs_in_packs(recipes, fine, 2);
  const auto traces = cook_slabs(recipes, {});
  double worst = 0.0;
  for (std::size_t i = 0; i < recipes.size(); ++i) {
    INFO("cook ", i);
    REQUIRE(traces[i].middle.size() + 1 >= converged[i].middle.size());
    for (std::size_t k = 0; k < traces[i].middle.size() && k < converged[i].middle.size(); ++k) {
      worst = std::fmax(worst, std::fabs(traces[i].middle[k] - converged[i].middle[k]));
    }
  }
  MESSAGE("largest error ", worst, " K");
  CHECK(worst < 0.05);
  CHECK(worst > 1e-3); // it is a tolerance, not a reference
}

TEST_CASE("a slab in a pack is cooked as it is alone, whatever the lane mates") {
  std::vector<Recipe> recipes;
  for (std::size_t i = 0; i < 21; ++i) { // not a multiple of the lanes: the last packs have idle ones
    recipes.push_back(varied_recipe(7 * i));
  }
  const auto alone = cook_slabs(recipes, {});
  std::vector<Recipe> others = recipes;
  for (std::size_t i = 1; i < others.size(); i += 2) {
    others[i].length *= 1.7; // some of them never done
    others[i].phases[0].air = 99.0;
  }
  for (const std::size_t threads : {std::size_t{1}, std::size_t{2}}) {
    const auto together = cook_slabs_in_packs(recipes, {}, threads);
    const auto mixed = cook_slabs_in_packs(others, {}, threads);
    for (std::size_t i = 0; i < recipes.size(); ++i) {
      for (const auto *packed : {&together[i], i % 2 == 0 ? &mixed[i] : &together[i]}) {
        INFO("cook ", i, " of ", threads, " threads");
        CHECK(packed->steps == alone[i].steps);
        CHECK(packed->reached[1] == doctest::Approx(alone[i].reached[1]).epsilon(1e-8));
        CHECK(packed->lost == doctest::Approx(alone[i].lost).epsilon(1e-8));
        REQUIRE(packed->middle.size() == alone[i].middle.size());
        double worst = 0.0;
        for (std::size_t k = 0; k < packed->middle.size(); ++k) {
          worst = std::fmax(worst, std::fabs(packed->middle[k] - alone[i].middle[k]));
        }
        CHECK(worst < 1e-6);
      }
    }
  }
}

TEST_CASE("operations of a step grow with the cells") {
  const long coarse = slab_step_operations(60);
  const long fine = slab_step_operations(120);
  CHECK(coarse > 61 * 100);
  CHECK(coarse < 61 * 600);
  CHECK(static_cast<double>(fine) / static_cast<double>(coarse) ==
        doctest::Approx(121.0 / 61.0).epsilon(0.02));
}
