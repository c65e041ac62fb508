/// Bad input is refused before any work, with the field, what came, what is accepted and the likely slip.
#include <doctest/doctest.h>

#include <cmath>
#include <functional>
#include <initializer_list>
#include <limits>
#include <string>
#include <vector>

#include "cook/engine/simulate_many.hpp"
#include "cook/errors.hpp"
#include "cooks.hpp"

using namespace cook;
using namespace cook::testing;

namespace {

constexpr double nan_value = std::numeric_limits<double>::quiet_NaN();
constexpr double infinite = std::numeric_limits<double>::infinity();

/// Checks that `work` throws InvalidInput about `field`, with each of `words` in the message.
void refused(const std::string &field, std::initializer_list<const char *> words,
             const std::function<void()> &work) {
  INFO("field ", field);
  try {
    work();
  } catch (const InvalidInput &error) {
    CHECK(error.field() == field);
    const std::string text = error.what();
    CHECK(text == field + ": " + error.message());
    for (const std::string word : words) {
      INFO(text, " should say ", word);
      CHECK(text.find(word) != std::string::npos);
    }
    return;
  }
  FAIL_CHECK("accepted");
}

/// The same for a plan that `spoil` has made bad, through simulate().
void plan_refused(const std::string &field, std::initializer_list<const char *> words,
                  const std::function<void(Plan &)> &spoil) {
  Plan plan = wrapped_cook(121.0, "foil", 65.6);
  spoil(plan);
  refused(field, words, [&] { (void)simulate(plan); });
}

void options_refused(const std::string &field, std::initializer_list<const char *> words,
                     const std::function<void(Options &)> &spoil) {
  Options options;
  spoil(options);
  refused(field, words, [&] { (void)simulate(bare_cook(121.0), options); });
}

} // namespace

TEST_CASE("the piece: sizes, start and fat cap") {
  plan_refused("meat.shape.thickness", {"-0.05 m", "0.005 to 0.5 m"},
               [](Plan &p) { p.meat.shape.thickness = -0.05; });
  plan_refused("meat.shape.thickness", {"0 m", "accepted"}, [](Plan &p) { p.meat.shape.thickness = 0.0; });
  plan_refused("meat.shape.thickness", {"66 m", "66 mm is 0.066"},
               [](Plan &p) { p.meat.shape.thickness = 66.0; });
  plan_refused("meat.shape.thickness", {"nan", "finite"},
               [](Plan &p) { p.meat.shape.thickness = nan_value; });
  plan_refused("meat.shape.area", {"-0.1 m²", "one face"}, [](Plan &p) { p.meat.shape.extent = -0.1; });
  plan_refused("meat.shape.diameter", {"140 m", "metres"}, [](Plan &p) {
    p.meat.shape = {.kind = ShapeKind::cylinder, .thickness = 140.0, .extent = 0.25};
  });
  plan_refused("meat.shape.length", {"0 m"}, [](Plan &p) {
    p.meat.shape = {.kind = ShapeKind::cylinder, .thickness = 0.14, .extent = 0.0};
  });
  plan_refused("meat.start", {"101 °C", "-1 to 95 °C", "did you mean '101 °F'", "38.3 °C"},
               [](Plan &p) { p.meat.start = 101.0; });
  plan_refused("meat.start", {"-18 °C", "accepted"}, [](Plan &p) { p.meat.start = -18.0; });
  plan_refused("meat.start", {"277.15 °C", "kelvin"}, [](Plan &p) { p.meat.start = 277.15; });
  plan_refused("meat.fat_cap.thickness", {"6 m"}, [](Plan &p) { p.meat.fat_cap.thickness = 6.0; });
  plan_refused("meat.fat_cap.vapour_resistivity", {"-1 s/m²"},
               [](Plan &p) { p.meat.fat_cap.vapour_resistivity = -1.0; });
  plan_refused("meat.fat_cap", {"cylinder", "one face"}, [](Plan &p) {
    p.meat.shape = {.kind = ShapeKind::cylinder, .thickness = 0.14, .extent = 0.25};
    p.meat.fat_cap.side = FatSide::down;
  });
  refused("mass", {"6000 kg", "0.15 to 11.4 kg", "'8 lb'"}, [] { (void)brisket(6000.0); });
  refused("mass", {"0 kg"}, [] { (void)pork_shoulder(0.0); });
  refused("mass", {"finite"}, [] { (void)brisket(nan_value); });
  refused("brisket.shape.thickness", {"56 m", "56", "metres"}, [] { (void)brisket(6.0, 56.0); });
  refused("pork shoulder.shape.thickness", {"-0.1 m"}, [] { (void)pork_shoulder(3.5, -0.1); });
}

