// Calibration against invented cooks: hidden numbers are found, intervals and words are as they should be.
#include "cook/errors.hpp"
#include "cook/fit/calibrate.hpp"
#include "cook/json/json.hpp"

#include "fit/invented_logs.hpp"

#include <doctest/doctest.h>

#include <cmath>

using namespace cook;
using namespace cook::testing;

namespace {

const InventedCook &hidden_cook() {
  static const InventedCook cook = invent(
      with(nominal_plan(),
           {{"thickness", 0.049}, {"film_coefficient", 6.4}, {"vapour_pressure", 9500.0}, {"start", 6.0}}));
  return cook;
}

const std::initializer_list<const char *> five{"thickness", "film_coefficient", "vapour_pressure", "start",
                                               "expressed_mobility"};

bool mentions(const std::vector<std::string> &notes, const std::string &words) {
  for (const std::string &note : notes) {
    if (note.find(words) != std::string::npos) {
      return true;
    }
  }
  return false;
}

} // namespace

TEST_CASE("hidden numbers are found within their intervals") {
  const InventedCook &cook = hidden_cook();
  FitOptions options;
  options.model_error = slab_model_error();
  const Fit fit = calibrate(nominal_plan(), cook.log, named(five), options);
  CHECK(fit.converged);
  CHECK(fit.rms < 0.5);
  CHECK(fit.estimate("thickness").value == doctest::Approx(0.049).epsilon(0.04));
  CHECK(fit.estimate("start").value == doctest::Approx(6.0).epsilon(0.15));
  const struct {
    const char *name;
    double value;
  } truths[] = {{"thickness", 0.049}, {"film_coefficient", 6.4}, {"vapour_pressure", 9500.0}};
  for (const auto &truth : truths) {
    CAPTURE(truth.name);
    const Estimate &e = fit.estimate(truth.name);
    CHECK(e.low90 < e.low50);
    CHECK(e.low50 < e.value);
    CHECK(e.value < e.high50);
    CHECK(e.high50 < e.high90);
    // Three standard deviations: this is one cook, not a study.
    CHECK(std::fabs(std::log(e.value / truth.value)) < 3.0 * e.deviation);
    CHECK(e.learned > 0.3);
  }
  // The tuned plan cooks like the log.
  CHECK(fit.plan.stages.size() == 3);
  CHECK(fit.plan.stages[0].until[0].kind == EndKind::core);
  CHECK(simulate(fit.plan)->stage_ends[1].time == doctest::Approx(cook.done).epsilon(0.05));
  CHECK(fit.asked[0].meat.shape.thickness == 0.045);
}

TEST_CASE("trusting the model less widens the intervals") {
  const InventedCook &cook = hidden_cook();
  FitOptions sure;
  sure.model_error = slab_model_error();
  const Fit narrow = calibrate(nominal_plan(), cook.log, named(five), sure);
  const Fit wide = calibrate(nominal_plan(), cook.log, named(five));
  for (std::size_t j = 0; j < narrow.estimates.size(); ++j) {
    CAPTURE(narrow.estimates[j].name);
    CHECK(wide.estimates[j].deviation > narrow.estimates[j].deviation);
    CHECK(wide.estimates[j].deviation <= 1.02 * wide.estimates[j].prior_spread);
  }
}

TEST_CASE("what a log cannot tell is said in words") {
  const InventedCook &cook = hidden_cook();
  // Start and the thermometer's offset: at first only their sum shows.
  const CookLog early = until(cook, 1500.0);
  FitOptions options;
  options.model_error = slab_model_error();
  const Fit fit =
      calibrate(nominal_plan(), early, named({"start", "sensor_offset", "held_mobility"}), options);
  CHECK(std::fabs(fit.correlation(0, 1)) > 0.8);
  CHECK(mentions(fit.notes, "cannot tell"));
  CHECK(mentions(fit.notes, "little about held mobility"));
  CHECK(fit.correlation(0, 0) == doctest::Approx(1.0));
}

TEST_CASE("a probe pulled out for a while hardly moves a robust fit" * doctest::test_suite("repeats")) {
  const InventedCook &cook = hidden_cook();
  CookLog spoilt = cook.log;
  for (std::size_t i = 100; i < 112; ++i) {
    spoilt.core[i] = 30.0;
  }
  spoilt.ended = {{0, cook.wrapped_at}, {1, cook.done}};
  const Fit good = calibrate(nominal_plan(), cook.log, named(five));
  const Fit robust = calibrate(nominal_plan(), spoilt, named(five));
  FitOptions plain;
  plain.robust = false;
  const Fit pulled = calibrate(nominal_plan(), spoilt, named(five), plain);
  double robust_off = 0.0;
  double plain_off = 0.0;
  for (std::size_t j = 0; j < good.estimates.size(); ++j) {
    robust_off +=
        std::pow((robust.estimates[j].value - good.estimates[j].value) / good.estimates[j].value, 2);
    plain_off += std::pow((pulled.estimates[j].value - good.estimates[j].value) / good.estimates[j].value, 2);
  }
  CHECK(robust_off < plain_off);
  CHECK(std::fabs(std::log(robust.estimate("thickness").value / good.estimate("thickness").value)) < 0.03);
  CHECK(mentions(robust.notes, "count less"));
}

