/// Heat and water account for themselves in whatever plan is run, and no number leaves the range of the
/// possible.
#include <doctest/doctest.h>

#include <algorithm>
#include <random>

#include "cook/cooker/humid_air.hpp"
#include "cook/errors.hpp"
#include "cooks.hpp"

using namespace cook;
using namespace cook::testing;

namespace {

/// Largest departures seen; in a message at the end.
struct Worst {
  double heat = 0.0, water = 0.0, above = -1e9, below = -1e9, least_water = 1e9, least_film = 1e9;
  int whole = 0, partial = 0;
};

/// The range that temperatures can take: the hottest air, wall or spray so far; the coldest wet bulb.
struct Range {
  double low, high;
};

double wet_bulb_or_air(double air, double vapour, double pressure) {
  const bool has_one = air >= 0.0 && vapour < saturation_pressure(air) && vapour < 0.95 * pressure;
  return has_one ? wet_bulb(air, vapour, pressure) : air;
}

Range possible(const Plan &plan) {
  Range range{plan.meat.start, plan.meat.start};
  for (const Stage &stage : plan.stages) {
    const Surroundings &s = stage.surroundings;
    const double offset = std::max({0.0, s.radiant_bottom, s.radiant_top});
    const double drop = std::min({0.0, s.radiant_bottom, s.radiant_top});
    double hottest = s.air.maximum();
    double coldest = s.air.minimum();
    for (const auto &below : {s.air_below}) {
      hottest = below ? std::max(hottest, below->maximum()) : hottest;
      coldest = below ? std::min(coldest, below->minimum()) : coldest;
    }
    if (s.box) {
      hottest = std::max(hottest, s.box->start);
      coldest = std::min(coldest, s.box->start);
    }
    if (stage.spritz || !stage.lid.empty()) {
      coldest = std::min(coldest, s.ambient);
    }
    if (stage.spritz) {
      range.low = std::min(range.low, stage.spritz->temperature);
      range.high = std::max(range.high, stage.spritz->temperature);
    }
    // Vapour condensing warms a cold face up to its dew point.
    const double dew = dew_point(std::max(s.vapour_pressure.maximum(), 500.0));
    range.high = std::max({range.high, hottest + offset, dew});
    range.low = std::min(range.low, wet_bulb_or_air(coldest, s.vapour_pressure.minimum(), s.pressure) + drop);
  }
  return range;
}

void check_sound(const Plan &plan, const Outcome &out, Worst &worst) {
  const Ledger &ledger = out.ledger;
  CHECK(std::fabs(ledger.heat_residual) < 1e-9);
  CHECK(std::fabs(ledger.water_residual) < 1e-9);
  worst.heat = std::max(worst.heat, std::fabs(ledger.heat_residual));
  worst.water = std::max(worst.water, std::fabs(ledger.water_residual));
  CHECK(ledger.water_start > 0.0);

  REQUIRE(out.times() > 1);
  REQUIRE(out.temperature.size() == out.times() * out.nodes());
  for (std::size_t i = 0; i + 1 < out.times(); ++i) {
    REQUIRE(out.time[i + 1] > out.time[i]);
  }
  const auto finite = [](const std::vector<double> &values) {
    return std::all_of(values.begin(), values.end(), [](double v) { return std::isfinite(v); });
  };
  for (const auto *values : {&out.core, &out.coldest, &out.air, &out.tenderness, &out.mean_water,
                             &out.mean_temperature, &out.temperature, &out.water}) {
    CHECK(finite(*values));
  }
  for (std::size_t s = 0; s < 2; ++s) {
    CHECK(finite(out.surface[s]));
    CHECK(finite(out.surface_water[s]));
    CHECK(finite(out.film[s]));
    for (const auto &path : out.paths[s]) {
      CHECK(path.size() == out.times());
      CHECK(finite(path));
    }
    worst.least_film = std::min(worst.least_film, *std::min_element(out.film[s].begin(), out.film[s].end()));
  }
  worst.least_water = std::min(worst.least_water, *std::min_element(out.water.begin(), out.water.end()));
  const Range range = possible(plan);
  const double high = *std::max_element(out.temperature.begin(), out.temperature.end()) - range.high;
  const double low = range.low - *std::min_element(out.temperature.begin(), out.temperature.end());
  worst.above = std::max(worst.above, high);
  worst.below = std::max(worst.below, low);
  CHECK(high < 0.05);
  CHECK(low < 0.5);
  // Tenderness only grows; the totals of the trace are those of the ledger.
  for (std::size_t i = 0; i + 1 < out.times(); ++i) {
    CHECK(out.tenderness[i + 1] >= out.tenderness[i] - 1e-12);
  }
  double evaporated = 0.0;
  for (std::size_t s = 0; s < 2; ++s) {
    evaporated += out.paths[s][static_cast<std::size_t>(FacePath::evaporated)].back() * out.face_area[s];
  }
  CHECK(evaporated == doctest::Approx(ledger.evaporated).epsilon(1e-9));
}

/// Runs a plan that may end before its time; either way what was computed must be sound.
void run(const Plan &plan, const Options &options, Worst &worst) {
  std::shared_ptr<const Outcome> outcome;
  try {
    outcome = simulate(plan, options);
    ++worst.whole;
    CHECK(outcome->stage_ends.size() == plan.stages.size());
  } catch (const Unreachable &unreachable) {
    outcome = unreachable.outcome();
    ++worst.partial;
    CHECK(outcome->stage_ends.size() < plan.stages.size());
  }
  REQUIRE(outcome);
  check_sound(plan, *outcome, worst);
}

/// Draws plans; the same ones everywhere, since only the generator itself is fixed by the standard, not
/// distributions.
class Draw {
public:
  explicit Draw(unsigned seed) : random_(seed) {}
  double unit() { return static_cast<double>(random_()) / 4294967296.0; }
  double between(double low, double high) { return low + (high - low) * unit(); }
  std::size_t below(std::size_t n) { return static_cast<std::size_t>(unit() * static_cast<double>(n)); }
  bool chance(double share) { return unit() < share; }

