// Carryover and time in the rest, on outcomes whose answer is known and on a simulated one.
#include "cook/errors.hpp"
#include "cook/readings/readings.hpp"
#include "readings/sample_outcomes.hpp"

#include <doctest/doctest.h>

#include <algorithm>

using namespace cook;

namespace {
// Pulled at 10 h and 90 °C, peaks at 93 °C half an hour later, then falls 10 K/h.
Outcome rested() {
  Outcome out = samples::outcome({{0, 4}, {10, 90}, {10.5, 93}, {13.5, 63}});
  samples::end_stage(out, "smoke", 10.0, 110.0);
  samples::end_stage(out, "rest", 13.5, 21.0);
  return out;
}
} // namespace

TEST_CASE("carryover") {
  const auto found = carryover(rested());
  REQUIRE(found);
  CHECK(found->pulled_at == doctest::Approx(36000.0));
  CHECK(found->pulled_core == doctest::Approx(90.0));
  CHECK(found->peak == doctest::Approx(93.0));
  CHECK(found->peak_at == doctest::Approx(37800.0));
  CHECK(found->rise() == doctest::Approx(3.0));
}

TEST_CASE("carryover counts from the last heated stage") {
  // A cabinet at 66 °C holds, it does not heat a core of 90 °C; an oven does.
  Outcome out = samples::outcome({{0, 4}, {6, 70}, {10, 90}, {10.5, 93}, {13.5, 70}, {15, 68}});
  samples::end_stage(out, "smoke", 6.0, 110.0);
  samples::end_stage(out, "oven", 10.0, 121.0);
  samples::end_stage(out, "hold", 15.0, 66.0);
  REQUIRE(carryover(out));
  CHECK(carryover(out)->pulled_at == doctest::Approx(36000.0));

  Outcome hot = samples::outcome({{0, 4}, {10, 90}});
  samples::end_stage(hot, "smoke", 10.0, 110.0);
  CHECK_FALSE(carryover(hot)); // nothing follows

  Outcome cut = samples::outcome({{0, 4}, {6, 70}, {8, 75}});
  samples::end_stage(cut, "smoke", 6.0, 110.0);
  std::fill(cut.air.begin(), cut.air.end(), 110.0); // a second heated stage that a failure cut short
  CHECK_FALSE(carryover(cut));
  CHECK_THROWS_AS((void)carryover(Outcome{}), InvalidInput);
}

TEST_CASE("falling to a temperature") {
  const Outcome out = rested();
  REQUIRE(falls_to(out, 66.0));
  CHECK(*falls_to(out, 66.0) == doctest::Approx(3600.0 * 13.2).epsilon(1e-9)); // 27 K at 10 K/h after 10.5 h
  CHECK_FALSE(falls_to(out, 50.0));                                            // not within the outcome
  CHECK_FALSE(falls_to(out, 95.0));                                            // never above it
  CHECK_THROWS_AS((void)falls_to(out, 200.0), InvalidInput);
  CHECK_THROWS_AS((void)falls_to(Outcome{}, 60.0), InvalidInput);
}

TEST_CASE("time above a temperature") {
  const Outcome out = rested();
  CHECK(time_above(out, 66.0) == doctest::Approx(3600.0 * 3.2).epsilon(1e-9));
  CHECK(time_above(out, 91.5) ==
        doctest::Approx(3600.0 * 0.4).epsilon(1e-9)); // a quarter hour up, 0.15 h down
  CHECK(time_above(out, 93.5) == 0.0);
  CHECK(time_above(out, 20.0) == doctest::Approx(3600.0 * 3.5).epsilon(1e-9)); // from the pull only
  Outcome hot = samples::outcome({{0, 4}, {10, 104}});
  samples::end_stage(hot, "smoke", 10.0, 110.0);
  CHECK(time_above(hot, 54.0) ==
        doctest::Approx(18000.0).epsilon(1e-9)); // never pulled: of the whole outcome
  CHECK_THROWS_AS((void)time_above(hot, -300.0), InvalidInput);
}

TEST_CASE("rest of a simulated cook") {
  const auto out = simulate(samples::plan(135.0));
  const auto found = carryover(*out);
  REQUIRE(found);
  CHECK(found->pulled_at == doctest::Approx(out->stage_ends[0].time).epsilon(1e-9));
  CHECK(found->pulled_core == doctest::Approx(90.6).epsilon(1e-4));
  CHECK(found->peak == *std::max_element(out->core.begin(), out->core.end()));
  CHECK(found->rise() >= 0.0);
  const double middle = 0.5 * (found->peak + out->core.back());
  const auto fall = falls_to(*out, middle);
  REQUIRE(fall);
  CHECK(out->core_at(*fall) == doctest::Approx(middle).epsilon(1e-9));
}
