/// @file
/// Table rows of cookers' chambers, their air and the water pan.
/// Values stand in the structs (include/cook), ranges and sources of their members in the *_fields.hpp beside
/// them; here is what is no member of a struct.
#include "cook/cooker/cooker_fields.hpp"
#include "cook/cooker/fire_fields.hpp"
#include "cooker/known_cookers.hpp"
#include "fields/parameter_rows.hpp"

namespace cook::rows {

namespace {

using enum Provenance;

void add_chamber(std::vector<Parameter> &table, const KnownCooker &known) {
  const std::string kind(known.name);
  const Chamber c = chamber(kind);
  const std::string at = "chamber." + kind + ".";
  constexpr std::string_view size = "size of a backyard cooker of this kind";
  add_known(table, at, c,
            {{&Chamber::volume, {0.4 * c.volume, 3.0 * c.volume, common_practice, size}},
             {&Chamber::wall_area, {0.5 * c.wall_area, 2.0 * c.wall_area, common_practice, size}},
             {&Chamber::wall_resistance,
              {0.0, 1.5, c.wall_resistance > 0.0 ? assumed : common_practice, known.wall}}});
  if (!known.leak.empty()) {
    add_known(table, at, c,
              {{&Chamber::vent_area, {2e-4, 1e-2, assumed, known.leak}},
               {&Chamber::vent_height, {0.2, 1.5, common_practice, size}}});
  } else {
    add_known(table, at, c, {{&Chamber::air_ratio, known.air_ratio_sure}});
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
  for (const KnownCooker &known : known_cookers()) {
    add_chamber(table, known);
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