  Plan plan() {
    Plan plan;
    const bool cylinder = chance(0.3);
    plan.meat = cylinder ? roll(between(1.0, 5.0)) : brisket(between(2.0, 8.0));
    plan.meat.start = between(0.0, 22.0);
    if (!cylinder) {
      plan.meat.fat_cap.side = std::array{FatSide::none, FatSide::down, FatSide::up}[below(3)];
    }
    const double air = between(85.0, 165.0);
    Stage smoke;
    smoke.surroundings =
        chance(0.2) ? oven(air, chance(0.5)) : pit(pit_kinds()[below(pit_kinds().size())], air);
    smoke.surroundings.air = air_signal(air);
    if (chance(0.3)) {
      smoke.surroundings.vapour_pressure = Signal(between(2000.0, 30000.0));
    }
    if (chance(0.15)) {
      smoke.surroundings.pressure = 8e4; // high up in the mountains, where water boils at 93.5 °C
    }
    if (chance(0.2)) {
      smoke.surroundings.top = smoke.surroundings.bottom = {Convection::given, between(2.0, 40.0), 0.06};
    }
    if (chance(0.2) && !cylinder) {
      smoke.surroundings.air_below = Signal(air + between(-30.0, 30.0));
    }
    smoke.until = {{EndKind::core, between(55.0, 75.0)}, {EndKind::elapsed, between(3.0, 12.0) * hour}};
    if (chance(0.4)) {
      smoke.spritz = Spritz{.every = between(1200.0, 4000.0),
                            .first = between(600.0, 7000.0),
                            .amount = between(0.01, 0.2),
                            .temperature = between(5.0, 60.0),
                            .lid_open = between(0.0, 60.0)};
    }
    if (chance(0.3)) {
      smoke.lid = {{between(0.0, 4000.0), between(10.0, 300.0)},
                   {between(4000.0, 9000.0), between(10.0, 600.0)}};
    }
    plan.stages.push_back(smoke);
    Stage wrapped = smoke;
    wrapped.name = "wrapped";
    wrapped.wrap = wrap(wrap_names()[below(wrap_names().size())]);
    wrapped.spritz.reset();
    wrapped.lid.clear();
    wrapped.until = {{EndKind::core, std::min(between(80.0, 96.0), smoke.surroundings.air.minimum() - 3.0)}};
    wrapped.at_most = between(4.0, 20.0) * hour;
    plan.stages.push_back(wrapped);
    if (chance(0.6)) {
      plan.stages.push_back(rest());
    }
    if (chance(0.3)) {
      Stage hold;
      hold.name = "hold";
      hold.surroundings = pit("cabinet", 66.0);
      hold.wrap = wrap(chance(0.5) ? "butcher paper" : "foil");
      hold.until = {{EndKind::elapsed, between(1.0, 6.0) * hour}};
      plan.stages.push_back(hold);
    }
    return plan;
  }

private:
  Signal air_signal(double air) {
    if (chance(0.25)) { // a controller's ripple
      Signal signal(air);
      signal.ripple_amplitude = between(1.0, 10.0);
      signal.ripple_period = between(240.0, 1500.0);
      return signal;
    }
    if (chance(0.25)) { // a schedule
      return {{0.0, between(600.0, 4000.0), between(7000.0, 12000.0)},
              {air - 20.0, air, air + between(-5.0, 15.0)}};
    }
    if (chance(0.3)) { // a log with a reading every minute
      Signal log;
      log.time.clear();
      log.value.clear();
      log.measured = true;
      for (int minute = 0; minute < 240; ++minute) {
        log.time.push_back(60.0 * minute);
        log.value.push_back(air + between(-4.0, 4.0));
      }
      return log;
    }
    return air;
  }

