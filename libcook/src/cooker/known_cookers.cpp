/// @file
/// One entry each, and nothing else names it. After a new one `python python/bindings/generate.py` writes the
/// schema anew.
#include "cooker/known_cookers.hpp"

#include <algorithm>

#include "cook/errors.hpp"

namespace cook {

namespace {

using enum Provenance;

constexpr std::string_view sheet = "a single sheet";
constexpr std::string_view wool = "judgement: 25 mm of mineral wool at 0.04 W/mK";

/// Air ratios: what a fire is run at in each kind, told by the fuel it burns in an hour at 110 °C.
constexpr Sure fire(double low, double high, std::string_view why) {
  return {low, high, common_practice, why};
}

} // namespace

// Common practice, no source: which cooker breathes more, and which radiates from below.
const std::vector<KnownCooker> &known_cookers() {
  static const std::vector<KnownCooker> table{
      {"ceramic", 12000.0, 0.0, 0.0, "charcoal", 0.09, 1.1, 0.03, 4.0, 1e-3, 0.5,
       "judgement: 30 mm of fired clay at 1 W/mK",
       fire(2.0, 8.0, "vents nearly closed; holds a night on one filling")},
      {"drum", 8000.0, 0.0, 0.0, "charcoal", 0.20, 2.1, 0.0, 5.0, 1e-3, 0.5, sheet,
       fire(2.5, 10.0, "throttled intakes below, exhaust open")},
      {"kettle", 8000.0, 0.0, 10.0, "charcoal", 0.10, 1.0, 0.0, 7.0, 1e-3, 0.5, sheet,
       fire(3.0, 15.0, "leaky lid")},
      {"cabinet",
       10000.0,
       0.0,
       0.0,
       "electric",
       0.15,
       1.8,
       0.6,
       1.0,
       1e-3,
       0.6,
       wool,
       {},
       "judgement: chimney hole, drain and door gap"},
      {"offset", 6000.0, 0.5, 0.0, "wood", 0.25, 3.5, 0.0, 9.0, 1e-3, 0.5, sheet,
       fire(5.0, 25.0,
            "open firebox, exhaust open; fires that draw more than 35 kg of air per kg of wood count as open "
            "fireplaces (40 CFR 60, subpart AAA), an air ratio of 6 to 7")},
      {"pellet", 5000.0, 0.5, 0.0, "pellets", 0.15, 1.6, 0.0, 12.0, 1e-3, 0.5, sheet,
       fire(6.0, 25.0, "fan runs all the time")},
      // Vented kitchen oven, w about 0.025: within the published 0.027 to 0.043 kg/kg of Baik 1999.
      {.name = "oven",
       .vapour_pressure = 4000.0,
       .air_speed = 0.0,
       .coals = 0.0,
       .fuel = "electric",
       .volume = 0.065,
       .wall_area = 1.0,
       .wall_resistance = 0.6,
       .air_ratio = 1.0,
       .vent_area = 3e-3,
       .vent_height = 0.4,
       .wall = wool,
       .leak = "judgement: vent and door gap; gives the humidity that Baik et al., J. Food Sci. 64 (1999) "
               "688, report for ovens",
       .pit = false},
  };
  return table;
}

const KnownCooker &known_cooker(const std::string &name, bool any) {
  std::string known;
  for (const KnownCooker &one : known_cookers()) {
    if (any || one.pit) {
      if (one.name == name) {
        return one;
      }
      known += (known.empty() ? "" : ", ") + std::string(one.name);
    }
  }
  throw InvalidInput("kind", in_quotes(name) + " is not a known cooker; known: " + known);
}

} // namespace cook
