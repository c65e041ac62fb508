/// @file
/// Table rows of cookers, counter, box, spritz and lid.
/// Values stand in the structs (include/cook), ranges and sources of their members in the *_fields.hpp beside
/// them; here is what is no member of a struct.
#include "cook/cooker/humid_air.hpp"
#include "cook/plan/plan_fields.hpp"
#include "fields/parameter_rows.hpp"

namespace cook::rows {

namespace {

using enum Provenance;

void add_pits(std::vector<Parameter> &table) {
  constexpr double any_air = 110.0; // °C; the kind's numbers do not depend on it
  for (const std::string &kind : pit_kinds()) {
    const Surroundings s = pit(kind, Signal(any_air));
    const std::string at = "pit." + kind + ".";
    const Told vapour = told_of(&Surroundings::vapour_pressure);
    add(table, at, vapour, s.vapour_pressure.at(0.0), vapour.sure);
    add(table, at, {.name = "air_speed", .kind = kind::velocity, .words = {}}, s.top.value,
        {0.0, 2.0, common_practice, source::pits, "; 0 is natural convection"});
    add_known(table, at, s, {{&Surroundings::radiant_bottom, {0.0, 100.0, common_practice, source::pits}}});
  }
}

void add_rooms(std::vector<Parameter> &table) {
  constexpr double baking = 180.0; // °C
  const Surroundings still = oven(Signal(baking));
  const Surroundings fan = oven(Signal(baking), true);
  const Surroundings room = counter();
  const Surroundings chest = insulated_box();
  const std::string baik =
      "Baik et al., J. Food Sci. 64 (1999) 688 (abstract): 0.027 to 0.043 kg/kg and 0.02 to 0.44 m/s in "
      "baking ovens";
  table.insert(
      table.end(),
      {
          {"oven.vapour_pressure", still.vapour_pressure.at(0.0), "Pa", 2e3, 8e3, baik + "; vented", derived},
          {"oven.fan_speed", fan.top.value, "m/s", 0.02, 2.0, baik, derived},
          {"holding_oven.air", holding_air, "°C", 60.0, 77.0, "150 °F", common_practice},
          {"holding_oven.humidity", holding_humidity, "-", 0.1, 0.9,
           "judgement: closed holding cabinets run humid", assumed},
          {"counter.air", room.air.at(0.0), "°C", 15.0, 30.0, "a room", common_practice},
          {"counter.relative_humidity", relative_humidity(room.air.at(0.0), room.vapour_pressure.at(0.0)),
           "-", 0.2, 0.8, "a room", common_practice},
          {"insulated_box.air", chest.air.at(0.0), "°C", 15.0, 30.0, "the room it stands in",
           common_practice},
          {"insulated_box.vapour_pressure", chest.vapour_pressure.at(0.0), "Pa", 2e3, 1.2e4,
           "judgement: half saturated at 50 °C; wrapped meat hardly evaporates", assumed},
      });
  add_defaults(table, "box.", Box{});
}

void add_stage(std::vector<Parameter> &table) {
  add_defaults(table, "surroundings.", Surroundings{});
  add_defaults(table, "film.", Film{});
  add_defaults(table, "spritz.", Spritz{});
  add_defaults(table, "lid.", LidOpening{});
}

} // namespace

void add_surroundings(std::vector<Parameter> &table) {
  add_stage(table);
  add_pits(table);
  add_rooms(table);
}

} // namespace cook::rows
