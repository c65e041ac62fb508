/// @file
/// A document by its fields; wrong types, unknown keys and words are refused here, and validate.cpp tells
/// where the rest is.
#include "json/read.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

#include "cook/errors.hpp"
#include "cook/json/json.hpp"
#include "json/validate.hpp"

namespace cook {

namespace json {

namespace {

/// What came, in words.
std::string came(const Json &node) {
  switch (node.type()) {
  case Json::value_t::null:
    return "null";
  case Json::value_t::boolean:
    return node.get<bool>() ? "true" : "false";
  case Json::value_t::string:
    return "the text \"" + shown(node.get_ref<const std::string &>()) + "\"";
  case Json::value_t::array:
    return "a list of " + std::to_string(node.size());
  case Json::value_t::object:
    return "an object";
  default:
    return "the number " + node.dump();
  }
}

/// Hint for a quantity that came as text.
std::string_view quantity_hint(const Json &node) {
  if (!node.is_string()) {
    return "";
  }
  const auto &text = node.get_ref<const std::string &>();
  if (text.empty() || text.find_first_of("0123456789") == std::string::npos) {
    return "";
  }
  return text.find_first_not_of("0123456789+-.eE") == std::string::npos
             ? "; take the quotes away"
             : "; quantities are plain numbers in SI units and °C";
}

} // namespace

void refuse_type(const Json &node, const Path &path, std::string_view needed) {
  throw InvalidInput(path.text(), came(node) + " came; " + std::string(needed) + " is needed");
}

void need_object(const Json &node, const Path &path) {
  if (!node.is_object()) {
    refuse_type(node, path, "an object in braces");
  }
}

void refuse_unknown_keys(const Json &object, const Path &path, const std::vector<std::string> &known) {
  for (const auto &[key, value] : object.items()) {
    if (std::find(known.begin(), known.end(), key) == known.end()) {
      throw InvalidInput(Path(path, key).text(),
                         "unknown key " + in_quotes(key) + "; " + suggestion(key, known));
    }
  }
}

std::size_t read_word(const Json &node, const Path &path, const std::vector<std::string> &known) {
  if (!node.is_string()) {
    refuse_type(node, path, "a word (" + suggestion("", known) + ")");
  }
  const auto &word = node.get_ref<const std::string &>();
  const auto found = std::find(known.begin(), known.end(), word);
  if (found == known.end()) {
    throw InvalidInput(path.text(), "unknown word " + in_quotes(word) + "; " + suggestion(word, known));
  }
  return static_cast<std::size_t>(found - known.begin());
}

double read_time_of_day(const Json &node, const Path &path) {
  constexpr std::string_view needed =
      "a time of day as \"hh:mm\" (00:00 to 23:59) or in seconds after midnight";
  double seconds = 0.0;
  if (node.is_number()) {
    read(node, path, seconds);
    return seconds;
  }
  if (!node.is_string()) {
    refuse_type(node, path, needed);
  }
  const auto &text = node.get_ref<const std::string &>();
  const auto digit = [&](std::size_t i) { return text[i] - '0'; };
  const bool form = text.size() == 5 && text[2] == ':' &&
                    text.find_first_not_of("0123456789:") == std::string::npos && text.rfind(':') == 2 &&
                    text.find(':') == 2;
  if (!form || digit(0) * 10 + digit(1) > 23 || digit(3) > 5) {
    refuse_type(node, path, needed);
  }
  return 3600.0 * (digit(0) * 10 + digit(1)) + 60.0 * (digit(3) * 10 + digit(4));
}

void read(const Json &node, const Path &path, double &target) {
  if (!node.is_number()) {
    throw InvalidInput(path.text(),
                       came(node) + " came; a number is needed" + std::string(quantity_hint(node)));
  }
  target = node.get<double>();
}

void read(const Json &node, const Path &path, bool &target) {
  if (!node.is_boolean()) {
    refuse_type(node, path, "true or false");
  }
  target = node.get<bool>();
}

void read(const Json &node, const Path &path, int &target) {
  const double value = node.is_number() ? node.get<double>() : std::numeric_limits<double>::infinity();
  if (std::trunc(value) != value || std::fabs(value) > std::numeric_limits<int>::max()) {
    refuse_type(node, path, "a whole number");
  }
  target = static_cast<int>(value);
}

void read(const Json &node, const Path &path, std::string &target) {
  if (!node.is_string()) {
    refuse_type(node, path, "text in double quotes");
  }
  target = node.get<std::string>();
}

void read_header(const Json &object, const Path &path, std::string_view format) {
  const std::string expected = R"("format": ")" + std::string(format) + "\"";
  const auto found_format = object.find("format");
  if (found_format == object.end()) {
    throw InvalidInput(Path(path, "format").text(), "missing; start with " + expected +
                                                        ", \"version\": " + std::to_string(format_version));
  }
  if (*found_format != format) {
    throw InvalidInput(Path(path, "format").text(),
                       came(*found_format) + " came; " + expected + " is needed");
  }
  const auto found_version = object.find("version");
  if (found_version == object.end()) {
    throw InvalidInput(Path(path, "version").text(),
                       "missing; this libcook reads and writes version " + std::to_string(format_version));
  }
  if (*found_version != format_version) {
    throw InvalidInput(Path(path, "version").text(), came(*found_version) +
                                                         " came; this libcook reads version " +
                                                         std::to_string(format_version));
  }
}

/// The running totals of one face, by name.
void read(const Json &node, const Path &path, std::array<std::vector<double>, face_paths> &target) {
  need_object(node, path);
  constexpr auto list = words(FacePath{});
  refuse_unknown_keys(node, path, {list.begin(), list.end()});
  MemberReader reader(node, path);
  for (std::size_t i = 0; i < face_paths; ++i) {
    reader(list[i], target[i]);
  }
}

void read(const Json &node, const Path &path, Plan &target) {
  need_object(node, path);
  std::vector<std::string> known = keys_of<Plan>();
  // Editors look for "$schema" to help with the typing; to us it says nothing.
  known.insert(known.end(), {"format", "version", "$schema"});
  refuse_unknown_keys(node, path, known);
  read_header(node, path, plan_format);
  if (const auto schema = node.find("$schema"); schema != node.end() && !schema->is_string()) {
    refuse_type(*schema, Path(path, "$schema"), "text in double quotes");
  }
  MemberReader reader(node, path);
  describe(reader, target);
}

} // namespace json

Plan plan_from_json(std::string_view text) {
  const json::Json tree = json::parse(text, "plan");
  Plan plan;
  json::read(tree, json::Path("plan"), plan);
  json::validate(plan, "");
  return plan;
}

Outcome outcome_from_json(std::string_view text) {
  const json::Json tree = json::parse(text, "outcome");
  const json::Path path("outcome");
  json::need_object(tree, path);
  json::KeyCollector collector;
  const Outcome sample;
  json::describe(collector, sample);
  json::describe_nodes(collector, sample);
  std::vector<std::string> known = collector.take();
  known.insert(known.end(), {"format", "version"});
  json::refuse_unknown_keys(tree, path, known);
  json::read_header(tree, path, json::outcome_format);

  Outcome outcome;
  json::MemberReader reader(tree, path);
  json::describe(reader, outcome);
  json::describe_nodes(reader, outcome);
  json::validate(outcome);
  return outcome;
}

} // namespace cook
