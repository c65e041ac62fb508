#include "possible.hpp"

#include <algorithm>
#include <limits>

#include "cook/engine/simulate.hpp"
#include "cook/errors.hpp"
#include "cook/readings/readings.hpp"
#include "facts.hpp"

namespace cook::page {

namespace {

constexpr std::uint64_t seed = 20; // the same plan gives the same words, here and in Python

/// A part of a stage as time on the wall [s]; timed stages last as long as they last.
double stretched(const Stage &stage, double pace, double length, double part) {
  if (!meat_ends(stage)) {
    return part;
  }
  double limit = std::numeric_limits<double>::infinity();
  for (const End &end : stage.until) {
    if (end.kind == EndKind::elapsed) {
      limit = std::min(limit, end.value);
    }
  }
  return length >= limit - 1.0 ? part : part * std::min(pace, limit / length);
}

Json told(const Outcome &outcome, double pace) {
  const auto carry = carryover(outcome);
  const auto stall = find_stall(outcome);
  const Loss lost = loss(outcome);
  const double end = outcome.time.back();
  const auto wall = [&](double seconds) { return on_the_wall(outcome, pace, seconds); };
  Json made{{"pulled_at", wall(carry ? carry->pulled_at : end)},
            {"end", wall(end)},
            {"stall_length", nullptr},
            {"plateau", nullptr},
            {"held", nullptr},
            {"lost", lost.total() / lost.raw}};
  if (stall) {
    made["stall_length"] = wall(stall->end) - wall(stall->start);
    made["plateau"] = stall->plateau;
  }
  if (carry) {
    made["held"] = time_above(outcome, holding_core);
  }
  return made;
}

} // namespace

double on_the_wall(const Outcome &outcome, double pace, double seconds) {
  double passed = 0.0;
  double begun = 0.0;
  for (std::size_t i = 0; i < outcome.stage_ends.size(); ++i) {
    const double part = std::min(seconds, outcome.stage_ends[i].time) - begun;
    if (part <= 0.0) {
      break;
    }
    passed += stretched(outcome.plan.stages[i], pace, outcome.stage_ends[i].time - begun, part);
    begun = outcome.stage_ends[i].time;
  }
  return passed + std::max(seconds - begun, 0.0);
}

Possible::Possible(const Plan &plan, int count) : draws_(draw_cooks(believe(plan), count, seed)) {}

Json Possible::next(int count) {
  Options options;
  options.keep_fields = false;
  options.output_every = 300.0;
  Json made = Json::array();
  for (int k = 0; k < count && !done(); ++k, ++at_) {
    try {
      made.push_back(told(*simulate(draws_.plans[at_], options), draws_.pace[at_]));
    } catch (const Error &) { // too cool a pit, or none that a plan accepts: it belongs to the answer
      made.push_back(nullptr);
    }
  }
  return made;
}

} // namespace cook::page
