#include "fit/forecast/ensemble.hpp"

#include <algorithm>
#include <cmath>
#include <optional>

#include "fit/calibrate/followed_plan.hpp"
#include "fit/forecast/error_ahead.hpp"
#include "fit/forecast/outlook.hpp"
#include "fit/random.hpp"
#include "fit/run_many.hpp"

namespace cook::fit {

namespace {

using Eigen::VectorXd;

constexpr double hottest_pit = 179.0;    // °C: what a pit's surroundings accept, and a little less
constexpr double hottest_oven = 259.0;   // °C
constexpr double patience = 36 * 3600.0; // s: a member that needs longer counts as never there
constexpr double rate_window = 1800.0;   // s
constexpr double soon = 60.0;            // s: a stage that is not over ends no sooner than that
constexpr double grid_points = 160.0;

bool waits_for_core(const Stage &stage) {
  return std::any_of(stage.until.begin(), stage.until.end(),
                     [](const End &e) { return e.kind == EndKind::core; });
}

/// When a trace first reached a value, up to `until`.
std::optional<double> reached(const Outcome &out, double value, double from, double until) {
  for (std::size_t i = 1; i < out.times() && out.time[i] <= until; ++i) {
    if (out.time[i] > from && out.core[i] >= value && out.core[i] > out.core[i - 1]) {
      const double share = std::clamp((value - out.core[i - 1]) / (out.core[i] - out.core[i - 1]), 0.0, 1.0);
      return out.time[i - 1] + share * (out.time[i] - out.time[i - 1]);
    }
  }
  return {};
}

/// Turns a simulated run into what the clock on the wall will show.
class Timekeeper {
public:
  Timekeeper(const Ensemble &ensemble, const ErrorAhead &ahead, const std::vector<Stage> &remaining)
      : ensemble_(ensemble), ahead_(ahead), remaining_(remaining) {}

  /// Real ends of the stages; draws the member's pace when it is fresh.
  Finished finish(Member &member, const Outcome &out, bool whole, bool fresh, std::size_t done) {
    const Followed &followed = ensemble_.problem.logs.front().followed;
    const double now = followed.now;
    Finished made;
    made.stage_end = followed.end;
    const std::size_t under_way = followed.plan.stages.size() - followed.end.size(); // 1: a part lies behind
    double real = now;
    double unjoined = now; // the model alone
    double simulated = now;
    double shift_before = ahead_.shift(now, 0.0, member).mean;
    bool drawn = false; // the pace, at the first stage that waits
    std::vector<std::size_t> timed;
    anchors_.assign(1, {now, now});
    for (std::size_t k = 0; k < remaining_.size(); ++k) {
      const std::size_t at = followed.end.size() + under_way + k;
      if (at >= out.stage_ends.size() || (!whole && at + 1 == out.stage_ends.size() && !ended(out, at))) {
        made.stage_end.insert(made.stage_end.end(), remaining_.size() - k, never);
        break;
      }
      const Stage &stage = remaining_[k];
      const double sim_end = out.stage_ends[at].time;
      const bool joined = followed.end.size() + k <= done;
      if (waits(stage)) {
        const double target = core_target(stage) - ensemble_.problem.sensor_offset(0, member.u);
        const bool by_core = waits_for_core(stage);
        double there = sim_end;
        if (k == 0 && by_core) { // it may have been past it before now
          there = reached(out, target, 0.0, std::min(now, sim_end)).value_or(sim_end);
        }
        const double rate = by_core ? rate_at(out, there) : 0.0;
        const auto error = ahead_.shift(std::max(there, now), rate, member);
        if (fresh && !drawn) {
          draw(member, made, k == 0 ? there - now - error.mean : never, error.deviation);
        }
        drawn = true;
        const double shift = error.mean + error.deviation * member.pace;
        if (k == 0) {
          const double left = there - error.mean - error.deviation * member.pace - now;
          unjoined = now + std::max(left, soon);
          real = joined ? now + std::max(ensemble_.joining.left(unjoined - now), soon) : unjoined;
        } else {
          const double longer = std::max(sim_end - simulated - (shift - shift_before), soon);
          unjoined += longer;
          real = joined ? std::max(now + ensemble_.joining.left(unjoined - now), real + soon) : real + longer;
        }
        shift_before = shift;
      } else {
        const double before = real;
        real = timed_end(stage, real, sim_end - simulated);
        unjoined += real - before;
      }
      simulated = sim_end;
      made.stage_end.push_back(real);
      anchors_.push_back({real, simulated});
      if (!waits(stage) && followed.end.size() + k < done) {
        timed.push_back(anchors_.size() - 1);
      }
    }
    // Where a clock ends a stage the meat is as far ahead or behind as its pace has made it.
    for (auto at = timed.rbegin(); at != timed.rend(); ++at) {
      Anchor &anchor = anchors_[*at];
      const auto error = ahead_.shift(anchor.simulated, 0.0, member);
      const double most = *at + 1 < anchors_.size() ? anchors_[*at + 1].simulated : anchor.simulated;
      anchor.simulated = std::clamp(anchor.simulated + error.mean + error.deviation * member.pace, now, most);
    }
    return made;
  }

