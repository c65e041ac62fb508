#include "cook/fit/futures.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

#include "cook/errors.hpp"
#include "cook/readings/readings.hpp"
#include "fit/forecast/ensemble.hpp"
#include "fit/run_many.hpp"
#include "straight_lines.hpp"

namespace cook {

namespace {

constexpr double unknown = std::numeric_limits<double>::quiet_NaN();

/// Bark that sets in the bare stages on the heat: what comes later is softened by the steam in the wrap.
double bark_while_bare(const Outcome &outcome) {
  const Browning browning;
  const Sorption &sorption = outcome.plan.meat.tissue.sorption;
  double index = 0.0;
  for (std::size_t face = 0; face < 2; ++face) {
    if (outcome.surface[face].empty()) {
      continue;
    }
    double made = 0.0;
    for (std::size_t k = 0; k < outcome.stage_ends.size(); ++k) {
      const Stage &stage = outcome.plan.stages[k];
      if (stage.wrap.name != "none" || !heats(stage)) {
        continue;
      }
      const StageEnd &span = outcome.stage_ends[k];
      for (std::size_t i = 1; i < outcome.times() && outcome.time[i - 1] < span.time; ++i) {
        const double length =
            std::min(outcome.time[i], span.time) - std::max(outcome.time[i - 1], span.start);
        if (length > 0.0) {
          const double activity = sorption.water_activity(std::max(outcome.surface_water[face][i], 0.0));
          made += length * browning.rate(outcome.surface[face][i], activity);
        }
      }
    }
    index = std::max(index, made);
  }
  return index;
}

/// The last stage of a cook, begun at `begin` in its simulation.
void read_wait(Futures &made, const Outcome &out, double begin, const std::vector<double> &waits) {
  const double raw = out.plan.meat.mass();
  const double water = out.ledger.water_start;
  const double fat = rendered_fat(out);
  for (const double wait : waits) {
    const double t = begin + wait;
    const double left = on_straight_lines(out.time, out.mean_water, t) / out.mean_water.front();
    made.kept.push_back(1.0 - (water * (1.0 - left) + fat) / raw);
    made.tenderness.push_back(on_straight_lines(out.time, out.tenderness, t));
    made.coldest.push_back(on_straight_lines(out.time, out.coldest, t));
    made.core.push_back(on_straight_lines(out.time, out.core, t));
  }
}

void read_cook(Futures &made, const Ran &ran, const FuturesQuery &query) {
  const bool there = ran.whole && ran.outcome && ran.outcome->stage_ends.size() >= 2;
  if (!there) {
    for (auto *one : {&made.kept, &made.tenderness, &made.coldest, &made.core}) {
      one->insert(one->end(), query.waits.size(), unknown);
    }
    for (auto *one : {&made.bark, &made.come_up, &made.lethal_before}) {
      one->push_back(unknown);
    }
    return;
  }
  const Outcome &out = *ran.outcome;
  const double begin = out.stage_ends.back().start;
  const Safety safe = safety(out);
  made.bark.push_back(bark_while_bare(out));
  made.come_up.push_back(safe.come_up < 0.0 ? std::numeric_limits<double>::infinity() : safe.come_up);
  made.lethal_before.push_back(safe.lethality_at < 0.0 ? -std::numeric_limits<double>::infinity()
                                                       : begin - safe.lethality_at);
  read_wait(made, out, begin, query.waits);
}

/// Gives the stages after the meat is done their surroundings as planned: what is believed of a cooker, and
/// how its pit strays, tells nothing of a rest or of an oven that holds.
void rest_as_planned(Plan &cook, const Plan &whole) {
  const std::size_t after = whole.stages.size() - 1 - done_stage(whole);
  for (std::size_t k = 1; k <= after; ++k) {
    cook.stages[cook.stages.size() - k].surroundings = whole.stages[whole.stages.size() - k].surroundings;
  }
}

} // namespace

std::vector<Futures> futures(const Forecast &forecast, const std::vector<std::vector<Stage>> &plans,
                             const FuturesQuery &query) {
  if (!forecast.state) {
    throw InvalidInput("forecast", "it holds no members; make it with forecast()");
  }
  fit::Ensemble ensemble = forecast.state->ensemble;
  ensemble.problem.interrupted = query.interrupted;
  std::vector<fit::Member> members;
  for (const std::size_t place : query.members) {
    if (place >= ensemble.members.size()) {
      throw InvalidInput("members", std::to_string(place) + " is none of the possible cooks; there are " +
                                        std::to_string(ensemble.members.size()));
    }
    members.push_back(ensemble.members[place]);
  }
  ensemble.members = std::move(members);

  std::vector<Futures> made(plans.size());
  std::vector<Plan> cooks;
  for (std::size_t p = 0; p < plans.size(); ++p) {
    Plan whole = ensemble.plan;
    whole.stages.resize(ensemble.current());
    whole.stages.insert(whole.stages.end(), plans[p].begin(), plans[p].end());
    try {
      whole.validate();
    } catch (const InvalidInput &error) {
      made[p].why = error.what();
      continue;
    }
    for (const fit::Member &member : ensemble.members) {
      cooks.push_back(fit::plan_of(ensemble, member, plans[p]));
      rest_as_planned(cooks.back(), whole);
    }
  }
  const std::vector<Ran> ran = run_many(cooks, core_only(query.interrupted), ensemble.problem.threads);
  const std::size_t count = ensemble.members.size();
  const std::size_t before = ensemble.current();
  auto from = ran.begin();
  for (std::size_t p = 0; p < plans.size(); ++p) {
    Futures &one = made[p];
    if (!one.why.empty()) {
      continue;
    }
    const std::vector<Ran> own(from, from + static_cast<std::ptrdiff_t>(count));
    from += static_cast<std::ptrdiff_t>(count);
    const fit::Run run = fit::read_members(ensemble, plans[p], own, false);
    one.stages = plans[p].size();
    for (std::size_t i = 0; i < count; ++i) {
      const std::vector<double> &end = run.members[i].stage_end;
      one.stage_end.insert(one.stage_end.end(), end.begin() + static_cast<std::ptrdiff_t>(before), end.end());
      for (const double look : query.looks) {
        one.shown.push_back(run.time.empty() ? unknown
                                             : on_straight_lines(run.time, run.members[i].core, look));
      }
      read_cook(one, own[i], query);
    }
  }
  return made;
}

} // namespace cook
