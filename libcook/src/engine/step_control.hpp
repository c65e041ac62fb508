/// @file
/// Adaptive steps: accepts or repeats a step by its estimated error, and never loops without progress.
#pragma once

#include <cmath>
#include <cstddef>
#include <string>
#include <vector>

#include "engine/cell.hpp"
#include "engine/face.hpp"
#include "engine/ros3.hpp"

namespace cook::engine {

/// Local error per step that is accepted, in the units of the state.
struct Tolerance {
  double temperature = 0.02; ///< [K]
  double water = 0.002;      ///< [kg/kg dry]
  double film = 0.002;       ///< [kg m⁻²]
};

/// Why a step could not be made.
struct StepTrouble {
  double time = 0.0;
  std::size_t cell = 0; ///< where the error estimate was largest
  std::string what;
};

/// For any system of cells and faces (LineSystem, SectionSystem); one that can learn from a failed step is
/// asked to.
template <class System> class StepControl {
public:
  StepControl(std::size_t size, Tolerance tolerance)
      : tolerance_(tolerance), stepper_(size), next_(size), error_(size) {}

  /// The step that will be tried next [s].
  double h = 1.0;
  int accepted = 0;
  int rejected = 0;
  int evaluations = 0;
  int factorisations = 0;

  /// Forgets how large the last step was: call after something jumped.
  void restart(double first = 2.0) { h = first; }

  /// One accepted step, at most to `end`. (t, y) must be linearised with rates f; t and y move on.
  /// @return false when no step could be made; see trouble()
  bool advance(System &system, double &t, std::vector<double> &y, const std::vector<double> &f, double end) {
    constexpr int most_tries = 60;
    // Near the clock's own resolution: a face held by a huge film coefficient settles within 1e-9 s.
    const double shortest = 1e-12 + 1e-15 * std::fabs(t); // s
    bool after_rejection = false;
    std::size_t worst = 0;
    for (int tries = 0; tries < most_tries; ++tries) {
      const double left = end - t;
      // The last two steps before a fixed moment share what is left, so that no sliver remains.
      const bool last = h >= left * (1.0 - 1e-9);
      const double step = last ? left : (h > 0.5 * left ? 0.5 * left : h);
      stepper_.step(system, t, y, f, step, next_, error_);
      ++factorisations;
      ++evaluations;
      const double size = error_size(system, worst);
      if (size <= 1.0 && plausible(system, y)) {
        const double growth = 0.8 / std::cbrt(std::fmax(size, 1e-3));
        const double proposal = step * std::fmin(after_rejection ? 1.0 : 4.0, std::fmax(growth, 0.3));
        // A step cut short by the end says little about the next one: keep the larger of the two.
        h = step < h && !after_rejection ? std::fmax(h, proposal) : proposal;
        t = last ? end : t + step;
        y.swap(next_);
        ++accepted;
        return true;
      }
      ++rejected;
      if constexpr (requires { system.learn(t, y); }) {
        // Far off: a flux has switched on that the Jacobian knew nothing of. Once it knows, the step may
        // stay as long.
        constexpr double far_off = 3.0;
        if (tries == 0 && (!(size <= far_off) || !plausible(system, y)) && system.learn(t, y)) {
          ++evaluations;
          h = step;
          continue;
        }
      }
      after_rejection = true;
      h = step *
          (std::isfinite(size) && size < 1e6 ? std::fmax(0.2, 0.7 / std::cbrt(std::fmax(size, 1.0))) : 0.1);
      if (h < shortest) {
        break;
      }
    }
    trouble_ = {t, worst, "the step shrank to nothing"};
    return false;
  }

  /// A step of exactly `step` without error control, into `result`; for event location.
  void trial(System &system, double t, const std::vector<double> &y, const std::vector<double> &f,
             double step, std::vector<double> &result) {
    stepper_.step(system, t, y, f, step, result, error_);
    ++factorisations;
    ++evaluations;
  }

  [[nodiscard]] const StepTrouble &trouble() const { return trouble_; }
  /// Holds the stages of the last step, for dense output.
  [[nodiscard]] const Ros3<double> &stepper() const { return stepper_; }

private:
  /// Root mean square of error / tolerance over cells, films and lumped states; infinite when anything is not
  /// finite.
  double error_size(const System &system, std::size_t &worst) {
    const std::size_t n = system.nodes();
    const double by_heat = 1.0 / tolerance_.temperature;
    const double by_water = 1.0 / tolerance_.water;
    // As a temperature: at a face, eta also counts the film's enthalpy and is no measure of it.
    film_heat_.assign(n, 0.0);
    double films = 0.0;
    for (std::size_t b = 0; b < system.faces(); ++b) {
      const std::size_t i = system.face_node(b);
      const double error = error_[system.film_index(b)];
      film_heat_[i] = error * system.cells[i].t_liquid * system.area_of(b) / system.volume[i];
      const double film = error / tolerance_.film;
      films += film * film;
    }
    double sum = 0.0;
    double largest = -1.0;
    for (std::size_t i = 0; i < n; ++i) {
      const Cell<double> &cell = system.cells[i];
      const double heat =
          (error_[2 * i] * cell.t_eta + error_[2 * i + 1] * cell.t_x + film_heat_[i]) * by_heat;
      const double water = error_[2 * i + 1] * by_water;
      const double both = heat * heat + water * water;
      sum += both;
      if (!(both <= largest)) {
        largest = both;
        worst = i;
      }
    }
    sum = sum / static_cast<double>(n) + 0.5 * films / static_cast<double>(system.faces());
    sum += system.lumped_error(error_, tolerance_.temperature);
    return std::isfinite(sum) ? std::sqrt(sum) : HUGE_VAL;
  }

  /// Rejects states that no cook can reach: they come from steps too long.
  /// What a step with an event in it has left behind may stay, but not grow worse.
  [[nodiscard]] bool plausible(const System &system, const std::vector<double> &y) const {
    constexpr double lowest = -0.001; // kg/kg dry
    const std::size_t n = system.nodes();
    for (std::size_t i = 0; i < n; ++i) {
      const double x = next_[2 * i + 1];
      if (!((x > lowest || x >= y[2 * i + 1]) && x < 100.0 && std::isfinite(next_[2 * i]))) {
        return false;
      }
    }
    // A film may be overdrawn by what no face would notice, not by a whole tolerance.
    constexpr double overdrawn = -0.02 * film_reference;
    for (std::size_t b = 0; b < system.faces(); ++b) {
      const double film = next_[system.film_index(b)];
      if (!(film > overdrawn || film >= y[system.film_index(b)])) {
        return false;
      }
    }
    return true;
  }

  Tolerance tolerance_;
  Ros3<double> stepper_;
  std::vector<double> next_, error_, film_heat_;
  StepTrouble trouble_;
};

} // namespace cook::engine
