// Safety readings against the regulator's table, a closed form, and the limits of the rules they name.
#include "cook/errors.hpp"
#include "cook/meat/kinetics.hpp"
#include "cook/readings/readings.hpp"
#include "cook/units.hpp"
#include "readings/sample_outcomes.hpp"

#include <doctest/doctest.h>

#include <algorithm>
#include <array>
#include <cmath>

using namespace cook;

namespace {

bool warns(const Safety &found, const std::string &words) {
  return std::any_of(found.warnings.begin(), found.warnings.end(),
                     [&](const std::string &text) { return text.find(words) != std::string::npos; });
}

/// Cooked to 92 °C, then straight down: from 57 °C to 21 °C in `first` hours, on to 5 °C in `second` more.
Outcome cooled(double first, double second) {
  const double below_57 = 12.0;
  const double below_21 = below_57 + first;
  Outcome out = samples::outcome({{0, 4},
                                  {9, 90},
                                  {9.5, 92},
                                  {below_57, 57},
                                  {below_21, 21},
                                  {below_21 + second, 5},
                                  {below_21 + second + 0.5, 4}});
  samples::end_stage(out, "smoke", 9.0, 110.0);
  samples::end_stage(out, "cool", below_21 + second + 0.5, 2.0);
  return out;
}

} // namespace

TEST_CASE("lethality at constant temperature: rows of USDA FSIS Appendix A, 6.5 decimal reductions") {
  constexpr std::array<std::array<double, 2>, 6> rows{
      {{130, 112 * 60}, {135, 36 * 60}, {140, 12 * 60}, {146, 169}, {150, 67}, {155, 22}}};
  for (const auto &row : rows) {
    CAPTURE(row[0]);
    const double celsius = celsius_from_fahrenheit(row[0]);
    const Safety found = safety(samples::outcome({{0, celsius}, {3, celsius}}, 1.0));
    // The table is rounded up: to whole minutes up to 145 °F, to whole seconds above (as in test_kinetics, 1
    // s either way).
    CHECK(found.lethality_at <= row[1] + 1.0);
    CHECK(found.lethality_at > row[1] - (row[0] <= 145 ? 60.0 : 1.0));
    CHECK_FALSE(warns(found, "decimal reductions"));
  }
}

TEST_CASE("lethality along a ramp: closed form") {
  // 54.44 to 70 °C at 4 K/h, then level for an hour: integral of the exponential plus the level part.
  const double low = lethality_range_low;
  const double high = lethality_range_high;
  const double ramp = (high - low) / 4.0; // h
  const double factor = std::log(10.0) / lethality_z;
  const double rate = 1.0 / decimal_reduction_time(low);
  const double exact = rate * (std::exp(factor * (high - low)) - 1.0) / (factor * 4.0 / 3600.0) +
                       rate * std::exp(factor * (high - low)) * 3600.0;
  for (const double every : {60.0, 600.0}) {
    CAPTURE(every);
    const Safety found = safety(samples::outcome({{0, low}, {ramp, high}, {ramp + 1.0, high + 0.0}}, every));
    CHECK(found.log_reduction == doctest::Approx(exact).epsilon(0.04)); // the corner falls between samples
  }
  // One straight interval of an hour, 54.44 to 64.44 °C: a trapezoid would get it wrong by a quarter.
  const Safety coarse = safety(samples::outcome({{0, low}, {1, low + 10.0}}, 3600.0));
  const double straight = rate * (std::exp(factor * 10.0) - 1.0) / (factor * 10.0 / 3600.0);
  CHECK(coarse.log_reduction == doctest::Approx(straight).epsilon(1e-12));
}

TEST_CASE("lethality counts each place by its own history and takes the least") {
  Outcome out = samples::outcome({{0, 60}, {1, 60}}, 1200.0); // four samples
  const double third = 1200.0 * lethality_rate(60.0);
  CHECK(safety(out).log_reduction == doctest::Approx(3.0 * third));
  // The places take turns at being cold, so the coldest temperature anywhere never counts, yet each place has
  // earned some.
  out.temperature = {60, 20, 60, 20, 20, 60, 20, 60};
  const Safety found = safety(out);
  CHECK(found.log_reduction > third);
  CHECK(found.log_reduction < 2.0 * third);
  out.temperature = {60, 20, 60, 20, 60, 20, 60, 60};
  CHECK(safety(out).log_reduction < found.log_reduction);
  // Neither place below the table's first row earns anything.
  CHECK(safety(samples::outcome({{0, 54.0}, {10, 54.0}})).log_reduction == 0.0);
  CHECK(safety(samples::outcome({{0, 54.0}, {10, 54.0}})).lethality_at == -1.0);
  CHECK(warns(safety(samples::outcome({{0, 54.0}, {10, 54.0}})), "USDA FSIS cooking guideline, Appendix A"));
}

