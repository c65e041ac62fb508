/// Air that is given more vapour than it holds: refused where it can never be, else saturated, with a note.
#include <doctest/doctest.h>

#include <algorithm>
#include <string>
#include <vector>

#include "cook/cooker/chamber.hpp"
#include "cook/cooker/humid_air.hpp"
#include "cook/engine/simulate_many.hpp"
#include "cook/errors.hpp"
#include "cooks.hpp"

using namespace cook;
using namespace cook::testing;

namespace {

std::string refusal(const Surroundings &s) {
  try {
    s.validate("pit");
  } catch (const InvalidInput &error) {
    return error.what();
  }
  return {};
}

Surroundings at(Signal air, Signal vapour) {
  Surroundings s;
  s.air = std::move(air);
  s.vapour_pressure = std::move(vapour);
  return s;
}

Plan timed(const Surroundings &place, double hours) {
  Plan plan = bare_cook(121.0);
  plan.stages[0].surroundings = place;
  plan.stages[0].until = {{EndKind::elapsed, hours * hour}};
  return plan;
}

double water_lost(const Outcome &out) { return out.ledger.evaporated; }

/// No moment's air holds more than it can, within `share`.
bool never_above_saturation(const Outcome &out, double share = 1e-6) {
  bool never = true;
  for (std::size_t i = 1; i < out.times(); ++i) {
    never = never && out.vapour_pressure[i] <= saturation_pressure(out.air[i]) * (1.0 + share);
  }
  return never;
}

} // namespace

TEST_CASE("air at 0 °C with 90 kPa of vapour is refused, with what it holds") {
  const std::string said = refusal(at(0.0, 90e3));
  CHECK(said.find("pit.vapour_pressure: 90000 Pa of vapour cannot be in air of 32 °F (0 °C)") == 0);
  CHECK(said.find("611 Pa") != std::string::npos);
  CHECK(said.find("fog") != std::string::npos);
}

TEST_CASE("refused is what can be at no time; what can be at some is not") {
  CHECK(!refusal(at(60.0, 20e3)).empty());
  CHECK(refusal(at(60.0, 19.9e3)).empty());
  // A pit that goes out at night, or has not been lit yet.
  CHECK(refusal(at({{0.0, 3600.0}, {110.0, 5.0}}, 12e3)).empty());
  CHECK(refusal(at({{0.0, 3600.0}, {5.0, 110.0}}, 12e3)).empty());
  // Never hot and humid at one time.
  CHECK(!refusal(at({{0.0, 3600.0}, {40.0, 20.0}}, {{0.0, 3600.0}, {9000.0, 3000.0}})).empty());
  CHECK(refusal(at({{0.0, 3600.0}, {40.0, 20.0}}, {{0.0, 3600.0}, {9000.0, 2000.0}})).empty());
  Signal swings(38.0);
  swings.ripple_amplitude = 4.0;
  CHECK(refusal(at(swings, 8000.0)).empty()); // at its warmest 42 °C: 8.2 kPa
  swings.ripple_amplitude = 3.0;
  CHECK(!refusal(at(swings, 8000.0)).empty());
  // The air of a box follows the meat.
  Surroundings box = insulated_box(5.0, {.start = -5.0});
  CHECK(refusal(box).empty());
}

TEST_CASE("outside air is not more humid than the hottest outside holds") {
  Surroundings place = pit("drum", 110.0);
  place.pit_air = pit_air("drum", 110.0);
  place.pit_air->inlet_vapour_pressure = 40e3;
  CHECK(refusal(place).find("pit.pit_air.inlet_vapour_pressure") == 0);
  place.pit_air->inlet_vapour_pressure = 5e3;
  CHECK(refusal(place).empty());
}

TEST_CASE("cool smoke: a generic cooker by itself is never more than saturated") {
  for (const std::string &kind : pit_kinds()) {
    for (const double air : {-10.0, 10.0, 25.0, 45.0}) {
      const Surroundings place = pit(kind, air);
      CHECK(place.vapour_pressure.maximum() <= saturation_pressure(air));
      CHECK(simulate(timed(place, 1.0))->notes.empty());
    }
  }
  CHECK(pit("ceramic", 110.0).vapour_pressure.maximum() == 12000.0);
  CHECK(oven(10.0).vapour_pressure.maximum() == saturation_pressure(10.0));
}

