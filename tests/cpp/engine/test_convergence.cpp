/// Finer grids and tighter tolerances change nothing that matters, and conduction alone meets the textbook
/// series.
#include <doctest/doctest.h>

#include <cmath>
#include <numbers>
#include <string>

#include "cooks.hpp"

using namespace cook;
using namespace cook::testing;

namespace {

constexpr double warm_by = 100.0; // K, air above the start

/// Nothing but conduction in a body of constant properties behind a constant film coefficient.
struct Conduction {
  double bi;
  ShapeKind kind = ShapeKind::slab;
  static constexpr double half = 0.03;
  static constexpr FixedThermal thermal{.conductivity = 0.5, .heat_capacity = 3.6e6};

  [[nodiscard]] static double seconds(double fourier) {
    return fourier * half * half * thermal.heat_capacity / thermal.conductivity;
  }
  /// Temperature excess left, as a share of the initial one, at the core and at the face.
  struct Theta {
    double core, face;
  };
  [[nodiscard]] Theta run(double fourier, int nodes, double face_spacing) const {
    Plan plan;
    plan.meat.tissue.fixed = thermal;
    plan.meat.shape = {.kind = kind, .thickness = 2.0 * half, .extent = 0.1};
    plan.meat.fat_cap.side = FatSide::none;
    plan.meat.start = 5.0;
    Stage stage;
    stage.surroundings = oven(5.0 + warm_by);
    stage.surroundings.bottom =
        stage.surroundings.top = {Convection::given, bi * thermal.conductivity / half, 0.06};
    stage.until = {{EndKind::elapsed, seconds(fourier)}};
    plan.stages = {stage};
    Options options;
    options.grid = GridKind::slab; // endless: without sides and ends
    options.nodes = nodes;
    options.face_spacing = face_spacing;
    options.temperature_tolerance = 2e-5;
    options.physics = {.evaporation = false, .squeezing = false, .radiation = false, .sinks = false};
    const auto out = simulate(plan, options);
    return {(5.0 + warm_by - out->core.back()) / warm_by, (5.0 + warm_by - out->surface[1].back()) / warm_by};
  }
};

double bisect(double low, double high, double (*f)(double, double), double bi) {
  for (int i = 0; i < 80; ++i) {
    const double middle = 0.5 * (low + high);
    (f(middle, bi) < 0.0 ? low : high) = middle;
  }
  return 0.5 * (low + high);
}

/// Series for the plane wall with a film on both faces: roots of z tan z = Bi, one in each branch of the
/// tangent.
Conduction::Theta wall_series(double bi, double fourier) {
  Conduction::Theta theta{0.0, 0.0};
  for (int i = 0; i < 40; ++i) {
    const double z = bisect(
        i * std::numbers::pi, (i + 0.5) * std::numbers::pi - 1e-12,
        [](double x, double b) {
          return x * std::sin(x) / std::fabs(std::cos(x)) * (std::cos(x) < 0.0 ? -1.0 : 1.0) - b;
        },
        bi);
    const double c = 4.0 * std::sin(z) / (2.0 * z + std::sin(2.0 * z)) * std::exp(-z * z * fourier);
    theta.core += c;
    theta.face += c * std::cos(z);
  }
  return theta;
}

} // namespace

TEST_CASE("a plane wall follows the series solution") {
  // Incropera & DeWitt, Fundamentals of Heat and Mass Transfer, sec. 5.5 and Table 5.1: at Bi = 1 the first
  // root is 0.8603 with C = 1.1191, so one term at Fo = 1 gives 1.1191 exp(-0.8603^2).
  CHECK(wall_series(1.0, 1.0).core == doctest::Approx(1.1191 * std::exp(-0.8603 * 0.8603)).epsilon(2e-4));
  double worst = 0.0;
  for (const double bi : {0.5, 1.0, 5.0}) {
    for (const double fourier : {0.2, 0.5, 1.0}) {
      INFO("Bi ", bi, " Fo ", fourier);
      const auto exact = wall_series(bi, fourier);
      const auto ours = Conduction{bi}.run(fourier, 81, 0.15e-3);
      worst = std::max({worst, std::fabs(ours.core - exact.core), std::fabs(ours.face - exact.face)});
      CHECK(std::fabs(ours.core - exact.core) < 5e-4);
      CHECK(std::fabs(ours.face - exact.face) < 5e-4);
    }
  }
  MESSAGE("plane wall: largest error ", worst, " of the initial excess");
}

