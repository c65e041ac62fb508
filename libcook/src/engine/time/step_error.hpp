/// @file
/// How large the error of a step is, and whether it ended where a cook can be. For one cook, or lane by lane.
#pragma once

#include <cstddef>
#include <vector>

#include "engine/air/lumped.hpp"
#include "engine/cells/cell.hpp"
#include "engine/faces/face.hpp"
#include "engine/time/ros3.hpp"

namespace cook::engine {

/// Local error per step that is accepted, in the units of the state.
struct Tolerance {
  double temperature = 0.02; ///< [K]
  double water = 0.002;      ///< [kg/kg dry]
  double film = 0.002;       ///< [kg m⁻²]
};

template <class Real> class StepError {
public:
  using Vector = std::vector<Real>;

  explicit StepError(const Tolerance &tolerance) : tolerance_(tolerance) {}

  /// Mean square of error / tolerance over cells, films and lumped states: 1 is just accepted.
  template <class System>
  [[gnu::always_inline]] inline Real square(const System &system, const Vector &error) {
    gather_liquid(system, error);
    Real sum(0.0);
    for (std::size_t i = 0; i < system.nodes(); ++i) {
      sum = sum + of_cell(system, error, i);
    }
    Real liquids(0.0);
    for (std::size_t b = 0; b < system.faces(); ++b) {
      const Real liquid = error[system.liquid_index(b)] * (1.0 / tolerance_.film);
      liquids = liquids + liquid * liquid;
    }
    return sum * (1.0 / static_cast<double>(system.nodes())) +
           liquids * (0.5 / static_cast<double>(system.faces())) +
           system.lumped_error(error, tolerance_.temperature);
  }

  /// The cell where it is largest.
  template <class System> std::size_t worst(const System &system, const Vector &error) {
    gather_liquid(system, error);
    std::size_t at = 0;
    Real largest(-1.0);
    for (std::size_t i = 0; i < system.nodes(); ++i) {
      const Real here = of_cell(system, error, i);
      if (!(here <= largest)) {
        largest = here;
        at = i;
      }
    }
    return at;
  }

private:
  /// As a temperature: at a face, eta also counts the liquid's enthalpy and is no measure of it.
  template <class System> void gather_liquid(const System &system, const Vector &error) {
    liquid_heat_.assign(system.nodes(), Real(0.0));
    for (std::size_t b = 0; b < system.faces(); ++b) {
      const std::size_t i = system.face_node(b);
      liquid_heat_[i] =
          error[system.liquid_index(b)] * system.cells[i].t_liquid * system.area_of(b) / system.volume[i];
    }
  }
  template <class System>
  [[nodiscard]] Real of_cell(const System &system, const Vector &error, std::size_t i) const {
    const Cell<Real> &cell = system.cells[i];
    const Real heat = (error[2 * i] * cell.t_eta + error[2 * i + 1] * cell.t_x + liquid_heat_[i]) *
                      (1.0 / tolerance_.temperature);
    const Real water = error[2 * i + 1] * (1.0 / tolerance_.water);
    return heat * heat + water * water;
  }

  Tolerance tolerance_;
  Vector liquid_heat_; ///< error of the liquids as one of temperature, node by node
};

/// Whether a step from y ended in a state that a cook can reach: others come from steps too long. What a step
/// with an event in it has left behind may stay, but not grow worse.
template <class Real, class System>
[[gnu::always_inline]] inline MaskOf<Real> plausible(const System &system, const std::vector<Real> &y,
                                                     const std::vector<Real> &next) {
  constexpr double driest = -0.001; // kg/kg dry
  constexpr double wettest = 100.0;
  // Liquid may be overdrawn by what no face would notice, not by a whole tolerance.
  constexpr double overdrawn = -0.02 * film_reference;
  // How far the worst one is on the good side: neither its own value nor what has changed may be too low.
  const auto spare = [&](std::size_t at, Real low) { return max(next[at] - low, next[at] - y[at]); };
  Real least(1.0);
  Real wet(0.0);
  Real any_of(0.0); // not a number where one is not
  for (std::size_t i = 0; i < system.nodes(); ++i) {
    least = min(least, spare(2 * i + 1, Real(driest)));
    wet = max(wet, next[2 * i + 1]);
    any_of = any_of + (next[2 * i] + next[2 * i + 1]);
  }
  for (std::size_t b = 0; b < system.faces(); ++b) {
    least = min(least, spare(system.liquid_index(b), Real(overdrawn)));
    any_of = any_of + next[system.liquid_index(b)];
  }
  const MaskOf<Real> has_pan = system.drive.pan_area > Real(0.0);
  if (any(has_pan)) {
    const Real spilt = -0.02 * pan_last_film * system.drive.pan_area; // kg: what none would notice
    least = select(has_pan, min(least, spare(system.lumped_index(pan_water), spilt)), least);
  }
  return least >= Real(0.0) && wet < Real(wettest) && is_finite(any_of);
}

/// Of a step that has been made, in each lane.
template <class Real> struct Verdict {
  Real square;           ///< StepError::square
  MaskOf<Real> possible; ///< plausible()
};

/// Makes a step and says how good it is.
template <class Real, class System>
[[gnu::always_inline]] inline Verdict<Real>
step_and_judge(System &system, Ros3<Real> &stepper, StepError<Real> &measure, const Real &time,
               const std::vector<Real> &y, const std::vector<Real> &f, const Real &length,
               std::vector<Real> &next, std::vector<Real> &error) {
  stepper.step(system, time, y, f, length, next, error);
  return {measure.square(system, error), plausible<Real>(system, y, next)};
}

} // namespace cook::engine
