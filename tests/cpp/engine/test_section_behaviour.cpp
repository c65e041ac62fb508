/// What a whole cut does in its cooker, stated as inequalities with about half of the measured difference as
/// margin.
#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>
#include <string>
#include <vector>

#include "cook/cooker/chamber.hpp"
#include "cook/readings/readings.hpp"
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

  [[nodiscard]] std::shared_ptr<const Outcome> cook(GridKind grid) const {
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
    return out;
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

/// Core at the middle of the creep, when it has stalled for an hour or two [°C].
double creeping(const Outcome &out) { return out.core_at(5.0 * hour); }

/// `one` stalls at least `warmer` K higher than `other`. How long it takes hangs on the juice more than on
/// the air, so all that is asked is that it ends no later than a few per cent.
void stalls_higher(const std::string &what, const Cooker &one, const Cooker &other, GridKind grid,
                   double warmer) {
  const auto a = one.cook(grid);
  const auto b = other.cook(grid);
  MESSAGE(what, ": core after 5 h ", creeping(*a), " against ", creeping(*b), " °C, done after ",
          finish_hours(*a), " against ", finish_hours(*b), " h");
  CHECK(creeping(*a) > creeping(*b) + warmer);
  CHECK(finish_hours(*a) < 1.03 * finish_hours(*b));
}

} // namespace

TEST_CASE("the flat leads the point while both warm, and they are done together") {
  // In between the lean flat, which has more juice to give, stalls longer: the fat point overtakes it.
  Options options;
  options.grid = GridKind::cross_section;
  for (const double pit : {107.0, 115.0, 121.0, 135.0}) {
    Plan plan = bare_cook(pit);
    plan.stages[0].until = {{EndKind::elapsed, 30.0 * hour}};
    const auto out = simulate(plan, options);
    REQUIRE(out->probes.size() == 2);
    REQUIRE(out->probes[0].name == "flat");
    const auto lead = [&](double celsius) {
      return reaches(*out, out->probes[1], celsius) - reaches(*out, out->probes[0], celsius);
    };
    MESSAGE("pit at ", pit, " °C: the flat leads by ", lead(60.0), " h at 60 °C, ", lead(75.0),
            " h at 75 °C, ", lead(90.0), " h at 90 °C, ", lead(95.0), " h at 95 °C");
    CHECK(lead(60.0) > 0.1);
    CHECK(std::fabs(lead(75.0)) < 1.0);
    CHECK(std::fabs(lead(95.0)) < 2.0);
  }
}

TEST_CASE("a water pan raises the stall") {
  // In its own air the pan hardly matters: the fire draws in more than it gives.
  stalls_higher("pan, piece", {.water = 5.0}, {}, GridKind::piece, -0.4);
  stalls_higher("pan, section", {.water = 5.0}, {}, GridKind::cross_section, -0.4);
  stalls_higher("pan in half the air, piece", {.flow = 0.5, .water = 5.0}, {.flow = 0.5}, GridKind::piece,
                1.0);
  stalls_higher("pan in half the air, section", {.flow = 0.5, .water = 5.0}, {.flow = 0.5},
                GridKind::cross_section, 1.0);
}

TEST_CASE("a tighter cooker raises the stall") {
  stalls_higher("half the air, piece", {.flow = 0.5}, {}, GridKind::piece, 0.3);
  stalls_higher("half the air, section", {.flow = 0.5}, {}, GridKind::cross_section, 0.3);
}

TEST_CASE("a draughty cooker lowers the stall, down to what the juice allows") {
  stalls_higher("half the air against four times, both with a pan, piece", {.flow = 0.5, .water = 5.0},
                {.flow = 4.0, .water = 5.0}, GridKind::piece, 1.0);
  stalls_higher("half the air against four times, both with a pan, section", {.flow = 0.5, .water = 5.0},
                {.flow = 4.0, .water = 5.0}, GridKind::cross_section, 1.0);
  // Without a pan the air is so dry already that the juice which arrives sets the stall, not the humidity.
  const auto own = Cooker{}.cook(GridKind::cross_section);
  const auto draughty = Cooker{.flow = 4.0}.cook(GridKind::cross_section);
  CHECK(std::fabs(creeping(*own) - creeping(*draughty)) < 1.0);
}

TEST_CASE("two pieces in one small cooker stall higher than one") {
  stalls_higher("two pieces, piece", {.pieces = 2.0}, {}, GridKind::piece, 0.3);
  stalls_higher("two pieces, section", {.pieces = 2.0}, {}, GridKind::cross_section, 0.3);
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
