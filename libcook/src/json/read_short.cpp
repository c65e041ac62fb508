// The structs that have a short form, and those that have only that.
#include <algorithm>
#include <utility>

#include "cook/cooker/chamber.hpp"
#include "cook/errors.hpp"
#include "cook/meat/cut.hpp"
#include "json/read.hpp"
#include "json/validate.hpp"

namespace cook::json {

namespace {

struct Renamed {
  std::string_view from;
  std::string_view to; ///< "": the path itself
};

/// Runs a maker of defaults; fields in its errors become paths in the document. The first rule that fits
/// counts.
template <class Make> auto with_paths(const Path &path, std::initializer_list<Renamed> rules, Make make) {
  try {
    return make();
  } catch (const InvalidInput &error) {
    const std::string field = point_path(error.field());
    for (const Renamed &rule : rules) {
      if (field.starts_with(rule.from)) {
        std::string place = path.text();
        if (!rule.to.empty()) {
          append_key(place, rule.to);
        }
        throw InvalidInput(place + field.substr(rule.from.size()), error.message());
      }
    }
    throw InvalidInput(path.text(), error.what());
  }
}

/// The meat by its cut and mass.
Meat meat_of_cut(const Json &node, const Path &path) {
  refuse_unknown_keys(node, path, {"cut", "mass", "thickness", "start", "fat"});
  const Meat defaults;
  std::string name;
  double mass = 0.0;
  std::optional<double> thickness;
  double start = defaults.start;
  MemberReader reader(node, path);
  reader("cut", name);
  if (!node.contains("mass")) {
    throw InvalidInput(Path(path, "mass").text(), "missing; the raw, trimmed mass [kg] goes with the cut");
  }
  reader("mass", mass);
  reader("thickness", thickness);
  reader("start", start);
  std::optional<FatSide> fat;
  if (node.contains("fat")) {
    fat.emplace();
    reader("fat", *fat);
  }
  const Cut *found = with_paths(path, {{"name", "cut"}}, [&] { return &find_cut(name); });
  return with_paths(path,
                    {{"mass", "mass"},
                     {found->name + ".shape.thickness", "thickness"},
                     {found->name + ".shape.area", "thickness"},
                     {found->name + ".shape.width", "thickness"},
                     {found->name + ".start", "start"}},
                    [&] {
                      const Meat meat = cut(*found, mass, thickness, start);
                      return fat ? with_fat(meat, *fat) : meat;
                    });
}

/// The names of the short forms of the surroundings.
const std::vector<std::string> &short_surroundings() {
  static const std::vector<std::string> names{"pit", "oven", "holding_oven", "counter", "insulated_box"};
  return names;
}

Surroundings pit_surroundings(const Json &node, const Path &path) {
  const Json &word = node["pit"];
  const auto &kinds = pit_kinds();
  if (word.is_string() && std::find(kinds.begin(), kinds.end(), word.get<std::string>()) == kinds.end()) {
    const std::string called = cooker_called(word.get<std::string>());
    if (!called.empty()) {
      throw InvalidInput(Path(path, "pit").text(), "unknown word " + in_quotes(word.get<std::string>()) +
                                                       "; did you mean '" + called + "'?");
    }
  }
  const std::string kind = kinds[read_word(word, Path(path, "pit"), kinds)];
  if (!node.contains("air")) {
    throw InvalidInput(Path(path, "air").text(), "missing; the air temperature [°C] goes with the pit");
  }
  Signal air;
  read(node["air"], Path(path, "air"), air);
  return with_paths(path, {{"pit.air", "air"}, {"pit", ""}}, [&] { return pit(kind, air); });
}

Surroundings oven_surroundings(const Json &node, const Path &path) {
  Signal air;
  read(node["oven"], Path(path, "oven"), air);
  bool fan = false;
  MemberReader(node, path)("fan", fan);
  return with_paths(path, {{"oven.air", "oven"}, {"oven", ""}}, [&] { return oven(air, fan); });
}

Surroundings holding_surroundings(const Json &node, const Path &path) {
  double air = 0.0;
  read(node["holding_oven"], Path(path, "holding_oven"), air);
  double humidity = holding_humidity;
  MemberReader(node, path)("humidity", humidity);
  return with_paths(path, {{"holding_oven.air", "holding_oven"}, {"holding_oven.humidity", "humidity"}},
                    [&] { return holding_oven(air, humidity); });
}

Surroundings counter_surroundings(const Json &node, const Path &path) {
  double room = 0.0;
  read(node["counter"], Path(path, "counter"), room);
  return with_paths(path, {{"counter.room", "counter"}, {"counter", ""}}, [&] { return counter(room); });
}

Surroundings box_surroundings(const Json &node, const Path &path) {
  const Path place(path, "insulated_box");
  const Json &short_form = node["insulated_box"];
  need_object(short_form, place);
  std::vector<std::string> known = keys_of<Box>();
  known.emplace_back("room");
  refuse_unknown_keys(short_form, place, known);
  double room = counter().air.value.front();
  Box box;
  MemberReader reader(short_form, place);
  reader("room", room);
  describe(reader, box);
  return with_paths(place,
                    {{"counter.room", "room"},
                     {"insulated_box.air", "room"},
                     {"insulated_box.box.heat_capacity", "heat_capacity"},
                     {"insulated_box.box.loss", "loss"},
                     {"insulated_box.box.start", "start"},
                     {"insulated_box", ""}},
                    [&] { return insulated_box(room, box); });
}

/// What a short form of the surroundings sets.
Surroundings from_short(const std::string &name, const Json &node, const Path &path) {
  if (name == "pit") {
    return pit_surroundings(node, path);
  }
  if (node.contains("air")) {
    throw InvalidInput(Path(path, "air").text(),
                       "the temperature is given by " + in_quotes(name) + " already; give one of the two");
  }
  if (name == "oven") {
    return oven_surroundings(node, path);
  }
  if (name == "holding_oven") {
    return holding_surroundings(node, path);
  }
  return name == "counter" ? counter_surroundings(node, path) : box_surroundings(node, path);
}

/// One end condition: an object with one key, and perhaps how often it is looked at.
End read_end(const Json &node, const Path &path) {
  constexpr auto list = words(EndKind{});
  need_object(node, path);
  std::vector<std::string> known(list.begin(), list.end());
  known.emplace_back("every");
  refuse_unknown_keys(node, path, known);
  const std::size_t conditions = node.size() - node.count("every");
  if (conditions != 1) {
    throw InvalidInput(path.text(), std::to_string(conditions) +
                                        " conditions in one object; give each its own, as in "
                                        "[{\"core\": 71}, {\"elapsed\": 3600}]");
  }
  const auto found = node.begin().key() == "every" ? std::next(node.begin()) : node.begin();
  const std::string &word = found.key();
  End end;
  if (node.contains("every")) {
    read(node["every"], Path(path, "every"), end.every);
  }
  end.kind = static_cast<EndKind>(std::find(list.begin(), list.end(), word) - list.begin());
  const Path place(path, word);
  if (end.kind == EndKind::clock) {
    end.value = read_time_of_day(*found, place);
  } else {
    read(*found, place, end.value);
  }
  return end;
}

} // namespace

void read(const Json &node, const Path &path, Signal &target) {
  if (node.is_number()) {
    target = Signal(node.get<double>());
    return;
  }
  if (!node.is_object()) {
    refuse_type(node, path, "a number, or an object with time and value,");
  }
  refuse_unknown_keys(node, path, keys_of<Signal>());
  if (!node.contains("value")) {
    throw InvalidInput(Path(path, "value").text(), "missing");
  }
  // Not onto the old value: its points would pair up with the new ones.
  target = Signal{};
  MemberReader reader(node, path);
  if (node["value"].is_number() && !node.contains("time")) {
    target.value.assign(1, node["value"].get<double>());
    reader("ripple_amplitude", target.ripple_amplitude);
    reader("ripple_period", target.ripple_period);
    reader("measured", target.measured);
    return;
  }
  describe(reader, target);
}

void read(const Json &node, const Path &path, Meat &target) {
  need_object(node, path);
  if (node.contains("cut")) {
    target = meat_of_cut(node, path);
    return;
  }
  if (node.contains("mass")) {
    throw InvalidInput(Path(path, "mass").text(), R"(a mass goes with a cut: add "cut": "brisket")");
  }
  std::vector<std::string> known = keys_of<Meat>();
  known.emplace_back("cut");
  refuse_unknown_keys(node, path, known);
  MemberReader reader(node, path);
  describe(reader, target);
}

void read(const Json &node, const Path &path, Surroundings &target) {
  need_object(node, path);
  std::vector<std::string> known = keys_of<Surroundings>();
  known.insert(known.end(), short_surroundings().begin(), short_surroundings().end());
  known.insert(known.end(), {"fan", "humidity"});
  refuse_unknown_keys(node, path, known);

  const std::string *given = nullptr;
  for (const std::string &name : short_surroundings()) {
    if (!node.contains(name)) {
      continue;
    }
    if (given != nullptr) {
      throw InvalidInput(path.text(), "both " + in_quotes(*given) + " and " + in_quotes(name) +
                                          " are given; give one of the two");
    }
    given = &name;
  }
  if (node.contains("fan") && (given == nullptr || *given != "oven")) {
    throw InvalidInput(Path(path, "fan").text(),
                       "only with 'oven'; elsewhere give the air speed in 'bottom' and 'top'");
  }
  if (node.contains("humidity") && (given == nullptr || *given != "holding_oven")) {
    throw InvalidInput(Path(path, "humidity").text(),
                       "only with 'holding_oven'; elsewhere give the 'vapour_pressure' [Pa]");
  }
  target = given != nullptr ? from_short(*given, node, path) : Surroundings{};
  MemberReader reader(node, path);
  describe(reader, target);
}

void read(const Json &node, const Path &path, Wrap &target) {
  const std::vector<std::string> &names = wrap_names();
  if (node.is_string()) {
    target = wrap(names[read_word(node, path, names)]);
    return;
  }
  if (!node.is_object()) {
    refuse_type(node, path, "the name of a wrap or an object");
  }
  refuse_unknown_keys(node, path, keys_of<Wrap>());
  Wrap given;
  MemberReader reader(node, path);
  describe(reader, given);
  // {"name": "foil"} is foil, not a bare piece of that name. A side that is given is taken whole.
  if (std::find(names.begin(), names.end(), given.name) != names.end()) {
    const Wrap known = wrap(given.name);
    given.bottom = node.contains("bottom") ? given.bottom : known.bottom;
    given.ends = node.contains("ends") ? given.ends : known.ends;
    given.top = node.contains("top") ? given.top : known.top;
  }
  target = std::move(given);
}

void read(const Json &node, const Path &path, std::vector<End> &target) {
  if (node.is_object()) {
    target.assign(1, read_end(node, path));
    return;
  }
  if (!node.is_array()) {
    refuse_type(node, path, "an object such as {\"core\": 71}, or a list of them,");
  }
  target.clear();
  for (std::size_t i = 0; i < node.size(); ++i) {
    target.push_back(read_end(node[i], Path(path, i)));
  }
}

} // namespace cook::json