  Stage rest() {
    Stage stage;
    stage.name = "rest";
    const bool boxed = chance(0.5);
    stage.surroundings = boxed ? insulated_box(between(10.0, 30.0), {.start = between(20.0, 70.0)})
                               : counter(between(10.0, 30.0));
    stage.wrap = wrap(boxed ? "towels" : wrap_names()[below(wrap_names().size())]);
    stage.until = {{EndKind::cooled, between(50.0, 65.0)}, {EndKind::elapsed, between(0.5, 5.0) * hour}};
    return stage;
  }

  std::mt19937 random_;
};

} // namespace

TEST_CASE("heat and water add up in sixty random plans, and nothing leaves the range of the possible") {
  Worst worst;
  Draw draw(20);
  Options options;
  options.nodes = 31;
  options.output_every = 300.0;
  for (int i = 0; i < 60; ++i) {
    const Plan plan = draw.plan();
    options.physics = {};
    if (draw.chance(0.2)) {
      options.physics = {.evaporation = draw.chance(0.5),
                         .squeezing = draw.chance(0.5),
                         .radiation = draw.chance(0.5),
                         .sinks = draw.chance(0.5)};
    }
    INFO("plan ", i, ": ", plan.stages[0].surroundings.kind, ", air ",
         plan.stages[0].surroundings.air.value[0], ", wrap ", plan.stages[1].wrap.name);
    run(plan, options, worst);
  }
  MESSAGE(worst.whole, " whole, ", worst.partial, " partial; residuals: heat ", worst.heat, ", water ",
          worst.water, "; above the hottest ", worst.above, " K; below the coldest wet bulb ", worst.below,
          " K; least water ", worst.least_water, " kg/kg, least film ", worst.least_film, " kg/m2");
  CHECK(worst.whole > 30);
  CHECK(worst.partial > 3);
  CHECK(worst.least_water > -2e-6);
  // A drying film may be overdrawn within the tolerance: by less than a thousandth of a sprayed coat.
  CHECK(worst.least_film > -3e-4);
}
