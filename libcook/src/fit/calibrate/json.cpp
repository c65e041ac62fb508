/// @file
/// A fit to and from JSON.
#include "cook/json/json.hpp"
#include "cook/errors.hpp"
#include "cook/fit/fit_fields.hpp"
#include "json/path.hpp"
#include "json/read.hpp"
#include "json/text.hpp"

namespace cook {

namespace {

using json::Json;
using json::Path;

constexpr std::string_view fit_format = "libcook fit";
const std::vector<std::string> scale_words{"logarithmic", "linear"};

// One list of members for writing, reading and knowing the keys; `v` is called with name and member.

void describe(auto &v, auto &s, const ModelError * /*which*/) { json::describe(v, s); }

void describe(auto &v, auto &e, const Estimate * /*which*/) {
  v("name", e.name);
  v("unit", e.unit);
  v("log", e.log);
  v("scale", e.scale);
  v("prior", e.prior);
  v("prior_spread", e.prior_spread);
  v("source", e.source);
  v("value", e.value);
  v("deviation", e.deviation);
  v("low50", e.low50);
  v("high50", e.high50);
  v("low90", e.low90);
  v("high90", e.high90);
  v("learned", e.learned);
}

void describe(auto &v, auto &s, const FitSeries * /*which*/) {
  v("name", s.name);
  v("time", s.time);
  v("observed", s.observed);
  v("fitted", s.fitted);
  v("deviation", s.deviation);
  v("weight", s.weight);
  v("noise", s.noise);
  v("fahrenheit", s.fahrenheit);
}

void describe(auto &v, auto &f, const Fit * /*which*/) {
  v("plan", f.plan);
  v("plans", f.plans);
  v("asked", f.asked);
  v("estimates", f.estimates);
  v("covariance", f.covariance);
  v("series", f.series);
  v("rms", f.rms);
  v("misfit", f.misfit);
  v("widened", f.widened);
  v("model_error", f.model_error);
  v("converged", f.converged);
  v("iterations", f.iterations);
  v("simulations", f.simulations);
  v("notes", f.notes);
}

class Writer {
public:
  explicit Writer(std::string path = {}) : path_(std::move(path)) {}
  Json object = Json::object();

  template <class T> void operator()(std::string_view name, const T &value) {
    object[std::string(name)] = written(std::string(name), value);
  }

private:
  template <class T> Json written(const std::string &name, const T &value) {
    const std::string place = path_.empty() ? name : path_ + "." + name;
    if constexpr (std::is_same_v<T, double>) {
      return check::finite(place, value);
    } else if constexpr (std::is_arithmetic_v<T>) {
      return value;
    } else if constexpr (std::is_same_v<T, std::string>) {
      if (!json::is_utf8(value)) {
        throw InvalidInput(place, in_quotes(value) + " is not valid UTF-8; save the text as UTF-8");
      }
      return value;
    } else if constexpr (std::is_same_v<T, Scale>) {
      return scale_words[static_cast<std::size_t>(value)];
    } else if constexpr (std::is_same_v<T, Plan>) {
      return json::parse(to_json(value, -1), place);
    } else if constexpr (requires { value.size(); }) {
      Json list = Json::array();
      for (std::size_t i = 0; i < value.size(); ++i) {
        list.push_back(written(name + "[" + std::to_string(i) + "]", value[i]));
      }
      return list;
    } else {
      Writer inner(place);
      describe(inner, value, &value);
      return inner.object;
    }
  }

  std::string path_;
};

/// Collects the names of the members.
struct Keys {
  std::vector<std::string> names;
  template <class T> void operator()(std::string_view name, const T & /*value*/) { names.emplace_back(name); }
};

template <class S> void read_struct(const Json &node, const Path &path, S &target);

template <class T> void read_value(const Json &node, const Path &path, T &target) {
  // A plan is not validated: a tuned one may be one that cannot be cooked, and the fit's notes say so.
  if constexpr (std::is_arithmetic_v<T> || std::is_same_v<T, std::string> || std::is_same_v<T, Plan>) {
    json::read(node, path, target);
  } else if constexpr (std::is_same_v<T, Scale>) {
    target = static_cast<Scale>(json::read_word(node, path, scale_words));
  } else if constexpr (requires { target.push_back({}); }) {
    if (!node.is_array()) {
      json::refuse_type(node, path, "a list");
    }
    target.resize(node.size());
    for (std::size_t i = 0; i < target.size(); ++i) {
      read_value(node[i], Path(path, i), target[i]);
    }
  } else {
    read_struct(node, path, target);
  }
}

struct MemberOf {
  const Json &object;
  const Path &path;
  template <class T> void operator()(std::string_view name, T &target) {
    const auto found = object.find(std::string(name));
    if (found == object.end()) {
      if (name == "fahrenheit") { // fits written before reports had a scale lack it
        return;
      }
      throw InvalidInput(Path(path, name).text(), "missing; a fit is read as it was written, in full");
    }
    read_value(*found, Path(path, name), target);
  }
};

template <class S> void read_struct(const Json &node, const Path &path, S &target) {
  json::need_object(node, path);
  Keys keys;
  describe(keys, target, &target);
  if constexpr (std::is_same_v<S, Fit>) {
    keys.names.emplace_back("format");
    keys.names.emplace_back("version");
  }
  json::refuse_unknown_keys(node, path, keys.names);
  MemberOf reader{node, path};
  describe(reader, target, &target);
}

void check_sizes(const Fit &fit) {
  const std::size_t n = fit.estimates.size();
  if (n == 0 || fit.covariance.size() != n * n) {
    throw InvalidInput("covariance", std::to_string(fit.covariance.size()) + " numbers for " +
                                         std::to_string(n) + " estimates; their square is needed");
  }
  if (fit.plans.empty() || fit.plans.size() != fit.series.size() || fit.asked.size() != fit.plans.size()) {
    throw InvalidInput("plans", std::to_string(fit.plans.size()) + " plans, " +
                                    std::to_string(fit.asked.size()) + " asked and " +
                                    std::to_string(fit.series.size()) + " series; one of each for each log");
  }
  for (const FitSeries &s : fit.series) {
    const std::size_t m = s.time.size();
    if (s.observed.size() != m || s.fitted.size() != m || s.deviation.size() != m || s.weight.size() != m) {
      throw InvalidInput("series", in_quotes(s.name) + ": lists of different lengths");
    }
  }
  for (const Estimate &e : fit.estimates) {
    (void)free_kind(e.name, "estimates");
  }
}

} // namespace

std::string to_json(const Fit &fit, int indent) {
  Writer writer;
  writer.object["format"] = fit_format;
  writer.object["version"] = json::format_version;
  describe(writer, fit, &fit);
  return writer.object.dump(indent);
}

Fit fit_from_json(std::string_view text) {
  const Json document = json::parse(text, "fit");
  const Path root("fit");
  json::need_object(document, root);
  json::read_header(document, root, fit_format);
  Fit fit;
  read_struct(document, root, fit);
  check_sizes(fit);
  return fit;
}

} // namespace cook
