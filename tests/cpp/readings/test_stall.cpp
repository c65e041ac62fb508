// The stall finder on made traces with and without a plateau, under noise and stretched time, and on
// simulated cooks.
#include "cook/errors.hpp"
#include "cook/readings/readings.hpp"
#include "readings/sample_outcomes.hpp"

#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>
#include <functional>
#include <limits>
#include <random>

using namespace cook;
using samples::Trace;
using samples::trace;

namespace {

// 14.5 K/h, then 4 h at 0.5 K/h, then 7 K/h: slow below 3.6.
const std::vector<samples::Knot> plateau{{0, 4}, {4.2, 65}, {8.2, 67}, {12.2, 95}};
// Never below 6 K/h, and a quarter of 14.5 K/h is 3.6: a shoulder, not a stall.
const std::vector<samples::Knot> shoulder{{0, 4}, {4, 62}, {5, 68}, {9, 96}};
const std::vector<samples::Knot> line{{0, 4}, {12, 94}};

// A slab that approaches its surroundings.
Trace approach(double level, double every, double hours = 12.0, double constant = 2.5) {
  Trace made = trace({{0, 0}, {hours, 0}}, every);
  for (std::size_t i = 0; i < made.time.size(); ++i) {
    made.value[i] = level + (4.0 - level) * std::exp(-made.time[i] / 3600.0 / constant);
  }
  return made;
}

Trace noisy(Trace made, unsigned seed) {
  std::mt19937 engine(seed);
  for (double &value : made.value) {
    value += 0.6 * (static_cast<double>(engine()) / static_cast<double>(std::mt19937::max()) - 0.5);
  }
  return made;
}

std::optional<Stall> find(const Trace &made) { return find_stall(made.time, made.value); }

std::string refusal(const std::function<void()> &call) {
  try {
    call();
  } catch (const InvalidInput &error) {
    return error.what();
  }
  return "nothing was thrown";
}

} // namespace

TEST_CASE("stall of a trace with a plateau") {
  const auto stall = find(trace(plateau));
  REQUIRE(stall);
  // Half the window, 0.33 h, is as sharp as the corners can be.
  CHECK(std::fabs(stall->start / 3600 - 4.2) < 0.3);
  CHECK(std::fabs(stall->end / 3600 - 8.2) < 0.3);
  CHECK(stall->plateau > 65.0);
  CHECK(stall->plateau < 67.0);
  CHECK(stall->slowest * 3600 == doctest::Approx(0.5).epsilon(1e-6));
  CHECK(stall->slowest_at > stall->start);
  CHECK(stall->slowest_at < stall->end);
  CHECK(stall->core_start == doctest::Approx(65.0).epsilon(0.02));
  CHECK(stall->core_end == doctest::Approx(67.0).epsilon(0.02));
  CHECK(stall->duration() == stall->end - stall->start);
}

TEST_CASE("stall where the core falls back") {
  const auto stall = find(trace({{0, 4}, {4, 64}, {6, 63}, {12, 93}}));
  REQUIRE(stall);
  CHECK(stall->slowest < 0.0);
  CHECK(stall->slowest * 3600 == doctest::Approx(-0.5).epsilon(1e-6));
}

TEST_CASE("of two stalls the first is taken, and both are listed in order") {
  const Trace two = trace({{0, 4}, {4, 60}, {5.5, 60.5}, {7, 72}, {11, 73}, {13, 94}});
  const auto stall = find(two);
  REQUIRE(stall);
  CHECK(stall->plateau > 59.0);
  CHECK(stall->plateau < 62.0);
  const auto both = find_stalls(two.time, two.value);
  REQUIRE(both.size() == 2);
  CHECK(both[1].plateau > 71.0);
  CHECK(both[1].plateau < 74.0);
  CHECK(both[1].start > both[0].end);
}

TEST_CASE("a slow approach at the end does not hide the stall before it") {
  // 0.3 K/h near the end, slower than the stall's 0.8 K/h.
  const auto stall = find(trace({{0, 4}, {4, 62}, {8, 65.2}, {11, 87}, {16, 88.5}}));
  REQUIRE(stall);
  CHECK(stall->plateau < 66.0);
  CHECK(stall->end < 9.0 * 3600);
}

