/// Stages end where they should, things happen when they should, and a cook that cannot go on says why and
/// keeps its part.
#include <doctest/doctest.h>

#include <algorithm>
#include <string>

#include "cook/errors.hpp"
#include "cook/readings/doneness.hpp"
#include "cook/units.hpp"
#include "cooks.hpp"
#include "engine/cells/property_table.hpp"
#include "engine/stages/watch.hpp"

using namespace cook;
using namespace cook::testing;

namespace {

bool has(const std::string &text, const std::string &word) { return text.find(word) != std::string::npos; }

std::vector<double> times_of(const Outcome &outcome, const std::string &what) {
  std::vector<double> times;
  for (const Event &event : outcome.events) {
    if (event.what == what) {
      times.push_back(event.time);
    }
  }
  return times;
}

/// A timed smoke of a brisket.
Plan timed(double seconds, double air = 121.0) {
  Plan plan = bare_cook(air);
  plan.stages[0].until = {{EndKind::elapsed, seconds}};
  return plan;
}

/// What `plan` is stopped by, of the type asked for.
template <class Failure> Failure failure(const Plan &plan, const Options &options = {}) {
  try {
    (void)simulate(plan, options);
  } catch (const Failure &failure) {
    return failure;
  }
  throw std::logic_error("the plan ran through, or failed otherwise");
}

double air_at(const Outcome &outcome, double seconds) {
  const auto at = std::lower_bound(outcome.time.begin(), outcome.time.end(), seconds - 1e-6);
  REQUIRE(at != outcome.time.end());
  REQUIRE(*at == doctest::Approx(seconds));
  return outcome.air[static_cast<std::size_t>(at - outcome.time.begin())];
}

} // namespace

TEST_CASE("a stage ends exactly at its core temperature, at a time that tolerances do not move") {
  Plan plan = wrapped_cook(121.0, "foil", 65.6, 93.0);
  const auto outcome = simulate(plan);
  REQUIRE(outcome->stage_ends.size() == 2);
  CHECK(std::fabs(outcome->stage_ends[0].core - 65.6) < 1e-3);
  CHECK(std::fabs(outcome->stage_ends[1].core - 93.0) < 1e-3);
  CHECK(outcome->stage_ends[0].reason == "core at 150 °F (65.6 °C)");
  CHECK(outcome->stage_ends[1].start == outcome->stage_ends[0].time);
  CHECK(outcome->time.back() == outcome->stage_ends[1].time);
  CHECK(std::fabs(outcome->core.back() - 93.0) < 1e-3);
  // Both ends are stored moments, and the first is where the core first gets to 65.6 °C.
  CHECK(std::find(outcome->time.begin(), outcome->time.end(), outcome->stage_ends[0].time) !=
        outcome->time.end());
  CHECK(std::fabs(outcome->core_at(outcome->stage_ends[0].time) - 65.6) < 1e-3);
  Options tight;
  tight.temperature_tolerance = 1e-3;
  tight.water_tolerance = 1e-4;
  Options tighter;
  tighter.temperature_tolerance = 5e-4;
  tighter.water_tolerance = 5e-5;
  const auto one = simulate(plan, tight);
  const auto other = simulate(plan, tighter);
  for (std::size_t i = 0; i < 2; ++i) {
    CHECK(std::fabs(one->stage_ends[i].time - other->stage_ends[i].time) < 1.0);
    CHECK(std::fabs(outcome->stage_ends[i].time - other->stage_ends[i].time) <
          0.005 * other->stage_ends[i].time);
  }
  // Where the trace is sampled does not matter.
  Options sparse;
  sparse.output_every = 3000.0;
  CHECK(simulate(plan, sparse)->stage_ends[1].time ==
        doctest::Approx(outcome->stage_ends[1].time).epsilon(1e-12));
}