TEST_CASE("the tissue: composition and the numbers of the model") {
  plan_refused("meat.composition.water", {"69.89", "0 to 1"}, [](Plan &p) {
    p.meat.tissue.composition = {
        .water = 69.89, .protein = 20.32, .fat = 9.29, .carbohydrate = 0.0, .ash = 0.98};
  });
  plan_refused("meat.composition.fat", {"-0.1"}, [](Plan &p) { p.meat.tissue.composition.fat = -0.1; });
  plan_refused("meat.composition", {"1"}, [](Plan &p) { p.meat.tissue.composition.water = 0.3; });
  plan_refused("meat.composition", {"fat-free solids"}, [](Plan &p) {
    p.meat.tissue.composition = {
        .water = 0.15, .protein = 0.01, .fat = 0.84, .carbohydrate = 0.0, .ash = 0.0};
  });
  plan_refused("meat.holding.final_share", {"53.7", "0.05 to 1"},
               [](Plan &p) { p.meat.tissue.holding.final_share = 53.7; });
  plan_refused("meat.holding.midpoint", {"150", "°C"},
               [](Plan &p) { p.meat.tissue.holding.midpoint = 150.0; });
  plan_refused("meat.holding.width", {"0 K"}, [](Plan &p) { p.meat.tissue.holding.width = 0.0; });
  plan_refused("meat.mobility.expressed", {"m²/s"}, [](Plan &p) { p.meat.tissue.mobility.expressed = 0.0; });
  plan_refused("meat.mobility.held", {"m²/s"}, [](Plan &p) { p.meat.tissue.mobility.held = 1.0; });
  plan_refused("meat.mobility.held_activation", {"J/mol"},
               [](Plan &p) { p.meat.tissue.mobility.held_activation = -1.0; });
  plan_refused("meat.mobility.dry_below", {"kg/kg"}, [](Plan &p) { p.meat.tissue.mobility.dry_below = 0.0; });
  plan_refused("meat.mobility.dry_floor", {"0.0001 to 1"},
               [](Plan &p) { p.meat.tissue.mobility.dry_floor = 0.0; });
  plan_refused("meat.mobility.switch_width", {"kg/kg"},
               [](Plan &p) { p.meat.tissue.mobility.switch_width = -0.05; });
  plan_refused("meat.sorption.monolayer", {"8 kg/kg"},
               [](Plan &p) { p.meat.tissue.sorption.monolayer = 8.0; });
  plan_refused("meat.sorption.c", {"0.5"}, [](Plan &p) { p.meat.tissue.sorption.c = 0.5; });
  plan_refused("meat.sorption.k", {"1"}, [](Plan &p) { p.meat.tissue.sorption.k = 1.0; });
  plan_refused("meat.sinks.fat_latent", {"J/kg"}, [](Plan &p) { p.meat.tissue.sinks.fat_latent = -1.0; });
  plan_refused("meat.sinks.denaturation", {"inf", "finite"},
               [](Plan &p) { p.meat.tissue.sinks.denaturation = infinite; });
  plan_refused("meat.sinks.fat_melt_end", {"20 °C"},
               [](Plan &p) { p.meat.tissue.sinks.fat_melt_end = 20.0; });
  plan_refused("meat.sinks.denaturation_end", {"40 °C"},
               [](Plan &p) { p.meat.tissue.sinks.denaturation_end = 40.0; });
  // Sharper than the property table can follow: start at 25 and 50 °C.
  plan_refused("meat.sinks.fat_melt_end", {"29.9 °C", "30 to 100 °C", "at least 5 K from fat_melt_start"},
               [](Plan &p) { p.meat.tissue.sinks.fat_melt_end = 29.9; });
  plan_refused("meat.sinks.denaturation_end",
               {"54.9 °C", "55 to 120 °C", "at least 5 K from denaturation_start"},
               [](Plan &p) { p.meat.tissue.sinks.denaturation_end = 54.9; });
  plan_refused("meat.exudation.path", {"0 m"}, [](Plan &p) { p.meat.tissue.exudation.path = 0.0; });
  plan_refused("meat.exudation.bare_film", {"kg/m²"},
               [](Plan &p) { p.meat.tissue.exudation.bare_film = -0.1; });
  plan_refused("meat.exudation.run_off_time", {"0 s"},
               [](Plan &p) { p.meat.tissue.exudation.run_off_time = 0.0; });
  plan_refused("meat.tenderness.rate_90", {"1/s"}, [](Plan &p) { p.meat.tissue.tenderness.rate_90 = -1e-4; });
  plan_refused("meat.tenderness.activation", {"J/mol"},
               [](Plan &p) { p.meat.tissue.tenderness.activation = 1e7; });
  plan_refused("meat.fixed.conductivity", {"0 W/(m·K)"},
               [](Plan &p) { p.meat.tissue.fixed = FixedThermal{.conductivity = 0.0}; });
  plan_refused("meat.fixed.heat_capacity", {"J/(m³·K)"},
               [](Plan &p) { p.meat.tissue.fixed = FixedThermal{.heat_capacity = 3.6}; });
  plan_refused("meat.emissivity", {"90", "0 to 1"}, [](Plan &p) { p.meat.tissue.emissivity = 90.0; });
}

