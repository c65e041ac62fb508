#include "engine/packs/pack_run.hpp"

#include <algorithm>
#include <chrono>
#include <cmath>
#include <utility>

#include "engine/packs/pack_scatter.hpp"
#include "engine/packs/pack_steps.hpp"
#include "engine/runs/runs.hpp"

namespace cook::engine {

/// A cook in its lane.
template <std::size_t Lines> struct PackRun<Lines>::Lane {
  std::size_t index = 0;
  LineCook<Lines> cook;
  int taken = -1;      ///< its changes() when the lane last took its conditions over
  bool arrives = true; ///< its state is new: arrive() once it is linearised
  bool steps = false;  ///< the step being made counts
  StepSize::Try next;  ///< that step
  std::array<bool, 2 * Lines> resists_heat{};
  bool varies = false;
  std::chrono::steady_clock::time_point begun = std::chrono::steady_clock::now();
};

template <std::size_t Lines>
PackRun<Lines>::PackRun(const Options &options, PackQueue queue)
    : options_(&options), queue_(std::move(queue)),
      measure_({.temperature = options.temperature_tolerance, .water = options.water_tolerance}) {}

template <std::size_t Lines> PackRun<Lines>::~PackRun() = default;

/// Whatever goes wrong in a lane ends its cook, and no other's.
template <std::size_t Lines> template <class Work> void PackRun<Lines>::guarded(std::size_t lane, Work work) {
  try {
    work(*lanes_[lane]);
  } catch (...) {
    finish(lane, std::current_exception());
  }
}

template <std::size_t Lines> void PackRun<Lines>::finish(std::size_t lane, std::exception_ptr failure) {
  const std::unique_ptr<Lane> over = std::move(lanes_[lane]);
  std::shared_ptr<Outcome> outcome;
  if (!failure) {
    outcome = over->cook.run->outcome();
    const std::chrono::duration<double> took = std::chrono::steady_clock::now() - over->begun;
    outcome->ledger.solver_seconds = took.count() / static_cast<double>(pack_lanes);
  }
  queue_.done(over->index, std::move(outcome), std::move(failure));
}

/// Puts the next cook into a lane; one that cannot begin is given back at once.
template <std::size_t Lines> void PackRun<Lines>::fill(std::size_t lane) {
  while (!lanes_[lane]) {
    const std::optional<std::size_t> index = queue_.next();
    if (!index) {
      return;
    }
    lanes_[lane] = std::make_unique<Lane>();
    lanes_[lane]->index = *index;
    guarded(lane, [&](Lane &l) {
      const Plan &plan = queue_.plan(*index);
      plan.validate();
      check_films(plan, *options_);
      l.cook = make_line_cook<Lines>(plan, *options_, tables_.of(plan.meat.tissue, options_->physics));
      l.cook.run->begin();
    });
    if (lanes_[lane]) {
      load(lane);
    }
  }
}

/// From the first cook, whose values all lanes get, so that an empty one has numbers to compute with.
template <std::size_t Lines> void PackRun<Lines>::make_system(const Cook &cook) {
  const One &one = const_cast<Cook &>(cook).system(); // NOLINT: read only
  Grid grid;
  grid.lines = Lines;
  grid.position.assign(one.nodes(), 0.0);
  grid.volume = one.volume;
  grid.edge_area = one.conductance;
  grid.edge_spacing.assign(one.conductance.size(), 1.0);
  grid.across = one.across;
  grid.face_area.assign(one.area.begin(), one.area.end());
  for (std::size_t lane = 0; lane < pack_lanes; ++lane) {
    table_.set(lane, one.table());
  }
  system_ = std::make_unique<System>(grid, table_);
  stepper_.resize(system_->size());
  for (auto *v : {&y_, &f_, &next_, &error_}) {
    v->assign(system_->size(), Pack(0.0));
  }
}

/// A new cook's geometry, tissue, state and conditions.
template <std::size_t Lines> void PackRun<Lines>::load(std::size_t lane) {
  Cook &cook = *lanes_[lane]->cook.run;
  One &one = cook.system();
  const bool first = !system_;
  if (first) {
    make_system(cook);
  }
  Lane &l = *lanes_[lane];
  for (std::size_t to = first ? 0 : lane; to < (first ? pack_lanes : lane + 1); ++to) {
    lane_tables_[to] = l.cook.table;
    table_.set(to, *l.cook.table);
    for (std::size_t i = 0; i < one.nodes(); ++i) {
      system_->volume[i].set(to, one.volume[i]);
      system_->per_volume[i].set(to, one.per_volume[i]);
      if (i < one.conductance.size()) {
        system_->conductance[i].set(to, one.conductance[i]);
      }
      if (i < one.across.size()) {
        system_->across[i].set(to, one.across[i]);
      }
      Memory<Pack> &memory = system_->memory[i];
      memory.peak.set(to, one.memory[i].peak);
      memory.held_cap.set(to, one.memory[i].held_cap);
      memory.denat_floor.set(to, one.memory[i].denat_floor);
      Cell<Pack> &cell = system_->cells[i];
      cell.base_t.set(to, one.cells[i].t);
      for (Pack *zero :
           {&cell.t_eta, &cell.t_x, &cell.t_liquid, &cell.base_eta, &cell.base_x, &cell.base_liquid}) {
        zero->set(to, 0.0);
      }
    }
    for (std::size_t s = 0; s < one.area.size(); ++s) {
      system_->area[s].set(to, one.area[s]);
    }
    for (std::size_t s = 0; s < 2; ++s) {
      system_->face_area[s].set(to, one.face_area[s]);
    }
    take_conditions(to, l);
    take_state(to, l);
  }
}

template <std::size_t Lines> void PackRun<Lines>::take_conditions(std::size_t lane, Lane &l) {
  const One &one = l.cook.run->system();
  for (std::size_t s = 0; s < one.face.size(); ++s) {
    set_lane(system_->face[s], lane, one.face[s]);
    l.resists_heat[s] = one.face[s].resists_heat;
  }
  set_lane(system_->drive, lane, one.drive);
  l.varies = one.drive.varies;
  const auto any_lane = [&](auto of) {
    return std::any_of(lanes_.begin(), lanes_.end(), [&](const auto &other) { return other && of(*other); });
  };
  for (std::size_t s = 0; s < one.face.size(); ++s) {
    system_->face[s].resists_heat = any_lane([s](const Lane &o) { return o.resists_heat[s]; });
  }
  system_->drive.varies = any_lane([](const Lane &o) { return o.varies; });
  l.taken = l.cook.run->changes();
}

template <std::size_t Lines> void PackRun<Lines>::take_state(std::size_t lane, const Lane &l) {
  const std::vector<double> &y = l.cook.run->state();
  for (std::size_t i = 0; i < y.size(); ++i) {
    y_[i].set(lane, y[i]);
  }
  time_.set(lane, l.cook.run->time());
}

/// What arrive() reads, of all lanes that arrive.
template <std::size_t Lines> void PackRun<Lines>::give_states() {
  LaneTargets<double> y{}, f{};
  LaneTargets<Cell<Pack>> cells{};
  for (std::size_t lane = 0; lane < pack_lanes; ++lane) {
    if (lanes_[lane] && lanes_[lane]->arrives) {
      Cook &cook = *lanes_[lane]->cook.run;
      y[lane] = cook.state().data();
      f[lane] = cook.rates().data();
      cells[lane] = cook.system().cells.data();
    }
  }
  scatter(y_, y);
  scatter(f_, f);
  scatter_temperatures(system_->cells, cells);
}

/// The states at the end of accepted steps, and the stages that led there.
template <std::size_t Lines> void PackRun<Lines>::take_steps(const PackMask &accepted) {
  std::array<LaneTargets<double>, 3> to{};
  for (std::size_t lane = 0; lane < pack_lanes; ++lane) {
    if (accepted[lane]) {
      const auto stages = lanes_[lane]->cook.run->control().stepper().stages();
      for (std::size_t k = 0; k < to.size(); ++k) {
        to[k][lane] = stages[k]->data();
      }
      time_.set(lane, lanes_[lane]->cook.run->time());
    }
  }
  replace(accepted, next_, y_);
  const auto from = std::as_const(stepper_).stages();
  for (std::size_t k = 0; k < to.size(); ++k) {
    scatter(*from[k], to[k]);
  }
}

/// At a state that has been linearised.
template <std::size_t Lines> void PackRun<Lines>::arrive(std::size_t lane) {
  guarded(lane, [&](Lane &l) {
    Cook &cook = *l.cook.run;
    ++cook.control().evaluations;
    if (l.arrives) {
      l.steps = cook.arrive();
      if (cook.over()) {
        finish(lane, nullptr);
        return;
      }
      if (!l.steps) {
        take_state(lane, l);
      }
      l.arrives = !l.steps;
    }
    l.next = cook.next_step();
  });
}

template <std::size_t Lines> bool PackRun<Lines>::judge(std::size_t lane, const StepVerdict &verdict) {
  bool accepted = false;
  guarded(lane, [&](Lane &l) {
    if (!l.steps) {
      return;
    }
    Cook &cook = *l.cook.run;
    const double square = verdict.square[lane];
    const double off = std::isfinite(square) ? std::sqrt(square) : HUGE_VAL;
    if (!cook.takes_any_error() && !(off <= 1.0 && verdict.possible[lane])) {
      if (cook.reject(l.next, off)) {
        std::vector<double> error(error_.size());
        std::transform(error_.begin(), error_.end(), error.begin(),
                       [lane](const Pack &e) { return e[lane]; });
        cook.stuck(error);
      }
      return;
    }
    cook.accept(l.next, off);
    accepted = l.arrives = true;
  });
  return accepted;
}

template <std::size_t Lines> void PackRun<Lines>::run(std::size_t most) {
  for (;;) {
    bool any_left = false;
    for (std::size_t lane = 0; lane < std::min(most, pack_lanes); ++lane) {
      fill(lane);
      any_left = any_left || lanes_[lane];
    }
    if (!any_left) {
      return;
    }
    for (std::size_t lane = 0; lane < pack_lanes; ++lane) {
      // Only here: between a linearisation and its step no lane's conditions may change, as some are shared.
      if (lanes_[lane] && lanes_[lane]->cook.run->changes() != lanes_[lane]->taken) {
        take_conditions(lane, *lanes_[lane]);
      }
      if (!lanes_[lane]) {
        system_->drive.balance[lane].reset(); // nobody reads its rates
      }
      system_->look_ahead.set(lane, lanes_[lane] ? lanes_[lane]->cook.run->look_ahead() : 1.0);
    }
    linearise(*system_, time_, y_, f_);
    give_states();
    PackMask booked{};
    length_ = Pack(1.0);
    for (std::size_t lane = 0; lane < pack_lanes; ++lane) {
      if (lanes_[lane]) {
        arrive(lane);
      }
      if (lanes_[lane]) {
        booked.set(lane, lanes_[lane]->cook.run->take_booked());
        length_.set(lane, lanes_[lane]->steps ? lanes_[lane]->next.length : 1.0);
      }
    }
    const StepVerdict verdict =
        step(*system_, stepper_, measure_, booked, time_, y_, f_, length_, next_, error_);
    PackMask accepted{};
    for (std::size_t lane = 0; lane < pack_lanes; ++lane) {
      accepted.set(lane, lanes_[lane] && judge(lane, verdict));
    }
    take_steps(accepted);
  }
}

template class PackRun<1>;
template class PackRun<2>;

} // namespace cook::engine