TEST_CASE("a long cylinder follows the first term of its series once that term is all that is left") {
  // Incropera & DeWitt, Table 5.1: Bi = h R / k, first root and coefficient for the infinite cylinder. Four
  // digits are printed.
  struct Entry {
    double bi, root, coefficient;
  };
  for (const Entry &e :
       {Entry{0.5, 0.9408, 1.1143}, Entry{1.0, 1.2558, 1.2071}, Entry{5.0, 1.9898, 1.5029}}) {
    constexpr double fourier = 0.6;
    const double core = e.coefficient * std::exp(-e.root * e.root * fourier);
    const double face = core * std::cyl_bessel_j(0.0, e.root);
    const auto ours = Conduction{e.bi, ShapeKind::cylinder}.run(fourier, 81, 0.15e-3);
    INFO("Bi ", e.bi);
    CHECK(std::fabs(ours.core - core) < 1e-3);
    CHECK(std::fabs(ours.face - face) < 1e-3);
  }
}

TEST_CASE("the error of conduction falls with the square of the spacing") {
  for (const double bi : {1.0, 5.0}) {
    constexpr double uniform = 0.04; // wider than any spacing: an even grid
    const auto exact = wall_series(bi, 0.5);
    const Conduction wall{bi};
    const double coarse = wall.run(0.5, 21, uniform).core - exact.core;
    const double middle = wall.run(0.5, 41, uniform).core - exact.core;
    const double fine = wall.run(0.5, 81, uniform).core - exact.core;
    const double first = std::log2(coarse / middle);
    const double second = std::log2(middle / fine);
    MESSAGE("Bi ", bi, ": observed orders ", first, " and ", second);
    CHECK(first > 1.8);
    CHECK(first < 2.2);
    CHECK(second > 1.8);
    CHECK(second < 2.2);
  }
}

TEST_CASE("finish times of whole cooks are converged to one per cent in grid and in tolerance") {
  struct Named {
    std::string name;
    Plan plan;
  };
  for (const Named &cook :
       {Named{"bare", bare_cook(121.0)}, Named{"paper", wrapped_cook(121.0, "butcher paper", 65.6)},
        Named{"foil", wrapped_cook(121.0, "foil", 65.6)}}) {
    const double usual = finish_hours(*simulate(cook.plan));
    Options finer;
    finer.nodes = 81;
    finer.face_spacing = 0.5 * slab_face_spacing;
    Options tighter;
    tighter.temperature_tolerance *= 0.5;
    tighter.water_tolerance *= 0.5;
    Options both = finer;
    both.temperature_tolerance = 1e-3;
    both.water_tolerance = 1e-4;
    const double by_grid = finish_hours(*simulate(cook.plan, finer)) / usual - 1.0;
    const double by_tolerance = finish_hours(*simulate(cook.plan, tighter)) / usual - 1.0;
    const double by_both = finish_hours(*simulate(cook.plan, both)) / usual - 1.0;
    MESSAGE(cook.name, " ", usual, " h: grid ", 100.0 * by_grid, " %, tolerance ", 100.0 * by_tolerance,
            " %, both much tighter ", 100.0 * by_both, " %");
    CHECK(std::fabs(by_grid) < 0.01);
    CHECK(std::fabs(by_tolerance) < 0.01);
    CHECK(std::fabs(by_both) < 0.01);
  }
}