TEST_CASE("the first of several conditions ends a stage") {
  Plan plan = bare_cook(121.0, 60.0);
  plan.stages[0].until.push_back({EndKind::elapsed, 2.0 * hour});
  const auto by_time = simulate(plan);
  CHECK(by_time->stage_ends[0].time == doctest::Approx(2.0 * hour).epsilon(1e-12));
  CHECK(by_time->stage_ends[0].reason == "120 min elapsed");
  CHECK(by_time->stage_ends[0].core < 59.0);
  plan.stages[0].until[1].value = 20.0 * hour;
  const auto by_core = simulate(plan);
  CHECK(by_core->stage_ends[0].reason == "core at 140 °F (60 °C)");
  CHECK(by_core->stage_ends[0].time < 20.0 * hour);
  // Of two core temperatures the lower one, in whatever order.
  plan.stages[0].until = {{EndKind::core, 60.0}, {EndKind::core, 50.0}};
  CHECK(simulate(plan)->stage_ends[0].reason == "core at 122 °F (50 °C)");
}

TEST_CASE("the words for an end hold for any finite number") {
  CHECK(engine::describe({EndKind::clock, 24.0 * hour}) == "clock at 0:00");
  CHECK(engine::describe({EndKind::clock, 24.0 * hour - 20.0}) == "clock at 0:00"); // to the minute
  CHECK(engine::describe({EndKind::clock, 1e300}).rfind("clock at ", 0) == 0); // no overflow of an integer
  CHECK(engine::describe({EndKind::elapsed, 1e300}) == "2.77778e+296 h elapsed");
  CHECK(engine::describe({EndKind::bark, 1.0}) == "the bark is set");
  CHECK(engine::describe({EndKind::bark, 0.4}) == "bark index at 0.4");
}

TEST_CASE("a clock time is the next one, across midnight and in later stages") {
  Plan plan = timed(hour);
  plan.clock_start = 22.5 * hour;
  plan.stages[0].until = {{EndKind::clock, 0.25 * hour}};
  plan.stages.push_back(plan.stages[0]);
  plan.stages[1].until = {{EndKind::clock, 6.0 * hour}};
  const auto outcome = simulate(plan);
  CHECK(outcome->stage_ends[0].time == doctest::Approx(1.75 * hour).epsilon(1e-12));
  CHECK(outcome->stage_ends[0].reason == "clock at 0:15");
  CHECK(outcome->stage_ends[1].time == doctest::Approx(7.5 * hour).epsilon(1e-12));
  CHECK(outcome->stage_ends[1].reason == "clock at 6:00");
}

TEST_CASE("bark set: when the reading of the same cook says so, under the cap it is the other face") {
  Plan plan = bare_cook(121.0);
  for (const double index : {0.5, 1.0, 3.0}) {
    CAPTURE(index);
    plan.stages[0].until = {{EndKind::bark, index}};
    plan.meat.fat_cap.side = FatSide::down;
    const auto top = simulate(plan);
    CHECK(bark(*top)[1].index == doctest::Approx(index).epsilon(2e-3));
    CHECK(bark(*top)[0].index < index);
    plan.meat.fat_cap.side = FatSide::up;
    CHECK(bark(*simulate(plan))[0].index == doctest::Approx(index).epsilon(2e-3));
  }
  // With a stage after it, the reading finds the same moment.
  plan.meat.fat_cap.side = FatSide::down;
  plan.stages[0].until = {{EndKind::bark, 1.0}};
  plan.stages.push_back(plan.stages[0]);
  plan.stages[1].until = {{EndKind::elapsed, 2.0 * hour}};
  const auto both = simulate(plan);
  CHECK(both->stage_ends[0].reason == "the bark is set");
  REQUIRE(bark(*both)[1].set_at);
  CHECK(std::fabs(*bark(*both)[1].set_at - both->stage_ends[0].time) < 60.0);
}