TEST_CASE("a stall that recovers to a slow pace ends where the recovery is complete") {
  // 15 K/h, 8 h at 0.05 K/h, 3 h at 2.0 K/h, then 0.8 K/h: below a quarter of the fastest to the end.
  const auto stall = find(trace({{0, 4}, {4.73, 75}, {12.73, 75.4}, {15.73, 81.4}, {32.2, 94.6}}));
  REQUIRE(stall);
  CHECK(stall->plateau == doctest::Approx(75.2).epsilon(0.005));
  CHECK(stall->end / 3600 > 12.73);
  CHECK(stall->end / 3600 < 13.73); // where the rate has recovered, not hours later
  CHECK(stall->core_end > 75.4);
  CHECK(stall->core_end < 77.0);
}

TEST_CASE("meat that starts warm: the fastest rate counts from its start") {
  const auto stall = find(trace({{0, 36}, {3, 66}, {6, 67}, {10, 95}}));
  REQUIRE(stall);
  CHECK(std::fabs(stall->start / 3600 - 3.0) < 0.3);
  CHECK(std::fabs(stall->end / 3600 - 6.0) < 0.3);
}

TEST_CASE("traces without a stall") {
  CHECK_FALSE(find(trace(shoulder)));
  CHECK_FALSE(find(trace(line)));
  CHECK_FALSE(find(trace({{0, 4}, {1, 5}, {9, 94}})));              // late to move
  CHECK_FALSE(find(trace({{0, 4}, {3, 34}, {7, 36}, {10, 92}})));   // slow below 50 °C
  CHECK_FALSE(find(trace({{0, 4}, {8, 40}})));                      // never gets there
  CHECK_FALSE(find(trace({{0, 95}, {5, 30}})));                     // cools
  CHECK_FALSE(find(trace({{0, 60}, {5, 60}})));                     // level
  CHECK_FALSE(find(trace({{0, 4}, {9, 94}, {9.5, 95}, {14, 60}}))); // a rest at the end
  for (const double level : {107.0, 121.0, 150.0}) {
    CAPTURE(level);
    CHECK_FALSE(find(approach(level, 60.0)));
    CHECK_FALSE(find(approach(level, 60.0, 60.0))); // long at its level
  }
}

TEST_CASE("a stall that is not over yet says so, and so does a core that levels off") {
  const auto within = find(trace({{0, 4}, {4, 62}, {9, 67}}));
  REQUIRE(within);
  CHECK_FALSE(within->over);
  CHECK(within->end > 8.5 * 3600);
  for (const double level : {60.0, 75.0, 80.0}) {
    CAPTURE(level);
    const auto levels = find(approach(level, 60.0, 60.0));
    REQUIRE(levels);
    CHECK_FALSE(levels->over);
  }
}

TEST_CASE("what comes later changes nothing of a stall that is over") {
  const std::vector<samples::Knot> before{{0, 4}, {4.2, 65}, {8.2, 67}, {9.2, 75}};
  std::vector<std::vector<samples::Knot>> after{{{12.2, 95}}, {{20.0, 76}}, {{10.0, 60}, {14.0, 99}}};
  std::optional<Stall> first;
  for (const auto &rest : after) {
    std::vector<samples::Knot> knots = before;
    knots.insert(knots.end(), rest.begin(), rest.end());
    const auto stall = find(trace(knots));
    REQUIRE(stall);
    CHECK(stall->over);
    first = first.value_or(*stall);
    CHECK(stall->start == first->start);
    CHECK(stall->end == first->end);
    CHECK(stall->slowest == first->slowest);
  }
  // And while it is going on: cut after every sample, it starts where it starts.
  const Trace whole = trace(before);
  for (std::size_t n = 5; n <= whole.time.size(); n += 7) {
    const auto so_far = find_stall(std::span(whole.time).first(n), std::span(whole.value).first(n));
    CHECK((!so_far || so_far->start == first->start));
    CHECK(so_far.has_value() == (so_far && so_far->end <= whole.time[n - 1]));
  }
}

TEST_CASE("noise of 0.3 K, sampled from 10 s to 5 min") {
  for (const double every : {10.0, 60.0, 300.0}) {
    for (unsigned seed = 1; seed <= 25; ++seed) {
      CAPTURE(every);
      CAPTURE(seed);
      const auto stall = find(noisy(trace(plateau, every), seed));
      REQUIRE(stall);
      CHECK(std::fabs(stall->start / 3600 - 4.2) < 0.6);
      CHECK(std::fabs(stall->end / 3600 - 8.2) < 0.6);
      CHECK(std::fabs(stall->plateau - 66.0) < 1.5);
      CHECK_FALSE(find(noisy(trace(line, every), seed)));
      CHECK_FALSE(find(noisy(trace(shoulder, every), seed)));
      CHECK_FALSE(find(noisy(approach(121.0, every), seed)));
    }
  }
}

