/// The vapour balance of a cooker's air within a cook: rates and their derivatives, the humidity that hand
/// calculation gives, its limits, and its ledger.
#include <doctest/doctest.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <memory>
#include <utility>

#include "cook/cooker/humid_air.hpp"
#include "cooks.hpp"
#include "engine/air/air_balance.hpp"

using namespace cook;
using namespace cook::engine;
using namespace cook::testing;

namespace {

/// A chamber with round numbers: 4 kg/h of air with 0.008 kg/kg, 48 g/h of water from the fuel, 150 l.
PitAir round_air() {
  PitAir air;
  air.air_flow = 4.0 / 3600.0;
  air.inlet_vapour_pressure = vapour_pressure_from_humidity_ratio(0.008);
  air.fuel_water = 0.048 / 3600.0;
  air.volume = 0.15;
  return air;
}

AirBalance with_pan() {
  PitAir air = round_air();
  air.pan = WaterPan{};
  AirBalance balance;
  balance.pan = pan_setting(*air.pan, 85.0, air.pressure);
  balance.air = air;
  return balance;
}

Plan breathing_cook(const PitAir &air, double hours, double pit_air = 110.0) {
  Plan plan = bare_cook(pit_air);
  plan.stages[0].surroundings.pit_air = air;
  plan.stages[0].until = {{EndKind::elapsed, hours * hour}};
  return plan;
}

/// Vapour that one piece has given since the start [kg] at a stored time.
double evaporated(const Outcome &out, std::size_t i) {
  const auto path = static_cast<std::size_t>(FacePath::evaporated);
  return out.paths[0][path][i] * out.face_area[0] + out.paths[1][path][i] * out.face_area[1];
}

Options on(GridKind grid) {
  Options options;
  options.grid = grid;
  options.columns = 21;
  options.rows = 13;
  return options;
}

} // namespace

TEST_CASE("rates of a chamber's air, evaluated by hand") {
  AirBalance balance;
  balance.air = round_air();
  // 10 g of vapour in 0.15 m3 at 110 °C: p = 0.010 x 461.52 x 383.15 / 0.15 = 11 789 Pa, so
  // w = 0.62195 x 11 789 / (101 325 - 11 789) = 0.08189 kg/kg.
  const ChamberRates shut = chamber_rates(balance, {.temperature = 110.0, .vapour = 0.010});
  CHECK(3600.0 * shut.in.value == doctest::Approx(4.0 * 0.008 + 0.048).epsilon(1e-6));
  CHECK(3600.0 * shut.out.value == doctest::Approx(4.0 * 0.08189).epsilon(5e-4));
  CHECK(shut.pan.value == 0.0);
  CHECK(shut.warming.value == 0.0);
  // An open lid changes the dry air that the chamber holds within 15 s, for air from outside:
  // 0.15 x (101 325 - 1 287) / (287.05 x 383.15) = 0.1364 kg.
  const ChamberRates open = chamber_rates(balance, {.temperature = 110.0, .vapour = 0.010, .open = 1.0});
  CHECK(15.0 * (open.in.value - shut.in.value) == doctest::Approx(0.1364 * 0.008).epsilon(1e-3));
  CHECK(15.0 * (open.out.value - shut.out.value) == doctest::Approx(0.1364 * 0.08189).epsilon(1e-3));
  const ChamberRates ajar = chamber_rates(balance, {.temperature = 110.0, .vapour = 0.010, .open = 0.25});
  CHECK(ajar.out.value - shut.out.value == doctest::Approx(0.25 * (open.out.value - shut.out.value)));
}

