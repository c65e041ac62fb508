/// A cook by steppers of Boost.Odeint, through the public header that its users take.
#include <doctest/doctest.h>

#include <cmath>
#include <vector>

#include <boost/numeric/odeint.hpp>

#include "cook/engine/odeint.hpp"
#include "cook/engine/section_equations.hpp"
#include "cook/errors.hpp"
#include "cooks.hpp"

using namespace cook;
using namespace cook::testing;
namespace odeint = boost::numeric::odeint;

namespace {

using State = std::vector<double>;

/// A quarter of an hour on a grid that explicit steps can afford.
struct ShortCook {
  Plan plan = bare_cook(114.0);
  Options options;
  static constexpr double seconds = 900.0;

  ShortCook() {
    plan.stages[0].until = {{EndKind::elapsed, seconds}};
    options.nodes = 11;
    options.face_spacing = 4e-3;
    options.temperature_tolerance = 1e-5;
    options.water_tolerance = 1e-6;
  }
};

} // namespace

TEST_CASE("any stepper of Odeint integrates a cook as simulate() does") {
  const ShortCook cook;
  Equations equations(cook.plan, cook.options);
  const OdeintEquations system(equations);
  const auto outcome = simulate(cook.plan, cook.options);
  const auto agrees = [&](const State &y) {
    MESSAGE("core differs by ", equations.core(y) - outcome->core.back(), " K");
    CHECK(std::fabs(equations.core(y) - outcome->core.back()) < 1e-4);
    const State t = equations.temperatures(y); // the middle's nodes, then the rim's
    CHECK(std::fabs(t[t.size() / 2 - 1] - outcome->surface[1].back()) < 1e-2);
    CHECK(t[t.size() / 2 - 1] > cook.plan.meat.start + 20.0); // it has got somewhere
  };
  const auto adaptive = [&](auto stepper) {
    State y = equations.initial();
    odeint::integrate_adaptive(stepper, system, y, 0.0, ShortCook::seconds, 0.5);
    agrees(y);
  };
  adaptive(odeint::make_controlled<odeint::runge_kutta_dopri5<State>>(1e-7, 1e-7));
  adaptive(odeint::make_controlled<odeint::runge_kutta_cash_karp54<State>>(1e-7, 1e-7));
  adaptive(odeint::make_dense_output<odeint::runge_kutta_dopri5<State>>(1e-7, 1e-7));
  State y = equations.initial();
  odeint::integrate_const(odeint::runge_kutta4<State>(), system, y, 0.0, ShortCook::seconds, 0.5);
  agrees(y);
}

TEST_CASE("a state of another size is refused inside a driver too") {
  const ShortCook cook;
  Equations equations(cook.plan, cook.options);
  State y(3, 0.0);
  CHECK_THROWS_AS(
      odeint::integrate_const(odeint::runge_kutta4<State>(), OdeintEquations(equations), y, 0.0, 1.0, 0.5),
      InvalidInput);
}

TEST_CASE("the equations of a cross-section go through Odeint too") {
  Plan plan = bare_cook(114.0);
  Options options;
  options.grid = GridKind::cross_section;
  options.columns = 11;
  options.rows = 9;
  options.face_spacing = 3e-3;
  SectionEquations equations(plan, options);
  const OdeintEquations system(equations);
  State y = equations.initial();
  const double before = equations.water(y);
  State rates(y.size());
  system(y, rates, 0.0);
  CHECK(equations.heat(rates) > 0.0);
  odeint::integrate_const(odeint::runge_kutta4<State>(), system, y, 0.0, 60.0, 0.25);
  CHECK(equations.water(y) > before); // cold meat in a pit: dew settles first
  CHECK(equations.water(y) < 1.01 * before);
  CHECK(equations.core(y) == doctest::Approx(plan.meat.start).epsilon(0.05));
}
