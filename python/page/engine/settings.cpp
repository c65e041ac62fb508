#include "settings.hpp"

#include <algorithm>
#include <array>
#include <string>
#include <vector>

#include "cook/errors.hpp"
#include "cook/json/json.hpp"
#include "cook/meat/cut.hpp"
#include "cook/units.hpp"
#include "dials.hpp"

namespace cook::page {

namespace {

struct WordSetting {
  const char *key;
  std::vector<Choice> (*choices)();
};
constexpr std::array word_settings{
    WordSetting{"cut", cuts_to_choose}, WordSetting{"cooker", cookers_to_choose},
    WordSetting{"wrap", wraps_to_choose}, WordSetting{"rest", rests_to_choose}};

std::string word(const Json &settings, const WordSetting &one) {
  const auto found = settings.find(one.key);
  if (found == settings.end() || !found->is_string()) {
    throw InvalidInput(one.key, "missing; one of the names on its list is accepted");
  }
  std::string known;
  for (const Choice &choice : one.choices()) {
    if (choice.name == *found) {
      return choice.name;
    }
    known += (known.empty() ? "" : ", ") + choice.name;
  }
  throw InvalidInput(one.key, in_quotes(found->get<std::string>()) + " is not on the list; known: " + known);
}

std::string word(const Json &settings, std::string_view key) {
  return word(settings, *std::find_if(word_settings.begin(), word_settings.end(),
                                      [&](const WordSetting &one) { return one.key == key; }));
}

std::optional<double> number_if_any(const Json &settings, std::string_view key) {
  const auto found = settings.find(key);
  if (found == settings.end() || found->is_null()) {
    return std::nullopt;
  }
  if (!found->is_number()) {
    throw InvalidInput(std::string(key), "no number came");
  }
  const Dial &one = dial(key);
  if (one.kind == "temperature") {
    return check::celsius(one.key.data(), found->get<double>(), one.low, one.high);
  }
  return check::within(one.key.data(), found->get<double>(), one.low, one.high, "");
}

double number(const Json &settings, std::string_view key) {
  const std::optional<double> found = number_if_any(settings, key);
  if (!found) {
    throw InvalidInput(std::string(key), "missing; a number is accepted");
  }
  return *found;
}

void refuse_unknown(const Json &settings) {
  for (const auto &[key, value] : settings.items()) {
    if (std::none_of(word_settings.begin(), word_settings.end(),
                     [&key = key](const WordSetting &one) { return one.key == key; })) {
      static_cast<void>(dial(key));
    }
  }
}

bool wraps(const Json &settings) {
  return word(settings, "wrap") != "none" && number(settings, "wrap_at") < number(settings, "pull");
}

Json heated(const Json &settings) {
  const std::string cooker = word(settings, "cooker");
  const double air = number(settings, "air");
  Json made = cooker == kitchen_oven ? Json{{"oven", air}} : Json{{"pit", cooker}, {"air", air}};
  if (const auto vapour = number_if_any(settings, "vapour")) {
    made["vapour_pressure"] = *vapour;
  }
  return made;
}

/// The rest keeps the paper; whatever else there was, it rests in foil.
Json rest_stage(const Json &settings) {
  const std::string rest = word(settings, "rest");
  const std::string wrap = wraps(settings) ? word(settings, "wrap") : "none";
  Json place;
  if (rest == "counter") {
    place = {{"counter", counter().air.value.front()}};
  } else if (rest == "box") {
    place = {{"insulated_box", Json::object()}};
  } else {
    place = {{"holding_oven", holding_air}};
  }
  return {{"name", "rest"},
          {"surroundings", place},
          {"wrap", wrap == "butcher paper" ? wrap : "foil"},
          {"until", {{"elapsed", number(settings, "rest_time")}}}};
}

Json short_plan(const Json &settings) {
  Json meat{{"cut", word(settings, "cut")},
            {"mass", number(settings, "mass")},
            {"start", number(settings, "start")}};
  if (const auto thickness = number_if_any(settings, "thickness")) {
    meat["thickness"] = *thickness;
  }
  const Json place = heated(settings);
  const double pull = number(settings, "pull");
  const bool wrapped = wraps(settings);

  Json smoke{{"name", "smoke"}, {"surroundings", place}};
  smoke["until"] = {{"core", wrapped ? number(settings, "wrap_at") : pull}};
  if (const double every = number(settings, "spritz"); every > 0.0) {
    smoke["spritz"] = {{"every", every}};
  }
  Json stages = Json::array({smoke});
  if (wrapped) {
    stages.push_back({{"name", "wrapped"},
                      {"surroundings", place},
                      {"wrap", word(settings, "wrap")},
                      {"until", {{"core", pull}}}});
  }
  if (word(settings, "rest") != "none") {
    stages.push_back(rest_stage(settings));
  }
  return {{"format", "libcook plan"},
          {"version", 1},
          {"clock_start", number(settings, "clock")},
          {"meat", meat},
          {"stages", stages}};
}

/// Which setting a path in the plan comes from; the path itself where none does.
std::string setting_behind(const std::string &path) {
  struct Source {
    std::string_view ending;
    const char *key;
  };
  constexpr std::array sources{Source{".mass", "mass"},    Source{".thickness", "thickness"},
                               Source{".start", "start"},  Source{".air", "air"},
                               Source{".oven", "air"},     Source{".vapour_pressure", "vapour"},
                               Source{".every", "spritz"}, Source{".elapsed", "rest_time"},
                               Source{".core", "pull"},    Source{".until", "pull"},
                               Source{".until[0]", "pull"}};
  for (const Source &one : sources) {
    if (path.ends_with(one.ending)) {
      return one.key;
    }
  }
  return path;
}

} // namespace

Json first_settings() {
  Json made{{"cut", cuts().front().name},
            {"cooker", first_cooker},
            {"wrap", "butcher paper"},
            {"rest", "counter"},
            {"mass", kilograms_from_pounds(14.0)}};
  for (const Dial &one : dials()) {
    if (one.usual) {
      made[std::string(one.key)] = *one.usual;
    }
  }
  return made;
}

Plan plan_of(const Json &ask) {
  if (ask.contains("plan")) {
    return plan_from_json(ask["plan"].dump());
  }
  const auto settings = ask.find("settings");
  if (settings == ask.end() || !settings->is_object()) {
    throw InvalidInput("ask", "neither settings nor a plan came");
  }
  refuse_unknown(*settings);
  const std::string text = short_plan(*settings).dump();
  try {
    return plan_from_json(text);
  } catch (const InvalidInput &error) {
    throw InvalidInput(setting_behind(error.field()), error.message());
  }
}

bool wrapped_too_late(const Json &ask) {
  const auto settings = ask.find("settings");
  return settings != ask.end() && word(*settings, "wrap") != "none" && !wraps(*settings);
}

Physics physics_of(const Json &ask) {
  Physics made;
  if (!ask.contains("physics")) {
    return made;
  }
  for (const auto &[key, value] : ask["physics"].items()) {
    bool *part = key == "evaporation" ? &made.evaporation
                 : key == "squeezing" ? &made.squeezing
                 : key == "radiation" ? &made.radiation
                 : key == "sinks"     ? &made.sinks
                                      : nullptr;
    if (part == nullptr || !value.is_boolean()) {
      throw InvalidInput("physics." + key, "no part of the physics that can be turned off");
    }
    *part = value.get<bool>();
  }
  return made;
}

} // namespace cook::page
