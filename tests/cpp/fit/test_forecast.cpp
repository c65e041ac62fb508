// Forecasts of invented cooks: bands, conditioning, what-ifs, bad input.
#include "cook/errors.hpp"
#include "cook/fit/forecast.hpp"

#include "fit/invented_logs.hpp"

#include <doctest/doctest.h>

#include <cmath>
#include <limits>
#include <numeric>

using namespace cook;
using namespace cook::testing;

namespace {

const InventedCook &hidden_cook() {
  static const InventedCook cook =
      invent(with(nominal_plan(), {{"thickness", 0.048}, {"film_coefficient", 6.0}}));
  return cook;
}

Forecast at(double share) {
  return forecast(nominal_plan(), until(hidden_cook(), share * hidden_cook().done));
}

double spread(const Forecast &f) { return f.finish_quantile(0.95) - f.finish_quantile(0.05); }

} // namespace

TEST_CASE("weighted quantiles") {
  CHECK(weighted_quantile({3.0, 1.0, 2.0}, {1.0, 1.0, 1.0}, 0.5) == 2.0);
  CHECK(weighted_quantile({1.0, 2.0}, {1.0, 1.0}, 0.5) == doctest::Approx(1.5));
  CHECK(weighted_quantile({1.0, 2.0, 9.0}, {0.45, 0.45, 0.1}, 0.2) == 1.0);
  CHECK(weighted_quantile({1.0, 2.0, 9.0}, {0.0, 1.0, 0.0}, 0.9) == 2.0);
  const double never = std::numeric_limits<double>::infinity();
  CHECK(weighted_quantile({1.0, 2.0, never, never}, {1.0, 1.0, 1.0, 1.0}, 0.9) == never);
  CHECK(std::isfinite(weighted_quantile({1.0, 2.0, 3.0, never}, {1.0, 1.0, 1.0, 1.0}, 0.3)));
  for (const double q : {0.0, 1.0, 90.0, -0.1}) {
    CHECK_THROWS_AS((void)weighted_quantile({1.0}, {1.0}, q), InvalidInput);
  }
  CHECK_THROWS_AS((void)weighted_quantile({1.0}, {}, 0.5), InvalidInput);
}

TEST_CASE("a first stage that a clock ends leaves the pace as uncertain as one that the core ends" *
          doctest::test_suite("repeats")) {
  // Bands of cooks that are wrapped at a known time held six measured cooks in ten: no pace was drawn there.
  Plan timed = nominal_plan();
  timed.stages[0].until = {{EndKind::elapsed, simulate(nominal_plan())->stage_ends[0].time}};
  ForecastOptions trusting;
  trusting.model_error = slab_model_error();
  const Forecast wide = forecast(timed, CookLog{});
  CHECK(spread(wide) > 1.3 * spread(forecast(timed, CookLog{}, trusting)));
  CHECK(spread(wide) > 0.5 * spread(forecast(nominal_plan(), CookLog{})));
  for (std::size_t i = 0; i < wide.members(); ++i) {
    CHECK(wide.ends(0)[i] == timed.stages[0].until[0].value); // the clock's own stage is as long as planned
  }
}

TEST_CASE("a forecast is ordered, lies after now, and sharpens as the cook goes on" *
          doctest::test_suite("repeats")) {
  const InventedCook &cook = hidden_cook();
  double before = 1e9;
  for (const double share : {0.25, 0.5, 0.75, 0.95}) {
    CAPTURE(share);
    const Forecast f = at(share);
    CHECK(f.members() == 200);
    CHECK(f.done == 1);
    CHECK(f.now == doctest::Approx(share * cook.done).epsilon(0.02));
    CHECK(std::accumulate(f.weight.begin(), f.weight.end(), 0.0) == doctest::Approx(1.0));
    CHECK(f.effective_members > 20.0);
    CHECK(f.finish_quantile(0.05) > f.now);
    CHECK(f.finish_quantile(0.05) < f.finish_quantile(0.5));
    CHECK(f.finish_quantile(0.5) < f.finish_quantile(0.95));
    if (share != 0.5) { // at the wrap, half-way, the first half has told little of the second
      CHECK(spread(f) < before);
      before = spread(f);
    }
    // The truth is somewhere in what is held possible.
    CHECK(f.finish_quantile(0.01) < cook.done);
    CHECK(f.finish_quantile(0.99) > cook.done);
    // The rest follows an hour after.
    CHECK(f.quantile(0.5, 2) - f.quantile(0.5, 1) == doctest::Approx(3600.0).epsilon(0.02));
    CHECK(f.chance_after(f.quantile(0.5, 1), 1) == doctest::Approx(0.5).epsilon(0.1));
    CHECK(f.chance_after(0.0, 1) == doctest::Approx(1.0));
  }
  CHECK(std::fabs(at(0.75).finish_quantile(0.5) - cook.done) < 0.15 * cook.done);
}

