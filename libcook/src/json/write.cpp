#include "cook/json/json.hpp"

#include <cmath>
#include <cstdio>
#include <optional>
#include <vector>

#include "cook/errors.hpp"
#include "json/fields.hpp"
#include "json/path.hpp"
#include "json/text.hpp"

namespace cook {

namespace json {

namespace {

Json written(double value, const Path &path) {
  if (!std::isfinite(value)) {
    throw InvalidInput(path.text(), format_number(value) + "; JSON holds finite numbers only");
  }
  return value;
}

Json written(bool value, const Path & /*path*/) { return value; }

Json written(int value, const Path & /*path*/) { return value; }

Json written(const std::string &value, const Path &path) {
  if (!is_utf8(value)) {
    throw InvalidInput(path.text(), in_quotes(value) + " is not valid UTF-8; save the text as UTF-8");
  }
  return value;
}

template <class E>
requires std::is_enum_v<E> Json written(E value, const Path &path) {
  const auto index = static_cast<std::size_t>(value);
  if (index >= words(E{}).size()) {
    throw InvalidInput(path.text(), std::to_string(index) + " is not one of its enumerators");
  }
  return words(E{})[index];
}

/// Full minutes as "hh:mm"; anything else, which that cannot hold, as seconds.
Json time_of_day(double seconds, const Path &path) {
  constexpr double day = 86400.0;
  if (!(seconds >= 0.0 && seconds < day) || std::fmod(seconds, 60.0) != 0.0 || std::signbit(seconds)) {
    return written(seconds, path);
  }
  const int minutes = static_cast<int>(seconds) / 60;
  std::array<char, 16> buffer{};
  std::snprintf(buffer.data(), buffer.size(), "%02d:%02d", minutes / 60, minutes % 60);
  return buffer.data();
}

Json written(const End &end, const Path &path) {
  const Json word = written(end.kind, path);
  const auto key = word.get<std::string>();
  const Path place(path, key);
  Json result = Json::object();
  result[key] = end.kind == EndKind::clock ? time_of_day(end.value, place) : written(end.value, place);
  if (end.every != 0.0) {
    result["every"] = written(end.every, Path(path, "every"));
  }
  return result;
}

// Declared first, because structs hold lists and lists hold structs.
template <class T> Json written(const std::vector<T> &list, const Path &path);
template <class T, std::size_t n> Json written(const std::array<T, n> &list, const Path &path);
Json written(const std::array<std::vector<double>, face_paths> &paths, const Path &path);
Json written(const Signal &signal, const Path &path);
Json written(const Plan &plan, const Path &path);
template <class S>
requires std::is_class_v<S> Json written(const S &value, const Path &path);

class ObjectWriter {
public:
  explicit ObjectWriter(const Path &path) : path_(path) {}

  template <class T> void operator()(std::string_view name, const T &value) {
    object_[std::string(name)] = written(value, Path(path_, name));
  }
  /// An empty optional is left out.
  template <class T> void operator()(std::string_view name, const std::optional<T> &value) {
    if (value) {
      (*this)(name, *value);
    }
  }
  void operator()(std::string_view name, const TimeOfDay<const std::optional<double>> &time) {
    if (time.value) {
      object_[std::string(name)] = time_of_day(*time.value, Path(path_, name));
    }
  }

  void header(std::string_view format) {
    object_["format"] = format;
    object_["version"] = format_version;
  }
  [[nodiscard]] Json take() { return std::move(object_); }

private:
  const Path &path_;
  Json object_ = Json::object();
};

template <class S>
requires std::is_class_v<S> Json written(const S &value, const Path &path) {
  ObjectWriter writer(path);
  describe(writer, value);
  return writer.take();
}

Json written(const Signal &signal, const Path &path) {
  const Signal defaults;
  const bool one_number = signal.value.size() == 1 && signal.time.size() == 1 && signal.time[0] == 0.0 &&
                          !std::signbit(signal.time[0]) && signal.ripple_amplitude == 0.0 &&
                          !std::signbit(signal.ripple_amplitude) &&
                          signal.ripple_period == defaults.ripple_period && !signal.measured;
  if (one_number) {
    return written(signal.value[0], path);
  }
  ObjectWriter writer(path);
  describe(writer, signal);
  return writer.take();
}

Json written(const Plan &plan, const Path &path) {
  ObjectWriter writer(path);
  writer.header(plan_format);
  describe(writer, plan);
  return writer.take();
}

template <class List> Json written_list(const List &list, const Path &path) {
  Json result = Json::array();
  for (std::size_t i = 0; i < list.size(); ++i) {
    result.push_back(written(list[i], Path(path, i)));
  }
  return result;
}

template <class T> Json written(const std::vector<T> &list, const Path &path) {
  return written_list(list, path);
}

template <class T, std::size_t n> Json written(const std::array<T, n> &list, const Path &path) {
  return written_list(list, path);
}

/// The running totals of one face, by name.
Json written(const std::array<std::vector<double>, face_paths> &paths, const Path &path) {
  ObjectWriter writer(path);
  for (std::size_t i = 0; i < face_paths; ++i) {
    writer(words(FacePath{})[i], paths[i]);
  }
  return writer.take();
}

} // namespace

} // namespace json

std::string to_json(const Plan &plan, int indent) {
  return json::written(plan, json::Path("plan")).dump(indent);
}

std::string to_json(const Outcome &outcome, bool fields, int indent) {
  const json::Path path("outcome");
  json::ObjectWriter writer(path);
  writer.header(json::outcome_format);
  json::describe(writer, outcome);
  if (fields) {
    json::describe_nodes(writer, outcome);
  }
  return writer.take().dump(indent);
}

} // namespace cook