TEST_CASE("bark of a bare brisket or shoulder sets 3 to 6 h after it went on") {
  // Common practice, no source.
  for (const Meat &meat : {brisket(), pork_shoulder()}) {
    double last = 1e9;
    for (const double air : {107.0, 121.0, 135.0}) {
      Plan plan = bare_cook(air);
      plan.meat = meat;
      plan.stages[0].until = {{EndKind::bark, 1.0}};
      const double set = simulate(plan)->time.back();
      CHECK(set > 2.5 * hour);
      CHECK(set < 7.0 * hour);
      CHECK(set < last - 0.3 * hour);
      last = set;
    }
  }
}

TEST_CASE("tender: the share of collagen asked for has been converted") {
  Plan plan = wrapped_cook(121.0, "foil", 65.6);
  plan.stages[1].until = {{EndKind::tender, 0.5}};
  const auto outcome = simulate(plan);
  CHECK(outcome->tenderness.back() == doctest::Approx(0.5).epsilon(1e-4));
  CHECK(has(outcome->stage_ends[1].reason, "50 % of the collagen"));
  // Against the rate law integrated over the stored core by the trapezoidal rule.
  const Arrhenius law = Arrhenius::from_reference(plan.meat.tissue.tenderness.rate_90, 90.0,
                                                  plan.meat.tissue.tenderness.activation);
  double exposure = 0.0;
  for (std::size_t i = 0; i + 1 < outcome->times(); ++i) {
    exposure += 0.5 * (law.rate(outcome->core[i]) + law.rate(outcome->core[i + 1])) *
                (outcome->time[i + 1] - outcome->time[i]);
  }
  CHECK(1.0 - std::exp(-exposure) == doctest::Approx(0.5).epsilon(1e-3));
}

TEST_CASE("cooled: a rest ends when the core has come down, after carryover") {
  Plan plan = wrapped_cook(121.0, "foil", 65.6);
  Stage rest;
  rest.name = "rest";
  rest.surroundings = counter();
  rest.wrap = wrap("foil");
  rest.until = {{EndKind::cooled, 63.0}};
  plan.stages.push_back(rest);
  const auto outcome = simulate(plan);
  CHECK(std::fabs(outcome->core.back() - 63.0) < 1e-3);
  CHECK(outcome->stage_ends[2].reason == "core cooled to 145 °F (63 °C)");
  CHECK(*std::max_element(outcome->core.begin(), outcome->core.end()) > outcome->stage_ends[1].core + 0.1);
}

TEST_CASE("a stage whose end is met when it begins is skipped with a note, and the cook goes on") {
  Plan plan = wrapped_cook(121.0, "foil", 70.0, 80.0);
  plan.stages.insert(plan.stages.begin() + 1, plan.stages[0]);
  plan.stages[1].name = "again";
  plan.stages[1].until = {{EndKind::core, 60.0}};
  const auto outcome = simulate(plan);
  REQUIRE(outcome->stage_ends.size() == 3);
  CHECK(outcome->stage_ends[1].time == outcome->stage_ends[0].time);
  REQUIRE(outcome->notes.size() == 1);
  CHECK(has(outcome->notes[0], "stage 'again' was skipped"));
  CHECK(has(outcome->notes[0], "core at 140 °F (60 °C)"));
  const auto direct = simulate(wrapped_cook(121.0, "foil", 70.0, 80.0));
  CHECK(outcome->stage_ends[2].time == doctest::Approx(direct->stage_ends[1].time).epsilon(1e-3));
}

