/// @file
/// Table rows of cookers' chambers, their air and the water pan.
#include <array>

#include "cook/cooker/chamber.hpp"
#include "cook/cooker/water_pan.hpp"
#include "fields/parameter_rows.hpp"

namespace cook::rows {

namespace {

using enum Provenance;

struct Ratio {
  const char *kind;
  double low, high;
  const char *why;
};

// Air ratios: what a fire is run at in each kind, told by the fuel it burns in an hour at 110 °C.
constexpr std::array<Ratio, 5> ratios{{
    {"ceramic", 2.0, 8.0, "vents nearly closed; holds a night on one filling"},
    {"drum", 2.5, 10.0, "throttled intakes below, exhaust open"},
    {"kettle", 3.0, 15.0, "leaky lid"},
    {"offset", 5.0, 25.0,
     "open firebox, exhaust open; fires that draw more than 35 kg of air per kg of wood count as open "
     "fireplaces (40 CFR 60, subpart AAA), an air ratio of 6 to 7"},
    {"pellet", 6.0, 25.0, "fan runs all the time"},
}};

void add_chamber(std::vector<Parameter> &table, const std::string &kind) {
  const Chamber c = chamber(kind);
  const std::string at = "chamber." + kind + ".";
  const std::string size = "size of a backyard cooker of this kind";
  table.insert(
      table.end(),
      {
          {at + "volume", c.volume, "m³", 0.4 * c.volume, 3.0 * c.volume, size, common_practice},
          {at + "wall_area", c.wall_area, "m²", 0.5 * c.wall_area, 2.0 * c.wall_area, size, common_practice},
      });
  const std::string wall = kind == "ceramic"         ? "judgement: 30 mm of fired clay at 1 W/mK"
                           : c.wall_resistance > 0.0 ? "judgement: 25 mm of mineral wool at 0.04 W/mK"
                                                     : "a single sheet";
  table.push_back({at + "wall_resistance", c.wall_resistance, "m²K/W", 0.0, 1.5, wall,
                   c.wall_resistance > 0.0 ? assumed : common_practice});
  if (c.fuel == "electric") {
    const std::string leak = kind == "oven"
                                 ? "judgement: vent and door gap; gives the humidity that Baik et al., J. "
                                   "Food Sci. 64 (1999) 688, report for ovens"
                                 : "judgement: chimney hole, drain and door gap";
    table.insert(table.end(), {
                                  {at + "vent_area", c.vent_area, "m²", 2e-4, 1e-2, leak, assumed},
                                  {at + "vent_height", c.vent_height, "m", 0.2, 1.5, size, common_practice},
                              });
    return;
  }
  for (const Ratio &ratio : ratios) {
    if (kind == ratio.kind) {
      table.push_back(
          {at + "air_ratio", c.air_ratio, "-", ratio.low, ratio.high, ratio.why, common_practice});
    }
  }
}

void add_pan(std::vector<Parameter> &table) {
  const WaterPan pan;
  table.insert(
      table.end(),
      {
          {"water_pan.area", pan.area, "m²", 0.01, 0.2, "a pan of 20 by 25 cm", common_practice},
          {"water_pan.water", pan.water, "kg", 0.5, 8.0, "4 cm deep", common_practice},
          {"water_pan.temperature", pan.temperature, "°C", 5.0, 100.0, "from the tap", common_practice},
          {"water_pan.length", pan.film.length, "m", 0.02, 0.15, "area over perimeter of the pan", derived},
          {"water_pan.emissivity", pan.emissivity, "-", 0.9, 0.98,
           "water: 0.95 to 0.96, Incropera & DeWitt, table A.11 (from memory)", from_memory},
          {"water_pan.view", pan.view, "-", 0.3, 1.0, "judgement: walls all around", assumed},
          {"water_pan.radiant_bottom", pan.radiant_bottom, "K", 0.0, 300.0,
           "judgement: not over the coals; raise it for a pan that is", assumed},
          {"water_pan.heat_capacity", pan.heat_capacity, "J/K", 100.0, 2000.0, "judgement: 1 kg of steel",
           assumed},
          {"water_pan.last_film", pan_last_film, "kg/m²", 0.02, 1.0,
           "judgement: 0.2 mm; below it the pan shows dry spots", assumed},
      });
}

} // namespace

void add_pit_air(std::vector<Parameter> &table) {
  for (const std::string &kind : chamber_kinds()) {
    add_chamber(table, kind);
  }
  const Chamber c;
  table.insert(table.end(),
               {
                   {"chamber.food_heat", c.food_heat, "W", 30.0, 1000.0,
                    "one brisket: evaporating 0.2 kg/h takes 130 W, warming it the rest", derived},
                   {"chamber.inner_wall_film", inner_wall_film, "W/m²K", 4.0, 20.0,
                    "judgement: natural convection and part of the radiation", assumed},
                   {"chamber.outer_wall_emissivity", outer_wall_emissivity, "-", 0.8, 0.95,
                    "paint, enamel, glaze: Incropera & DeWitt, table A.11 (from memory)", from_memory},
                   {"chamber.opening_discharge", opening_discharge, "-", 0.4, 0.8,
                    "ASHRAE Handbook - Fundamentals, ch. 16 (from memory)", from_memory},
               });
  add_pan(table);
}

} // namespace cook::rows
