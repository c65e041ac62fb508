/// The same rates through Boost.Odeint, a general-purpose reference library, and through the engine's own
/// method.
#include <doctest/doctest.h>

#include <functional>
#include <limits>
#include <memory>
#include <type_traits>
#include <vector>

#include <boost/numeric/odeint.hpp>

#include "cook/meat/shape.hpp"
#include "engine/stages/stage_setup.hpp"
#include "engine/time/odeint_stepper.hpp"

using namespace cook;
using namespace cook::engine;
namespace odeint = boost::numeric::odeint;

namespace {

using State = std::vector<double>;

/// Two and a half hours of a cook on a grid so coarse that explicit steps are affordable: warming,
/// evaporation from film and from tissue, squeezing, run-off, a fat cap below and a ripple in the air.
struct Bench {
  Meat meat = brisket(6.0);
  Stage stage;
  PropertyTable table{meat.tissue, Physics{}};
  Grid grid = make_grid(meat.shape, 13, 2e-3);
  LineSystem<double> system{grid, table};
  State start;
  static constexpr double end = 2.5 * 3600.0;

  explicit Bench(double ripple = 0.0) {
    stage.surroundings = pit("kettle", 135.0);
    system.set_faces(face_settings(meat, stage, Physics{}));
    system.drive.air.fill(135.0);
    system.drive.vapour = stage.surroundings.vapour_pressure.at(0.0);
    system.drive.ripple.fill(ripple);
    system.drive.ripple_rate.fill(2.0 * 3.14159265358979 / 900.0);
    system.drive.varies = ripple != 0.0;
    Row<double> row;
    table.lookup(meat.start, row);
    const double enthalpy = row.value[col_dry_h] + table.solids * table.raw_water * row.value[col_water_h] +
                            row.value[col_denat_h];
    start.assign(system.size(), 0.0);
    for (std::size_t i = 0; i < system.nodes(); ++i) {
      start[2 * i] = enthalpy / table.reference_capacity;
      start[2 * i + 1] = table.raw_water;
    }
  }

  double core(const State &y) {
    State rates(y.size());
    system.rhs(end, y, rates); // leaves the cells at y
    return system.cells[grid.middle].t;
  }
  [[nodiscard]] double water(const State &y) const {
    double sum = 0.0;
    for (std::size_t i = 0; i < system.nodes(); ++i) {
      sum += system.volume[i] * table.solids * y[2 * i + 1];
    }
    return sum;
  }
  [[nodiscard]] double evaporated(const State &y) const {
    return y[system.total_index(0, FacePath::evaporated)] + y[system.total_index(1, FacePath::evaporated)];
  }
};

constexpr Tolerance tight{.temperature = 1e-4, .water = 1e-5, .film = 1e-5};

State by_own_driver(Bench &b) {
  StepControl<LineSystem<double>> control(b.system.size(), tight);
  State y = b.start;
  State f(y.size());
  double t = 0.0;
  while (t < Bench::end) {
    b.system.linearise(t, y, f);
    REQUIRE(control.advance(b.system, t, y, f, Bench::end));
  }
  return y;
}

State by_ros3_under_odeint(Bench &b) {
  State y = b.start;
  OdeintSystem system(b.system);
  odeint::integrate_adaptive(ControlledRos3(tight), std::ref(system), y, 0.0, Bench::end, 1.0);
  return y;
}

State by_dormand_prince(Bench &b) {
  State y = b.start;
  OdeintSystem system(b.system);
  const auto stepper = odeint::make_controlled<odeint::runge_kutta_dopri5<State>>(1e-7, 1e-7);
  odeint::integrate_adaptive(stepper, std::ref(system), y, 0.0, Bench::end, 0.5);
  return y;
}

} // namespace