TEST_CASE("the plan: stages and what ends them") {
  plan_refused("stages", {"empty", "at least one"}, [](Plan &p) { p.stages.clear(); });
  plan_refused("stages[1].until", {"missing", "'wrapped'"}, [](Plan &p) { p.stages[1].until.clear(); });
  plan_refused(
      "stages[1].until",
      {"a core of 397 °F (203 °C) cannot be reached in the drum, 250 °F (121 °C)", "did you mean '203 °F'?"},
      [](Plan &p) {
        p.stages[1].until = {{EndKind::core, 203.0}};
      });
  plan_refused("stages[0].until", {"a core of 250 °F (121 °C) cannot be reached in the drum"}, [](Plan &p) {
    p.stages[0].until = {{EndKind::core, 121.0}};
  });
  plan_refused("stages[0].until", {"-5 °C"}, [](Plan &p) { p.stages[0].until = {{EndKind::core, -5.0}}; });
  plan_refused("stages[0].until", {"finite"}, [](Plan &p) {
    p.stages[0].until = {{EndKind::core, nan_value}};
  });
  plan_refused("stages[1].until", {"cannot cool to 122 °F (50 °C)", "250 °F (121 °C)"}, [](Plan &p) {
    p.stages[1].until = {{EndKind::cooled, 50.0}};
  });
  plan_refused("stages[0].until", {"0 s", "above zero"}, [](Plan &p) {
    p.stages[0].until = {{EndKind::elapsed, 0.0}};
  });
  plan_refused("stages[0].until", {"at_most"}, [](Plan &p) {
    p.stages[0].until = {{EndKind::elapsed, 50.0 * hour}};
  });
  plan_refused("stages[0].until", {"start time"}, [](Plan &p) {
    p.stages[0].until = {{EndKind::clock, 6.0 * hour}};
  });
  plan_refused("stages[0].until", {"after midnight"}, [](Plan &p) {
    p.clock_start = 0.0;
    p.stages[0].until = {{EndKind::clock, 25.0 * hour}};
  });
  plan_refused("start", {"after midnight"}, [](Plan &p) { p.clock_start = -1.0; });
  plan_refused("stages[0].until", {"40", "it is set at 1"}, [](Plan &p) {
    p.stages[0].until = {{EndKind::bark, 40.0}};
  });
  plan_refused("stages[0].until", {"80", "percent are written as 0.8"}, [](Plan &p) {
    p.stages[0].until = {{EndKind::tender, 80.0}};
  });
  // The second of several conditions is checked like the first.
  plan_refused("stages[0].until", {"203 °F"}, [](Plan &p) {
    p.stages[0].until.push_back({EndKind::core, 203.0});
  });
  plan_refused("stages[0].at_most", {"0 s"}, [](Plan &p) { p.stages[0].at_most = 0.0; });
  plan_refused("stages[0].at_most", {"finite"}, [](Plan &p) { p.stages[0].at_most = infinite; });
  plan_refused("stages[0].lid[1].at", {"-5 s"}, [](Plan &p) {
    p.stages[0].lid = {{10.0, 60.0}, {-5.0, 60.0}};
  });
  plan_refused("stages[0].lid[0].duration", {"0 s"}, [](Plan &p) { p.stages[0].lid = {{10.0, 0.0}}; });
  plan_refused("stages[0].spritz.every", {"1 s", "60"},
               [](Plan &p) { p.stages[0].spritz = Spritz{.every = 1.0}; });
  plan_refused("stages[0].spritz.first", {"-1 s"},
               [](Plan &p) { p.stages[0].spritz = Spritz{.first = -1.0}; });
  plan_refused("stages[0].spritz.amount", {"15 kg/m²", "0.05 is a light spray"},
               [](Plan &p) { p.stages[0].spritz = Spritz{.amount = 15.0}; });
  plan_refused("stages[0].spritz.temperature", {"120 °C", "'120 °F'"},
               [](Plan &p) { p.stages[0].spritz = Spritz{.temperature = 120.0}; });
  plan_refused("stages[0].spritz.lid_open", {"4000 s"},
               [](Plan &p) { p.stages[0].spritz = Spritz{.lid_open = 4000.0}; });
}

