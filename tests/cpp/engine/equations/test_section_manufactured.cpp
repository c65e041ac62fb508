/// Observed order of accuracy of the coupled equations on a curved, strongly graded cross-section, in space
/// and time together, by manufactured solutions (manufactured_section.hpp).
#include <doctest/doctest.h>

#include <array>
#include <cmath>
#include <numbers>
#include <vector>

#include "cook/meat/shape.hpp"
#include "engine/equations/manufactured_section.hpp"
#include "engine/grids/sections.hpp"
#include "engine/stages/stage_setup.hpp"
#include "engine/time/ros3.hpp"

using namespace cook;
using namespace cook::engine;
using namespace cook::testing;

namespace {

/// Root-mean-square errors over the volume at the end.
struct Errors {
  double temperature = 0.0; ///< [K]
  double water = 0.0;       ///< [kg/kg dry]
};

/// The conditions of all runs: a real pit with a ripple acts on the faces. Juice is not squeezed: its
/// mobility comes from the upwind side, which is first order, as test_manufactured.cpp shows.
class Trial {
public:
  explicit Trial(const SectionGrid &grid) : grid_(&grid), table_(specimen().tissue, physics) {}

  /// The state at the end of the fields, after equal steps.
  [[nodiscard]] std::vector<double> state(int steps) const {
    ManufacturedSection system(*grid_, table_, fields_);
    Stage stage;
    stage.surroundings = pit("offset", 110.0);
    stage.wrap.top.vapour_resistance = 50.0;
    system.inner.set_faces(face_settings(specimen(), stage, physics));
    system.inner.drive.air.fill(110.0);
    system.inner.drive.vapour = 8000.0;
    system.inner.drive.ripple.fill(5.0);
    system.inner.drive.ripple_rate.fill(2.0 * std::numbers::pi / 3600.0);
    system.inner.drive.varies = true;
    system.inner.passes = Options{}.sweeps;
    Ros3<double> method(system.inner.size());
    std::vector<double> y = system.exact(0.0);
    std::vector<double> f(y.size()), next(y.size()), ignored(y.size());
    const double h = fields_.seconds / steps;
    for (int i = 0; i < steps; ++i) {
      system.linearise(i * h, y, f);
      method.step(system, i * h, y, f, h, next, ignored);
      y.swap(next);
    }
    return y;
  }

  /// From the fields.
  [[nodiscard]] Errors errors(const std::vector<double> &y) const {
    SectionSystem system(*grid_, {&table_, &table_, &table_});
    system.evaluate_cells(y);
    return mean_square([&](std::size_t p) {
      const double x = grid_->x[p];
      const double z = grid_->z[p];
      return Errors{system.cells[p].t - fields_.temperature(x, z, fields_.seconds).value,
                    y[2 * p + 1] - fields_.water(x, z, fields_.seconds).value};
    });
  }

  /// Of one state from another; temperature as enthalpy over the reference capacity.
  [[nodiscard]] Errors difference(const std::vector<double> &a, const std::vector<double> &b) const {
    return mean_square([&](std::size_t p) {
      return Errors{a[2 * p] - b[2 * p], a[2 * p + 1] - b[2 * p + 1]};
    });
  }

private:
  static constexpr Physics physics{.squeezing = false};

  static Meat specimen() {
    Meat meat = brisket(6.0);
    meat.tissue.sinks.fat_melt_start = 55.0; // so that melting is under way as well
    meat.tissue.sinks.fat_melt_end = 85.0;
    return meat;
  }

  template <class At> [[nodiscard]] Errors mean_square(const At &at) const {
    Errors sum;
    double volume = 0.0;
    for (std::size_t p = 0; p < grid_->x.size(); ++p) {
      const Errors off = at(p);
      sum.temperature += grid_->volume[p] * off.temperature * off.temperature;
      sum.water += grid_->volume[p] * off.water * off.water;
      volume += grid_->volume[p];
    }
    return {std::sqrt(sum.temperature / volume), std::sqrt(sum.water / volume)};
  }

  const SectionGrid *grid_;
  PropertyTable table_;
  PlaneFields fields_;
};

double order(double coarse, double fine) { return std::log2(coarse / fine); }

} // namespace

TEST_CASE("the coupled equations on a curved, graded section are second order in space and time together") {
  // 61 x 25, 121 x 49 and 241 x 97 nodes in 60, 120 and 240 steps. Spacings differ by a factor of twenty and
  // more, the top slopes by up to 0.4. Conduction with k(T, X), melting, denaturation, held water with its
  // mobility of T and X, and evaporation, radiation and liquid on every face are all there.
  RefinedSections meshes;
  std::array<Errors, 3> error;
  const std::array<int, 3> steps{60, 120, 240};
  for (std::size_t level = 0; level < error.size(); ++level) {
    const SectionGrid grid = meshes.next();
    const Trial trial(grid);
    error[level] = trial.errors(trial.state(steps[level]));
  }
  MESSAGE("T error ", error[2].temperature, " K, orders ", order(error[0].temperature, error[1].temperature),
          " ", order(error[1].temperature, error[2].temperature), "; X error ", error[2].water,
          " kg/kg, orders ", order(error[0].water, error[1].water), " ",
          order(error[1].water, error[2].water));
  CHECK(error[0].temperature < 0.02);
  CHECK(error[0].water < 2e-4);
  CHECK(order(error[0].temperature, error[1].temperature) > 1.8);
  CHECK(order(error[1].temperature, error[2].temperature) > 1.9);
  CHECK(order(error[0].water, error[1].water) > 1.5); // X_hold(T) is steep for the coarsest mesh
  CHECK(order(error[1].water, error[2].water) > 1.8);
  for (const double last :
       {order(error[1].temperature, error[2].temperature), order(error[1].water, error[2].water)}) {
    CHECK(last < 2.3);
  }
}

TEST_CASE("in time alone a section is nearly third order, with the sweeps that simulate() takes") {
  // One mesh, its error in space left out by comparing with many more steps. The method's order is three;
  // what the sweeps leave of each solve, and cells at the faces (see test_manufactured.cpp), cost a little of
  // it.
  RefinedSections meshes;
  const SectionGrid grid = meshes.next();
  const Trial trial(grid);
  const std::vector<double> fine = trial.state(640);
  std::array<Errors, 3> error;
  int steps = 40;
  for (Errors &level : error) {
    level = trial.difference(trial.state(steps), fine);
    steps *= 2;
  }
  MESSAGE("40, 80, 160 steps: T errors ", error[0].temperature, " ", error[1].temperature, " ",
          error[2].temperature, " K; X errors ", error[0].water, " ", error[1].water, " ", error[2].water,
          " kg/kg");
  for (std::size_t i = 0; i + 1 < error.size(); ++i) {
    CHECK(order(error[i].temperature, error[i + 1].temperature) > 2.5);
    CHECK(order(error[i].water, error[i + 1].water) > 2.5);
  }
  CHECK(error[1].temperature < 1e-3);
}