TEST_CASE("several logs share the cooker and keep their own meat") {
  const InventedCook first =
      invent(with(nominal_plan(), {{"thickness", 0.049}, {"vapour_pressure", 10000.0}}), 0.2, 3);
  const InventedCook second =
      invent(with(nominal_plan(), {{"thickness", 0.041}, {"vapour_pressure", 10000.0}}), 0.2, 8);
  const std::vector<CookLog> logs{first.log, second.log};
  const std::vector<Plan> plans{nominal_plan()};
  const Fit fit = calibrate(plans, logs, named({"thickness", "vapour_pressure"}));
  REQUIRE(fit.estimates.size() == 3);
  CHECK(fit.estimates[0].name == "vapour_pressure");
  CHECK(fit.estimates[0].log == -1);
  CHECK(fit.estimates[1].log == 0);
  CHECK(fit.estimates[2].log == 1);
  CHECK(fit.estimates[1].value > fit.estimates[2].value);
  CHECK(fit.plans.size() == 2);
  CHECK(fit.plans[0].meat.shape.thickness == doctest::Approx(fit.estimates[1].value));
  CHECK(fit.plan.meat.shape.thickness == doctest::Approx(fit.estimates[2].value));
  // Two logs tell more of the shared number than one.
  const Fit alone = calibrate(nominal_plan(), first.log, named({"thickness", "vapour_pressure"}));
  CHECK(fit.estimates[0].deviation < alone.estimate("vapour_pressure").deviation);
}

TEST_CASE("what is believed beforehand counts, and its source is kept") {
  const InventedCook &cook = hidden_cook();
  const std::vector<FreeParameter> free{
      {.name = "thickness", .median = 0.049, .spread = 0.001, .source = "callipers"},
      {.name = "vapour_pressure"}};
  const Fit fit = calibrate(nominal_plan(), cook.log, free);
  CHECK(fit.estimate("thickness").value == doctest::Approx(0.049).epsilon(0.003));
  CHECK(fit.estimate("thickness").source == "callipers");
  CHECK(fit.estimate("vapour_pressure").source.find("the plan's") != std::string::npos);
}

TEST_CASE("a cook that the plan cannot make widens the intervals and says so" *
          doctest::test_suite("repeats")) {
  CookLog odd = hidden_cook().log;
  for (std::size_t i = 0; i < odd.time.size(); ++i) {
    odd.core[i] += 8.0 * std::sin(odd.time[i] / 1500.0);
  }
  odd.ended = {{0, hidden_cook().wrapped_at}, {1, hidden_cook().done}};
  FitOptions options;
  options.model_error = slab_model_error();
  const Fit fit = calibrate(nominal_plan(), odd, named(five), options);
  CHECK(fit.widened > 2.0);
  CHECK(mentions(fit.notes, "widened"));
}

TEST_CASE("a tuned plan that cannot be cooked is told of, and goes through JSON all the same") {
  Plan hopeful = nominal_plan();
  for (Stage &stage : hopeful.stages) {
    if (heats(stage)) {
      stage.surroundings.air = Signal(96.0);
    }
  }
  const std::vector<FreeParameter> free{{.name = "pit_offset", .median = -6.0, .spread = 0.5}};
  const Fit fit = calibrate(hopeful, until(hidden_cook(), 4 * 3600.0), free);
  CHECK_THROWS_AS(fit.plan.validate(), InvalidInput);
  CHECK(mentions(fit.notes, "cannot be cooked as it stands"));
  CHECK(to_json(fit_from_json(to_json(fit))) == to_json(fit));
}

