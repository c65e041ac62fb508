/// What a whole cut does in its cooker, stated as inequalities with about half of the measured difference as
/// margin.
#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>
#include <string>
#include <vector>

#include "cook/chamber.hpp"
#include "cook/readings.hpp"
#include "cooks.hpp"

using namespace cook;
using namespace cook::testing;

namespace {

Options on(GridKind grid) {
  Options options;
  options.grid = grid;
  options.columns = 41;
  options.rows = 17;
  return options;
}

/// A brisket in a tight, ceramic cooker at 115 °C whose air has a vapour balance.
struct Cooker {
  double flow = 1.0;  ///< air, and the fuel's water with it, over the kind's own
  double water = 0.0; ///< in the pan [kg]
  double pieces = 1.0;

  [[nodiscard]] Stall stall(GridKind grid) const {
    Plan plan = bare_cook(115.0);
    Surroundings &s = plan.stages[0].surroundings;
    s = pit("ceramic", 115.0);
    s.pit_air = pit_air("ceramic", 115.0);
    s.pit_air->air_flow *= flow;
    s.pit_air->fuel_water *= flow;
    s.pit_air->meat_count = pieces;
    if (water > 0.0) {
      s.pit_air->pan = WaterPan{};
      s.pit_air->pan->water = water;
    }
    const auto out = simulate(plan, on(grid));
    CHECK(std::fabs(out->ledger.heat_residual) < 1e-9);
    CHECK(std::fabs(out->ledger.water_residual) < 1e-9);
    CHECK(std::fabs(out->ledger.air_residual) < 1e-9);
    const auto found = find_stall(*out);
    REQUIRE(found);
    return *found;
  }
};

double reaches(const Outcome &out, const ProbeTrace &probe, double celsius) {
  for (std::size_t i = 1; i < out.times(); ++i) {
    const double a = probe.temperature[i - 1];
    const double b = probe.temperature[i];
    if (b >= celsius) {
      return (out.time[i - 1] + (celsius - a) / (b - a) * (out.time[i] - out.time[i - 1])) / hour;
    }
  }
  FAIL("never reached");
  return 0.0;
}

/// `one` stalls at least `warmer` K higher and `shorter` h less than `other`.
void stalls_higher(const std::string &what, const Cooker &one, const Cooker &other, GridKind grid,
                   double warmer, double shorter) {
  const Stall a = one.stall(grid);
  const Stall b = other.stall(grid);
  MESSAGE(what, ": plateau ", a.plateau, " against ", b.plateau, " °C, ", a.duration() / hour, " against ",
          b.duration() / hour, " h");
  CHECK(a.plateau > b.plateau + warmer);
  CHECK(a.duration() < b.duration() - shorter * hour);
}

} // namespace

TEST_CASE("the flat leads the point while both warm, and when they are done") {
  // In between, in the stall, the two are level: the point overtakes by minutes before it falls back.
  Options options;
  options.grid = GridKind::cross_section;
  for (const double pit : {107.0, 115.0, 121.0, 135.0}) {
    Plan plan = bare_cook(pit);
    plan.stages[0].until = {{EndKind::elapsed, 20.0 * hour}};
    const auto out = simulate(plan, options);
    REQUIRE(out->probes.size() == 2);
    REQUIRE(out->probes[0].name == "flat");
    const auto lead = [&](double celsius) {
      return reaches(*out, out->probes[1], celsius) - reaches(*out, out->probes[0], celsius);
    };
    MESSAGE("pit at ", pit, " °C: the flat leads by ", lead(60.0), " h at 60 °C, ", lead(75.0),
            " h at 75 °C, ", lead(90.0), " h at 90 °C, ", lead(95.0), " h at 95 °C");
    CHECK(lead(60.0) > 0.5);
    CHECK(lead(75.0) > -0.2);
    CHECK(lead(90.0) > 0.15);
    CHECK(lead(95.0) > 0.3);
  }
}

