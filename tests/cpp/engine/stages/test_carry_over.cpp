/// What a stage finds as the one before it left it. A stage cut in two is the same cook.
#include <doctest/doctest.h>

#include <algorithm>
#include <string>

#include "cook/cooker/chamber.hpp"
#include "cook/cooker/humid_air.hpp"
#include "cook/units.hpp"
#include "cooks.hpp"

using namespace cook;
using namespace cook::testing;

namespace {

Stage timed_stage(const Surroundings &place, double hours, const char *wrapping = "none") {
  Stage stage;
  stage.name = "part";
  stage.surroundings = place;
  stage.wrap = wrap(wrapping);
  stage.until = {{EndKind::elapsed, hours * hour}};
  return stage;
}

/// A plan that ends with a stage cut into equal parts.
Plan cut(Plan plan, const Stage &stage, int parts) {
  for (int k = 0; k < parts; ++k) {
    plan.stages.push_back(stage);
    plan.stages.back().until = {{EndKind::elapsed, stage.until[0].value / parts}};
  }
  return plan;
}

Plan hot_meat() {
  Plan plan = bare_cook(121.0);
  plan.stages[0].until = {{EndKind::elapsed, 6.0 * hour}};
  return plan;
}

Plan nothing_before() {
  Plan plan = bare_cook(121.0);
  plan.stages.clear();
  return plan;
}

/// The same cook, as far as the step control tells; it begins anew at each stage.
void same_cook(const Outcome &a, const Outcome &b, double kelvin = 0.1) {
  CHECK(a.time.back() == doctest::Approx(b.time.back()).epsilon(1e-9));
  CHECK(std::fabs(a.core.back() - b.core.back()) < kelvin);
  CHECK(std::fabs(a.surface[1].back() - b.surface[1].back()) < 3.0 * kelvin);
  CHECK(std::fabs(a.air.back() - b.air.back()) < kelvin);
  CHECK(a.vapour_pressure.back() == doctest::Approx(b.vapour_pressure.back()).epsilon(0.01));
  CHECK(a.pan_water.back() == doctest::Approx(b.pan_water.back()).epsilon(1e-3));
  CHECK(a.ledger.evaporated == doctest::Approx(b.ledger.evaporated).epsilon(0.005));
  for (const Outcome *out : {&a, &b}) {
    CHECK(std::fabs(out->ledger.heat_residual) < 1e-10);
    CHECK(std::fabs(out->ledger.water_residual) < 1e-10);
    CHECK(std::fabs(out->ledger.air_residual) < 1e-10);
  }
}

double air_at(const Outcome &out, double seconds) {
  return out.air[static_cast<std::size_t>(std::lower_bound(out.time.begin(), out.time.end(), seconds - 1e-6) -
                                          out.time.begin())];
}

} // namespace

TEST_CASE("a rest in a box is the same in one stage, or in 2, 6 or 24: the box stays as warm as it is") {
  const Stage rest = timed_stage(insulated_box(), 8.0, "foil");
  const auto whole = simulate(cut(hot_meat(), rest, 1));
  for (const int parts : {2, 6, 24}) {
    INFO(parts, " parts");
    same_cook(*whole, *simulate(cut(hot_meat(), rest, parts)));
  }
  // Wherever it is carried: the room is not the box.
  Plan moved = cut(hot_meat(), rest, 2);
  moved.stages[2].surroundings.air = Signal(moved.stages[2].surroundings.air.value[0] + 1e-3);
  same_cook(*whole, *simulate(moved));
}

TEST_CASE("another box begins as it is given") {
  Plan plan = cut(hot_meat(), timed_stage(insulated_box(), 4.0, "foil"), 2);
  const double carried = simulate(plan)->core.back();
  plan.stages[2].surroundings.box->start = 30.5; // filled with warm water in between
  CHECK(simulate(plan)->core.back() < carried - 0.5);
  plan.stages[2].surroundings.box->start = 30.0;
  plan.stages[2].surroundings.kind = "other box";
  CHECK(simulate(plan)->core.back() < carried - 0.5);
}

TEST_CASE("a stage that is skipped leaves the box, the air and the lid before it as they are") {
  const Stage rest = timed_stage(insulated_box(), 4.0, "foil");
  const Plan plan = cut(hot_meat(), rest, 2);
  Plan between = plan;
  Stage reheat = timed_stage(oven(120.0), 1.0, "foil");
  reheat.until = {{EndKind::core, 40.0}}; // it is hotter
  between.stages.insert(between.stages.begin() + 2, reheat);
  const auto out = simulate(between);
  REQUIRE(out->notes.size() == 1);
  CHECK(out->notes[0].find("stage 'part' was skipped") == 0);
  same_cook(*simulate(plan), *out, 1e-6);
  Surroundings humid = pit("ceramic", 121.0);
  humid.pit_air = pit_air("ceramic", 121.0);
  humid.pit_air->pan = WaterPan{};
  const Plan wet = cut(nothing_before(), timed_stage(humid, 3.0), 2);
  between = wet;
  reheat.until = {{EndKind::core, 0.0}};
  between.stages.insert(between.stages.begin() + 1, reheat);
  same_cook(*simulate(wet), *simulate(between), 1e-6);
}