TEST_CASE("spritzing: at the times asked for, each spray on the ledger with its heat") {
  Plan plan = timed(3.0 * hour);
  plan.stages[0].spritz =
      Spritz{.every = 1800.0, .first = 3600.0, .amount = 0.04, .temperature = 20.0, .lid_open = 0.0};
  Options options;
  options.output_every = 5.0;
  const auto outcome = simulate(plan, options);
  const auto times = times_of(*outcome, "spritz");
  REQUIRE(times.size() == 4); // 60, 90, 120, 150 min; at 180 min the stage ends
  for (std::size_t i = 0; i < times.size(); ++i) {
    CHECK(times[i] == doctest::Approx(3600.0 + 1800.0 * static_cast<double>(i)).epsilon(1e-12));
  }
  CHECK(times_of(*outcome, "lid").empty());
  const double sprayed = 4.0 * 0.04 * outcome->face_area[1]; // the top, and the upper half of the sides
  CHECK(outcome->ledger.spritzed == doctest::Approx(sprayed).epsilon(1e-12));
  CHECK(outcome->ledger.spritz_enthalpy ==
        doctest::Approx(sprayed * component_enthalpy(Component::water, 20.0)).epsilon(1e-6));
  CHECK(std::fabs(outcome->ledger.water_residual) < 1e-9);
  CHECK(std::fabs(outcome->ledger.heat_residual) < 1e-9);
  // A cool spray shows on the face, and it dries off before the next one.
  const auto at = [&](double seconds) {
    return static_cast<std::size_t>(std::lower_bound(outcome->time.begin(), outcome->time.end(), seconds) -
                                    outcome->time.begin());
  };
  CHECK(outcome->film[1][at(3605.0)] > outcome->film[1][at(3600.0)] + 0.035);
  CHECK(outcome->surface[1][at(3605.0)] < outcome->surface[1][at(3600.0)] - 0.5);
  CHECK(outcome->film[1][at(5395.0)] < 1e-3);
  Plan dry = plan;
  dry.stages[0].spritz.reset();
  const auto without = simulate(dry);
  CHECK(without->core.back() > outcome->core.back() + 0.1);
  CHECK(without->ledger.evaporated < outcome->ledger.evaporated);
}

TEST_CASE("an open lid lets the air fall to a third of its excess and recover in five minutes") {
  Plan plan = timed(2.0 * hour);
  plan.stages[0].surroundings.ambient = 15.0;
  plan.stages[0].lid = {{1200.0, 60.0}};
  plan.stages[0].spritz =
      Spritz{.every = 3600.0, .first = 3600.0, .amount = 0.02, .temperature = 20.0, .lid_open = 30.0};
  Options options;
  options.output_every = 5.0;
  const auto outcome = simulate(plan, options);
  CHECK(times_of(*outcome, "lid") == std::vector<double>{1200.0, 3600.0});
  CHECK(times_of(*outcome, "spritz") == std::vector<double>{3600.0});
  const double dipped = 15.0 + (121.0 - 15.0) / 3.0; // the rule in timeline.cpp: common practice, no source
  CHECK(air_at(*outcome, 1200.0) == doctest::Approx(121.0));
  CHECK(air_at(*outcome, 1215.0) == doctest::Approx(dipped));
  CHECK(air_at(*outcome, 1260.0) == doctest::Approx(dipped));
  CHECK(air_at(*outcome, 1410.0) == doctest::Approx(0.5 * (121.0 + dipped)));
  CHECK(air_at(*outcome, 1560.0) == doctest::Approx(121.0));
  CHECK(air_at(*outcome, 3600.0) == doctest::Approx(121.0));
  CHECK(air_at(*outcome, 3630.0) == doctest::Approx(dipped));
  CHECK(air_at(*outcome, 3930.0) == doctest::Approx(121.0));
  CHECK(*std::min_element(outcome->air.begin(), outcome->air.end()) == doctest::Approx(dipped));
  // It costs warmth.
  Plan closed = plan;
  closed.stages[0].lid.clear();
  CHECK(simulate(closed, options)->core.back() > outcome->core.back() + 0.05);
}

