/// @file
/// The engine's Rosenbrock method under the interfaces of Boost.Odeint, so that its drivers can run a
/// LineSystem.
///
/// Ros3Stepper models Odeint's concept Error Stepper, ControlledRos3 its concept Controlled Stepper: both
/// work with integrate_adaptive and integrate_const. They serve comparisons: the same rates through an
/// integrator that shares nothing with ours.
///
/// Cooks run on the library's own driver (step_control.hpp) instead, because Odeint's drivers
/// - locate no events: a stage ends where the core reaches a temperature, at a step made to end there, while
/// a driver
///   with an observer only learns that the step before last was too early;
/// - find events, where they can at all, through dense output, and the loops of its dense-output drivers run
/// without end
///   when a stiff problem makes the step control shrink the step below the resolution of the time;
/// - give no way to accept or reject a step by anything but its error estimate (a state no cook can reach),
/// to stop on
///   request with what has been computed, or to refresh what the denaturation remembers once per accepted
///   step.
///
/// This is the only header of the library that includes Boost; nothing public includes it.
#pragma once

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <vector>

#include <boost/numeric/odeint/stepper/controlled_step_result.hpp>
#include <boost/numeric/odeint/stepper/stepper_categories.hpp>
#include <boost/numeric/odeint/util/unwrap_reference.hpp>

#include "engine/equations/line_system.hpp"
#include "engine/time/ros3.hpp"
#include "engine/time/step_control.hpp"

namespace cook::engine {

/// A LineSystem as Odeint's System: called, it gives the rates; asked, the system itself. Cheap to copy, as
/// Odeint does; the system must outlive it. Its memory of denaturation stays as it is throughout (nothing
/// here calls remember()).
class OdeintSystem {
public:
  explicit OdeintSystem(LineSystem<double> &system) : system_(&system) {}
  void operator()(const std::vector<double> &x, std::vector<double> &rates, double t) const {
    system_->rhs(t, x, rates);
  }
  [[nodiscard]] LineSystem<double> &system() const { return *system_; }

private:
  LineSystem<double> *system_;
};

/// One step with an error estimate: Odeint's Error Stepper. System: an OdeintSystem or a reference wrapper of
/// one.
class Ros3Stepper {
public:
  using state_type = std::vector<double>;
  using deriv_type = std::vector<double>;
  using value_type = double;
  using time_type = double;
  using order_type = unsigned short;
  using stepper_category = boost::numeric::odeint::error_stepper_tag;

  [[nodiscard]] order_type order() const { return 3; }
  [[nodiscard]] order_type stepper_order() const { return 3; }
  [[nodiscard]] order_type error_order() const { return 2; }

  template <class System> void do_step(System system, state_type &x, time_type t, time_type dt) {
    do_step(system, x, t, next_, dt, error_);
    x.swap(next_);
  }
  template <class System>
  void do_step(System system, state_type &x, time_type t, time_type dt, state_type &error) {
    do_step(system, x, t, next_, dt, error);
    x.swap(next_);
  }
  template <class System>
  void do_step(System system, const state_type &x, time_type t, state_type &out, time_type dt) {
    do_step(system, x, t, out, dt, error_);
  }
  template <class System>
  void do_step(System system, const state_type &x, time_type t, state_type &out, time_type dt,
               state_type &error) {
    typename boost::numeric::odeint::unwrap_reference<System>::type &ode = system;
    LineSystem<double> &line = ode.system();
    for (state_type *v : {&out, &error, &rates_}) {
      v->resize(x.size());
    }
    method_.resize(x.size());
    line.linearise(t, x, rates_);
    method_.step(line, t, x, rates_, dt, out, error);
  }

private:
  Ros3<double> method_;
  state_type next_, error_, rates_;
};

/// Steps whose length follows the error: Odeint's Controlled Stepper.
class ControlledRos3 {
public:
  using state_type = Ros3Stepper::state_type;
  using deriv_type = Ros3Stepper::deriv_type;
  using value_type = Ros3Stepper::value_type;
  using time_type = Ros3Stepper::time_type;
  using stepper_type = Ros3Stepper;
  using stepper_category = boost::numeric::odeint::controlled_stepper_tag;

  explicit ControlledRos3(Tolerance tolerance = {}) : tolerance_(tolerance) {}

  /// Makes the step and moves (x, t) on, or leaves them and shortens dt; either way dt is the length to try
  /// next.
  template <class System>
  boost::numeric::odeint::controlled_step_result try_step(System system, state_type &x, time_type &t,
                                                          time_type &dt) {
    typename boost::numeric::odeint::unwrap_reference<System>::type &ode = system;
    stepper_.do_step(system, x, t, next_, dt, error_);
    const double size = error_size(ode.system().nodes());
    if (!(size <= 1.0)) { // a NaN as well
      dt *= std::isfinite(size) ? std::max(0.2, 0.8 / std::cbrt(size)) : 0.1;
      return boost::numeric::odeint::fail;
    }
    t += dt;
    x.swap(next_);
    dt *= std::min(4.0, 0.9 / std::cbrt(std::max(size, 1e-3)));
    return boost::numeric::odeint::success;
  }

  [[nodiscard]] stepper_type &stepper() { return stepper_; }
  [[nodiscard]] const stepper_type &stepper() const { return stepper_; }

private:
  /// Root mean square of error / tolerance over cells, films and box. The running totals follow from them.
  [[nodiscard]] double error_size(std::size_t nodes) const {
    double sum = 0.0;
    const auto add = [&sum](double error, double tolerance) {
      sum += error * error / (tolerance * tolerance);
    };
    for (std::size_t i = 0; i < nodes; ++i) {
      add(error_[2 * i], tolerance_.temperature);
      add(error_[2 * i + 1], tolerance_.water);
    }
    add(error_[2 * nodes], tolerance_.film);
    add(error_[2 * nodes + 1], tolerance_.film);
    add(error_[2 * nodes + 2], tolerance_.temperature);
    return std::sqrt(sum / static_cast<double>(2 * nodes + 3));
  }

  Tolerance tolerance_;
  stepper_type stepper_;
  state_type next_, error_;
};

} // namespace cook::engine