TEST_CASE("the surroundings: air, vapour, films, box") {
  refused("pit.air", {"275 °C", "-20 to 230 °C", "did you mean '275 °F' (135 °C)?"},
          [] { (void)pit("drum", 275.0); });
  refused("kind", {"'barrel'", "drum", "offset"}, [] { (void)pit("barrel", 121.0); });
  refused("oven.air", {"350 °C", "'350 °F'"}, [] { (void)oven(350.0); });
  refused("counter.room", {"70 °C", "'70 °F'"}, [] { (void)counter(70.0); });
  refused("counter.room", {"finite"}, [] { (void)counter(nan_value); });
  refused("insulated_box.box.heat_capacity", {"above zero"},
          [] { (void)insulated_box(21.0, {.heat_capacity = 0.0}); });
  refused("insulated_box.box.loss", {"-1 W/K", "negative"},
          [] { (void)insulated_box(21.0, {.loss = -1.0}); });
  refused("insulated_box.box.start", {"140 °C", "'140 °F'"},
          [] { (void)insulated_box(21.0, {.start = 140.0}); });

  const auto air_refused = [](const std::string &field, std::initializer_list<const char *> words,
                              Signal air) {
    plan_refused("stages[0].surroundings." + field, words,
                 [&](Plan &p) { p.stages[0].surroundings.air = air; });
  };
  air_refused("air", {"250"}, Signal({0.0, 60.0}, {-250.0, 121.0}));
  // Where the formula for the vapour pressure of water ends.
  air_refused("air", {"-21 °C", "-20 to 230 °C"}, Signal({0.0, 60.0}, {-21.0, 121.0}));
  plan_refused("stages[0].surroundings.air_below", {"-20.5 °C", "-20 to 260 °C"},
               [](Plan &p) { p.stages[0].surroundings.air_below = Signal(-20.5); });
  air_refused("air", {"350 °C", "'350 °F' (176.7 °C)"}, Signal({0.0, 60.0}, {121.0, 350.0}));
  air_refused("air[2].time", {"60 s after 120 s", "must increase"},
              Signal({0.0, 120.0, 60.0}, {121.0, 121.0, 121.0}));
  air_refused("air[1].time", {"0 s after 0 s", "repeated"}, Signal({0.0, 0.0}, {121.0, 121.0}));
  air_refused("air[1].value", {"nan", "finite"}, Signal({0.0, 60.0}, {121.0, nan_value}));
  air_refused("air[0].time", {"inf", "finite"}, Signal({-infinite, 60.0}, {121.0, 121.0}));
  air_refused("air", {"2 times but 1 values"}, Signal({0.0, 60.0}, {121.0}));
  air_refused("air", {"empty"}, Signal(std::vector<double>{}, std::vector<double>{}));
  Signal ripple(121.0);
  ripple.ripple_amplitude = -5.0;
  air_refused("air.ripple_amplitude", {"negative"}, ripple);
  ripple.ripple_amplitude = 5.0;
  ripple.ripple_period = 0.0;
  air_refused("air.ripple_period", {"0 s", "10"}, ripple);
  ripple.ripple_period = 600.0;
  ripple.value = {258.0};
  air_refused("air", {"253 °C"}, ripple); // the ripple counts

  const auto spoilt = [](const std::string &field, std::initializer_list<const char *> words,
                         const std::function<void(Surroundings &)> &spoil) {
    plan_refused("stages[1].surroundings." + field, words, [&](Plan &p) { spoil(p.stages[1].surroundings); });
  };
  spoilt("air_below", {"300 °C"}, [](Surroundings &s) { s.air_below = Signal(300.0); });
  spoilt("air_below", {"box"}, [](Surroundings &s) {
    s.air_below = Signal(100.0);
    s.box = Box{};
  });
  spoilt("radiant_bottom", {"800 K"}, [](Surroundings &s) { s.radiant_bottom = 800.0; });
  spoilt("radiant_top", {"finite"}, [](Surroundings &s) { s.radiant_top = nan_value; });
  spoilt("radiant_top", {"1112 °F (600 °C)", "up to 752 °F (400 °C)", "meat chars", "'view'"},
         [](Surroundings &s) {
           s.air = Signal(200.0);
           s.radiant_top = 400.0;
         });
  spoilt("radiant_bottom", {"752 °F (400 °C)"}, [](Surroundings &s) {
    s.box = Box{};
    s.radiant_bottom = 450.0;
  });
  spoilt("radiant_bottom", {"-80 °C", "down to -94 °F (-70 °C)", "sky at night"}, [](Surroundings &s) {
    s.air = Signal(21.0);
    s.radiant_bottom = -101.0;
  });
  Surroundings gap = counter(20.0); // under a lid that is ajar, the sky is a part of what the meat sees
  gap.radiant_top = -110.0;
  gap.view = 0.5;
  CHECK_NOTHROW(gap.validate("counter"));
  Surroundings embers = pit("kettle", 120.0);
  embers.radiant_bottom = 480.0;
  embers.view = 0.2; // of what it sees
  CHECK_NOTHROW(embers.validate("pit"));
  spoilt("view", {"2", "0 to 1"}, [](Surroundings &s) { s.view = 2.0; });
  spoilt("bottom.value", {"-5 W/(m²·K)"}, [](Surroundings &s) {
    s.bottom = {Convection::given, -5.0, 0.06};
  });
  spoilt("top.value", {"100 m/s"}, [](Surroundings &s) { s.top = {Convection::forced, 100.0, 0.3}; });
  spoilt("top.length", {"0.001 m"}, [](Surroundings &s) { s.top.length = 0.001; });
  spoilt("pressure", {"1013 Pa"}, [](Surroundings &s) { s.pressure = 1013.0; });
  spoilt("vapour_pressure", {"-1 Pa"}, [](Surroundings &s) { s.vapour_pressure = Signal(-1.0); });
  spoilt("vapour_pressure", {"100000 Pa", "0 to 91192.5 Pa"},
         [](Surroundings &s) { s.vapour_pressure = Signal(1e5); });
  spoilt("vapour_pressure", {"8 kPa is 8000"}, [](Surroundings &s) {
    s.vapour_pressure = Signal({0.0, 60.0}, {8000.0, 1e5});
  });
  spoilt("ambient", {"70 °C", "'70 °F'"}, [](Surroundings &s) { s.ambient = 70.0; });
}