TEST_CASE("two openings that overlap, one while the air recovers: the air stays between dip and setting") {
  Plan plan = timed(hour);
  plan.stages[0].surroundings.ambient = 20.0;
  plan.stages[0].lid = {{600.0, 30.0}, {700.0, 30.0}, {705.0, 60.0}};
  Options options;
  options.output_every = 5.0;
  const auto outcome = simulate(plan, options);
  const double dipped = 20.0 + 101.0 / 3.0;
  CHECK(*std::min_element(outcome->air.begin(), outcome->air.end()) > dipped - 1e-6);
  CHECK(*std::max_element(outcome->air.begin(), outcome->air.end()) < 121.0 + 1e-6);
  CHECK(air_at(*outcome, 765.0) == doctest::Approx(dipped));
  CHECK(air_at(*outcome, 1065.0) == doctest::Approx(121.0));
}

TEST_CASE("a measured log already shows its lid openings and is followed as it is") {
  Plan plan = timed(hour);
  Signal log({0.0, 1200.0, 1260.0, 1500.0, 3600.0}, {118.0, 122.0, 60.0, 119.0, 121.0});
  log.measured = true;
  plan.stages[0].surroundings.air = log;
  plan.stages[0].lid = {{1200.0, 60.0}};
  Options options;
  options.output_every = 10.0;
  const auto outcome = simulate(plan, options);
  for (std::size_t i = 0; i < outcome->times(); ++i) {
    CHECK(outcome->air[i] == doctest::Approx(log.at(outcome->time[i])).epsilon(1e-9));
  }
  CHECK(times_of(*outcome, "lid").size() == 1);
}

TEST_CASE("a target that is out of reach: where the core levels off, and what was computed") {
  Plan plan = bare_cook(70.0, 69.9);
  plan.stages[0].surroundings.ambient = 20.0;
  const auto stop = failure<Unreachable>(plan);
  const std::string text = stop.what();
  MESSAGE(text);
  CHECK(has(text, "stages[0].until"));
  CHECK(has(text, "core at 158 °F (69.9 °C)"));
  CHECK(has(text, "48 h"));
  REQUIRE(stop.outcome());
  const Outcome &part = *stop.outcome();
  CHECK(part.time.back() == doctest::Approx(48.0 * hour).epsilon(1e-12));
  CHECK(part.stage_ends.empty());
  CHECK(part.core.back() < 69.9);
  CHECK(std::fabs(part.ledger.heat_residual) < 1e-9);
  CHECK(std::fabs(part.ledger.water_residual) < 1e-9);
  // A sealed piece in an oven of 70 °C levels off at 70 °C sharp: the message names that temperature.
  plan.stages[0].surroundings = oven(70.0);
  plan.stages[0].until = {{EndKind::cooled, 65.0}};
  plan.stages[0].until = {{EndKind::tender, 0.999}};
  Options sealed;
  sealed.physics.evaporation = false;
  const std::string level = failure<Unreachable>(plan, sealed).what();
  MESSAGE(level);
  CHECK(has(level, "the core levels off at 158 °F (70 °C)"));
  // Given up early, it is still on its way.
  plan.stages[0].at_most = 3.0 * hour;
  const std::string early = failure<Unreachable>(plan, sealed).what();
  CHECK(has(early, "3 h"));
  CHECK(has(early, "still rises"));
}

TEST_CASE("a hopeless second stage keeps the first one") {
  Plan plan = wrapped_cook(121.0, "foil", 65.6);
  plan.stages[1].surroundings = oven(68.0);
  plan.stages[1].until = {{EndKind::core, 67.9}};
  plan.stages[1].at_most = 2.0 * hour;
  const auto stop = failure<Unreachable>(plan);
  CHECK(has(stop.what(), "stages[1].until"));
  REQUIRE(stop.outcome()->stage_ends.size() == 1);
  CHECK(stop.outcome()->stage_ends[0].reason == "core at 150 °F (65.6 °C)");
  CHECK(stop.outcome()->time.back() ==
        doctest::Approx(stop.outcome()->stage_ends[0].time + 2.0 * hour).epsilon(1e-12));
}

