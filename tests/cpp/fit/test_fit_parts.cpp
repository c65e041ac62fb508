// The parts of a fit: readings thinned, errors of the model, plans that follow a log, random numbers.
#include "cook/errors.hpp"
#include "fit/calibrate/binned.hpp"
#include "fit/calibrate/discrepancy.hpp"
#include "fit/calibrate/followed_plan.hpp"
#include "fit/forecast/outlook.hpp"
#include "fit/random.hpp"
#include "fit/run_many.hpp"

#include "fit/invented_logs.hpp"

#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>
#include <numeric>

using namespace cook;
using namespace cook::testing;

TEST_CASE("noise is found under a slope, and a spike does not move a median") {
  fit::Random random(9);
  CookLog log;
  for (int i = 0; i < 4000; ++i) {
    log.time.push_back(10.0 * i);
    log.core.push_back(5.0 + 80.0 * (1.0 - std::exp(-i / 1500.0)) + 0.4 * random.normal());
  }
  log.core[2000] = 145.0;
  const fit::Binned made = fit::bin(log, 1e9);
  CHECK(made.noise == doctest::Approx(0.4).epsilon(0.1));
  CHECK(made.time.size() == doctest::Approx(100).epsilon(0.05));
  for (std::size_t k = 0; k < made.time.size(); ++k) {
    const double truth = 5.0 + 80.0 * (1.0 - std::exp(-made.time[k] / 15000.0));
    CHECK(std::fabs(made.core[k] - truth) < 5.0 * std::sqrt(made.variance[k]));
  }
  CHECK(fit::bin(log, 600.0).time.back() <= 600.0);
  CHECK(fit::bin(CookLog{}, 600.0).time.empty());
}

TEST_CASE("the covariance of the time shift is the double integral of the pace's") {
  const ModelError error{.pace = 0.2, .pace_time = 5000.0, .level = 0.5, .level_time = 2000.0};
  const double a = 9000.0;
  const double b = 4000.0;
  double sum = 0.0;
  constexpr int n = 600;
  for (int i = 0; i < n; ++i) {
    for (int j = 0; j < n; ++j) {
      const double u = a * (i + 0.5) / n;
      const double v = b * (j + 0.5) / n;
      sum += std::exp(-std::fabs(u - v) / error.pace_time) * (a / n) * (b / n);
    }
  }
  CHECK(fit::shift_covariance(error, a, b) == doctest::Approx(0.04 * sum).epsilon(1e-4));
  CHECK(fit::shift_covariance(error, b, a) == fit::shift_covariance(error, a, b));
  CHECK(fit::shift_covariance(error, 0.0, a) == doctest::Approx(0.0));
  // Shorter than its memory the pace is one number: the shift is that share of the time.
  CHECK(std::sqrt(fit::shift_covariance(error, 50.0, 50.0)) == doctest::Approx(10.0).epsilon(0.01));
  CHECK(fit::level_covariance(error, a, a) == doctest::Approx(0.25));
}

TEST_CASE("random numbers have the moments they should, and the same ones come again") {
  fit::Random random(4);
  fit::Random again(4);
  double sum = 0.0;
  double squares = 0.0;
  double chi = 0.0;
  constexpr int n = 20000;
  for (int i = 0; i < n; ++i) {
    const double z = random.normal();
    CHECK_MESSAGE(z == again.normal(), i);
    sum += z;
    squares += z * z;
    chi += random.chi_square(6);
    (void)again.chi_square(6);
  }
  CHECK(std::fabs(sum / n) < 0.03);
  CHECK(squares / n == doctest::Approx(1.0).epsilon(0.04));
  CHECK(chi / n == doctest::Approx(6.0).epsilon(0.03));
  CHECK(fit::normal_share(fit::normal_quantile(0.123)) == doctest::Approx(0.123));
}

