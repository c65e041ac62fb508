/// Doneness place by place: collagen at nodes, bark on the faces, hot holding of the coldest and the hottest
/// part, on outcomes whose answer is known and on simulated ones.
#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>
#include <vector>

#include "cook/errors.hpp"
#include "cook/readings/doneness.hpp"
#include "cooks.hpp"
#include "readings/sample_outcomes.hpp"

using namespace cook;
using namespace cook::testing;

namespace {

/// Two nodes: the first follows the knots, the second is `warmer` K above it.
Outcome two_nodes(const std::vector<samples::Knot> &knots, double warmer) {
  Outcome out = samples::outcome(knots);
  for (const double t : out.core) {
    out.temperature.push_back(t);
    out.temperature.push_back(t + warmer);
  }
  return out;
}

/// Faces at one temperature, dried to one water content, for some hours.
Outcome dried(double celsius, double water, double hours) {
  Outcome out = samples::outcome({{0.0, celsius}, {hours, celsius}});
  out.surface_water = {std::vector<double>(out.times(), water), std::vector<double>(out.times(), water)};
  return out;
}

} // namespace

TEST_CASE("collagen at each node: the closed form at constant temperature, until any moment") {
  const Outcome out = two_nodes({{0.0, 85.0}, {3.0, 85.0}}, 5.0);
  const Arrhenius law = collagen_solubilisation();
  for (const double until : {3.0 * hour, 1.5 * hour, 1.5 * hour + 13.0}) {
    const std::vector<double> share = tenderness_by_node(out, until);
    REQUIRE(share.size() == 2);
    CHECK(share[0] == doctest::Approx(1.0 - std::exp(-law.rate(85.0) * until)).epsilon(1e-12));
    CHECK(share[1] == doctest::Approx(1.0 - std::exp(-1.8e-4 * until)).epsilon(1e-9)); // the rate at 90 °C
  }
  CHECK(tenderness_by_node(out) == tenderness_by_node(out, 3.0 * hour));
  CHECK(tenderness_by_node(out, 0.0) == std::vector<double>{0.0, 0.0});
}

TEST_CASE("collagen at the nodes never falls, in a rest neither, and is what the probes say") {
  Plan plan = wrapped_cook(120.0, "foil", 65.0, 85.0);
  Stage rest;
  rest.name = "rest";
  rest.surroundings = counter();
  rest.until = {{EndKind::elapsed, 2.0 * hour}};
  plan.stages.push_back(rest);
  Options options;
  options.grid = GridKind::cross_section;
  options.columns = 21;
  options.rows = 11;
  const auto out = simulate(plan, options);
  std::vector<double> before(out->nodes(), 0.0);
  const double end = out->time.back();
  for (const double until : {0.25 * end, 0.5 * end, 0.8 * end, end}) {
    const std::vector<double> share = tenderness_by_node(*out, until);
    for (std::size_t p = 0; p < share.size(); ++p) {
      REQUIRE(share[p] >= before[p]);
      REQUIRE(share[p] <= 1.0);
    }
    before = share;
  }
  CHECK(*std::max_element(before.begin(), before.end()) > *std::min_element(before.begin(), before.end()));
  // A probe at a node converts what the node does: its own integral rides along with the steps.
  const std::size_t node = out->nodes() / 2 + 2;
  plan.probes = {{.name = "node", .x = out->along[node], .z = out->position[node]}};
  const auto probed = simulate(plan, options);
  const double share = tenderness_by_node(*probed)[node];
  REQUIRE(probed->probes.back().name == "node");
  CHECK(share > 0.1);
  CHECK(probed->probes.back().tenderness.back() == doctest::Approx(share).epsilon(2e-3));
}

TEST_CASE("bark: one over the rate to set, by hand") {
  // At the reference of the heuristic, 80 °C and dry, 1/3000 per second: set after 50 minutes.
  const auto set = bark(dried(80.0, 0.05, 1.25))[1];
  CHECK(set.index == doctest::Approx(1.5).epsilon(1e-6));
  REQUIRE(set.set_at);
  CHECK(*set.set_at == doctest::Approx(3000.0).epsilon(1e-6));
  CHECK(set.driest == 0.05);
  const auto not_yet = bark(dried(80.0, 0.05, 0.75))[1];
  CHECK(not_yet.index == doctest::Approx(0.9).epsilon(1e-6));
  CHECK_FALSE(not_yet.set_at);
  Browning quick;
  quick.rate_dry = 1.0 / 3600.0;
  CHECK(*bark(dried(80.0, 0.05, 3.0), quick)[0].set_at == doctest::Approx(hour).epsilon(1e-6));
  quick.rate_dry = -1.0;
  CHECK_THROWS_WITH_AS((void)bark(dried(100.0, 0.05, 3.0), quick), doctest::Contains("rate_dry"),
                       InvalidInput);
}