TEST_CASE("the sampler's density has its top where the fit is") {
  const InventedCook &cook = hidden_cook();
  const auto free = named({"thickness", "start"});
  const Fit fit = calibrate(nominal_plan(), cook.log, free);
  const std::vector<Plan> plans{nominal_plan()};
  const std::vector<CookLog> logs{cook.log};
  LogPosterior density(plans, logs, free);
  CHECK(density.size() == 2);
  std::vector<double> best;
  for (const Estimate &e : fit.estimates) {
    best.push_back(e.scale == Scale::logarithmic ? std::log(e.value / e.prior) / e.prior_spread
                                                 : (e.value - e.prior) / e.prior_spread);
  }
  const double top = density(best)[0];
  for (std::size_t j = 0; j < 2; ++j) {
    const double deviation = std::sqrt(fit.covariance[3 * j]);
    // Two standard deviations off in one direction, the other at its conditional best: about 2 lower at
    // least.
    for (const double side : {-2.0, 2.0}) {
      std::vector<double> off = best;
      off[j] += side * deviation;
      CHECK(density(off)[0] < top - 1.0);
    }
  }
  CHECK_THROWS_AS((void)density(std::vector<double>{1.0}), InvalidInput);
}

TEST_CASE("a fit goes to JSON and comes back bit by bit") {
  const Fit fit = calibrate(nominal_plan(), hidden_cook().log, named({"thickness", "start"}));
  const std::string text = to_json(fit);
  const Fit again = fit_from_json(text);
  CHECK(to_json(again) == text);
  CHECK(again.estimates[0].value == fit.estimates[0].value);
  CHECK(to_json(again.plan) == to_json(fit.plan));
  CHECK(again.notes == fit.notes);
  std::string damaged = text;
  damaged.replace(damaged.find("\"rms\""), 5, "\"rmx\"");
  CHECK_THROWS_AS((void)fit_from_json(damaged), InvalidInput);
  CHECK_THROWS_AS((void)fit_from_json(to_json(nominal_plan())), InvalidInput);
  std::string short_one = text;
  const auto at = short_one.find("\"covariance\": [") + 15;
  short_one.erase(at, short_one.find(']', at) - at);
  CHECK_THROWS_AS((void)fit_from_json(short_one), InvalidInput);
}

TEST_CASE("logs and lists that cannot be fitted") {
  const Plan plan = nominal_plan();
  const CookLog good = hidden_cook().log;
  const auto refused = [&](const CookLog &log, const std::vector<FreeParameter> &free,
                           const std::string &field) {
    try {
      (void)calibrate(plan, log, free);
    } catch (const InvalidInput &error) {
      CHECK_MESSAGE(error.field() == field, error.what());
      return true;
    }
    return false;
  };
  CookLog log = good;
  log.core.clear();
  log.time.clear();
  CHECK(refused(log, named({"thickness"}), "log.core"));
  log = until(hidden_cook(), 360.0);
  CHECK(refused(log, named(five), "log.core"));
  log = good;
  log.time[5] = log.time[4];
  CHECK(refused(log, named({"thickness"}), "log.core[5].time"));
  log = good;
  log.core.pop_back();
  CHECK(refused(log, named({"thickness"}), "log.core"));
  log = good;
  std::swap(log.core, log.pit);
  CHECK(refused(log, named({"thickness"}), "log.core"));
  log = good;
  for (double &t : log.time) {
    t -= 1e6;
  }
  CHECK(refused(log, named({"thickness"}), "log.time"));
  for (double &t : log.time) {
    t += 2e6;
  }
  CHECK(refused(log, named({"thickness"}), "log.time"));
  log = good;
  log.ended = {{7, 100.0}};
  CHECK(refused(log, named({"thickness"}), "log.ended"));
  log = good;
  log.pit.assign(log.pit.size(), 250.0);
  CHECK(refused(log, named({"thickness"}), "log.pit"));
  CHECK(refused(good, {}, "free"));
  CHECK(refused(good, named({"thickness", "thickness"}), "free[1]"));
  CHECK(refused(good, named({"thickness", "thickness_of_flat"}), "free[1]"));
  CHECK(refused(good, {{.name = "thickness", .median = 45.0}}, "free[0].median"));
  CHECK(refused(good, {{.name = "thickness", .spread = 15.0}}, "free[0].spread"));
  CHECK(refused(good, {{.name = "start", .spread = -1.0}}, "free[0].spread"));
  FitOptions options;
  options.model_error.pace = -0.1;
  CHECK_THROWS_AS((void)calibrate(plan, good, named({"thickness"}), options), InvalidInput);
  const std::vector<Plan> three(3, plan);
  const std::vector<CookLog> two(2, good);
  CHECK_THROWS_AS((void)calibrate(three, two, named({"thickness"})), InvalidInput);
  CHECK_THROWS_AS((void)calibrate(three, {}, named({"thickness"})), InvalidInput);
}

TEST_CASE("a fit can be stopped") {
  FitOptions options;
  int asked = 0;
  options.interrupted = [&asked] { return ++asked > 3; };
  CHECK_THROWS_AS((void)calibrate(nominal_plan(), hidden_cook().log, named(five), options), Interrupted);
}
