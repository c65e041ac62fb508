/// @file
/// Table rows of cookers' chambers, their air and the water pan.
#include <array>

#include "cook/cooker/cooker_fields.hpp"
#include "cook/cooker/fire_fields.hpp"
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
  constexpr std::string_view size = "size of a backyard cooker of this kind";
  const std::string_view wall = kind == "ceramic"         ? "judgement: 30 mm of fired clay at 1 W/mK"
                                : c.wall_resistance > 0.0 ? "judgement: 25 mm of mineral wool at 0.04 W/mK"
                                                          : "a single sheet";
  add_known(
      table, at, c,
      {{&Chamber::volume, {0.4 * c.volume, 3.0 * c.volume, common_practice, size}},
       {&Chamber::wall_area, {0.5 * c.wall_area, 2.0 * c.wall_area, common_practice, size}},
       {&Chamber::wall_resistance, {0.0, 1.5, c.wall_resistance > 0.0 ? assumed : common_practice, wall}}});
  if (c.fuel == "electric") {
    const std::string_view leak =
        kind == "oven" ? "judgement: vent and door gap; gives the humidity that Baik et al., J. Food Sci. 64 "
                         "(1999) 688, report for ovens"
                       : "judgement: chimney hole, drain and door gap";
    add_known(table, at, c,
              {{&Chamber::vent_area, {2e-4, 1e-2, assumed, leak}},
               {&Chamber::vent_height, {0.2, 1.5, common_practice, size}}});
    return;
  }
  for (const Ratio &ratio : ratios) {
    if (kind == ratio.kind) {
      add_known(table, at, c, {{&Chamber::air_ratio, {ratio.low, ratio.high, common_practice, ratio.why}}});
    }
  }
}

void add_pan(std::vector<Parameter> &table) {
  const WaterPan pan;
  add_defaults(table, "water_pan.", pan);
  add_known(table, "water_pan.", pan.film,
            {{&Film::length, {0.02, 0.15, derived, "area over perimeter of the pan"}}});
  table.push_back({"water_pan.last_film", pan_last_film, std::string(kind::areal_mass.unit), 0.02, 1.0,
                   "judgement: 0.2 mm; below it the pan shows dry spots", assumed});
}

} // namespace

void add_pit_air(std::vector<Parameter> &table) {
  for (const std::string &kind : chamber_kinds()) {
    add_chamber(table, kind);
  }
  add_defaults(table, "chamber.", Chamber{});
  table.insert(table.end(),
               {
                   {"chamber.inner_wall_film", inner_wall_film, std::string(kind::film_coefficient.unit), 4.0,
                    20.0, "judgement: natural convection and part of the radiation", assumed},
                   {"chamber.outer_wall_emissivity", outer_wall_emissivity, "-", 0.8, 0.95,
                    "paint, enamel, glaze: Incropera & DeWitt, table A.11 (from memory)", from_memory},
                   {"chamber.opening_discharge", opening_discharge, "-", 0.4, 0.8,
                    "ASHRAE Handbook - Fundamentals, ch. 16 (from memory)", from_memory},
               });
  add_pan(table);
}

} // namespace cook::rows
