/// Where the equations are stiffest or their drive jumps: everything finishes, stays finite and closes its
/// ledgers.
#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>
#include <random>
#include <string>

#include "cook/errors.hpp"
#include "cooks.hpp"

using namespace cook;
using namespace cook::testing;

namespace {

Plan cook_in(const Surroundings &surroundings, double hours) {
  Plan plan;
  plan.meat = brisket(6.0);
  Stage stage;
  stage.surroundings = surroundings;
  stage.until = {{EndKind::elapsed, hours * hour}};
  plan.stages = {stage};
  return plan;
}

bool all_within(const std::vector<double> &values, double low, double high) {
  return std::all_of(values.begin(), values.end(),
                     [=](double v) { return v >= low && v <= high; }); // a NaN fails
}

/// Runs, and checks what must hold whatever the conditions.
std::shared_ptr<const Outcome> sound(const Plan &plan, const Options &options = {}, double low = 0.0,
                                     double high = 300.0) {
  auto out = simulate(plan, options);
  CHECK(std::fabs(out->ledger.heat_residual) < 1e-9);
  CHECK(std::fabs(out->ledger.water_residual) < 1e-9);
  CHECK(all_within(out->temperature, low, high));
  CHECK(all_within(out->water, -1e-3, 10.0));
  for (std::size_t f = 0; f < 2; ++f) {
    CHECK(all_within(out->film[f], -2e-4, 100.0));
    for (const auto &path : out->paths[f]) {
      CHECK(all_within(path, -1e12, 1e12));
    }
  }
  return out;
}

Options tighter(double factor) {
  Options options;
  options.temperature_tolerance *= factor;
  options.water_tolerance *= factor;
  return options;
}

/// The answer settles as the tolerance falls: the usual one lies near a tight one, the tighter one nearer.
void converges(const Plan &plan, const char *what, double core_within, double loss_within) {
  const auto usual = sound(plan);
  const auto tight = sound(plan, tighter(0.2));
  const auto reference = sound(plan, tighter(0.01));
  const auto apart = [&](const Outcome &a) {
    double most = 0.0;
    for (double t = 0.0; t <= reference->time.back(); t += 300.0) {
      most = std::max(most, std::fabs(a.core_at(t) - reference->core_at(t)));
    }
    return most;
  };
  const auto loss = [&](const Outcome &a) {
    return std::fabs((a.ledger.evaporated + a.ledger.run_off) /
                         (reference->ledger.evaporated + reference->ledger.run_off) -
                     1.0);
  };
  MESSAGE(std::string(what), ": core off by ", apart(*usual), " then ", apart(*tight), " K, loss by ",
          100.0 * loss(*usual), " then ", 100.0 * loss(*tight), " %; steps ", usual->ledger.steps,
          ", rejected ", usual->ledger.rejected);
  CHECK(apart(*usual) < core_within);
  CHECK(apart(*tight) < 0.5 * core_within);
  CHECK(loss(*usual) < loss_within);
  CHECK(loss(*tight) < 0.5 * loss_within);
}

Surroundings blast(double air, double coefficient, double vapour) {
  Surroundings s = oven(air);
  s.bottom = s.top = {Convection::given, coefficient, 0.06};
  s.vapour_pressure = vapour;
  return s;
}

} // namespace

TEST_CASE("a film that runs dry under a hot dry wind") {
  Plan plan = cook_in(blast(200.0, 80.0, 0.0), 2.0);
  plan.stages[0].spritz = Spritz{.every = 1800.0, .first = 600.0, .amount = 0.2, .lid_open = 0.0};
  Options often;
  often.output_every = 5.0;
  const auto out = sound(plan, often);
  // It is there after each spritz and gone before the next; then the tissue at the face gives what it has.
  CHECK(*std::max_element(out->film[1].begin(), out->film[1].end()) > 0.1);
  CHECK(out->film[1].back() < 1e-4);
  CHECK(out->surface_water[1].back() < 0.05);
  CHECK(out->surface[1].back() > 150.0);
  converges(plan, "film running dry", 0.3, 0.01);
}

TEST_CASE("crust down to the last water: a day in a hot dry oven") {
  const Plan plan = cook_in(blast(230.0, 25.0, 0.0), 24.0);
  const auto out = sound(plan);
  CHECK(out->surface_water[1].back() < 0.01);
  CHECK(out->mean_water.back() < 0.25 * out->mean_water.front());
  CHECK(*std::min_element(out->water.begin(), out->water.end()) > -1e-6);
  CHECK(out->core.back() < 230.0);
  Options fine;
  fine.face_spacing = 0.02e-3;
  fine.nodes = 61;
  const auto finer = sound(plan, fine);
  CHECK(finer->core.back() == doctest::Approx(out->core.back()).epsilon(0.01));
  CHECK(finer->ledger.evaporated == doctest::Approx(out->ledger.evaporated).epsilon(0.02));
}

TEST_CASE("a wrap that lets no vapour through keeps all the water in") {
  for (const double resistance : {1e6, 1e9}) {
    Plan plan = cook_in(blast(95.0, 20.0, 5000.0), 12.0);
    plan.meat.fat_cap.side = FatSide::none;
    for (Covering *side : {&plan.stages[0].wrap.bottom, &plan.stages[0].wrap.top}) {
      side->vapour_resistance = resistance;
      side->juice_capacity = 100.0;
    }
    const auto out = sound(plan);
    CHECK(out->ledger.run_off == 0.0);
    CHECK(out->ledger.evaporated < 2.0 / resistance * out->ledger.water_start * 1e4);
    CHECK(out->ledger.on_surface > 0.05 * out->ledger.water_start); // juice in the wrap
    CHECK(out->core.back() > 94.0);                                 // no stall without evaporation
  }
}