TEST_CASE("bark grows with time, dryness and heat, and never falls") {
  double before = -1.0;
  for (const double hours : {0.5, 1.0, 2.0, 4.0}) {
    const double index = bark(dried(95.0, 0.1, hours))[1].index;
    CHECK(index > before);
    before = index;
  }
  before = 0.0;
  for (const double water : {3.0, 0.7, 0.5, 0.3}) { // kg/kg: from wet meat to a crust
    const double index = bark(dried(95.0, water, 2.0))[1].index;
    INFO("water ", water, " index ", index);
    CHECK(index > before);
    before = index;
  }
  // Below a water activity of 0.8 dry is dry.
  CHECK(bark(dried(95.0, 0.1, 2.0))[1].index == bark(dried(95.0, 0.2, 2.0))[1].index);
  before = 0.0;
  for (const double celsius : {60.0, 80.0, 100.0, 120.0}) {
    const double index = bark(dried(celsius, 0.1, 2.0))[1].index;
    CHECK(index > before);
    before = index;
  }
  // In a cook: the same outcome cut off later and later.
  Plan plan = bare_cook(130.0);
  plan.stages[0].until = {{EndKind::elapsed, 6.0 * hour}};
  auto out = *simulate(plan);
  std::vector<double> index;
  while (out.times() > 60) {
    index.push_back(bark(out)[1].index);
    for (std::size_t cut = 0; cut < 60; ++cut) {
      out.time.pop_back();
    }
    for (std::size_t face = 0; face < 2; ++face) {
      out.surface[face].resize(out.times());
      out.surface_water[face].resize(out.times());
    }
  }
  CHECK(index.size() == 6);
  CHECK(std::is_sorted(index.rbegin(), index.rend()));
  CHECK(index.front() > 2.0 * index.back());
}

TEST_CASE("hot holding: when coldest and hottest fall through the limits, on straight lines") {
  // Pulled at 10 h and 90 °C, peaks at 93 °C half an hour later, then falls 10 K/h to 43 °C; the other node
  // is 4 K above throughout.
  Outcome out = two_nodes({{0, 4}, {10, 90}, {10.5, 93}, {15.5, 43}}, 4.0);
  samples::end_stage(out, "smoke", 10.0, 110.0);
  samples::end_stage(out, "rest", 15.5, 21.0);
  const HotHold hold = hot_hold(out);
  CHECK(hold.pulled_at == doctest::Approx(10.0 * hour));
  REQUIRE(hold.coldest_until);
  REQUIRE(hold.hottest_until);
  REQUIRE(hold.slice_at);
  CHECK(*hold.coldest_until == doctest::Approx((10.5 + 3.6) * hour).epsilon(1e-9)); // 36 K at 10 K/h
  CHECK(*hold.hottest_until == doctest::Approx((10.5 + 4.0) * hour).epsilon(1e-9));
  CHECK(*hold.slice_at == doctest::Approx((10.5 + 3.2) * hour).epsilon(1e-9)); // from 97 to 65 °C
  CHECK(hold.coldest_at_end == doctest::Approx(43.0));
  CHECK(hold.hottest_at_end == doctest::Approx(47.0));
  const HotHold higher = hot_hold(out, 60.0, 70.0);
  CHECK(*higher.coldest_until == doctest::Approx((10.5 + 3.3) * hour).epsilon(1e-9));
  CHECK(*higher.slice_at == doctest::Approx((10.5 + 2.7) * hour).epsilon(1e-9));
  // A limit that is not fallen through within the cook has no moment.
  CHECK_FALSE(hot_hold(out, 40.0).coldest_until);
  CHECK_FALSE(hot_hold(out, 45.0).hottest_until);
  CHECK_THROWS_WITH_AS((void)hot_hold(out, 135.0), doctest::Contains("limit"), InvalidInput);
}

TEST_CASE("hottest and coldest bound every place of a simulated cook") {
  const auto out = simulate(samples::plan(121.0));
  const std::vector<double> hot = hottest(*out);
  REQUIRE(hot.size() == out->times());
  for (std::size_t i = 0; i < out->times(); ++i) {
    const double *row = &out->temperature[i * out->nodes()];
    const auto [low, high] = std::minmax_element(row, row + out->nodes());
    REQUIRE(hot[i] == *high);
    REQUIRE(out->coldest[i] == doctest::Approx(*low).epsilon(1e-12));
    REQUIRE(out->core[i] >= out->coldest[i] - 1e-9);
    REQUIRE(out->core[i] <= hot[i] + 1e-9);
  }
  const HotHold hold = hot_hold(*out);
  CHECK(hold.pulled_at == doctest::Approx(out->stage_ends[0].time));
  CHECK(hold.hottest_at_end == hot.back());
  REQUIRE(hold.coldest_until); // the faces are at 57 °C soon after the pull
  CHECK(*hold.coldest_until > hold.pulled_at);
}

TEST_CASE("doneness by place asks for the fields") {
  Options options;
  options.keep_fields = false;
  Plan plan = bare_cook(110.0);
  plan.stages[0].until = {{EndKind::elapsed, 600.0}};
  const auto out = simulate(plan, options);
  for (const auto &reading :
       {+[](const Outcome &o) { (void)tenderness_by_node(o); }, +[](const Outcome &o) { (void)hottest(o); },
        +[](const Outcome &o) { (void)hot_hold(o); }}) {
    CHECK_THROWS_WITH_AS(reading(*out), doctest::Contains("keep_fields"), InvalidInput);
  }
  CHECK(bark(*out)[1].index >= 0.0); // the faces are always kept
  CHECK_THROWS_AS((void)bark(Outcome{}), InvalidInput);
  CHECK_THROWS_AS((void)tenderness_by_node(two_nodes({{0, 80}, {1, 80}}, 0.0), 2.0 * hour), InvalidInput);
}