TEST_CASE("derivatives of the air's rates match central differences, lid shut and open, pan wet and dry") {
  using Term = ChamberRates::Term;
  const AirBalance balance = with_pan();
  const std::pair<double ChamberState::*, double Term::*> unknowns[]{
      {&ChamberState::vapour, &Term::vapour},
      {&ChamberState::pan_temperature, &Term::pan_temperature},
      {&ChamberState::pan_water, &Term::pan_water}};
  for (const double open : {0.0, 0.6}) {
    for (const double water : {1.5, 0.004}) {
      const ChamberState here{
          .temperature = 112.0, .vapour = 0.009, .open = open, .pan_temperature = 58.0, .pan_water = water};
      const ChamberRates rates = chamber_rates(balance, here);
      CHECK(rates.pan.value > 0.0);
      for (const auto &[unknown, derivative] : unknowns) {
        const double step = 1e-5 * here.*unknown;
        ChamberState more = here;
        ChamberState less = here;
        more.*unknown += step;
        less.*unknown -= step;
        const ChamberRates above = chamber_rates(balance, more);
        const ChamberRates below = chamber_rates(balance, less);
        for (const auto term :
             {&ChamberRates::in, &ChamberRates::out, &ChamberRates::pan, &ChamberRates::warming}) {
          const double difference = ((above.*term).value - (below.*term).value) / (2.0 * step);
          INFO("open ", open, " water ", water);
          CHECK((rates.*term).*derivative == doctest::Approx(difference).epsilon(1e-5).scale(1e-8));
        }
      }
    }
  }
}

TEST_CASE("a chamber settles at its steady vapour pressure, within its own air change") {
  // An exponential with the time constant of the linearised balance: the vapour it holds over what leaves.
  AirBalance balance;
  balance.air = round_air();
  constexpr double evaporation = 5e-5; // kg/s
  constexpr double t = 110.0;
  const double capacity = chamber_vapour_capacity(balance.air.volume, t);
  const double target = steady_vapour_pressure(balance.air, evaporation);
  const auto rates = [&](double pressure) {
    return chamber_rates(balance, {.temperature = t, .vapour = pressure * capacity});
  };
  const ChamberRates steady = rates(target);
  CHECK(steady.out.value == doctest::Approx(steady.in.value + evaporation).epsilon(1e-9));
  const double constant = 1.0 / steady.out.vapour;
  // One turnover of the dry air, within what the humidity itself shifts.
  CHECK(constant ==
        doctest::Approx(chamber_dry_air(balance.air.volume, t, target) / balance.air.air_flow).epsilon(0.25));
  double pressure = target + 10.0; // Pa: near enough to be linear
  constexpr int steps = 20000;
  for (int i = 0; i < steps; ++i) {
    const ChamberRates r = rates(pressure);
    pressure += constant / steps * (r.in.value + evaporation - r.out.value) / capacity;
  }
  CHECK(pressure - target == doctest::Approx(10.0 * std::exp(-1.0)).epsilon(1e-3));
}

TEST_CASE("in a cook the air is as humid as supply over flow gives by hand") {
  for (const GridKind grid : {GridKind::slab, GridKind::cross_section}) {
    const PitAir air = round_air();
    const auto out = simulate(breathing_cook(air, 5.0), on(grid));
    for (const double at : {1.5, 3.0, 4.5}) {
      const auto i = static_cast<std::size_t>(at * 60.0);
      REQUIRE(out->time[i] == doctest::Approx(at * hour));
      // What the meat gives around that moment, the air's own change of a few minutes aside.
      const double given =
          (evaporated(*out, i + 2) - evaporated(*out, i - 2)) / (out->time[i + 2] - out->time[i - 2]);
      const double w = 0.008 + (air.fuel_water + given) / air.air_flow;
      const double by_hand = standard_atmosphere * w / (molar_mass_ratio + w);
      INFO("after ", at, " h: ", out->vapour_pressure[i], " Pa, by hand ", by_hand);
      CHECK(given > 1e-5);
      CHECK(out->vapour_pressure[i] == doctest::Approx(by_hand).epsilon(0.02));
    }
  }
}

TEST_CASE("two briskets make a small cooker more humid than one, and are ahead of it") {
  PitAir small = round_air();
  small.volume = 0.06;
  const auto one = simulate(breathing_cook(small, 4.0));
  small.meat_count = 2.0;
  const auto two = simulate(breathing_cook(small, 4.0));
  for (const double at : {1.0, 2.0, 4.0}) {
    const auto i = static_cast<std::size_t>(at * 60.0);
    INFO("after ", at, " h: ", one->vapour_pressure[i], " and ", two->vapour_pressure[i], " Pa");
    CHECK(two->vapour_pressure[i] > 1.15 * one->vapour_pressure[i]);
    CHECK(two->vapour_pressure[i] < 2.0 * one->vapour_pressure[i]);
  }
  CHECK(two->core.back() > one->core.back());
}