TEST_CASE("an explicit Runge-Kutta method of a reference library finds the same cook") {
  for (const double ripple : {0.0, 8.0}) {
    Bench b(ripple);
    const State reference = by_dormand_prince(b);
    const double core = b.core(reference);
    // The cook must have got somewhere, with every mechanism at work, for the comparison to mean anything.
    CHECK(core > 50.0);
    CHECK(b.evaporated(reference) > 0.5);
    CHECK(b.system.cells[2].phi > 0.0); // juice is squeezed out and on its way
    CHECK(b.system.cells[0].phi < 0.0); // to a face that has begun to dry
    for (const State &ours : {by_ros3_under_odeint(b), by_own_driver(b)}) {
      MESSAGE("core differs by ", b.core(ours) - core, " K, water by ",
              b.water(ours) / b.water(reference) - 1.0);
      CHECK(std::fabs(b.core(ours) - core) < 0.02);
      CHECK(b.water(ours) == doctest::Approx(b.water(reference)).epsilon(1e-4));
      CHECK(b.evaporated(ours) == doctest::Approx(b.evaporated(reference)).epsilon(1e-3));
      for (std::size_t s = 0; s < 2; ++s) {
        CHECK(std::fabs(ours[b.system.liquid_index(s)] - reference[b.system.liquid_index(s)]) < 1e-4);
      }
    }
  }
}

TEST_CASE("Odeint's fixed-step driver takes the method as an Error Stepper and sees order three") {
  Bench b;
  OdeintSystem system(b.system);
  const auto run = [&](double step) { // ten minutes from half an hour on, when the first transient is over
    State y = b.start;
    odeint::integrate_adaptive(ControlledRos3(tight), std::ref(system), y, 0.0, 1800.0, 1.0);
    odeint::integrate_const(Ros3Stepper(), std::ref(system), y, 1800.0, 2400.0, step);
    return y;
  };
  const State exact = run(1.25);
  const auto off = [&](const State &y) {
    double sum = 0.0;
    for (std::size_t i = 0; i < 2 * b.system.nodes(); i += 2) {
      sum += (y[i] - exact[i]) * (y[i] - exact[i]);
    }
    return std::sqrt(sum);
  };
  const double order = std::log2(off(run(40.0)) / off(run(20.0)));
  MESSAGE("observed order ", order);
  CHECK(order > 2.5);
}

TEST_CASE("the error stepper's forms agree, and its estimate shrinks like the cube of the step") {
  static_assert(std::is_same_v<Ros3Stepper::stepper_category, odeint::error_stepper_tag>);
  static_assert(std::is_same_v<ControlledRos3::stepper_category, odeint::controlled_stepper_tag>);
  Bench b;
  OdeintSystem system(b.system);
  Ros3Stepper stepper;
  CHECK(stepper.order() == 3);
  State y = b.start;
  odeint::integrate_adaptive(ControlledRos3(tight), system, y, 0.0, 1800.0,
                             1.0); // by value: copies are fine too
  State in_place = y;
  State out, error, half_out, half_error;
  stepper.do_step(std::ref(system), in_place, 1800.0, 20.0);
  stepper.do_step(std::ref(system), y, 1800.0, out, 20.0, error);
  stepper.do_step(std::ref(system), y, 1800.0, half_out, 10.0, half_error);
  for (std::size_t i = 0; i < out.size();
       ++i) { // but for the rounding of temperatures found from other first guesses
    CHECK(in_place[i] == doctest::Approx(out[i]).epsilon(1e-9));
  }
  CHECK(error[0] != 0.0);
  CHECK(std::log2(std::fabs(error[0] / half_error[0])) > 2.0);
  // A step far too long is refused and shortened; state and time stay.
  State kept = b.start;
  double t = 0.0;
  double dt = 2e4;
  ControlledRos3 controlled(tight);
  CHECK(controlled.try_step(std::ref(system), kept, t, dt) == odeint::fail);
  CHECK(dt < 1e4);
  CHECK(t == 0.0);
  CHECK(kept == b.start);
}

TEST_CASE("a state that is no number: the steps give up, say where, and leave the state as it was") {
  Bench b;
  State y = b.start, rates(b.system.size());
  constexpr std::size_t spoilt = 5;
  y[2 * spoilt + 1] = std::numeric_limits<double>::quiet_NaN(); // its water
  const State before = y;
  double time = 0.0;
  StepControl<LineSystem<double>> control(b.system.size(), Tolerance{});
  b.system.linearise(time, y, rates);
  CHECK_FALSE(control.advance(b.system, time, y, rates, Bench::end));
  CHECK(control.accepted == 0);
  CHECK(control.rejected <= 60);
  CHECK(time == 0.0);
  CHECK(y[0] == before[0]);
  CHECK(control.trouble() < b.system.nodes());
}