  /// Time in the simulation that goes with one on the wall, after finish().
  [[nodiscard]] double simulated(double real, const Member &member) const {
    const double now = anchors_.front().real;
    if (real <= now) {
      return real + ahead_.shift(real, 0.0, member).mean;
    }
    for (std::size_t k = 1; k < anchors_.size(); ++k) {
      if (real <= anchors_[k].real) {
        // Begins where the past left off.
        const double begun = k == 1 ? now + ahead_.shift(now, 0.0, member).mean : anchors_[k - 1].simulated;
        const double share = (real - anchors_[k - 1].real) / (anchors_[k].real - anchors_[k - 1].real);
        return begun + share * (anchors_[k].simulated - begun);
      }
    }
    return anchors_.back().simulated + real - anchors_.back().real;
  }
  /// End of the stage that is under way [s].
  [[nodiscard]] double first_end() const { return anchors_.size() > 1 ? anchors_[1].real : anchors_[0].real; }

private:
  struct Anchor {
    double real, simulated;
  };

  static bool ended(const Outcome &out, std::size_t at) { return !out.stage_ends[at].reason.empty(); }

  /// Draws the member's normal, cut so that what it means lies after now.
  /// @param left until then at the mean [s]; `never`: the stage is not under way, and nothing is cut
  static void draw(Member &member, Finished &made, double left, double deviation) {
    constexpr double least = 1e-6;
    if (deviation <= 0.0) {
      made.not_done = left > 0.0 ? 1.0 : least;
      member.pace = 0.0;
      return;
    }
    made.not_done = std::max(normal_share(left / deviation), least);
    member.pace = normal_quantile(std::clamp(member.chance * made.not_done, 1e-12, 1.0 - 1e-12));
  }

  [[nodiscard]] double timed_end(const Stage &stage, double from, double simulated_length) const {
    for (const End &end : stage.until) {
      if (end.kind == EndKind::clock && ensemble_.plan.clock_start) {
        constexpr double day = 86400.0;
        double wait = std::fmod(end.value - *ensemble_.plan.clock_start - from, day);
        wait += wait < 0.0 ? day : 0.0;
        return from + std::max(wait, soon);
      }
    }
    return from + simulated_length;
  }