TEST_CASE("danger zone and come-up of straight lines") {
  // 10 K/h from 2 °C: 5 to 57 °C takes 5.2 h, 10 to 54.44 °C takes 4.444 h.
  Outcome out = samples::outcome({{0, 2}, {9, 92}, {12, 50}});
  for (double &value : out.surface[1]) {
    value = 150.0; // this face is hot at once; the slower one counts
  }
  const Safety found = safety(out);
  CHECK(found.core_danger_time == doctest::Approx(5.2 * 3600).epsilon(1e-9));
  CHECK(found.surface_danger_time == doctest::Approx(5.2 * 3600).epsilon(1e-9));
  CHECK(found.come_up == doctest::Approx((lethality_range_low - 10.0) / 10.0 * 3600).epsilon(1e-9));
  CHECK_FALSE(warns(found, "limits it to 6 h"));
  out.face_area[0] = 0.0; // a cylinder has only the curved face
  CHECK(safety(out).surface_danger_time == 0.0);

  const Safety slow = safety(samples::outcome({{0, 2}, {15, 92}})); // 6 K/h: 7.4 h
  CHECK(slow.come_up == doctest::Approx((lethality_range_low - 10.0) / 6.0 * 3600).epsilon(1e-9));
  CHECK(warns(slow, "takes from 10 to 54.4 °C (50 to 130 °F) 7.4 h"));
  CHECK(warns(slow, "USDA FSIS guidance (Appendix A, from memory) limits it to 6 h"));

  const Safety never = safety(samples::outcome({{0, 2}, {8, 50}})); // 10 °C at 1.33 h
  CHECK(never.come_up == -1.0);
  CHECK(warns(never, "has not come from 10 to 54.4 °C (50 to 130 °F) after 6.7 h"));
  CHECK_FALSE(warns(safety(samples::outcome({{0, 2}, {7, 44}})), "limits it to 6 h")); // 5.7 h so far
  CHECK(safety(samples::outcome({{0, 20}, {4, 60}})).come_up ==
        doctest::Approx((lethality_range_low - 20.0) / 10.0 * 3600).epsilon(1e-9)); // from its start
}

TEST_CASE("hot holding and two-step cooling") {
  const Safety good = safety(cooled(1.9, 3.9));
  CHECK(good.cooling_start == doctest::Approx(12.0 * 3600).epsilon(1e-9));
  CHECK(warns(good, "From 12 h on the core is below 57 °C (135 °F)"));
  CHECK(warns(good, "FDA Food Code 3-501.16"));
  CHECK_FALSE(warns(good, "allows 2 h"));
  CHECK_FALSE(warns(good, "allows 6 h"));

  const Safety late = safety(cooled(2.2, 3.0));
  CHECK(
      warns(late, "takes 2.2 h to cool from 57 to 21 °C (135 to 70 °F); FDA Food Code 3-501.14 allows 2 h."));
  CHECK_FALSE(warns(late, "allows 6 h"));

  const Safety slow = safety(cooled(1.9, 4.3));
  CHECK_FALSE(warns(slow, "allows 2 h"));
  CHECK(warns(
      slow, "takes 6.2 h to cool from 57 to 5 °C (135 to 41 °F); FDA Food Code 3-501.14 allows 6 h in all."));

  // Left out: the time is up although neither temperature was reached.
  Outcome left = samples::outcome({{0, 4}, {9, 92}, {12, 57}, {20, 22}});
  samples::end_stage(left, "smoke", 9.0, 110.0);
  samples::end_stage(left, "counter", 20.0, 21.0);
  CHECK(warns(safety(left), "has not cooled after 8 h from 57 to 21 °C (135 to 70 °F)"));
  CHECK(warns(safety(left), "has not cooled after 8 h from 57 to 5 °C (135 to 41 °F)"));

  // Held hot to the end: nothing to say about cooling.
  Outcome held = samples::outcome({{0, 4}, {9, 92}, {12, 66}, {20, 66}});
  samples::end_stage(held, "smoke", 9.0, 110.0);
  samples::end_stage(held, "hold", 20.0, 60.0);
  CHECK(safety(held).cooling_start == -1.0);
  CHECK(safety(held).warnings.empty());
}

TEST_CASE("safety of a simulated cook: with fields at least what the coldest temperatures alone give") {
  const auto out = simulate(samples::plan(121.0));
  const Safety found = safety(*out);
  Options lean;
  lean.keep_fields = false;
  const Safety bound = safety(*simulate(samples::plan(121.0), lean));
  CHECK(found.log_reduction >= bound.log_reduction * (1.0 - 1e-9));
  CHECK(bound.log_reduction > lethality_log_low);
  CHECK(found.lethality_at > 0.0);
  CHECK(found.lethality_at <= bound.lethality_at * (1.0 + 1e-9));
  CHECK(found.come_up > 0.0);
  CHECK(found.caution.find("local food-safety rules") != std::string::npos);
  CHECK(found.caution.find("never a permission") != std::string::npos);
  CHECK_THROWS_AS((void)safety(Outcome{}), InvalidInput);
}
