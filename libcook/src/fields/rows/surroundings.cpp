/// @file
/// Table rows of cookers, counter, box, spritz and lid.
#include "cook/cooker/surroundings.hpp"
#include "cook/cooker/humid_air.hpp"
#include "cook/plan/plan.hpp"
#include "fields/parameter_rows.hpp"

namespace cook::rows {

namespace {

using enum Provenance;

const std::string pits =
    "which cooker breathes more and which radiates from below; vapour pressure between the balances "
    "of a draughty and a tight cooker, 3 to 15 kPa";

void add_pits(std::vector<Parameter> &table) {
  constexpr double any_air = 110.0; // °C; the kind's numbers do not depend on it
  for (const std::string &kind : pit_kinds()) {
    const Surroundings s = pit(kind, Signal(any_air));
    const std::string at = "pit." + kind + ".";
    table.insert(
        table.end(),
        {
            {at + "vapour_pressure", s.vapour_pressure.at(0.0), "Pa", 3e3, 1.5e4, pits, common_practice},
            {at + "air_speed", s.top.value, "m/s", 0.0, 2.0, pits + "; 0 is natural convection",
             common_practice},
            {at + "radiant_bottom", s.radiant_bottom, "K", 0.0, 100.0, pits, common_practice},
        });
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
  const Box box;
  table.insert(
      table.end(),
      {
          {"box.heat_capacity", box.heat_capacity, "J/K", 2e3, 2e4,
           "judgement: 3 to 4 kg of plastic and towels", assumed},
          {"box.loss", box.loss, "W/K", 0.3, 3.0, "1.2 m² of 3 to 5 cm foam make 0.6 to 1.3" + tuning, tuned},
          {"box.start", box.start, "°C", 15.0, 70.0,
           "judgement: towels from the room or a little warmer; more if preheated", assumed},
      });
}

void add_stage(std::vector<Parameter> &table) {
  const Surroundings s;
  const Film film;
  table.insert(
      table.end(),
      {
          {"surroundings.air", s.air.at(0.0), "°C", 95.0, 150.0, "low and slow", common_practice},
          {"surroundings.radiant_bottom", s.radiant_bottom, "K", 0.0, 100.0, "walls at air temperature",
           assumed},
          {"surroundings.radiant_top", s.radiant_top, "K", 0.0, 100.0, "walls at air temperature", assumed},
          {"surroundings.view", s.view, "-", 0.5, 1.0,
           "a piece that is small against its cooker sees only walls", assumed},
          {"surroundings.vapour_pressure", s.vapour_pressure.at(0.0), "Pa", 3e3, 1.5e4, pits,
           common_practice},
          {"surroundings.pressure", s.pressure, "Pa", 7e4, 1.04e5, "standard atmosphere (10th CGPM, 1954)",
           published},
          {"surroundings.ambient", s.ambient, "°C", -20.0, 40.0, "outside air", common_practice},
          {"film.factor", film.factor, "-", 0.5, 2.0,
           "what the correlation gives; a cooker's own draught differs from it", assumed},
      });
  const Spritz spray;
  const LidOpening lid;
  table.insert(
      table.end(),
      {
          {"spritz.every", spray.every, "s", 900.0, 7200.0, "hourly", common_practice},
          {"spritz.first", spray.first, "s", 0.0, 18000.0, "once the surface has set", common_practice},
          {"spritz.amount", spray.amount, "kg/m²", 0.01, 0.2, "about 15 g on a brisket", common_practice},
          {"spritz.temperature", spray.temperature, "°C", 4.0, 40.0, "room temperature", common_practice},
          {"spritz.lid_open", spray.lid_open, "s", 5.0, 120.0, "half a minute", common_practice},
          {"lid.duration", lid.duration, "s", 5.0, 600.0, "a look inside", common_practice},
      });
}

} // namespace

void add_surroundings(std::vector<Parameter> &table) {
  add_stage(table);
  add_pits(table);
  add_rooms(table);
}

} // namespace cook::rows
