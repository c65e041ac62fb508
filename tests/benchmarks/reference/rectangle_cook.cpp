#include "benchmarks/reference/rectangle_cook.hpp"

#include <array>
#include <cmath>
#include <vector>

#include "benchmarks/reference/rectangle_system.hpp"
#include "benchmarks/reference/rkc.hpp"
#include "engine/arithmetic/vector_clones.hpp"

namespace cook::reference {

namespace {

/// Mean square of error / tolerance.
COOK_PACK_CLONES
double error_size(const std::vector<double> &y, const std::vector<double> &y_new,
                  const std::vector<double> &f, const std::vector<double> &f_new, double h,
                  const Accuracy &accuracy) {
  const std::size_t n = y.size() / 2;
  std::array<double, 2> sum{};
  for (std::size_t part = 0; part < 2; ++part) {
    for (std::size_t i = part * n; i < (part + 1) * n; ++i) {
      const double error = Rkc::error(y[i], y_new[i], f[i], f_new[i], h);
      sum[part] += error * error;
    }
  }
  return (sum[0] / (accuracy.kelvin * accuracy.kelvin) + sum[1] / (accuracy.water * accuracy.water)) /
         static_cast<double>(y.size());
}

} // namespace

Trace cook_rectangle(const Recipe &recipe, const RectangleOptions &options) {
  constexpr int radius_every = 25; // steps
  RectangleSystem system(options.along, options.across);
  const std::size_t n = system.size();
  const std::size_t m = system.middle();
  std::vector<double> y(n);
  std::vector<double> f(n);
  std::vector<double> y_new(n);
  std::vector<double> f_new(n);
  Rkc method(n);
  const auto rates = [&system](const std::vector<double> &at, std::vector<double> &out) {
    system.rhs(at.data(), out.data());
  };
  Trace trace;
  system.set(recipe, 0);
  system.start(recipe, y.data());
  trace.middle.push_back(recipe.start);
  double time = 0.0;
  double end = recipe.longest;
  double h = options.accuracy.first_step;
  double radius = 0.0;
  std::size_t phase = 0;
  int age = radius_every; // of the radius, in steps
  bool located = false;
  rates(y, f);
  while (time < end) {
    if (age >= radius_every) {
      radius = method.radius(rates, y, f);
      age = 0;
    }
    const bool last = h >= end - time;
    const double step = last ? end - time : h;
    method.step(rates, y, f, step, Rkc::stages(step, radius), y_new, f_new);
    ++trace.steps;
    ++age;
    const double size = error_size(y, y_new, f, f_new, step, options.accuracy);
    if (!(size <= 1.0)) { // or not a number
      ++trace.rejected;
      located = false;
      h = step * (std::isfinite(size) ? std::fmax(0.2, 0.8 / std::cbrt(std::sqrt(size))) : 0.1);
      age = radius_every;
      continue;
    }
    const auto at = [&](double share) { return between(share, step, y[m], f[m], y_new[m], f_new[m]); };
    if (phase < 2 && y_new[m] >= recipe.until[phase] && !located) {
      // Where the cubic gets there; the step is made once more, to end there.
      double low = 0.0;
      double high = 1.0;
      for (int halving = 0; halving < 30; ++halving) {
        const double share = 0.5 * (low + high);
        (at(share) < recipe.until[phase] ? low : high) = share;
      }
      h = high * step;
      located = true;
      continue;
    }
    const double begin = time;
    time = last ? end : begin + step;
    for (double t = output_every * static_cast<double>(trace.middle.size()); t <= time;
         t = output_every * static_cast<double>(trace.middle.size())) {
      trace.middle.push_back(at((t - begin) / step));
    }
    y.swap(y_new);
    f.swap(f_new);
    if (located) {
      located = false;
      trace.reached[phase] = time;
      ++phase;
      if (phase == 2) {
        end = std::fmin(recipe.longest, time + recipe.rest);
      }
      system.set(recipe, phase);
      rates(y, f);
      h = options.accuracy.first_step;
      age = radius_every;
    } else {
      h = step * std::fmin(4.0, 0.8 / std::cbrt(std::sqrt(std::fmax(size, 1e-4))));
    }
  }
  trace.end = time;
  trace.lost = recipe.water - system.mean_water(y.data());
  trace.evaluations = method.evaluations;
  return trace;
}

} // namespace cook::reference
