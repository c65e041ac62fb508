/// @file
/// A cook's equations for Boost.Odeint: any of its steppers and drivers can integrate them.
///
///     cook::Equations equations(plan, options);
///     const cook::OdeintEquations system(equations);
///     std::vector<double> y = equations.initial();
///     auto stepper = odeint::make_controlled<odeint::runge_kutta_dopri5<std::vector<double>>>(1e-7, 1e-7);
///     odeint::integrate_adaptive(stepper, system, y, 0.0, 3600.0, 0.5);   // an hour [s]
///     equations.core(y);                                                  // [°C]
///
/// Opt-in: nothing else of the library includes it, and it includes nothing of Boost itself, so that those
/// who bring Boost choose the version and what of it they want. The state is std::vector<double>, the time
/// [s].
///
/// The equations are stiff: an explicit stepper takes steps of about a second on a grid fit for cooks, so it
/// serves checks and experiments on a coarse one (Options::nodes, Options::face_spacing). simulate() takes an
/// implicit method of third order, finds the ends of stages, and closes the ledger.
#pragma once

#include <vector>

#include "cook/engine/equations.hpp"

namespace cook {

/// Odeint's System: called with a state, it gives its rates. Cheap to copy, as Odeint does; the equations
/// must outlive it, and serve one integration at a time.
/// @tparam Of Equations or SectionEquations
template <class Of = Equations> class OdeintEquations {
public:
  explicit OdeintEquations(Of &equations) : equations_(&equations) {}
  /// @throws InvalidInput when a size is not that of the equations' state
  void operator()(const std::vector<double> &y, std::vector<double> &rates, double seconds) const {
    equations_->rhs(seconds, y, rates);
  }

private:
  Of *equations_;
};

} // namespace cook