TEST_CASE("a film coefficient that no air has, where meat evaporates") {
  Plan plan;
  plan.stages.resize(1);
  plan.stages[0].surroundings = oven(120.0);
  plan.stages[0].until = {{EndKind::elapsed, 600.0}};
  plan.stages[0].surroundings.top = {Convection::given, 5e3, 0.06};
  refused("stages[0].surroundings.top.value", {"5000 W/(m²·K)", "up to 1000", "fan oven"},
          [&] { (void)simulate(plan); });
  const std::vector<Result> batch = simulate_many(std::vector<Plan>{plan, plan}, Options{}, 1);
  for (const Result &result : batch) {
    CHECK_THROWS_AS(std::rethrow_exception(result.failure), InvalidInput);
  }
  Options held;
  held.physics.evaporation = false;
  CHECK_NOTHROW((void)simulate(plan, held));
}

TEST_CASE("an end by the clock is known beforehand: nobody looks for it now and then") {
  plan_refused("stages[0].until.every", {"known beforehand", "leave 'every' out"}, [](Plan &p) {
    p.stages[0].until = {{EndKind::elapsed, 600.0, 60.0}};
  });
}

TEST_CASE("the wrap: names and resistances") {
  refused("wrap", {"'newspaper'", "butcher paper", "foil tent"}, [] { (void)wrap("newspaper"); });
  refused("wrap", {"'Foil'"}, [] { (void)wrap("Foil"); });
  plan_refused("stages[1].wrap.top.vapour_resistance", {"-1 s/m"},
               [](Plan &p) { p.stages[1].wrap.top.vapour_resistance = -1.0; });
  plan_refused("stages[1].wrap.bottom.heat_resistance", {"finite"},
               [](Plan &p) { p.stages[1].wrap.bottom.heat_resistance = nan_value; });
  plan_refused("stages[1].wrap.top.emissivity", {"1.5", "0 to 1"},
               [](Plan &p) { p.stages[1].wrap.top.emissivity = 1.5; });
  plan_refused("stages[1].wrap.bottom.juice_capacity", {"-2 kg/m²"},
               [](Plan &p) { p.stages[1].wrap.bottom.juice_capacity = -2.0; });
}