TEST_CASE("a plan follows its log") {
  const Plan plan = nominal_plan();
  const InventedCook cook = invent(plan, 0.0);
  SUBCASE("stages end when the log shows it") {
    CookLog log = until(cook, cook.wrapped_at + 1800.0);
    log.ended.clear();
    const fit::Followed made = fit::follow(plan, log);
    REQUIRE(made.current == 1);
    CHECK(std::fabs(made.end[0] - cook.wrapped_at) < 150.0);
    REQUIRE(made.plan.stages.size() == 2);
    CHECK(made.plan.stages[1].wrap.name == "butcher paper");
    CHECK(made.plan.stages[0].surroundings.air.measured);
    CHECK(simulate(made.plan)->time.back() == doctest::Approx(log.time.back()));
  }
  SUBCASE("or when it is marked") {
    CookLog log = until(cook, cook.wrapped_at + 1800.0);
    log.ended = {{0, 7200.0}};
    CHECK(fit::follow(plan, log).end[0] == 7200.0);
    log.ended = {{0, 7200.0}, {1, 3600.0}};
    CHECK_THROWS_AS((void)fit::follow(plan, log), InvalidInput);
  }
  SUBCASE("timed stages end by the clock, hidden ones as the plan's numbers say") {
    Plan timed = plan;
    timed.clock_start = 6 * 3600.0;
    timed.stages[0].until = {{EndKind::clock, 9 * 3600.0}};
    CHECK(fit::follow(timed, until(cook, 4 * 3600.0)).end[0] == doctest::Approx(3 * 3600.0));
    Plan bark = plan;
    bark.stages[0].until = {{EndKind::bark, 0.6}};
    Plan alone = bark;
    alone.stages.resize(1);
    CookLog log = until(cook, cook.done);
    log.ended.clear();
    const double set = simulate(alone)->stage_ends[0].time;
    REQUIRE(set < cook.done);
    CHECK(fit::follow(bark, log).end[0] == doctest::Approx(set).epsilon(0.05));
  }
  SUBCASE("before anything has happened") {
    const fit::Followed made = fit::follow(plan, CookLog{});
    CHECK(made.plan.stages.empty());
    CHECK(made.current == 0);
    CHECK(made.now == 0.0);
  }
}

TEST_CASE("the outlook learns level and ripple from the pit") {
  const Plan plan = nominal_plan();
  CookLog log;
  fit::Random random(2);
  double off = 0.0;
  constexpr double memory = 0.9;
  for (double t = 0.0; t < 4 * 3600.0; t += 60.0) {
    off = memory * off + std::sqrt(1.0 - memory * memory) * 3.0 * random.normal();
    log.pit_time.push_back(t);
    log.pit.push_back(118.0 + 7.0 + off);
  }
  const PitOutlook made = fit::look_ahead(plan, log, {}, 4 * 3600.0);
  CHECK(made.level > 4.0);
  CHECK(made.level < 8.5);
  CHECK(made.ripple == doctest::Approx(3.0).epsilon(0.3));
  CHECK(made.ripple_time > 300.0);
  CHECK(made.ripple_time < 1500.0);
  CHECK(made.level_deviation >= fit::outlook_drift);
  CHECK(made.level_deviation < PitOutlook{}.level_deviation);
  const PitOutlook none = fit::look_ahead(plan, CookLog{}, {}, 0.0);
  CHECK(none.level == 0.0);
  CHECK(none.level_deviation == PitOutlook{}.level_deviation);

  // A possible course: the planned one, raised, and never hotter than allowed.
  std::vector<double> still(fit::outlook_normals, 0.0);
  still[0] = 1.0;
  const Signal course = fit::possible_air(Signal(118.0), made, 100.0, still, 179.0);
  CHECK(course.at(5000.0) == doctest::Approx(118.0 + made.level + made.level_deviation));
  CHECK(fit::possible_air(Signal(118.0), made, 100.0, still, 120.0).maximum() == 120.0);
}

TEST_CASE("many cooks give the same on any number of threads, and say why one fails") {
  Plan quick = nominal_plan();
  quick.stages.resize(1);
  quick.stages[0].until = {{EndKind::elapsed, 3600.0}};
  std::vector<Plan> plans(5, quick);
  plans[1].meat.start = 10.0;
  plans[2].meat.start = -50.0;
  plans[3].stages[0].until = {{EndKind::core, 90.0}};
  plans[3].stages[0].at_most = 600.0;
  const auto one = run_many(plans, core_only({}), 1);
  const auto three = run_many(plans, core_only({}), 3);
  for (std::size_t i = 0; i < plans.size(); ++i) {
    CAPTURE(i);
    CHECK(one[i].whole == three[i].whole);
    CHECK(one[i].why == three[i].why);
    if (one[i].outcome) {
      CHECK(one[i].outcome->core == three[i].outcome->core);
    }
  }
  CHECK(one[0].whole);
  CHECK_FALSE(one[2].outcome);
  CHECK(one[2].why.find("meat.start") != std::string::npos);
  CHECK_FALSE(one[3].whole);
  CHECK(one[3].outcome);
  CHECK_THROWS_AS((void)run_many(plans, core_only([] { return true; }), 2), Interrupted);
}
