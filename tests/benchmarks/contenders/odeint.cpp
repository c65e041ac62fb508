#include "benchmarks/contenders/odeint.hpp"

#include <algorithm>
#include <cmath>
#include <utility>
#include <vector>

#include <boost/numeric/odeint.hpp>
#include <boost/numeric/ublas/matrix.hpp>
#include <boost/numeric/ublas/vector.hpp>

#include "benchmarks/reference/equations.hpp"

namespace cook::contenders {

namespace odeint = boost::numeric::odeint;
namespace ublas = boost::numeric::ublas;
using reference::Recipe;
using reference::Trace;

namespace {

template <class System> struct Rates {
  System *system;
  long *evaluations;
  template <class State> void operator()(const State &y, State &f, double /*t*/) const {
    ++*evaluations;
    system->rates(&y[0], &f[0]);
  }
};

struct SlabJacobian {
  reference::SlabEquations *system;
  void operator()(const ublas::vector<double> &y, ublas::matrix<double> &j, const double & /*t*/,
                  ublas::vector<double> &by_time) const {
    j.clear();
    by_time.clear();
    system->jacobian(&y[0],
                     [&j](std::size_t row, std::size_t column, double value) { j(row, column) += value; });
  }
};

/// Odeint locates no events: where a step has passed one, the dense output is bisected, and the stepper
/// starts again there.
template <class Stepper, class State, class System, class Ode>
Trace run(Stepper stepper, State y, System &system, const Ode &ode, const Recipe &recipe) {
  constexpr double first_step = 1.0; // s
  Trace trace;
  const std::size_t m = system.middle();
  State between(y);
  double end = recipe.longest;
  std::size_t phase = 0;
  system.set(recipe, 0);
  system.start(recipe, &y[0]);
  trace.middle.push_back(recipe.start);
  stepper.initialize(y, 0.0, first_step);
  const auto middle_at = [&](double t) {
    stepper.calc_state(t, between);
    return between[m];
  };
  for (;;) {
    stepper.do_step(ode);
    ++trace.steps;
    double now = stepper.current_time();
    const bool arrived = phase < 2 && stepper.current_state()[m] >= recipe.until[phase];
    if (arrived) {
      double low = stepper.previous_time();
      for (int halving = 0; halving < 45; ++halving) {
        const double half = 0.5 * (low + now);
        (middle_at(half) < recipe.until[phase] ? low : now) = half;
      }
    }
    const double shown = std::min(now, end);
    for (double t = reference::output_every * static_cast<double>(trace.middle.size()); t <= shown;
         t = reference::output_every * static_cast<double>(trace.middle.size())) {
      trace.middle.push_back(middle_at(t));
    }
    if (now >= end) {
      stepper.calc_state(end, between);
      break;
    }
    if (arrived) {
      stepper.calc_state(now, y);
      trace.reached[phase] = now;
      ++phase;
      system.set(recipe, phase);
      if (phase == 2) {
        end = std::min(recipe.longest, now + recipe.rest);
      }
      stepper.initialize(y, now, first_step);
    }
  }
  trace.end = end;
  trace.lost = recipe.water - system.mean_water(&between[0]);
  return trace;
}

template <class System> Trace dopri5(System &system, const Recipe &recipe, double tolerance) {
  using State = std::vector<double>;
  long evaluations = 0;
  Trace trace =
      run(odeint::make_dense_output(10.0 * tolerance, tolerance, odeint::runge_kutta_dopri5<State>()),
          State(system.size()), system, Rates<System>{&system, &evaluations}, recipe);
  trace.evaluations = evaluations;
  return trace;
}

} // namespace

Trace dopri5_slab(const Recipe &recipe, std::size_t intervals, double tolerance) {
  reference::SlabEquations system(intervals);
  return dopri5(system, recipe, tolerance);
}

Trace rosenbrock4_slab(const Recipe &recipe, std::size_t intervals, double tolerance) {
  reference::SlabEquations system(intervals);
  using State = ublas::vector<double>;
  long evaluations = 0;
  Trace trace =
      run(odeint::make_dense_output<odeint::rosenbrock4<double>>(10.0 * tolerance, tolerance),
          State(system.size()), system,
          std::pair(Rates<reference::SlabEquations>{&system, &evaluations}, SlabJacobian{&system}), recipe);
  trace.evaluations = evaluations;
  return trace;
}

} // namespace cook::contenders