TEST_CASE("a water pan raises the stall and shortens it") {
  stalls_higher("pan, slab", {.water = 5.0}, {}, GridKind::slab, 0.3, 0.04);
  stalls_higher("pan, section", {.water = 5.0}, {}, GridKind::cross_section, 0.35, 0.04);
  stalls_higher("pan in half the air, slab", {.flow = 0.5, .water = 5.0}, {.flow = 0.5}, GridKind::slab, 1.7,
                0.8);
  stalls_higher("pan in half the air, section", {.flow = 0.5, .water = 5.0}, {.flow = 0.5},
                GridKind::cross_section, 1.4, 0.4);
}

TEST_CASE("a tighter cooker raises the stall and shortens it") {
  stalls_higher("half the air, slab", {.flow = 0.5}, {}, GridKind::slab, 0.7, 0.15);
  stalls_higher("half the air, section", {.flow = 0.5}, {}, GridKind::cross_section, 1.6, 0.35);
}

TEST_CASE("a draughty cooker lowers the stall and prolongs it, down to what the juice allows") {
  stalls_higher("own air against four times, both with a pan, slab", {.water = 5.0},
                {.flow = 4.0, .water = 5.0}, GridKind::slab, 0.3, 0.04);
  stalls_higher("own air against four times, both with a pan, section", {.water = 5.0},
                {.flow = 4.0, .water = 5.0}, GridKind::cross_section, 0.5, 0.06);
  // Without a pan the air is so dry already that the juice which arrives sets the stall, not the humidity.
  const Stall own = Cooker{}.stall(GridKind::cross_section);
  const Stall draughty = Cooker{.flow = 4.0}.stall(GridKind::cross_section);
  CHECK(std::fabs(own.plateau - draughty.plateau) < 0.5);
}

TEST_CASE("two pieces in one small cooker stall higher than one") {
  stalls_higher("two pieces, slab", {.pieces = 2.0}, {}, GridKind::slab, 0.7, 0.15);
  stalls_higher("two pieces, section", {.pieces = 2.0}, {}, GridKind::cross_section, 1.6, 0.35);
}

TEST_CASE(
    "ledgers of a section close through a pan that runs dry, lids, sprays, wraps, a box and two tissues") {
  Plan plan = bare_cook(115.0);
  Stage smoke = plan.stages[0];
  smoke.surroundings.pit_air = pit_air("drum", 115.0);
  smoke.surroundings.pit_air->pan = WaterPan{};
  smoke.surroundings.pit_air->pan->water = 0.2;
  smoke.spritz = Spritz{};
  smoke.lid = {{.at = 5000.0, .duration = 300.0}, {.at = 9000.0, .duration = 60.0}};
  smoke.until = {{EndKind::core, 66.0}};
  Stage wrapped = smoke;
  wrapped.name = "wrapped";
  wrapped.wrap = wrap("butcher paper");
  wrapped.spritz.reset();
  wrapped.until = {{EndKind::core, 80.0}};
  Stage pan = wrapped;
  pan.name = "in a pan";
  pan.wrap = wrap("pan");
  pan.until = {{EndKind::core, 90.0}};
  Stage box = pan;
  box.name = "box";
  box.wrap = wrap("foil");
  box.lid.clear();
  box.surroundings = insulated_box();
  box.until = {{EndKind::elapsed, 3.0 * hour}};
  plan.stages = {smoke, wrapped, pan, box};
  const auto out = simulate(plan, on(GridKind::cross_section));
  const Ledger &ledger = out->ledger;
  MESSAGE("residuals: heat ", ledger.heat_residual, ", water ", ledger.water_residual, ", air ",
          ledger.air_residual);
  CHECK(std::fabs(ledger.heat_residual) < 1e-9);
  CHECK(std::fabs(ledger.water_residual) < 1e-9);
  CHECK(std::fabs(ledger.air_residual) < 1e-9);
  CHECK(ledger.spritzed > 0.0);
  CHECK(ledger.pan_given == doctest::Approx(0.2).epsilon(0.02)); // it has run dry
  CHECK(*std::min_element(out->pan_water.begin(), out->pan_water.end()) > -2e-3);
  CHECK(out->stage_ends.size() == 4);
  for (const double t : out->temperature) {
    REQUIRE(std::isfinite(t));
  }
  for (const double w : out->water) {
    REQUIRE(w > -1e-6);
  }
}