TEST_CASE("bands go through the log and widen after it") {
  const Forecast f = at(0.5);
  const auto low = f.core_quantile(0.05);
  const auto middle = f.core_quantile(0.5);
  const auto high = f.core_quantile(0.95);
  for (std::size_t k = 0; k < f.time.size(); ++k) {
    CHECK(low[k] <= middle[k]);
    CHECK(middle[k] <= high[k]);
    if (f.time[k] <= f.now) {
      CHECK(std::fabs(middle[k] - hidden_cook().outcome->core_at(f.time[k])) < 1.5);
      CHECK(high[k] - low[k] < 3.0);
    }
  }
  const auto just =
      static_cast<std::size_t>(std::upper_bound(f.time.begin(), f.time.end(), f.now) - f.time.begin());
  const auto later = static_cast<std::size_t>(
      std::upper_bound(f.time.begin(), f.time.end(), f.finish_quantile(0.3)) - f.time.begin());
  CHECK(high[later] - low[later] > 2.0 * (high[just] - low[just]));
}

TEST_CASE("the same seed gives the same forecast, on any number of threads") {
  const CookLog log = until(hidden_cook(), 0.4 * hidden_cook().done);
  ForecastOptions options;
  options.members = 60;
  options.threads = 1;
  const Forecast a = forecast(nominal_plan(), log, options);
  options.threads = 3;
  const Forecast b = forecast(nominal_plan(), log, options);
  CHECK(a.stage_end == b.stage_end);
  CHECK(a.weight == b.weight);
  options.seed = 2;
  CHECK(forecast(nominal_plan(), log, options).stage_end != a.stage_end);
}

TEST_CASE("without a reading the forecast is what is believed" * doctest::test_suite("repeats")) {
  const Forecast f = forecast(nominal_plan(), CookLog{});
  CHECK(f.now == 0.0);
  CHECK(f.current == 0);
  const double nominal = simulate(nominal_plan())->stage_ends[1].time;
  CHECK(f.finish_quantile(0.05) < nominal);
  CHECK(f.finish_quantile(0.95) > nominal);
  CHECK(spread(f) > spread(at(0.5)));
}

TEST_CASE("it is not done while it is not done" * doctest::test_suite("repeats")) {
  // A cook that is far behind what the plan makes: at the time when most members would be done.
  const InventedCook slow = invent(with(nominal_plan(), {{"thickness", 0.058}}), 0.2, 5);
  const Forecast f = forecast(nominal_plan(), until(slow, 0.97 * slow.done));
  CHECK(f.finish_quantile(0.02) > f.now);
  CHECK(f.finish_quantile(0.95) > slow.done - 600.0);
}

