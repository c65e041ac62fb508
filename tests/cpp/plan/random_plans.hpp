/// @file
/// Plans drawn at random that a cook could carry out, with every kind of number that can be fitted.
#pragma once

#include <algorithm>
#include <cmath>
#include <string>
#include <vector>

#include "cook/meat/cut.hpp"
#include "cook/plan/plan.hpp"
#include "fit/random.hpp"

#include "cooks.hpp"

namespace cook::testing {

class RandomPlans {
public:
  explicit RandomPlans(std::uint64_t seed) : random_(seed) {}

  Plan next() {
    Plan plan;
    plan.meat = meat();
    const int count = 1 + below(3);
    for (int i = 0; i < count; ++i) {
      plan.stages.push_back(heated("stage " + std::to_string(i + 1), plan.meat.shape.thickness));
    }
    if (yes()) {
      Stage rest;
      rest.name = "rest";
      rest.surroundings = yes() ? counter(between(5.0, 30.0)) : insulated_box(20.0);
      rest.wrap = wrap("foil");
      rest.until = {{EndKind::elapsed, 3600.0}};
      plan.stages.push_back(rest);
    }
    if (yes()) {
      plan.probes.push_back({.name = "other", .z = between(0.1, 0.9) * plan.meat.shape.thickness});
    }
    plan.validate();
    return plan;
  }

  double between(double low, double high) { return low + (high - low) * random_.uniform(); }
  bool yes() { return random_.uniform() < 0.5; }
  int below(int end) { return std::min(static_cast<int>(random_.uniform() * end), end - 1); }

private:
  Meat meat() {
    switch (below(4)) {
    case 0:
      return roll(between(0.8, 5.0));
    case 1:
      return pork_shoulder(between(1.5, 5.0), {}, yes() ? 0.0 : between(0.0, 20.0));
    case 2: {
      const Meat whole = brisket(between(3.0, 8.0));
      return with_section(whole, brisket_section(whole));
    }
    default: {
      Meat made = brisket(between(1.0, 9.0), between(0.03, 0.09), between(-1.0, 20.0));
      made.fat_cap.side = yes() ? FatSide::up : yes() ? FatSide::down : FatSide::none;
      if (yes()) {
        made.shape.width.reset(); // a slab without end
      }
      return made;
    }
    }
  }

  Signal course(double low, double high) {
    Signal made(between(low, high));
    if (yes()) { // from cold, in steps
      made.time = {-60.0, between(600.0, 3000.0), between(4000.0, 9000.0)};
      made.value = {between(15.0, 70.0), between(low, high), between(low, high)};
    }
    made.ripple_amplitude = yes() ? between(0.5, 6.0) : 0.0;
    made.measured = yes();
    return made;
  }

  Film film() {
    const double length = yes() ? between(0.05, 0.5) : 0.0;
    const double factor = yes() ? between(0.5, 2.0) : 1.0;
    switch (below(3)) {
    case 0:
      return {.kind = Convection::given, .value = between(2.0, 30.0), .factor = factor};
    case 1:
      return {.kind = Convection::forced, .value = between(0.05, 3.0), .length = length, .factor = factor};
    default:
      return {.kind = Convection::natural, .length = length, .factor = factor};
    }
  }

  Stage heated(const std::string &name, double thickness) {
    static const std::vector<std::string> wraps{"none", "butcher paper", "foil", "foil tent", "pan"};
    Stage made;
    made.name = name;
    Surroundings &s = made.surroundings;
    const Signal air = course(90.0, 150.0);
    s = yes() ? oven(air, yes()) : pit(pit_kinds()[static_cast<std::size_t>(below(6))], air);
    if (yes()) {
      s.bottom = film();
      s.top = film();
    }
    if (yes()) {
      s.vapour_pressure = Signal({-600.0, 3600.0}, {between(900.0, 5000.0), between(900.0, 12000.0)});
    }
    s.radiant_bottom = yes() ? -0.0 : between(-10.0, 40.0);
    if (below(4) == 0) {
      s.air_below = Signal(between(90.0, 160.0));
    }
    if (below(3) == 0) {
      s.pit_air = PitAir{};
      s.pit_air->air_flow = between(5e-4, 1e-2);
    }
    made.wrap = wrap(wraps[static_cast<std::size_t>(below(5))]);
    if (below(3) == 0) {
      made.wrap.ends = Covering{.vapour_resistance = between(0.0, 5000.0)};
    }
    if (yes()) {
      made.probe = Probe{};
      if (yes()) {
        made.probe->z = yes() ? 0.5 * thickness : between(0.2, 0.8) * thickness;
      }
    }
    made.until = {{EndKind::core, 70.0 + 5.0 * below(4)}};
    return made;
  }

  fit::Random random_;
};

} // namespace cook::testing
