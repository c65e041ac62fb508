#include "fit/start_time/schedule_remedies.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

#include "fit/start_time/schedule_changes.hpp"

namespace cook {

namespace {

constexpr double apart = 6.0; // K between looks: nearer ones tell the same

/// A core temperature to look for.
struct Look {
  std::size_t stage;
  double core;
  bool inside; ///< of the stage; else its end
};

std::vector<Look> looks_of(const Plan &plan, std::size_t done) {
  std::vector<Look> looks;
  double from = plan.meat.start;
  for (std::size_t i = 0; i <= done; ++i) {
    const Stage &stage = plan.stages[i];
    const auto at = core_end(stage);
    if (!heats(stage) || !at || stage.until.size() > 1) { // when it ends does not tell how fast the meat is
      continue;
    }
    const double target = stage.until[*at].value;
    for (const double core : schedule_looks) {
      if (core >= from + apart && core <= target - apart) {
        looks.push_back({i, core, true});
        from = core;
      }
    }
    if (i < done) {
      looks.push_back({i, target, false});
    }
    from = target;
  }
  return looks;
}

/// The plan with a stage cut in two at a core temperature.
Plan cut_at(Plan plan, const Look &look) {
  if (look.inside) {
    const auto at = plan.stages.begin() + static_cast<std::ptrdiff_t>(look.stage);
    Stage before = *at;
    before.until = {{EndKind::core, look.core}};
    plan.stages.insert(at, before);
  }
  return plan;
}

/// All members hurried from a look on.
struct Hurried {
  Remedy remedy;
  std::vector<double> there; ///< when a member gets to the look [s]
  std::vector<double> end;   ///< members x stages of the plan [s]
};

std::vector<Hurried> hurry_all(const Forecast &forecast, const std::function<bool()> &interrupted) {
  const std::size_t stages = forecast.plan.stages.size();
  std::vector<Hurried> all;
  for (const Look &look : looks_of(forecast.plan, forecast.done)) {
    const Plan cut = cut_at(forecast.plan, look);
    const std::size_t more = look.inside ? 1 : 0;
    const auto change = hurried(cut, look.stage + 1, forecast.done + more);
    if (!change) {
      continue;
    }
    const Forecast other = what_if(forecast, change->plan.stages, interrupted);
    Hurried made;
    made.remedy.stage = look.stage;
    made.remedy.core = look.core;
    made.remedy.what = change->what;
    made.remedy.plan = change->plan;
    made.remedy.by = other.quantile(schedule_late_from, look.stage);
    made.there = other.ends(look.stage);
    for (std::size_t i = 0; i < other.members(); ++i) {
      for (std::size_t s = 0; s < stages; ++s) {
        const std::size_t at = s < look.stage ? s : s + more;
        made.end.push_back(other.stage_end[i * (stages + more) + at]);
      }
    }
    all.push_back(std::move(made));
  }
  return all;
}

double middle(std::vector<double> value, const std::vector<double> &weight) {
  constexpr double half = 0.5;
  return value.empty() ? 0.0 : weighted_quantile(std::move(value), weight, half);
}

} // namespace

std::vector<double> Recourse::ends(std::size_t stage) const {
  std::vector<double> made;
  for (std::size_t at = stage; at < end.size(); at += stages) {
    made.push_back(end[at]);
  }
  return made;
}

Recourse hurry_late_ones(const Forecast &forecast, bool wanted, const std::function<bool()> &interrupted) {
  Recourse made;
  made.stages = forecast.plan.stages.size();
  made.end = forecast.stage_end;
  if (!wanted) {
    return made;
  }
  std::vector<Hurried> all = hurry_all(forecast, interrupted);
  std::vector<std::vector<double>> gain(all.size());
  std::vector<std::vector<double>> counts(all.size());
  const std::size_t last = made.stages - 1;
  for (std::size_t i = 0; i < forecast.members(); ++i) {
    for (std::size_t k = 0; k < all.size(); ++k) {
      Hurried &now = all[k];
      if (now.there[i] <= now.remedy.by) {
        continue;
      }
      now.remedy.late += forecast.weight[i];
      const double own = forecast.stage_end[i * made.stages + last];
      for (std::size_t s = now.remedy.stage; s < made.stages; ++s) {
        double &end = made.end[i * made.stages + s];
        // More heat and foil make no cook slower; where they seem to, the times of a crawling core err.
        end = std::min(end, now.end[i * made.stages + s]);
        if (k > 0) { // in time at the look before: as if it had waited there
          const Hurried &before = all[k - 1];
          end = std::min(end, before.end[i * made.stages + s] + now.remedy.by - before.there[i]);
        }
      }
      const double then = made.end[i * made.stages + last];
      if (std::isfinite(own) && std::isfinite(then)) {
        gain[k].push_back(own - then);
        counts[k].push_back(forecast.weight[i]);
      }
      break;
    }
  }
  for (std::size_t k = 0; k < all.size(); ++k) {
    all[k].remedy.sooner = middle(gain[k], counts[k]);
    made.remedies.push_back(std::move(all[k].remedy));
  }
  return made;
}

} // namespace cook
