// The JSON Schema of a plan, from the lists of fields; the short forms by hand.
#include <algorithm>
#include <string>
#include <type_traits>

#include "cook/json/json.hpp"
#include "cook/meat/cut.hpp"
#include "json/fields.hpp"
#include "json/text.hpp"

namespace cook {

namespace json {

namespace {

Json ref(std::string_view name) { return {{"$ref", "#/$defs/" + std::string(name)}}; }

Json or_null(Json schema) { return {{"anyOf", {std::move(schema), {{"type", "null"}}}}}; }

Json list_of(Json schema, bool one_at_least = false) {
  Json list{{"type", "array"}, {"items", std::move(schema)}};
  if (one_at_least) {
    list["minItems"] = 1;
  }
  return list;
}

Json described(const std::string &words, Json schema) {
  Json made{{"description", words}};
  made.update(schema);
  return made;
}

// What a member may be, by its type.

Json type_of(double /*of*/) { return {{"type", "number"}}; }
Json type_of(bool /*of*/) { return {{"type", "boolean"}}; }
Json type_of(const std::string & /*of*/) { return {{"type", "string"}}; }
Json type_of(const std::optional<double> & /*of*/) { return {{"type", {"number", "null"}}}; }
template <class E>
requires std::is_enum_v<E> Json type_of(E /*of*/) { return {{"enum", words(E{})}}; }
template <class S>
requires Listed<S> Json type_of(const S & /*of*/) { return ref(about<S>.name); }
template <class T> Json type_of(const std::optional<T> & /*of*/) { return or_null(type_of(T{})); }
template <class T> Json type_of(const std::vector<T> & /*of*/) { return list_of(type_of(T{})); }

/// The schema of a struct in full.
template <class S> Json object_of(std::string words = std::string(about<S>.words)) {
  Json members = Json::object();
  const S sample{};
  for_each_field<S>([&](const auto &one) {
    Json type = one.kind == kind::clock ? or_null(ref("time_of_day")) : type_of(sample.*(one.member));
    members[std::string(one.name)] = described(words_and_unit(one), std::move(type));
  });
  return {{"description", std::move(words)},
          {"type", "object"},
          {"additionalProperties", false},
          {"properties", std::move(members)}};
}

/// Adds the schema of a struct in full to the definitions.
template <class S> void define(Json &defs) { defs[std::string(about<S>.name)] = object_of<S>(); }

// ---- short forms ----

Json number(const std::string &words) { return described(words, type_of(0.0)); }

Json cut_schema() {
  std::vector<std::string> names;
  for (const Cut &cut : cuts()) {
    names.push_back(cut.name);
  }
  for (const Cut &cut : cuts()) { // with underscores too
    std::string name = cut.name;
    std::replace(name.begin(), name.end(), ' ', '_');
    if (name != cut.name) {
      names.push_back(name);
    }
  }
  return {
      {"description", "a piece of a cut"},
      {"type", "object"},
      {"additionalProperties", false},
      {"required", {"cut", "mass"}},
      {"properties",
       {{"cut", {{"description", "its name"}, {"enum", names}}},
        {"mass", number("raw, trimmed, bone included [kg]")},
        {"thickness", described("mean, of the lean part; estimated from the mass if left out [m]",
                                type_of(std::optional<double>{}))},
        {"start", number("temperature throughout at the start [°C]")},
        {"fat",
         {{"description", "where its fat cap is; as of the cut if left out"}, {"enum", words(FatSide{})}}}}}};
}

Json time_of_day_schema() {
  return {{"description", "a time of day: \"hh:mm\", or seconds after midnight"},
          {"anyOf", {type_of(0.0), {{"type", "string"}, {"pattern", "^([01][0-9]|2[0-3]):[0-5][0-9]$"}}}}};
}

Json signal_schema() {
  Json full = object_of<Signal>();
  full["required"] = {"value"};
  Json &members = full["properties"];
  members["time"]["minItems"] = 1;
  members["value"] = {{"description", "one for each time; one number if it is constant but for the ripple"},
                      {"anyOf", {type_of(0.0), list_of(type_of(0.0), true)}}};
  return {{"description", "a quantity over time: one number if it is constant"},
          {"anyOf", {type_of(0.0), std::move(full)}}};
}

Json surroundings_schema() {
  Json box = object_of<Box>("short: a towel-lined insulated box");
  box["properties"]["room"] = number("temperature of the room [°C]");
  Json members{
      {"pit", {{"description", "short: a generic cooker; needs air"}, {"enum", pit_kinds()}}},
      {"oven", described("short: a kitchen oven at this air temperature [°C]", ref("signal"))},
      {"fan", described("with oven: a fan moves the air", type_of(true))},
      {"holding_oven", number("short: an oven that holds finished meat at this temperature [°C]")},
      {"humidity", number("with holding_oven: relative humidity [-]")},
      {"counter", number("short: a kitchen counter in a room at this temperature [°C]")},
      {"insulated_box", std::move(box)},
  };
  Json made = object_of<Surroundings>("pit, oven, holding_oven, counter or insulated_box, or in full; "
                                      "members beside a short form replace what "
                                      "it sets");
  members.update(made["properties"]);
  made["properties"] = std::move(members);
  made["dependentRequired"] = {{"pit", {"air"}}, {"fan", {"oven"}}, {"humidity", {"holding_oven"}}};
  made["dependentSchemas"] = {
      {"pit",
       {{"properties",
         {{"oven", false}, {"holding_oven", false}, {"counter", false}, {"insulated_box", false}}}}},
      {"oven",
       {{"properties",
         {{"air", false}, {"holding_oven", false}, {"counter", false}, {"insulated_box", false}}}}},
      {"holding_oven", {{"properties", {{"air", false}, {"counter", false}, {"insulated_box", false}}}}},
      {"counter", {{"properties", {{"air", false}, {"insulated_box", false}}}}},
      {"insulated_box", {{"properties", {{"air", false}}}}}};
  return made;
}

Json wrap_schema() {
  return {{"description", "what covers the meat"},
          {"anyOf",
           {{{"enum", wrap_names()}},
            object_of<Wrap>("a wrap in full; a side left out is that of the known wrap of this name, "
                            "otherwise bare")}}};
}

Json end_schema() {
  Json one_of = Json::array();
  Json members{
      {"every", number("looked at only every so often, from the start of the stage [s]; 0: all the time")}};
  for (const KnownEnd &end : known_ends) {
    one_of.push_back({{"required", {end.word}}});
    members[std::string(end.word)] =
        end.value == kind::clock
            ? described(std::string(end.words), ref("time_of_day"))
            : number(words_and_unit({.name = end.word, .kind = end.value, .words = end.words}));
  }
  return {{"description", "what ends a stage: one of these"},
          {"type", "object"},
          {"additionalProperties", false},
          {"oneOf", std::move(one_of)},
          {"properties", std::move(members)}};
}

Json definitions() {
  Json defs = Json::object();
  defs["meat"] = {{"description", "the piece: by its cut and mass, or in full"},
                  {"anyOf", {ref("cut"), ref("meat_in_full")}}};
  defs["cut"] = cut_schema();
  defs["meat_in_full"] = object_of<Meat>();
  define<Section>(defs);
  define<Tissue>(defs);
  define<Composition>(defs);
  define<WaterHolding>(defs);
  define<WaterMobility>(defs);
  define<Sorption>(defs);
  define<HeatSinks>(defs);
  define<Exudation>(defs);
  define<Tenderness>(defs);
  define<FixedThermal>(defs);
  define<Shape>(defs);
  define<FatCap>(defs);
  define<Stage>(defs);
  defs["stage"]["required"] = {"until"};
  Json &until = defs["stage"]["properties"]["until"];
  until = {{"description", until["description"]}, {"anyOf", {ref("end"), list_of(ref("end"), true)}}};
  defs["end"] = end_schema();
  define<PitAir>(defs);
  define<WaterPan>(defs);
  defs["time_of_day"] = time_of_day_schema();
  defs["surroundings"] = surroundings_schema();
  defs["signal"] = signal_schema();
  define<Film>(defs);
  define<Box>(defs);
  defs["wrap"] = wrap_schema();
  define<Covering>(defs);
  define<Spritz>(defs);
  define<Probe>(defs);
  define<LidOpening>(defs);
  return defs;
}

Json schema() {
  Json made = object_of<Plan>("A cook from start to slice, in SI units and °C. Members left out keep their "
                              "defaults; ranges are checked on reading.");
  Json members{{"$schema", {{"description", "for editors; ignored"}, {"type", "string"}}},
               {"format", {{"const", plan_format}}},
               {"version", {{"const", format_version}}}};
  members.update(made["properties"]);
  members["stages"]["minItems"] = 1;
  made["properties"] = std::move(members);
  made["required"] = {"format", "version", "stages"};
  made["$defs"] = definitions();
  Json head{{"$schema", "https://json-schema.org/draft/2020-12/schema"},
            {"$id", "urn:libcook:plan:" + std::to_string(format_version)},
            {"title", std::string(plan_format) + ", version " + std::to_string(format_version)}};
  head.update(made);
  return head;
}

/// JSON with what is short on one line, as are lists of plain values.
/// @param room characters that are left on the line
std::string printed(const Json &node, std::size_t indent, std::size_t room) {
  if (!node.is_structured()) {
    return node.dump();
  }
  const bool list = node.is_array();
  const auto joined = [&](const std::string &before, const std::string &between, const std::string &after,
                          std::size_t inner, std::size_t left) {
    std::string text;
    for (const auto &[key, value] : node.items()) {
      const std::string name = list ? "" : Json(key).dump() + ": ";
      text += (text.empty() ? before : between) + name +
              printed(value, inner, left - std::min(left, name.size()));
    }
    return (list ? "[" : "{") + text + after + (list ? "]" : "}");
  };
  constexpr std::size_t any = 100000;
  std::string flat = joined("", ", ", "", 0, any);
  const bool plain =
      list && std::none_of(node.begin(), node.end(), [](const Json &one) { return one.is_structured(); });
  if (plain || flat.size() < room) {
    return flat;
  }
  constexpr std::size_t widest = 110;
  const std::string line = "\n" + std::string(indent + 2, ' ');
  return joined(line, "," + line, "\n" + std::string(indent, ' '), indent + 2, widest - indent - 2);
}

} // namespace

} // namespace json

std::string_view plan_schema() {
  static const std::string text = json::printed(json::schema(), 0, 0) + "\n";
  return text;
}

} // namespace cook