TEST_CASE("no film coefficient, and enormous ones") {
  Plan plan = cook_in(blast(204.0, 0.0, 4000.0), 1.0);
  plan.meat.fat_cap.side = FatSide::none;
  Options dark;
  dark.physics.radiation = false;
  const auto sealed = sound(plan, dark); // no film: no heat, no vapour
  CHECK(sealed->core.back() == doctest::Approx(plan.meat.start).epsilon(1e-9));
  CHECK(sealed->ledger.evaporated == 0.0);
  std::vector<double> cores;
  for (const double h : {1e2, 1e3, 1e5, 1e6, 1e7, 1e8}) {
    for (const double spacing : {0.15e-3, 0.02e-3}) {
      INFO("h ", h, " spacing ", spacing);
      plan.stages[0].surroundings = blast(204.0, h, 4000.0);
      Options options;
      options.face_spacing = spacing;
      options.physics.evaporation = h <= 1e3; // no air carries off heat and vapour so fast
      const auto out = sound(plan, options);
      if (h >= 1e5) {
        CHECK(out->surface[1].back() == doctest::Approx(204.0).epsilon(1e-3));
      }
      if (h >= 1e5 && spacing > 0.1e-3) {
        cores.push_back(out->core.back());
      }
    }
  }
  CHECK_THROWS_AS((void)simulate(plan), InvalidInput);
  CHECK(std::fabs(cores[0] - cores[3]) < 0.3); // the limit of a face at the air's temperature
  CHECK(std::fabs(cores[2] - cores[3]) < 0.03);
}

TEST_CASE("logged pit air that jumps within a second, and one that is noise from second to second") {
  std::vector<double> times, values;
  for (int i = 0; i < 12; ++i) { // lid off, lid on: 100 K down and up
    const double at = 600.0 * i;
    times.insert(times.end(), {at + 300.0, at + 301.0, at + 599.0, at + 600.0});
    values.insert(values.end(), {160.0, 60.0, 60.0, 160.0});
  }
  Signal jumps(times, values);
  jumps.measured = true;
  const Plan jumping = cook_in(pit("drum", jumps), 2.0);
  converges(jumping, "jumps of 100 K", 0.1, 0.005);

  std::mt19937 random(11);
  std::normal_distribution<double> noise(0.0, 3.0);
  times.clear();
  values.clear();
  for (int i = 0; i <= 1800; ++i) {
    times.push_back(i);
    values.push_back(120.0 + noise(random));
  }
  Signal noisy(times, values);
  noisy.measured = true;
  const auto out = sound(cook_in(pit("drum", noisy), 0.5));
  const auto even = sound(cook_in(pit("drum", 120.0), 0.5));
  // Far too fast for the meat: it feels the mean.
  CHECK(out->core.back() == doctest::Approx(even->core.back()).epsilon(0.005));
  CHECK(out->surface[1].back() == doctest::Approx(even->surface[1].back()).epsilon(0.02));
}

TEST_CASE("a controller that swings within ten seconds") {
  Signal ripple(120.0);
  ripple.ripple_amplitude = 15.0;
  ripple.ripple_period = 10.0;
  const auto out = sound(cook_in(pit("drum", ripple), 2.0));
  const auto even = sound(cook_in(pit("drum", 120.0), 2.0));
  MESSAGE("core ", out->core.back(), " against ", even->core.back(), " °C, steps ", out->ledger.steps,
          " against ", even->ledger.steps);
  // Not quite the same: radiation and natural convection grow faster than the temperature, so a swing heats
  // more.
  CHECK(out->core.back() > even->core.back());
  CHECK(out->core.back() < even->core.back() + 0.3);
}

TEST_CASE("stages of a second add up to the stage that they divide") {
  const Plan whole = cook_in(pit("offset", 110.0), 0.1);
  Plan pieces = whole;
  pieces.stages[0].until = {{EndKind::elapsed, 1.0}};
  pieces.stages.resize(360, pieces.stages[0]);
  const auto one = sound(whole, tighter(0.02));
  const auto many = sound(pieces);
  CHECK(many->stage_ends.size() == 360);
  CHECK(many->time.back() == doctest::Approx(360.0).epsilon(1e-12));
  CHECK(std::fabs(many->surface[1].back() - one->surface[1].back()) < 0.05);
  CHECK(many->ledger.evaporated == doctest::Approx(one->ledger.evaporated).epsilon(0.005));
}

TEST_CASE("a spritz every minute keeps the face wet, and all of it is accounted for") {
  Plan plan = cook_in(pit("offset", 120.0), 3.0);
  plan.stages[0].spritz = Spritz{.every = 60.0, .first = 60.0, .amount = 0.03, .lid_open = 10.0};
  const auto out = sound(plan);
  CHECK(std::count_if(out->events.begin(), out->events.end(),
                      [](const Event &e) { return e.what == "spritz"; }) == 179);
  CHECK(out->ledger.spritzed == doctest::Approx(179 * 0.03 * out->face_area[1]).epsilon(1e-9));
  CHECK(all_within({out->film[1].begin() + 2, out->film[1].end()}, 0.01, 1.0));
  CHECK(out->surface[1].back() < 70.0); // wet: near its wet-bulb temperature
  converges(plan, "spritz every minute", 0.1, 0.005);
}
