/// The two-dimensional reference problem of the benchmarks, and the stabilised explicit method that solves
/// it.
#include <doctest/doctest.h>

#include <cmath>
#include <vector>

#include "benchmarks/reference/equations.hpp"
#include "benchmarks/reference/rectangle_cook.hpp"
#include "benchmarks/reference/rkc.hpp"

using namespace cook::reference;

TEST_CASE("the stabilised explicit method is of second order, and stable as far as it says") {
  // y' = (y_2, -y_1): a turn, over a unit of time.
  const auto turn = [](const std::vector<double> &y, std::vector<double> &f) { f = {y[1], -y[0]}; };
  const auto error = [&](int steps) {
    Rkc method(2);
    std::vector<double> y{0.0, 1.0}, f(2), next(2), f_next(2);
    turn(y, f);
    for (int i = 0; i < steps; ++i) {
      method.step(turn, y, f, 1.0 / steps, 4, next, f_next);
      y.swap(next);
      f.swap(f_next);
    }
    return std::hypot(y[0] - std::sin(1.0), y[1] - std::cos(1.0));
  };
  CHECK(error(40) / error(80) == doctest::Approx(4.0).epsilon(0.05));
  // y' = -k y for all k up to the radius: no step grows.
  for (const double product : {5.0, 50.0, 400.0}) {
    const std::size_t stages = Rkc::stages(1.0, product);
    for (double k = 0.02 * product; k <= product; k += 0.01 * product) {
      Rkc method(1);
      const auto decay = [k](const std::vector<double> &y, std::vector<double> &f) { f = {-k * y[0]}; };
      std::vector<double> y{1.0}, f{-k}, next(1), f_next(1);
      method.step(decay, y, f, 1.0, stages, next, f_next);
      INFO("h k ", k, " with ", stages, " stages");
      CHECK(std::fabs(next[0]) <= 1.0);
    }
  }
}

TEST_CASE("the power method finds the spectral radius, from above") {
  const std::vector<double> rates_of{-1.0, -7.0, -40.0, -3.0};
  const auto decay = [&](const std::vector<double> &y, std::vector<double> &f) {
    for (std::size_t i = 0; i < y.size(); ++i) {
      f[i] = rates_of[i] * y[i];
    }
  };
  Rkc method(4);
  const std::vector<double> y{1.0, 1.0, 1.0, 1.0};
  std::vector<double> f(4);
  decay(y, f);
  const double radius = method.radius(decay, y, f);
  CHECK(radius >= 40.0);
  CHECK(radius < 50.0);
}

TEST_CASE("the reference rectangle is the reference slab where nothing varies along it") {
  RectangleEquations rectangle(10, 20);
  SlabEquations slab(20);
  Recipe recipe;
  recipe.height = 0.06;
  Recipe across = recipe;
  across.length = recipe.height;
  rectangle.set(recipe, 0);
  slab.set(across, 0);
  std::vector<double> y(rectangle.size()), f(y), line(slab.size()), line_f(line);
  for (std::size_t j = 0; j <= 20; ++j) {
    const double x = static_cast<double>(j) / 20.0;
    line[2 * j] = 30.0 + 50.0 * x * x;
    line[2 * j + 1] = 0.7 - 0.6 * x;
    for (std::size_t i = 0; i < 11; ++i) {
      y[j * 11 + i] = line[2 * j];
      y[rectangle.size() / 2 + j * 11 + i] = line[2 * j + 1];
    }
  }
  slab.rates(line.data(), line_f.data());
  rectangle.rates(y.data(), f.data());
  for (std::size_t j = 0; j <= 20; ++j) {
    CHECK(f[j * 11 + 5] == doctest::Approx(line_f[2 * j]).epsilon(1e-9));
    CHECK(f[rectangle.size() / 2 + j * 11 + 5] == doctest::Approx(line_f[2 * j + 1]).epsilon(1e-9));
  }
}

TEST_CASE("the Jacobian of the reference rectangle is the derivative of its rates") {
  RectangleEquations system(10, 12);
  system.set(rectangle_recipe(), 0);
  const std::size_t n = system.size();
  std::vector<double> y(n);
  for (std::size_t p = 0; p < n / 2; ++p) {
    y[p] = 50.0 + 20.0 * std::sin(0.9 * static_cast<double>(p));
    y[n / 2 + p] = 0.35 + 0.3 * std::cos(1.3 * static_cast<double>(p));
  }
  std::vector<double> jacobian(n * n);
  system.jacobian(y.data(),
                  [&](std::size_t i, std::size_t j, double value) { jacobian[i * n + j] += value; });
  std::vector<double> up(n);
  std::vector<double> down(n);
  for (std::size_t j = 0; j < n; ++j) {
    const double h = j < n / 2 ? 1e-3 : 1e-5;
    std::vector<double> z = y;
    z[j] += h;
    system.rates(z.data(), up.data());
    z[j] -= 2.0 * h;
    system.rates(z.data(), down.data());
    for (std::size_t i = 0; i < n; ++i) {
      INFO("row ", i, " column ", j);
      CHECK(jacobian[i * n + j] == doctest::Approx((up[i] - down[i]) / (2.0 * h)).epsilon(1e-5).scale(1e-5));
    }
  }
}

TEST_CASE("the reference rectangle reaches its targets when the converged cook does") {
  // Converged in time with another integrator: 215.498 and 376.161 min.
  RectangleOptions options;
  options.accuracy = rectangle_accuracy.times(1500.0);
  const Trace fine = cook_rectangle(rectangle_recipe(), options);
  CHECK(std::fabs(fine.reached[0] / 60.0 - 215.498) < 0.01);
  CHECK(std::fabs(fine.reached[1] / 60.0 - 376.161) < 0.01);
  const Trace trace = cook_rectangle(rectangle_recipe(), {});
  REQUIRE(trace.middle.size() + 1 >= fine.middle.size());
  double worst = 0.0;
  for (std::size_t k = 0; k < trace.middle.size() && k < fine.middle.size(); ++k) {
    worst = std::fmax(worst, std::fabs(trace.middle[k] - fine.middle[k]));
  }
  MESSAGE("largest error ", worst, " K");
  CHECK(worst < 0.05);
}
