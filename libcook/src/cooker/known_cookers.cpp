/// @file
/// One entry each, and nothing else names it. After a new one `python python/bindings/generate.py` writes the
/// schema anew.
#include "cooker/known_cookers.hpp"

#include <algorithm>
#include <cctype>
#include <sstream>

#include "cook/cooker/chamber.hpp"
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
      {.name = "ceramic",
       .vapour_pressure = 12000.0,
       .fuel = "charcoal",
       .volume = 0.09,
       .wall_area = 1.1,
       .wall_resistance = 0.03,
       .air_ratio = 4.0,
       .wall = "judgement: 30 mm of fired clay at 1 W/mK",
       .air_ratio_sure = fire(2.0, 8.0, "vents nearly closed; holds a night on one filling"),
       .also = {"egg", "clay", "kamado"}},
      {.name = "drum",
       .vapour_pressure = 8000.0,
       .fuel = "charcoal",
       .volume = 0.20,
       .wall_area = 2.1,
       .air_ratio = 5.0,
       .wall = sheet,
       .air_ratio_sure = fire(2.5, 10.0, "throttled intakes below, exhaust open"),
       .also = {"barrel", "bullet"}},
      {.name = "kettle",
       .vapour_pressure = 8000.0,
       .coals = 10.0,
       .fuel = "charcoal",
       .volume = 0.10,
       .wall_area = 1.0,
       .air_ratio = 7.0,
       .wall = sheet,
       .air_ratio_sure = fire(3.0, 15.0, "leaky lid"),
       .also = {"charcoal", "ball", "grill"}},
      {.name = "cabinet",
       .vapour_pressure = 10000.0,
       .fuel = "electric",
       .volume = 0.15,
       .wall_area = 1.8,
       .wall_resistance = 0.6,
       .vent_height = 0.6,
       .wall = wool,
       .leak = "judgement: chimney hole, drain and door gap",
       .also = {"electric", "gas", "propane", "vertical", "box"}},
      {.name = "offset",
       .vapour_pressure = 6000.0,
       .air_speed = 0.5,
       .fuel = "wood",
       .volume = 0.25,
       .wall_area = 3.5,
       .air_ratio = 9.0,
       .wall = sheet,
       .air_ratio_sure = fire(
           5.0, 25.0,
           "open firebox, exhaust open; fires that draw more than 35 kg of air per kg of wood count as open "
           "fireplaces (40 CFR 60, subpart AAA), an air ratio of 6 to 7"),
       .also = {"stick", "wood", "firebox", "reverse"}},
      {.name = "pellet",
       .vapour_pressure = 5000.0,
       .air_speed = 0.5,
       .fuel = "pellets",
       .volume = 0.15,
       .wall_area = 1.6,
       .air_ratio = 12.0,
       .wall = sheet,
       .air_ratio_sure = fire(6.0, 25.0, "fan runs all the time"),
       .also = {"pellets"}},
      // Vented kitchen oven, w about 0.025: within the published 0.027 to 0.043 kg/kg of Baik 1999.
      {.name = "oven",
       .vapour_pressure = 4000.0,
       .fuel = "electric",
       .volume = 0.065,
       .wall_area = 1.0,
       .wall_resistance = 0.6,
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
  const std::string called = cooker_called(name);
  throw InvalidInput("kind", in_quotes(name) + " is not a known cooker; known: " + known +
                                 (called.empty() ? "" : "; did you mean '" + called + "'?"));
}

std::string cooker_called(const std::string &words) {
  constexpr std::size_t longest = 64; // longer is no name of a cooker
  std::string plain = words.substr(0, longest);
  std::transform(plain.begin(), plain.end(), plain.begin(), [](unsigned char c) {
    return std::isalpha(c) != 0 ? static_cast<char>(std::tolower(c)) : ' '; // "egg-shaped" is two words
  });
  std::istringstream each(plain);
  for (std::string word; each >> word;) {
    for (const KnownCooker &one : known_cookers()) {
      if (one.pit &&
          (one.name == word || std::find(one.also.begin(), one.also.end(), word) != one.also.end())) {
        return std::string(one.name);
      }
    }
  }
  return {};
}

} // namespace cook
