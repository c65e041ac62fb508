/// @file
/// Table rows of what readings compare a cook with.
/// Values stand in the structs (include/cook), ranges and sources of their members in the *_fields.hpp beside
/// them; here is what is no member of a struct.
#include "cook/readings/limits.hpp"
#include "fields/parameter_rows.hpp"

namespace cook::rows {

namespace {

using enum Provenance;

void add_safety(std::vector<Parameter> &table) {
  namespace limits = safety_limits;
  const std::string holding = "FDA Food Code 3-501.16";
  const std::string cooling = "FDA Food Code 3-501.14";
  const std::string warming = "USDA FSIS cooking guideline, Appendix A";
  table.insert(
      table.end(),
      {
          {"safety.hot_holding", limits::hot_holding, "°C", 57.0, 63.0,
           holding + ": 135 °F; local rules may ask for more", published},
          {"safety.cold_holding", limits::cold_holding, "°C", 4.0, 5.0, holding + ": 41 °F", published},
          {"safety.cooling_middle", limits::cooling_middle, "°C", 20.0, 21.2, cooling + ": 70 °F", published},
          {"safety.first_cooling", limits::first_cooling, "h", 1.5, 2.0, cooling + ": from 57 to 21 °C",
           published},
          {"safety.whole_cooling", limits::whole_cooling, "h", 4.0, 6.0, cooling + ": from 57 to 5 °C",
           published},
          {"safety.come_up_from", limits::come_up_from, "°C", 4.0, 10.0, warming + ": 50 °F", from_memory},
          {"safety.come_up_to", limits::come_up_to, "°C", 54.4, 55.0, warming + ": 130 °F", from_memory},
          {"safety.come_up_limit", limits::come_up_limit, "h", 4.0, 6.0,
           warming + ": from 50 to 130 °F, coldest part", from_memory},
      });
}

void add_stall(std::vector<Parameter> &table) {
  namespace rule = stall_rule;
  const std::string ours = "judgement: what counts as a stall is ours, no definition has been published; ";
  table.insert(
      table.end(),
      {
          {"stall.rate_window", rule::rate_window, "s", 1200.0, 3600.0, ours + "one rate is taken over this",
           assumed},
          {"stall.slow_share", rule::slow_share, "-", 0.1, 0.4, ours + "of the fastest rate so far", assumed},
          {"stall.slow", rule::slow, "K/s", 1e-3, 2.5e-3, ours + "6 K per hour", assumed},
          {"stall.least_recovery", rule::least_recovery, "K/s", 2e-4, 8e-4,
           ours + "1.5 K per hour: more than noise", assumed},
          {"stall.relapse", rule::relapse, "-", 0.3, 0.7, ours + "of the rate since the last one", assumed},
          {"stall.shortest", rule::shortest, "s", 900.0, 3600.0, ours + "half an hour", assumed},
          {"stall.least_pace", rule::least_pace, "K/s", 3e-4, 2e-3,
           ours + "3 K per hour: what never warmed faster does not stall", assumed},
          {"stall.coldest", rule::coldest, "°C", 45.0, 60.0, ours + "core of a stall", assumed},
          {"stall.hottest_begin", rule::hottest_begin, "°C", 75.0, 85.0, ours + "core as it begins", assumed},
          {"stall.hottest", rule::hottest, "°C", 80.0, 95.0, ours + "core of a stall", assumed},
      });
}

} // namespace

void add_readings(std::vector<Parameter> &table) {
  add_safety(table);
  add_stall(table);
}

} // namespace cook::rows
