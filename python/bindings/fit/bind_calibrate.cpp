#include "cook/fit/fit_fields.hpp"

#include <pybind11/numpy.h>

#include "calls/door.hpp"
#include "calls/long_call.hpp"
#include "module.hpp"
#include "records/record.hpp"
#include "records/views.hpp"

namespace cook::python {

namespace {

using Numbers = std::vector<double>;

const char *word(Scope scope) { return scope == Scope::cooker ? "cooker" : "meat"; }
const char *word(Scale scale) { return scale == Scale::logarithmic ? "logarithmic" : "linear"; }

void bind_inputs(py::module_ &m) {
  py::class_<FreeKind>(m, "FreeKind", "A number of a plan that may be fitted.")
      .def_readonly("name", &FreeKind::name, "As it is named in a fit.")
      .def_readonly("unit", &FreeKind::unit, "SI or °C.")
      .def_property_readonly(
          "scope", [](const FreeKind &k) { return word(k.scope); },
          "\"cooker\": shared by several logs; \"meat\": each log's own.")
      .def_property_readonly(
          "scale", [](const FreeKind &k) { return word(k.scale); },
          "\"logarithmic\": the spread is a share; \"linear\": it is in the unit.")
      .def_readonly("spread", &FreeKind::spread, "Standard deviation believed beforehand.")
      .def_readonly("low", &FreeKind::low, "Smallest value that is tried.")
      .def_readonly("high", &FreeKind::high, "Largest value that is tried.")
      .def_readonly("meaning", &FreeKind::meaning, "In words.")
      .def_readonly("source", &FreeKind::source, "Of the spread.");
  py::class_<FreeParameter>(m, "FreeParameter", "A number to fit, and what is believed of it beforehand.")
      .def(py::init(door(
               [](const std::string &name, std::optional<double> median, std::optional<double> spread,
                  const std::string &source) {
                 return FreeParameter{.name = name, .median = median, .spread = spread, .source = source};
               },
               {"name", "median", "spread", "source"})),
           py::arg("name"), py::arg("median") = py::none(), py::arg("spread") = py::none(),
           py::arg("source") = "")
      .def_readonly("name", &FreeParameter::name, "Of the number.")
      .def_readonly("median", &FreeParameter::median, "In its unit; None: what the plan says.")
      .def_readonly("spread", &FreeParameter::spread, "A share or in its unit; None: the kind's.")
      .def_readonly("source", &FreeParameter::source, "Where both come from.")
      .def("__eq__",
           [](const FreeParameter &a, const FreeParameter &b) {
             return a.name == b.name && a.median == b.median && a.spread == b.spread && a.source == b.source;
           })
      .def(py::pickle(
          [](const FreeParameter &f) {
            return py::make_tuple(pickle_version, f.name, f.median, f.spread, f.source);
          },
          [](const py::tuple &state) {
            return FreeParameter{.name = state[1].cast<std::string>(),
                                 .median = state[2].cast<std::optional<double>>(),
                                 .spread = state[3].cast<std::optional<double>>(),
                                 .source = state[4].cast<std::string>()};
          }))
      .def("__repr__", written_by("fit_forms", "free_form"));
  py::class_<CookLog>(m, "CookLog", "Readings of one cook, times since the meat went in.")
      .def(py::init([](const std::string &name, const Numbers &time, const Numbers &core,
                       const Numbers &pit_time, const Numbers &pit,
                       const std::vector<std::pair<std::size_t, double>> &ended, bool fahrenheit) {
             CookLog log{.name = name,
                         .time = time,
                         .core = core,
                         .pit_time = pit_time,
                         .pit = pit,
                         .ended = {},
                         .fahrenheit = fahrenheit};
             for (const auto &[stage, when] : ended) {
               log.ended.push_back({stage, when});
             }
             return log;
           }),
           py::arg("name"), py::arg("time"), py::arg("core"), py::arg("pit_time"), py::arg("pit"),
           py::arg("ended"), py::arg("fahrenheit"))
      .def_readonly("name", &CookLog::name, "As messages call it.")
      .def_property_readonly("time", view_of(&CookLog::time), "Of the core readings [s].")
      .def_property_readonly("core", view_of(&CookLog::core), "Core readings [°C].")
      .def_property_readonly(
          "ended",
          [](const CookLog &log) {
            std::vector<std::pair<std::size_t, double>> marks;
            for (const StageMark &mark : log.ended) {
              marks.emplace_back(mark.stage, mark.time);
            }
            return marks;
          },
          "Stages known to have ended: (index, time [s]).")
      .def(py::pickle(
          [](const CookLog &log) {
            std::vector<std::pair<std::size_t, double>> marks;
            for (const StageMark &mark : log.ended) {
              marks.emplace_back(mark.stage, mark.time);
            }
            return py::make_tuple(pickle_version, log.name, log.time, log.core, log.pit_time, log.pit, marks,
                                  log.fahrenheit);
          },
          [](const py::tuple &state) {
            CookLog log{.name = state[1].cast<std::string>(),
                        .time = state[2].cast<Numbers>(),
                        .core = state[3].cast<Numbers>(),
                        .pit_time = state[4].cast<Numbers>(),
                        .pit = state[5].cast<Numbers>(),
                        .ended = {},
                        .fahrenheit = state[7].cast<bool>()};
            for (const auto &[stage, when] : state[6].cast<std::vector<std::pair<std::size_t, double>>>()) {
              log.ended.push_back({stage, when});
            }
            return log;
          }));
  Record<ModelError>(m).finish([](const ModelError &made) { made.validate(); });
}

void bind_results(py::module_ &m) {
  py::class_<Estimate>(m, "Estimate", "One number as fitted.")
      .def_readonly("name", &Estimate::name, "Of the number.")
      .def_readonly("unit", &Estimate::unit, "SI or °C.")
      .def_readonly("log", &Estimate::log, "Which log it belongs to; -1: shared by all.")
      .def_property_readonly(
          "scale", [](const Estimate &e) { return word(e.scale); }, "\"logarithmic\" or \"linear\".")
      .def_readonly("prior", &Estimate::prior, "Median beforehand.")
      .def_readonly("prior_spread", &Estimate::prior_spread, "Spread beforehand: a share, or in the unit.")
      .def_readonly("source", &Estimate::source, "Of what was believed beforehand.")
      .def_readonly("value", &Estimate::value, "Best value.")
      .def_readonly("deviation", &Estimate::deviation, "Standard deviation: a share, or in the unit.")
      .def_property_readonly(
          "interval50", [](const Estimate &e) { return std::make_pair(e.low50, e.high50); }, "50 % interval.")
      .def_property_readonly(
          "interval90", [](const Estimate &e) { return std::make_pair(e.low90, e.high90); }, "90 % interval.")
      .def_readonly("learned", &Estimate::learned,
                    "How much narrower it became [share]; 0: the log says nothing.")
      .def("__repr__", written_by("fit_forms", "estimate_form"));
  py::class_<FitSeries>(m, "FitSeries", "How a fit follows one log; readings are medians over short spells.")
      .def_readonly("name", &FitSeries::name, "Of the log.")
      .def_property_readonly("time", view_of(&FitSeries::time), "[s] (readings,).")
      .def_property_readonly("observed", view_of(&FitSeries::observed), "[°C] (readings,).")
      .def_property_readonly("fitted", view_of(&FitSeries::fitted), "By the tuned plan [°C] (readings,).")
      .def_property_readonly("deviation", view_of(&FitSeries::deviation),
                             "Standard deviation expected of observed - fitted [K] (readings,).")
      .def_property_readonly("weight", view_of(&FitSeries::weight), "1; less for an outlier (readings,).")
      .def_readonly("noise", &FitSeries::noise, "Of one reading [K].")
      .def_property_readonly(
          "units", [](const FitSeries &s) { return s.fahrenheit ? "F" : "C"; },
          "\"C\" or \"F\": the scale of the log, in which it is drawn.");
  py::class_<Fit>(m, "Fit", "A calibrated plan.")
      .def(py::init([](const Fit &other) { return other; }), py::arg("other"))
      .def_property_readonly(
          "plan", [](const Fit &f) { return f.plan; }, "The tuned plan (a copy).")
      .def_property_readonly(
          "plans", [](const Fit &f) { return f.plans; }, "The tuned plan of each log (copies).")
      .def_property_readonly(
          "asked", [](const Fit &f) { return f.asked; }, "The plans as they came (copies).")
      .def_readonly("estimates", &Fit::estimates, "All numbers, shared ones first.")
      .def_readonly("series", &Fit::series, "How it follows each log.")
      .def_readonly("rms", &Fit::rms, "Of observed - fitted [K].")
      .def_readonly("misfit", &Fit::misfit,
                    "Mean square of the residuals against what is expected [-]; about 1.")
      .def_readonly("widened", &Fit::widened, "Factor by which errors were widened; 1: not.")
      .def_readonly("model_error", &Fit::model_error, "How far the model was trusted.")
      .def_readonly("converged", &Fit::converged, "Whether the search settled.")
      .def_readonly("iterations", &Fit::iterations, "Of the search.")
      .def_readonly("simulations", &Fit::simulations, "Cooks that were run.")
      .def_readonly("notes", &Fit::notes, "In words.")
      .def_property_readonly(
          "covariance",
          [](const py::object &self) {
            const auto &fit = self.cast<const Fit &>();
            const auto n = static_cast<py::ssize_t>(fit.estimates.size());
            return view(self, fit.covariance, {n, n});
          },
          "Of the estimates, in standard deviations beforehand (estimates, estimates).")
      .def(
          "correlation",
          [](const Fit &f, const py::object &a, const py::object &b) {
            return f.correlation(read_count(a, "a"), read_count(b, "b"));
          },
          py::arg("a"), py::arg("b"), "Of two estimates [-].")
      .def("_estimate", &Fit::estimate, py::arg("name"))
      .def(
          "_to_json", [](const Fit &f, int indent) { return to_json(f, indent); }, py::arg("indent"))
      .def(py::pickle([](const Fit &f) { return py::make_tuple(pickle_version, to_json(f, -1)); },
                      [](const py::tuple &state) { return fit_from_json(state[1].cast<std::string>()); }));
  m.def("fit_from_json", &fit_from_json, py::arg("text"), "Read what a fit's JSON holds.");
}

FitOptions options_of(const ModelError &error, bool robust, int max_iterations, int threads) {
  FitOptions options;
  options.model_error = error;
  options.robust = robust;
  options.max_iterations = max_iterations;
  options.threads = threads;
  return options;
}

} // namespace

void bind_calibrate(py::module_ &m) {
  bind_inputs(m);
  bind_results(m);
  m.def("slab_model_error", &slab_model_error,
        "Where the meat is what the model is made of and only the solver errs.");
  m.def("free_kinds", &free_kinds, "All numbers that may be fitted.");
  m.def("free_kind", &free_kind, py::arg("name"), py::arg("field") = "free", "One of them by name.");
  m.def("usual_free", &usual_free, py::arg("plan"), "What a forecast leaves open unless told otherwise.");
  m.def("value_in", &value_in, py::arg("plan"), py::arg("name"), py::arg("field") = "free",
        "A number as a plan has it.");
  m.def(
      "with_value",
      [](Plan plan, const std::string &name, double value) {
        (void)free_kind(name);
        set_value(plan, name, value);
        return plan;
      },
      py::arg("plan"), py::arg("name"), py::arg("value"), "A copy of a plan with a number changed.");
  m.def("done_stage", &done_stage, py::arg("plan"), "Index of the stage whose end is called done.");
  m.def(
      "calibrate",
      [](std::vector<Plan> plans, std::vector<CookLog> logs, std::vector<FreeParameter> free,
         const ModelError &error, bool robust, int max_iterations, int threads) {
        FitOptions options = options_of(error, robust, max_iterations, threads);
        return long_call([&](const std::function<bool()> &interrupted) { // all of it ours: taken by value
          options.interrupted = interrupted;
          return calibrate(plans, logs, free, options);
        });
      },
      py::arg("plans"), py::arg("logs"), py::arg("free"), py::arg("model_error"), py::arg("robust"),
      py::arg("max_iterations"), py::arg("threads"), "Fit; Ctrl-C stops it.");
  py::class_<LogPosterior>(m, "LogPosterior", "The posterior density that a fit maximises.")
      .def(py::init([](const std::vector<Plan> &plans, const std::vector<CookLog> &logs,
                       const std::vector<FreeParameter> &free, const ModelError &error, int threads) {
             return LogPosterior(plans, logs, free, options_of(error, true, 1, threads));
           }),
           py::arg("plans"), py::arg("logs"), py::arg("free"), py::arg("model_error"), py::arg("threads"))
      .def("__len__", &LogPosterior::size)
      .def(
          "__call__",
          [](LogPosterior &density,
             const py::array_t<double, py::array::c_style | py::array::forcecast> &points) {
            const Numbers flat(points.data(), points.data() + points.size());
            const Numbers made =
                long_call([own = density, &flat](const std::function<bool()> &interrupted) mutable {
                  return own(flat, interrupted);
                });
            return array_of(made);
          },
          py::arg("points"), "Log density of each row, up to a constant; Ctrl-C stops it.");
}

} // namespace cook::python
