/// @file
/// Cooks of the one-dimensional reference problem through the library's stepper: alone, or a queue of them in
/// the lanes of a pack, each lane at its own time, step and phase, taking the next cook when its own is done.
#pragma once

#include <array>
#include <atomic>
#include <cmath>
#include <cstddef>
#include <vector>

#include "benchmarks/reference/accuracy.hpp"
#include "benchmarks/reference/lanes.hpp"
#include "benchmarks/reference/recipe.hpp"
#include "benchmarks/reference/slab_system.hpp"
#include "benchmarks/reference/trace.hpp"
#include "engine/arithmetic/scalar.hpp"
#include "engine/time/ros3.hpp"

namespace cook::reference {

template <class Real> class SlabRunner {
public:
  static constexpr std::size_t lanes = lanes_of<Real>;

  SlabRunner(std::size_t intervals, const Accuracy &accuracy)
      : accuracy_(accuracy), system_(intervals), stepper_(system_.size()), y_(system_.size()), f_(y_),
        next_(y_), error_(y_) {}

  /// Cooks all recipes from `queue` on; several runners may share it. Traces are written at the recipe's
  /// place.
  /// @param keep the temperature at every minute as well
  void run(const std::vector<Recipe> &recipes, std::atomic<std::size_t> &queue, bool keep,
           std::vector<Trace> &traces) {
    using engine::any;
    using engine::select;
    recipes_ = &recipes;
    traces_ = &traces;
    keep_ = keep;
    bool busy = false;
    for (std::size_t l = 0; l < lanes; ++l) {
      take(l, queue);
      busy = busy || lane_[l].busy;
    }
    bool changed = true;
    while (busy) {
      if (changed) {
        system_.linearise(Real(0.0), y_, f_);
      }
      stepper_.step(system_, Real(0.0), y_, f_, h_, next_, error_);
      const Real size = error_size();
      middle_rate_ = system_.middle_rate(next_);
      Mask moved{};
      for (std::size_t l = 0; l < lanes; ++l) {
        set_lane(moved, l, lane_[l].busy && advance(l, lane_of(size, l)));
      }
      for (std::size_t i = 0; i < y_.size(); ++i) {
        y_[i] = select(moved, next_[i], y_[i]);
      }
      changed = any(moved);
      busy = false;
      for (std::size_t l = 0; l < lanes; ++l) {
        if (lane_[l].done) {
          take(l, queue);
        }
        busy = busy || lane_[l].busy;
      }
    }
  }

private:
  using Mask = decltype(Real() < Real());

  /// Where a lane's cook stands.
  struct Lane {
    bool busy = false;
    bool done = false;
    bool located = false; ///< the step in hand ends where the middle reaches its target
    std::size_t cook = 0;
    std::size_t phase = 0;
    double time = 0.0;
    double wanted = 0.0; ///< step that the error allows; the step in hand may be cut short
    double end = 0.0;
    double start_water = 0.0;
  };

  void take(std::size_t l, std::atomic<std::size_t> &queue) {
    Lane &lane = lane_[l];
    const std::size_t cook = queue.fetch_add(1, std::memory_order_relaxed);
    lane = Lane{};
    if (cook >= recipes_->size()) { // the lane idles, in any state that stays finite
      system_.set(l, Recipe{}, 2);
      system_.start(l, Recipe{}, y_);
      set_lane(h_, l, 1.0);
      return;
    }
    const Recipe &recipe = (*recipes_)[cook];
    lane.busy = true;
    lane.cook = cook;
    lane.end = recipe.longest;
    system_.set(l, recipe, 0);
    system_.start(l, recipe, y_);
    lane.start_water = recipe.water;
    Trace &trace = (*traces_)[cook];
    trace = Trace{};
    if (keep_) {
      trace.middle.reserve(static_cast<std::size_t>(recipe.longest / output_every) + 1);
      trace.middle.push_back(recipe.start);
    }
    propose(l, accuracy_.first_step);
  }

  /// The step to try next, cut at the end of the cook.
  void propose(std::size_t l, double wanted) {
    Lane &lane = lane_[l];
    lane.wanted = wanted;
    lane.located = false;
    set_lane(h_, l, std::fmin(wanted, lane.end - lane.time));
  }

  /// Mean square of error / tolerance.
  [[nodiscard]] Real error_size() const {
    const double by_heat = 1.0 / (accuracy_.kelvin * accuracy_.kelvin);
    const double by_water = 1.0 / (accuracy_.water * accuracy_.water);
    // Several sums, which do not wait for each other.
    std::array<Real, 8> sum{};
    std::size_t i = 0;
    for (; i + sum.size() <= error_.size(); i += sum.size()) {
      for (std::size_t k = 0; k < sum.size(); ++k) {
        sum[k] = sum[k] + error_[i + k] * error_[i + k];
      }
    }
    for (; i < error_.size(); ++i) {
      sum[i % sum.size()] = sum[i % sum.size()] + error_[i] * error_[i];
    }
    const Real heat = (sum[0] + sum[2]) + (sum[4] + sum[6]);
    const Real water = (sum[1] + sum[3]) + (sum[5] + sum[7]);
    return (heat * by_heat + water * by_water) * (1.0 / static_cast<double>(error_.size()));
  }

  /// Looks at the step that has been tried in a lane.
  /// @param size mean square of error / tolerance
  /// @return whether the lane moves on to next_
  bool advance(std::size_t l, double size) {
    Lane &lane = lane_[l];
    const Recipe &recipe = (*recipes_)[lane.cook];
    Trace &trace = (*traces_)[lane.cook];
    const double step = lane_of(h_, l);
    ++trace.steps;
    trace.evaluations += 2;
    if (!(size <= 1.0)) { // or not a number
      ++trace.rejected;
      propose(l, step * (std::isfinite(size) ? std::fmax(0.2, 0.8 / std::cbrt(std::sqrt(size))) : 0.1));
      return false;
    }
    const std::size_t m = system_.middle();
    const double y0 = lane_of(y_[m], l);
    const double y1 = lane_of(next_[m], l);
    const double rate0 = lane_of(f_[m], l);
    const double rate1 = lane_of(middle_rate_, l);
    const bool arrived = lane.phase < 2 && y1 >= recipe.until[lane.phase];
    if (arrived && !lane.located) {
      // Where the cubic gets there; the step is made once more, to end there.
      const double wanted = lane.wanted;
      const double target = recipe.until[lane.phase];
      double low = 0.0;
      double high = 1.0;
      for (int halving = 0; halving < 30; ++halving) {
        const double share = 0.5 * (low + high);
        (between(share, step, y0, rate0, y1, rate1) < target ? low : high) = share;
      }
      propose(l, high * step);
      lane.wanted = wanted;
      lane.located = true;
      return false;
    }
    const double begin = lane.time;
    const bool last = step >= lane.end - begin;
    lane.time = last ? lane.end : begin + step;
    if (keep_) {
      for (double t = output_every * static_cast<double>(trace.middle.size()); t <= lane.time;
           t = output_every * static_cast<double>(trace.middle.size())) {
        trace.middle.push_back(between((t - begin) / step, step, y0, rate0, y1, rate1));
      }
    }
    if (last) {
      trace.end = lane.time;
      trace.lost = lane.start_water - lane_of(system_.mean_water(next_), l);
      lane.done = true;
    } else if (lane.located) {
      trace.reached[lane.phase] = lane.time;
      ++lane.phase;
      if (lane.phase == 2) {
        lane.end = std::fmin(recipe.longest, lane.time + recipe.rest);
      }
      system_.set(l, recipe, lane.phase);
      propose(l, accuracy_.first_step);
    } else {
      const double growth = 0.85 / std::cbrt(std::sqrt(std::fmax(size, 1e-4)));
      propose(l, std::fmax(step * std::fmin(growth, 4.0), step < lane.wanted ? lane.wanted : 0.0));
    }
    return true;
  }

  Accuracy accuracy_;
  SlabSystem<Real> system_;
  engine::Ros3<Real> stepper_;
  std::vector<Real> y_, f_, next_, error_;
  Real h_{1.0};
  Real middle_rate_{0.0};
  std::array<Lane, lanes> lane_{};
  const std::vector<Recipe> *recipes_ = nullptr;
  std::vector<Trace> *traces_ = nullptr;
  bool keep_ = false;
};

} // namespace cook::reference