TEST_CASE("a pit that goes out: its air is saturated then, and that is said") {
  const Surroundings goes_out = at({{0.0, 2.0 * hour, 3.0 * hour}, {110.0, 110.0, 5.0}}, 12e3);
  const auto out = simulate(timed(goes_out, 6.0));
  REQUIRE(out->notes.size() == 1);
  CHECK(out->notes[0].find("stage 'smoke': air of 41 °F (5 °C) holds no more than 0.9 kPa of vapour, not the "
                           "12 kPa given; the rest condenses") == 0);
  CHECK(never_above_saturation(*out));
  CHECK(out->vapour_pressure.back() == doctest::Approx(saturation_pressure(5.0)));
  CHECK(std::fabs(out->ledger.heat_residual) < 1e-10);
  CHECK(std::fabs(out->ledger.water_residual) < 1e-10);
  // Not colder than what it lies in: no vapour out of nowhere warms it.
  const auto one = simulate(timed(goes_out, 20.0));
  CHECK(one->core.back() < 30.0);
  // What is not reached is not said, and what was cold before the stage neither.
  CHECK(simulate(timed(goes_out, 2.0))->notes.empty());
  // Side by side with another it is the same cook.
  const std::vector<Plan> both{timed(goes_out, 6.0), timed(pit("drum", 110.0), 6.0)};
  const auto beside = simulate_many(both, Options{}, 1);
  CHECK(beside[0].outcome->core.back() == doctest::Approx(out->core.back()).epsilon(1e-3));
  CHECK(beside[0].outcome->notes == out->notes);
  CHECK(beside[1].outcome->notes.empty());
}

TEST_CASE("a cold box holds no more than saturation: meat does not get heat from vapour that cannot be") {
  Plan plan = timed(insulated_box(5.0, {.heat_capacity = 6e4, .loss = 5.0, .start = -10.0}), 6.0);
  plan.stages[0].wrap = wrap("foil");
  plan.meat.start = 4.0;
  const auto out = simulate(plan);
  CHECK(never_above_saturation(*out));
  CHECK(out->core.back() < 5.0);
  CHECK(out->notes.empty());
}

TEST_CASE("a vapour pressure that swings is followed") {
  Signal swings(8000.0);
  swings.ripple_amplitude = 6000.0;
  swings.ripple_period = 1800.0;
  Surroundings place = pit("drum", 121.0);
  place.vapour_pressure = swings;
  Options options;
  options.output_every = 150.0;
  const auto out = simulate(timed(place, 2.0), options);
  for (std::size_t i = 0; i < out->times(); ++i) {
    CHECK(out->vapour_pressure[i] == doctest::Approx(swings.at(out->time[i])).epsilon(1e-9));
  }
  place.vapour_pressure = 8000.0;
  CHECK(water_lost(*out) == doctest::Approx(water_lost(*simulate(timed(place, 2.0), options))).epsilon(0.05));
}

TEST_CASE("a pan steams into a cooker that goes out: what the air cannot hold condenses, and all is booked") {
  for (const GridKind grid : {GridKind::slab, GridKind::cross_section}) {
    Surroundings place = pit("ceramic", Signal({0.0, hour, 2.0 * hour}, {110.0, 110.0, 10.0}));
    place.pit_air = pit_air("ceramic", 110.0);
    place.pit_air->pan = WaterPan{.temperature = 95.0};
    Options options;
    options.grid = grid;
    options.columns = 11;
    options.rows = 9;
    const auto out = simulate(timed(place, 4.0), options);
    CHECK(never_above_saturation(*out, 0.025)); // it condenses fast, not at once
    CHECK(std::fabs(out->ledger.air_residual) < 1e-10);
    CHECK(std::fabs(out->ledger.heat_residual) < 1e-10);
    REQUIRE(out->notes.size() == 1);
    CHECK(out->notes[0].find("stage 'smoke': the cooker's air was saturated") == 0);
  }
  Surroundings hot = pit("ceramic", 110.0);
  hot.pit_air = pit_air("ceramic", 110.0);
  hot.pit_air->pan = WaterPan{};
  CHECK(simulate(timed(hot, 4.0))->notes.empty());
}