  const Ensemble &ensemble_;
  const ErrorAhead &ahead_;
  const std::vector<Stage> &remaining_;
  std::vector<Anchor> anchors_;
};

/// The place that a uniform number falls on.
std::size_t picked(const std::vector<double> &shares, double chance) {
  std::size_t at = 0;
  for (double passed = shares[0]; at + 1 < shares.size() && passed < chance; passed += shares[at]) {
    ++at;
  }
  return at;
}

std::vector<double> make_grid(const std::vector<Finished> &members, std::size_t done) {
  std::vector<double> last;
  for (const Finished &m : members) {
    if (std::isfinite(m.stage_end[done])) {
      last.push_back(m.stage_end[done]);
    }
  }
  std::vector<double> grid;
  if (last.empty()) {
    return grid;
  }
  std::sort(last.begin(), last.end());
  const double end = last[static_cast<std::size_t>(0.99 * static_cast<double>(last.size() - 1))];
  const double step = std::max(60.0, std::ceil(end / grid_points / 60.0) * 60.0);
  const auto points = static_cast<std::size_t>(std::ceil(end / step)) + 1;
  grid.reserve(points);
  for (std::size_t i = 0; i < points; ++i) {
    grid.push_back(static_cast<double>(i) * step); // whole minutes: exact
  }
  return grid;
}

} // namespace

bool waits(const Stage &stage) {
  return std::any_of(stage.until.begin(), stage.until.end(),
                     [](const End &e) { return known(e.kind).warming; });
}

double hottest_air(const Signal &planned) {
  return planned.maximum() <= hottest_pit ? hottest_pit : hottest_oven;
}

double rate_at(const Outcome &out, double time) {
  const double before = std::max(out.time.front(), time - rate_window);
  const double length = std::max(time - before, 1.0);
  return std::max((core_of(out, time) - core_of(out, before)) / length, least_rate);
}

double core_target(const Stage &stage) {
  double target = never;
  for (const End &end : stage.until) {
    target = end.kind == EndKind::core ? std::min(target, end.value) : target;
  }
  return target;
}

std::vector<Stage> remaining_stages(const Plan &plan, const Followed &followed) {
  std::vector<Stage> stages(plan.stages.begin() + static_cast<std::ptrdiff_t>(followed.current),
                            plan.stages.end());
  const double begun = followed.end.empty() ? 0.0 : followed.end.back();
  const double spent = followed.now - begun;
  if (spent < shortest_stage) {
    return stages;
  }
  Stage &stage = stages.front();
  for (End &end : stage.until) {
    if (end.kind == EndKind::elapsed) {
      end.value = std::max(end.value - spent, shortest_stage);
    }
  }
  stage.at_most = std::max(stage.at_most - spent, soon);
  if (stage.spritz) {
    Spritz &s = *stage.spritz;
    const double next =
        s.first >= spent ? s.first : s.first + std::ceil((spent - s.first) / s.every) * s.every;
    s.first = next - spent;
  }
  std::vector<LidOpening> lid;
  for (LidOpening opening : stage.lid) {
    opening.at -= spent;
    if (opening.at >= 0.0) {
      lid.push_back(opening);
    }
  }
  stage.lid = std::move(lid);
  return stages;
}

Plan plan_of(const Ensemble &ensemble, const Member &member, const std::vector<Stage> &remaining) {
  const Followed &followed = ensemble.problem.logs.front().followed;
  Plan plan = followed.plan;
  const double offset = ensemble.problem.sensor_offset(0, member.u);
  for (Stage stage : remaining) {
    for (End &end : stage.until) {
      end.value -= known(end.kind).sign == KnownEnd::Sign::core ? offset : 0.0;
    }
    if (waits(stage)) {
      stage.at_most = std::min(stage.at_most, patience);
    }
    if (heats(stage)) {
      stage.surroundings.air = possible_air(stage.surroundings.air, ensemble.outlook, followed.now,
                                            member.outlook, hottest_air(stage.surroundings.air));
    }
    plan.stages.push_back(std::move(stage));
  }
  ensemble.problem.write(plan, 0, member.u);
  return plan;
}

std::vector<Ran> simulate_members(const Ensemble &ensemble, const std::vector<Stage> &remaining) {
  std::vector<Plan> plans;
  plans.reserve(ensemble.members.size());
  for (const Member &member : ensemble.members) {
    plans.push_back(plan_of(ensemble, member, remaining));
  }
  ensemble.problem.simulations += static_cast<int>(plans.size());
  return run_many(plans, core_only(ensemble.problem.interrupted), ensemble.problem.threads);
}

Run read_members(Ensemble &ensemble, const std::vector<Stage> &remaining, const std::vector<Ran> &ran,
                 bool fresh) {
  const Ready &log = ensemble.problem.logs.front();
  const ErrorAhead ahead(ensemble);
  const double now = ensemble.now();

  Plan whole = ensemble.plan;
  whole.stages.resize(ensemble.current());
  whole.stages.insert(whole.stages.end(), remaining.begin(), remaining.end());
  const std::size_t done = std::max(done_stage(whole), ensemble.current());

  Run run;
  std::vector<Timekeeper> keepers;
  for (std::size_t i = 0; i < ran.size(); ++i) {
    ensemble.problem.check_interrupted();
    Member &member = ensemble.members[i];
    keepers.emplace_back(ensemble, ahead, remaining);
    Finished made;
    made.stage_end.assign(log.followed.end.size() + remaining.size(), never);
    made.cost = never;
    if (!ran[i].whole && run.why.empty()) {
      run.why = ran[i].why;
    }
    const bool usable = ran[i].outcome && !ran[i].outcome->time.empty() && ran[i].outcome->time.back() >= now;
    if (usable) {
      Trace trace = read_trace(*ran[i].outcome, log.data.time, ensemble.problem.sensor_offset(0, member.u));
      if (fresh) {
        member.residual = ensemble.problem.observed(0) - trace.core;
        member.size = picked(size_shares(ensemble.sizes, member.residual), member.chance_of_size);
      }
      made = keepers.back().finish(member, *ran[i].outcome, ran[i].whole, fresh, done);
      const VectorXd off = member.u - ensemble.problem.prior_mean;
      made.cost =
          off.dot(ensemble.problem.prior_precision * off) + miss_cost(ensemble.sizes, member.residual);
    }
    run.members.push_back(std::move(made));
  }
  run.time = make_grid(run.members, done);
  for (std::size_t i = 0; i < ran.size(); ++i) {
    ensemble.problem.check_interrupted();
    const Member &member = ensemble.members[i];
    std::vector<double> &core = run.members[i].core;
    core.assign(run.time.size(), 0.0);
    if (!std::isfinite(run.members[i].cost)) {
      continue;
    }
    const double offset = ensemble.problem.sensor_offset(0, member.u);
    const double end = keepers[i].first_end();
    for (std::size_t k = 0; k < run.time.size(); ++k) {
      // Held once it is done: rests would blur the bands of those that still cook.
      const double t = std::min(run.time[k], run.members[i].stage_end[done]);
      // The level's error is part of when the stage ends, so it fades out on the way there.
      const double left = t <= now ? 1.0 : std::clamp((end - t) / std::max(end - now, soon), 0.0, 1.0);
      double level = 0.0;
      if (left > 0.0) {
        const auto error = ahead.level(t, member);
        level = left * (error.mean + error.deviation * (t <= now ? 0.0 : member.pace));
      }
      core[k] = core_of(*ran[i].outcome, keepers[i].simulated(t, member)) + offset + level;
    }
  }
  return run;
}

} // namespace cook::fit