TEST_CASE("the options: nodes, tolerances, output") {
  options_refused("options.nodes", {"40", "odd"}, [](Options &o) { o.nodes = 40; });
  options_refused("options.nodes", {"7", "9 to 2001"}, [](Options &o) { o.nodes = 7; });
  options_refused("options.nodes", {"100001"}, [](Options &o) { o.nodes = 100001; });
  options_refused("options.face_spacing", {"0 m"}, [](Options &o) { o.face_spacing = 0.0; });
  options_refused("options.face_spacing", {"finite"}, [](Options &o) { o.face_spacing = nan_value; });
  options_refused("options.temperature_tolerance", {"0 K"},
                  [](Options &o) { o.temperature_tolerance = 0.0; });
  options_refused("options.water_tolerance", {"-1 kg/kg"}, [](Options &o) { o.water_tolerance = -1.0; });
  options_refused("options.output_every", {"0 s"}, [](Options &o) { o.output_every = 0.0; });
  options_refused("options.max_steps", {"0", "1 to"}, [](Options &o) { o.max_steps = 0; });
}

TEST_CASE("the limits themselves are accepted and run") {
  Plan plan = bare_cook(121.0);
  plan.stages[0].until = {{EndKind::elapsed, 600.0}};
  Options options;
  options.nodes = 9;
  options.face_spacing = 0.05;
  for (const double thickness : {0.005, 0.5}) {
    plan.meat.shape.thickness = thickness;
    for (const double start : {-1.0, 60.0}) {
      plan.meat.start = start;
      const auto outcome = simulate(plan, options);
      CHECK(std::isfinite(outcome->core.back()));
      CHECK(std::fabs(outcome->ledger.heat_residual) < 1e-9);
    }
  }
  // The hottest pit with the hottest coals under the driest of air.
  plan = bare_cook(121.0);
  plan.stages[0].until = {{EndKind::elapsed, 2.0 * hour}};
  plan.stages[0].surroundings = oven(260.0);
  plan.stages[0].surroundings.radiant_bottom = 140.0; // as far as a glow may go
  plan.stages[0].surroundings.vapour_pressure = Signal(0.0);
  const auto outcome = simulate(plan);
  CHECK(std::isfinite(outcome->surface[0].back()));
  CHECK(std::fabs(outcome->ledger.heat_residual) < 1e-9);
}