TEST_CASE("a target that carryover does not reach: how high the core came, and that it falls") {
  Plan plan = bare_cook(150.0, 55.0);
  plan.stages.push_back({.name = "rest", .surroundings = counter(21.0), .until = {{EndKind::core, 75.0}}});
  plan.stages[1].at_most = 4.0 * hour;
  const auto stop = failure<Unreachable>(plan);
  const std::string text = stop.what();
  MESSAGE(text);
  CHECK(has(text, "falls"));
  CHECK(has(text, "after a peak of "));
  CHECK(stop.outcome()->time.back() ==
        doctest::Approx(stop.outcome()->stage_ends[0].time + 4.0 * hour).epsilon(1e-12));
}

TEST_CASE("a pit as hot as °F numbers are is cooked, and asked about") {
  Plan plan = timed(hour, 225.0);
  plan.stages.push_back(plan.stages[0]);
  const auto out = simulate(plan);
  REQUIRE(out->notes.size() == 1);
  CHECK(out->notes[0] == "stage 'smoke': a pit of 437 °F (225 °C) is hot; plain numbers are °C: if °F was "
                         "meant, write '225 °F'");
  CHECK(simulate(timed(hour, 180.0))->notes.empty());
  CHECK(simulate(timed(hour, (425.0 - 32.0) / 1.8))->notes.empty()); // typed with its unit
  plan = timed(hour);
  plan.stages[0].surroundings = oven(225.0);
  CHECK(simulate(plan)->notes.empty());
}

TEST_CASE("too many steps: a failure that names stage and time and keeps what it has") {
  Options options;
  options.max_steps = 30;
  const auto stop = failure<SolverFailure>(bare_cook(121.0), options);
  const std::string text = stop.what();
  MESSAGE(text);
  CHECK(has(text, "more than 30 steps"));
  CHECK(has(text, "stages[0] 'smoke'"));
  CHECK(has(text, " h, core "));
  REQUIRE(stop.outcome());
  CHECK(stop.outcome()->ledger.steps == 30);
  CHECK(stop.outcome()->time.size() > 1);
  CHECK(std::fabs(stop.outcome()->ledger.heat_residual) < 1e-9);
  CHECK_THROWS_AS((void)simulate(bare_cook(121.0), options), SolverFailure);
}

TEST_CASE("stopped on request: promptly, with what was computed") {
  Options options;
  int asked = 0;
  options.interrupted = [&asked] { return ++asked > 2; };
  options.temperature_tolerance = 1e-4; // many steps
  options.water_tolerance = 1e-5;
  const auto stop = failure<Interrupted>(bare_cook(121.0), options);
  CHECK(asked == 3);
  CHECK(has(stop.what(), "stopped on request"));
  REQUIRE(stop.outcome());
  CHECK(stop.outcome()->times() > 1);
  CHECK(stop.outcome()->ledger.steps <= 3 * 64);
  CHECK(std::fabs(stop.outcome()->ledger.water_residual) < 1e-9);
  // Traces and ledger end at the same moment, however sparse the traces are.
  asked = 0;
  options.output_every = 1e4;
  const auto sparse = failure<Interrupted>(bare_cook(121.0), options).outcome();
  CHECK(sparse->times() > 1);
  double evaporated = 0.0;
  for (std::size_t s = 0; s < 2; ++s) {
    evaporated +=
        sparse->paths[s][static_cast<std::size_t>(FacePath::evaporated)].back() * sparse->face_area[s];
  }
  CHECK(evaporated < 0.0); // cold meat gathers dew first
  CHECK(evaporated == doctest::Approx(sparse->ledger.evaporated).epsilon(1e-12));
  // At once: nothing but the start.
  options.interrupted = [] { return true; };
  const auto at_once = failure<Interrupted>(bare_cook(121.0), options);
  CHECK(at_once.outcome()->times() == 1);
  CHECK(at_once.outcome()->core[0] == doctest::Approx(4.0).epsilon(1e-6));
  // Asked in vain, the cook runs through.
  options = {};
  options.interrupted = [] { return false; };
  CHECK(simulate(bare_cook(135.0), options)->stage_ends.size() == 1);
}