TEST_CASE("uneven sampling with a gap") {
  const Trace made = trace(plateau);
  Trace thin;
  for (std::size_t i = 0; i < made.time.size(); ++i) {
    const double hours = made.time[i] / 3600.0;
    if ((i % 7 == 0 || i % 11 == 3) && (hours < 6.0 || hours > 7.5)) {
      thin.time.push_back(made.time[i]);
      thin.value.push_back(made.value[i]);
    }
  }
  const auto stall = find(thin);
  REQUIRE(stall);
  CHECK(std::fabs(stall->start / 3600 - 4.2) < 0.4);
  CHECK(std::fabs(stall->end / 3600 - 8.2) < 0.4);
}

TEST_CASE("bad traces are refused with the field named") {
  const std::vector<double> none;
  const std::vector<double> t{0, 60, 120, 180, 240};
  const std::vector<double> c{4, 5, 6, 7, 8};
  CHECK(refusal([&] { (void)find_stall(none, none); }) ==
        "core: 0 samples; at least 5 are needed to tell a stall");
  CHECK(refusal([&] { (void)find_stall(std::span(t).first(4), std::span(c).first(4)); }) ==
        "core: 4 samples; at least 5 are needed to tell a stall");
  CHECK(refusal([&] { (void)find_stall(t, std::span(c).first(4)); }) ==
        "core: 4 temperatures but 5 times; they must pair up");
  const std::vector<double> unsorted{0, 60, 180, 120, 240};
  CHECK(refusal([&] { (void)find_stall(unsorted, c); }) ==
        "time[3]: 120 s after 180 s; times must increase: sort the log and drop repeated times");
  const std::vector<double> repeated{0, 60, 60, 120, 240};
  CHECK(refusal([&] { (void)find_stall(repeated, c); }).starts_with("time[2]: 60 s after 60 s"));
  std::vector<double> broken = c;
  broken[2] = std::numeric_limits<double>::quiet_NaN();
  CHECK(refusal([&] { (void)find_stall(t, broken); }).starts_with("core[2]: "));
  CHECK_FALSE(find_stall(t, c)); // five samples are enough to be looked at
}

TEST_CASE("simulated cooks with and without a stall") {
  const auto bare = simulate(samples::plan(107.0));
  const auto stall = find_stall(*bare);
  REQUIRE(stall);
  CHECK(stall->duration() > 2.0 * 3600);
  CHECK(stall->plateau > 55.0);
  CHECK(stall->plateau < 85.0);

  const auto wrapped = simulate(samples::plan(135.0, "foil"));
  CHECK_FALSE(find_stall(*wrapped));

  Options dry;
  dry.physics.evaporation = false;
  CHECK_FALSE(find_stall(*simulate(samples::plan(107.0), dry)));

  // The verdict does not hang on how often the outcome was stored.
  for (const double every : {10.0, 300.0}) {
    Options options;
    options.output_every = every;
    const auto again = find_stall(*simulate(samples::plan(107.0), options));
    REQUIRE(again);
    CHECK(again->start == doctest::Approx(stall->start).epsilon(0.03)); // within five minutes
    CHECK(again->end == doctest::Approx(stall->end).epsilon(0.01));
  }
  CHECK_FALSE(find_stall(Outcome{}));
}

TEST_CASE("where a core without a stall climbs slowest") {
  // 40 to 80 °C and beyond: 20 K/h, but 10 K/h between 60 and 66 °C.
  const std::vector<double> time{0, 3600, 5760, 8280, 9000};
  const std::vector<double> core{40, 60, 66, 80, 84};
  std::vector<double> t, c;
  for (double s = 0; s <= 9000; s += 60) {
    const auto after = std::min<std::size_t>(
        static_cast<std::size_t>(std::upper_bound(time.begin(), time.end(), s) - time.begin()), 4);
    const double share = (s - time[after - 1]) / (time[after] - time[after - 1]);
    t.push_back(s);
    c.push_back(core[after - 1] + share * (core[after] - core[after - 1]));
  }
  const auto found = slowest_rise(t, c);
  REQUIRE(found);
  CHECK(found->from == 1800.0);
  CHECK(found->to == 8280.0);
  CHECK(found->rate * 3600.0 == doctest::Approx(10.0));
  CHECK(found->core >= 60.0);
  CHECK(found->core < 66.0);
  CHECK_FALSE(slowest_rise(std::span(t).first(20), std::span(c).first(20))); // it is below 50 °C
  CHECK_FALSE(slowest_rise({}, {}));
}