TEST_CASE("a cooker's air and its water pan go on through a cut, at another heat too") {
  Surroundings humid = pit("ceramic", 121.0);
  humid.pit_air = pit_air("ceramic", 121.0);
  humid.pit_air->pan = WaterPan{};
  const Stage smoke = timed_stage(humid, 4.0);
  const auto whole = simulate(cut(nothing_before(), smoke, 1));
  for (const int parts : {2, 7}) {
    same_cook(*whole, *simulate(cut(nothing_before(), smoke, parts)), 0.2);
  }
  Plan hotter = cut(nothing_before(), smoke, 2);
  hotter.stages[1].surroundings.air = Signal(135.0);
  const auto out = simulate(hotter);
  const auto cut_at = static_cast<std::size_t>(
      std::lower_bound(out->time.begin(), out->time.end(), 2.0 * hour) - out->time.begin());
  CHECK(out->pan_water[cut_at + 1] < out->pan_water[cut_at]);
  CHECK(out->pan_water[cut_at + 1] > out->pan_water[cut_at] - 0.1);
}

TEST_CASE("a pan that differs has been filled anew, in the air as it is; the ledger knows") {
  Surroundings humid = pit("ceramic", 121.0);
  humid.pit_air = pit_air("ceramic", 121.0);
  humid.pit_air->pan = WaterPan{};
  Plan plan = cut(nothing_before(), timed_stage(humid, 4.0), 2);
  plan.stages[1].surroundings.pit_air->pan->water = 5.0;
  const auto filled = simulate(plan);
  const auto after = static_cast<std::size_t>(
      std::upper_bound(filled->time.begin(), filled->time.end(), 2.0 * hour) - filled->time.begin());
  CHECK(filled->pan_water[after] > 4.9);
  CHECK(std::fabs(filled->vapour_pressure[after] - filled->vapour_pressure[after - 1]) < 4000.0);
  CHECK(std::fabs(filled->ledger.air_residual) < 1e-10);
  plan.stages[1].surroundings.pit_air->pan.reset(); // taken out
  const auto taken = simulate(plan);
  CHECK(taken->pan_water.back() == 0.0);
  CHECK(taken->vapour_pressure.back() < filled->vapour_pressure.back());
  CHECK(std::fabs(taken->ledger.air_residual) < 1e-10);
}

TEST_CASE("a lid that was opened just before a cut is still open, and the air still recovers") {
  Stage smoke = timed_stage(pit("drum", 121.0), 2.0);
  smoke.lid = {{.at = 3500.0, .duration = 200.0}};
  Options options;
  options.output_every = 10.0;
  const auto whole = simulate(cut(nothing_before(), smoke, 1), options);
  Plan parts = cut(nothing_before(), smoke, 2);
  parts.stages[1].lid.clear();
  const auto out = simulate(parts, options);
  for (const double at : {3590.0, 3610.0, 3690.0, 3800.0, 3900.0, 4010.0, 5000.0}) {
    INFO("at ", at, " s");
    CHECK(air_at(*out, at) == doctest::Approx(air_at(*whole, at)).epsilon(1e-6));
  }
  CHECK(air_at(*whole, 3690.0) < 60.0);
  same_cook(*whole, *out);
  parts.stages[1].surroundings = oven(121.0); // moved into another
  CHECK(air_at(*simulate(parts, options), 3690.0) == doctest::Approx(121.0));
}

TEST_CASE("a pit whose air changes, logged or set, is the same cook in one stage or in several") {
  Surroundings place = pit("drum", Signal({0.0, 3600.0, 7200.0, 20000.0}, {80.0, 140.0, 100.0, 130.0}));
  place.vapour_pressure = Signal({0.0, 10000.0}, {4000.0, 12000.0});
  for (const bool measured : {false, true}) {
    place.air.measured = measured;
    const Stage smoke = timed_stage(place, 5.0);
    const auto whole = simulate(cut(nothing_before(), smoke, 1));
    same_cook(*whole, *simulate(cut(nothing_before(), smoke, 10)));
  }
}

TEST_CASE("a box in a room that warms up, or swings, feels it") {
  const auto core = [](Signal room) {
    Stage rest = timed_stage(insulated_box(), 12.0, "foil");
    rest.surroundings.box->loss = 4.0;
    rest.surroundings.air = std::move(room);
    return simulate(cut(hot_meat(), rest, 1))->core.back();
  };
  const double cold = core({5.0});
  const double warm = core({40.0});
  const double warms = core({{6.0 * hour, 18.0 * hour}, {5.0, 40.0}});
  CHECK(warm > cold + 5.0);
  CHECK(warms > cold + 0.3 * (warm - cold));
  CHECK(warms < warm - 0.1 * (warm - cold));
  Signal swinging(22.0);
  swinging.ripple_amplitude = 15.0;
  swinging.ripple_period = 24.0 * hour;
  CHECK(std::fabs(core(swinging) - core({22.0})) > 0.3);
}
