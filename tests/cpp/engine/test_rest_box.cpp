/// Resting in an insulated box: the box is a body of its own that the meat warms and the room cools.
#include <doctest/doctest.h>

#include <algorithm>
#include <string>

#include "cook/units.hpp"
#include "cooks.hpp"

using namespace cook;
using namespace cook::testing;

namespace {

/// A foiled brisket pulled at 93 °C, then `hours` of rest.
Plan rested(const Surroundings &place, const char *wrapping, double hours, double box_start = 30.0) {
  Plan plan = wrapped_cook(121.0, "foil", 65.6, 93.0);
  Stage rest;
  rest.name = "rest";
  rest.surroundings = place;
  if (rest.surroundings.box) {
    rest.surroundings.box->start = box_start;
  }
  rest.wrap = wrap(wrapping);
  rest.until = {{EndKind::elapsed, hours * hour}};
  plan.stages.push_back(rest);
  return plan;
}

std::size_t index_of(const Outcome &outcome, double seconds) {
  return static_cast<std::size_t>(std::lower_bound(outcome.time.begin(), outcome.time.end(), seconds) -
                                  outcome.time.begin());
}

/// Heat from box to meat since `from`, both faces [J]; negative: the meat warms the box.
double into_meat(const Outcome &outcome, std::size_t from) {
  double sum = 0.0;
  for (std::size_t s = 0; s < 2; ++s) {
    for (const FacePath path : {FacePath::convection, FacePath::radiation}) {
      const auto &total = outcome.paths[s][static_cast<std::size_t>(path)];
      sum += (total.back() - total[from]) * outcome.face_area[s];
    }
  }
  return sum;
}

} // namespace

TEST_CASE("meat stays warm longer in a box than on the counter, and longest in a box warmed beforehand") {
  const auto core_after = [](const Plan &plan) { return simulate(plan)->core.back(); };
  const double on_counter = core_after(rested(counter(), "foil", 3.0));
  const double in_box = core_after(rested(insulated_box(), "foil", 3.0));
  const double in_warm_box = core_after(rested(insulated_box(), "foil", 3.0, 60.0));
  const double in_towels = core_after(rested(insulated_box(), "towels", 3.0));
  MESSAGE("core after three hours: counter ", on_counter, ", box ", in_box, ", warmed box ", in_warm_box,
          ", towels ", in_towels);
  CHECK(in_box > on_counter + 10.0);
  CHECK(in_warm_box > in_box + 0.5);
  CHECK(in_towels > on_counter + 10.0);
}

TEST_CASE("unwrapped meat in a box is said to cool too fast, wrapped meat not") {
  const auto bare = simulate(rested(insulated_box(), "none", 1.0));
  REQUIRE(bare->notes.size() == 1);
  CHECK(bare->notes[0].find("stage 'rest': unwrapped meat cools too fast") == 0);
  CHECK(simulate(rested(insulated_box(), "foil", 1.0))->notes.empty());
  CHECK(simulate(rested(counter(21.0), "none", 1.0))->notes.empty());
}

TEST_CASE("what the meat gives, the box keeps or loses to the room") {
  const double room = 21.0;
  for (const double start : {30.0, 70.0}) {
    for (const bool cylinder : {false, true}) {
      Plan plan = rested(insulated_box(room), "foil", 4.0, start);
      if (cylinder) {
        plan.meat = roll();
      }
      plan.stages[2].surroundings.box->loss = 2.0;
      Options options;
      options.output_every = 5.0; // the loss is integrated over the stored trace
      options.keep_fields = false;
      options.temperature_tolerance = 2e-3;
      const auto outcome = simulate(plan, options);
      const Box &box = *outcome->plan.stages[2].surroundings.box;
      const std::size_t from = index_of(*outcome, outcome->stage_ends[1].time);
      REQUIRE(outcome->time[from] == outcome->stage_ends[1].time);
      // The air trace is the box's temperature from the first moment after the stage began.
      double lost = box.loss * (outcome->air[from + 1] + start - 2.0 * room) * 0.5 *
                    (outcome->time[from + 1] - outcome->time[from]);
      for (std::size_t i = from + 1; i + 1 < outcome->times(); ++i) {
        lost += box.loss * (0.5 * (outcome->air[i] + outcome->air[i + 1]) - room) *
                (outcome->time[i + 1] - outcome->time[i]);
      }
      const double kept = box.heat_capacity * (outcome->air.back() - start);
      const double given = -into_meat(*outcome, from);
      INFO("box at ", start, std::string(cylinder ? ", cylinder" : ", slab"));
      CHECK(given > 1e5);
      MESSAGE("given ", given, " J, kept ", kept, " J, lost ", lost, " J; open ",
              (given - kept - lost) / given);
      CHECK(kept + lost == doctest::Approx(given).epsilon(1e-3));
      CHECK(std::fabs(outcome->ledger.heat_residual) < 1e-9);
    }
  }
}

TEST_CASE("the box warms from its start towards the meat, never past it, and a tight box levels with it") {
  Plan plan = rested(insulated_box(), "foil", 20.0);
  plan.stages[2].surroundings.box->loss = 0.0;
  plan.stages[2].wrap.top.vapour_resistance = plan.stages[2].wrap.bottom.vapour_resistance = 1e9;
  const auto outcome = simulate(plan);
  const std::size_t from = index_of(*outcome, outcome->stage_ends[1].time);
  CHECK(outcome->air[from + 1] < 70.0);
  double hottest = 0.0;
  for (std::size_t s = 0; s < 2; ++s) {
    hottest = std::max(hottest, *std::max_element(outcome->surface[s].begin(), outcome->surface[s].end()));
  }
  CHECK(*std::max_element(outcome->air.begin() + static_cast<std::ptrdiff_t>(from) + 1, outcome->air.end()) <
        hottest);
  CHECK(outcome->air.back() == doctest::Approx(outcome->core.back()).epsilon(0.01));
  // Mixing: no heat leaves, so the meat's loss is the box's gain.
  const double gain = plan.stages[2].surroundings.box->heat_capacity * (outcome->air.back() - 30.0);
  CHECK(-into_meat(*outcome, from) == doctest::Approx(gain).epsilon(1e-6));
}