TEST_CASE("what if: the same members, other stages") {
  const Forecast base = at(0.35);
  REQUIRE(base.current == 0);
  const std::vector<Stage> same = nominal_plan().stages;
  const Forecast again = what_if(base, same);
  CHECK(again.weight == base.weight);
  double worst = 0.0;
  for (std::size_t i = 0; i < base.members(); ++i) {
    worst = std::max(worst, std::fabs(again.ends(1)[i] - base.ends(1)[i]));
  }
  CHECK(worst < 1.0);

  std::vector<Stage> foil{nominal_plan().stages[1], nominal_plan().stages[2]};
  foil[0].wrap = wrap("foil");
  const Forecast wrapped = what_if(base, foil);
  CHECK(wrapped.finish_quantile(0.5) < base.finish_quantile(0.5));

  std::vector<Stage> hotter = same;
  hotter[0].surroundings.air = hotter[1].surroundings.air = Signal(135.0);
  const Forecast quick = what_if(base, hotter);
  double sooner = 0.0;
  for (std::size_t i = 0; i < base.members(); ++i) {
    sooner += quick.ends(1)[i] < base.ends(1)[i] ? base.weight[i] : 0.0;
  }
  CHECK(sooner > 0.97);
  CHECK_THROWS_AS((void)what_if(base, {}), InvalidInput);
  CHECK_THROWS_AS((void)what_if(Forecast{}, same), InvalidInput);
}

TEST_CASE("earlier cooks of the cooker narrow a forecast") {
  const InventedCook first =
      invent(with(nominal_plan(), {{"film_coefficient", 7.0}, {"vapour_pressure", 11000.0}}), 0.2, 3);
  const Fit fit = calibrate(nominal_plan(), first.log,
                            named({"thickness", "film_coefficient", "vapour_pressure", "start"}));
  const Forecast fresh = forecast(nominal_plan(), CookLog{});
  const Forecast informed = forecast(nominal_plan(), CookLog{}, {}, &fit);
  CHECK(spread(informed) < spread(fresh));
  const auto film = static_cast<std::size_t>(
      std::find(informed.names.begin(), informed.names.end(), "film_coefficient") - informed.names.begin());
  REQUIRE(film < informed.names.size());
  double mean = 0.0;
  for (std::size_t i = 0; i < informed.members(); ++i) {
    mean += informed.weight[i] * informed.values[i * informed.names.size() + film];
  }
  CHECK(mean == doctest::Approx(fit.estimate("film_coefficient").value).epsilon(0.1));
}

TEST_CASE("a known stage end, a clock end and a spritz are kept") {
  Plan plan = nominal_plan();
  plan.clock_start = 6 * 3600.0;
  plan.stages[2].until = {{EndKind::clock, 5 * 3600.0}};
  plan.stages[0].spritz = Spritz{};
  const Forecast f = forecast(plan, until(hidden_cook(), 0.4 * hidden_cook().done));
  CHECK(f.quantile(0.5, 2) == doctest::Approx(23 * 3600.0));
  CHECK(f.quantile(0.05, 2) == doctest::Approx(23 * 3600.0));
  const InventedCook &cook = hidden_cook();
  const Forecast late = at(0.9);
  REQUIRE(cook.wrapped_at < 0.9 * cook.done);
  CHECK(late.current == 1);
  for (const double end : late.ends(0)) {
    CHECK(end == doctest::Approx(cook.wrapped_at));
  }
}

TEST_CASE("forecasts that cannot be made say why") {
  const InventedCook &cook = hidden_cook();
  CookLog whole = cook.log;
  whole.ended = {{0, cook.wrapped_at}, {1, cook.done - 7200.0}, {2, cook.done - 3600.0}};
  CHECK_THROWS_AS((void)forecast(nominal_plan(), whole), InvalidInput);
  ForecastOptions options;
  options.members = 10;
  CHECK_THROWS_AS((void)forecast(nominal_plan(), CookLog{}, options), InvalidInput);
  Plan cold = nominal_plan();
  for (Stage &stage : cold.stages) {
    stage.at_most = 2 * 3600.0;
  }
  CHECK_THROWS_AS((void)forecast(cold, CookLog{}), InvalidInput);
  options = {};
  options.interrupted = [] { return true; };
  CHECK_THROWS_AS((void)forecast(nominal_plan(), CookLog{}, options), Interrupted);
  const Forecast f = at(0.5);
  CHECK_THROWS_AS((void)f.quantile(0.5, 9), InvalidInput);
  CHECK_THROWS_AS((void)f.core_quantile(50.0), InvalidInput);
}
