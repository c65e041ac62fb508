#include "dials.hpp"

#include <algorithm>

#include "cook/cooker/surroundings.hpp"
#include "cook/cooker/wrap.hpp"
#include "cook/errors.hpp"
#include "cook/meat/cut.hpp"
#include "cook/meat/kinetics.hpp"
#include "cook/plan/plan.hpp"
#include "cook/readings/limits.hpp"
#include "cook/units.hpp"
#include "settings.hpp"

namespace cook::page {

namespace {

constexpr double minute = seconds_per_minute;
constexpr double hour = seconds_per_hour;

std::vector<Choice> plain(const std::vector<std::string> &names) {
  std::vector<Choice> made;
  for (const std::string &name : names) {
    made.push_back({name, name});
  }
  return made;
}

Json listed(const std::vector<Choice> &choices) {
  Json made = Json::array();
  for (const Choice &one : choices) {
    made.push_back({{"name", one.name}, {"label", one.label}});
  }
  return made;
}

Json written(const Dial &one) {
  Json made{{"key", one.key},
            {"label", one.label},
            {"kind", one.kind},
            {"low", one.low},
            {"high", one.high},
            {"step", one.step},
            {"other_step", one.other_step}};
  if (one.usual) {
    made["usual"] = *one.usual;
  }
  return made;
}

/// The first settings with some changed.
Json changed(Json settings, const Json &changes) {
  settings.update(changes);
  return settings;
}

Json preset(std::string_view name, const Json &changes) {
  return {{"name", name}, {"settings", changed(first_settings(), changes)}};
}

/// Cooks to begin from: common practice, no source.
Json presets() {
  const double low = celsius_from_fahrenheit(225.0);
  const double hot = celsius_from_fahrenheit(300.0);
  const double tender = celsius_from_fahrenheit(203.0);
  const auto usual = [](const char *name) { return Json{{"cut", name}, {"mass", find_cut(name).mass}}; };
  Json made = Json::array();
  made.push_back(preset("brisket overnight, in paper", Json::object()));
  made.push_back(preset("brisket without a wrap", {{"wrap", "none"}, {"clock", 18.0 * hour}}));
  made.push_back(preset("brisket, hot and fast in foil",
                        {{"air", hot}, {"wrap", "foil"}, {"pull", tender}, {"clock", 6.0 * hour}}));
  made.push_back(
      preset("pork shoulder to pull",
             changed(usual("pork shoulder"),
                     {{"cooker", "kettle"}, {"wrap", "foil"}, {"pull", tender}, {"rest", "box"}})));
  made.push_back(
      preset("small flat, sprayed, in paper",
             changed(usual("brisket flat"),
                     {{"air", low}, {"cooker", "pellet"}, {"spritz", hour}, {"clock", 7.0 * hour}})));
  return made;
}

/// What may be chosen so that dinner is at six, and the habit, which is one of it: common practice, no
/// source. The tests hold them to python/libcook/planner: its habit, and values that its search tries.
Json dinner_choices() {
  const auto all = [](std::initializer_list<double> fahrenheit) {
    Json made = Json::array();
    for (const double one : fahrenheit) {
      made.push_back(celsius_from_fahrenheit(one));
    }
    return made;
  };
  const Json habit{{"air", celsius_from_fahrenheit(250.0)},
                   {"wrap", "butcher paper"},
                   {"wrap_at", celsius_from_fahrenheit(165.0)}};
  return {{"pits", all({225.0, 250.0, 275.0})},
          {"wraps", {"none", "butcher paper", "foil"}},
          {"wrap_at", all({150.0, 165.0})},
          {"habit", habit},
          {"pull", celsius_from_fahrenheit(203.0)},
          {"rest", hour},
          {"serve", 18.0 * hour}};
}

} // namespace

const std::vector<Dial> &dials() {
  static const std::vector<Dial> list{
      {"mass", "weight, trimmed", "mass", 0.4, 12.0, 0.1, 0.25, {}},
      {"air", "pit temperature", "temperature", 80.0, celsius_from_fahrenheit(350.0), 1.0, 5.0,
       celsius_from_fahrenheit(250.0)},
      {"wrap_at", "wrap when the core is at", "temperature", 40.0, 95.0, 1.0, 1.0,
       celsius_from_fahrenheit(150.0)},
      {"spritz", "spray the top every", "duration", 0.0, 180.0 * minute, 15.0, 15.0, 0.0},
      {"pull", "off the heat with the core at", "temperature", 54.0, 98.0, 1.0, 1.0,
       celsius_from_fahrenheit(200.0)},
      {"rest_time", "rest for", "duration", 15.0 * minute, 12.0 * hour, 15.0, 15.0, 2.0 * hour},
      {"clock", "on the heat at", "clock", 0.0, 24.0 * hour - minute, 15.0, 15.0, 21.0 * hour},
      {"start", "meat at the start", "temperature", 0.0, 25.0, 1.0, 1.0, Meat{}.start},
      {"thickness", "thickness, mean", "length", 0.02, 0.2, 1.0, 0.05, {}},
      {"vapour", "water vapour in the pit", "pressure", 1000.0, 40000.0, 0.5, 0.5, {}},
  };
  return list;
}

const Dial &dial(std::string_view key) {
  const auto found =
      std::find_if(dials().begin(), dials().end(), [&](const Dial &one) { return one.key == key; });
  if (found == dials().end()) {
    throw InvalidInput(std::string(key), "not one of the settings");
  }
  return *found;
}

std::vector<Choice> cuts_to_choose() {
  std::vector<Choice> made;
  for (const Cut &one : cuts()) {
    made.push_back({one.name, one.name == cuts().front().name ? one.name + ", whole" : one.name});
  }
  return made;
}

std::vector<Choice> cookers_to_choose() {
  std::vector<Choice> made = plain(pit_kinds());
  // the first settings' cooker first, then in the order of their air flow
  std::stable_sort(made.begin(), made.end(), [](const Choice &a, const Choice &b) {
    return (a.name == first_cooker) > (b.name == first_cooker);
  });
  made.push_back({kitchen_oven, "kitchen oven"});
  return made;
}

std::vector<Choice> wraps_to_choose() {
  std::vector<Choice> made;
  for (const std::string &name : wrap_names()) {
    if (name == "none") {
      made.push_back({name, "no wrap"});
    } else if (name == "pan") {
      made.push_back({name, "open pan"});
    } else if (name != "foil tent" && name != "towels") { // those cover a rest
      made.push_back({name, name});
    }
  }
  return made;
}

std::vector<Choice> rests_to_choose() {
  return {{"none", "no rest"},
          {"counter", "kitchen counter"},
          {"box", "insulated box"},
          {"oven", "holding oven"}};
}

Json form() {
  Json made{{"version", COOK_VERSION},
            {"cuts", listed(cuts_to_choose())},
            {"cookers", listed(cookers_to_choose())},
            {"wraps", listed(wraps_to_choose())},
            {"rests", listed(rests_to_choose())},
            {"dials", Json::array()},
            {"pieces", Json::object()},
            {"first", first_settings()},
            {"presets", presets()}};
  for (const Dial &one : dials()) {
    made["dials"].push_back(written(one));
  }
  for (const Cut &one : cuts()) {
    made["pieces"][one.name] = {{"mass", one.mass}, {"smallest", one.smallest}, {"largest", one.largest}};
  }
  made["lesson"] = {{"slow", celsius_from_fahrenheit(225.0)}, {"hot", celsius_from_fahrenheit(300.0)}};
  made["dinner"] = dinner_choices();
  made["pounds"] = kilograms_per_pound;
  made["inches"] = metres_per_inch;
  made["spray_first"] = Spritz{}.first;
  made["stall"] = {{"coldest", stall_rule::coldest}, {"hottest_begin", stall_rule::hottest_begin}};
  namespace limit = safety_limits;
  made["safety"] = {{"hot_holding", limit::hot_holding},       {"cold_holding", limit::cold_holding},
                    {"cooling_middle", limit::cooling_middle}, {"first_cooling", limit::first_cooling},
                    {"whole_cooling", limit::whole_cooling},   {"come_up_from", limit::come_up_from},
                    {"come_up_to", limit::come_up_to},         {"come_up_limit", limit::come_up_limit},
                    {"reductions", lethality_log_low}};
  return made;
}

} // namespace cook::page