TEST_CASE("next to no air flow: the air fills up to what the wet meat can give, and evaporation stops") {
  PitAir tight = round_air();
  tight.air_flow = 1e-6; // the least that is taken
  tight.fuel_water = 0.0;
  // A cabinet at 60 °C: nothing in it is hotter, so nothing can give more than saturation at 60 °C.
  const double saturated = saturation_pressure(60.0);
  const auto held = simulate(breathing_cook(tight, 36.0, 60.0));
  const double most = *std::max_element(held->vapour_pressure.begin(), held->vapour_pressure.end());
  INFO("at most ", most, " Pa of ", saturated);
  CHECK(most < saturated);
  CHECK(most > 0.95 * saturated);
  CHECK(std::fabs(held->ledger.air_residual) < 1e-9);
  // What evaporates in the last hours is what the little air carries off, no more.
  const std::size_t last = held->times() - 1;
  const double late = evaporated(*held, last) - evaporated(*held, last - 240);
  const double carried = vapour_outflow(tight, held->vapour_pressure.back()).value * 240.0 * 60.0;
  CHECK(late == doctest::Approx(carried).epsilon(0.1));
  // At 110 °C it is steam in the end: up to the total pressure, and finite there.
  const auto steamed = simulate(breathing_cook(tight, 12.0, 110.0));
  const double highest = *std::max_element(steamed->vapour_pressure.begin(), steamed->vapour_pressure.end());
  INFO("highest ", highest, " Pa");
  CHECK(highest > 0.7 * standard_atmosphere);
  CHECK(highest < 1.05 * standard_atmosphere);
  CHECK(std::fabs(steamed->ledger.air_residual) < 1e-9);
  CHECK(steamed->core.back() > 90.0); // no evaporation, no stall
}

TEST_CASE("the ledger of the air, added up from the outcome itself") {
  for (const GridKind grid : {GridKind::slab, GridKind::cross_section}) {
    PitAir air = round_air();
    air.pan = WaterPan{};
    air.meat_count = 3.0;
    constexpr double hours = 3.0;
    const auto out = simulate(breathing_cook(air, hours), on(grid));
    const Ledger &ledger = out->ledger;
    const double capacity = chamber_vapour_capacity(air.volume, 110.0);
    const double gained = (out->vapour_pressure.back() - out->vapour_pressure.front()) * capacity;
    CHECK(ledger.vapour_in == doctest::Approx(vapour_inflow(air) * hours * hour).epsilon(1e-9));
    CHECK(ledger.pan_given == doctest::Approx(out->pan_water.front() - out->pan_water.back()).epsilon(1e-9));
    CHECK(ledger.pan_given > 0.1);
    CHECK(ledger.vapour_out ==
          doctest::Approx(ledger.vapour_in + ledger.pan_given + 3.0 * ledger.evaporated - gained)
              .epsilon(1e-9));
    CHECK(std::fabs(ledger.air_residual) < 1e-9);
    // The mean humidity that left, from the trace, over the flow.
    double left = 0.0;
    for (std::size_t i = 1; i < out->times(); ++i) {
      left += 0.5 * (out->time[i] - out->time[i - 1]) *
              (vapour_outflow(air, out->vapour_pressure[i - 1]).value +
               vapour_outflow(air, out->vapour_pressure[i]).value);
    }
    CHECK(ledger.vapour_out == doctest::Approx(left).epsilon(2e-3));
  }
}

TEST_CASE("an open lid lets the humid air out, and it comes back") {
  Plan plan = breathing_cook(round_air(), 3.0);
  plan.stages[0].lid = {{.at = 2.0 * hour, .duration = 120.0}};
  Options options;
  options.output_every = 10.0;
  const auto out = simulate(plan, options);
  const auto vapour = [&](double seconds) {
    return out->vapour_pressure[static_cast<std::size_t>(std::lround(seconds / 10.0))];
  };
  const double before = vapour(2.0 * hour);
  INFO(before, " Pa before, ", vapour(2.0 * hour + 120.0), " Pa open, ", vapour(2.5 * hour), " Pa later");
  CHECK(vapour(2.0 * hour + 120.0) < 0.6 * before);
  CHECK(vapour(2.5 * hour) == doctest::Approx(before).epsilon(0.1));
  CHECK(std::fabs(out->ledger.air_residual) < 1e-9);
}
