#include "cook/fit/forecast.hpp"

#include <pybind11/numpy.h>
#include <pybind11/stl.h>

#include "calls/long_call.hpp"
#include "fit/forecast_options.hpp"
#include "module.hpp"
#include "records/views.hpp"

namespace cook::python {

namespace {

py::array matrix(const py::object &self, const std::vector<double> &data, std::size_t columns) {
  const auto rows = static_cast<py::ssize_t>(self.cast<const Forecast &>().members());
  return view(self, data, {rows, static_cast<py::ssize_t>(columns)});
}

void bind_outlook(py::module_ &m) {
  py::class_<PitOutlook>(m, "PitOutlook", "What the pit may do from now on.")
      .def_readonly("level", &PitOutlook::level, "Expected above the plan [K].")
      .def_readonly("level_deviation", &PitOutlook::level_deviation, "Standard deviation of the level [K].")
      .def_readonly("ripple", &PitOutlook::ripple, "Standard deviation about the level [K].")
      .def_readonly("ripple_time", &PitOutlook::ripple_time, "Over which the ripple forgets itself [s].");
}

} // namespace

ForecastOptions forecast_options(int members, std::uint64_t seed, const ModelError &error,
                                 std::vector<FreeParameter> free, int threads) {
  ForecastOptions options;
  options.members = members;
  options.seed = seed;
  options.model_error = error;
  options.free = std::move(free);
  options.threads = threads;
  return options;
}

void bind_forecast(py::module_ &m) {
  bind_outlook(m);
  py::class_<Forecast>(m, "Forecast", "An ensemble of finishes; times since the start of the cook [s].")
      .def(py::init([](const Forecast &other) { return other; }), py::arg("other"))
      .def_property_readonly(
          "plan", [](const Forecast &f) { return f.plan; }, "The plan (a copy).")
      .def_readonly("now", &Forecast::now, "The last reading [s].")
      .def_readonly("current", &Forecast::current, "Index of the stage that is under way.")
      .def_readonly("done", &Forecast::done, "Index of the stage whose end is called done.")
      .def_readonly("effective_members", &Forecast::effective_members, "How many members count [-].")
      .def_readonly("odd", &Forecast::odd,
                    "How much larger the model's errors seem in this cook than in most [-].")
      .def_property_readonly(
          "by_hand",
          [](const Forecast &f) -> py::object {
            if (!f.by_hand) {
              return py::none();
            }
            py::dict made;
            made["last_hour"] = f.by_hand->last_hour;
            made["population"] = f.by_hand->population;
            made["stage"] = f.by_hand->stage;
            made["phase"] = f.by_hand->phase;
            made["stretch"] = f.by_hand->stretch;
            return made;
          },
          "Time left by rules that need no model [s], where the cook stands, and by how much they stretch "
          "the "
          "model's answer; None where no core temperature ends the cook.")
      .def_readonly("outlook", &Forecast::outlook, "What the pit may do.")
      .def_readonly("notes", &Forecast::notes, "In words.")
      .def_readonly("names", &Forecast::names, "Of the free numbers.")
      .def_property_readonly("weight", view_of(&Forecast::weight),
                             "Of the members; they add up to 1 (members,).")
      .def_property_readonly("time", view_of(&Forecast::time), "Of the traces [s] (times,).")
      .def_property_readonly(
          "core",
          [](const py::object &self) {
            const auto &f = self.cast<const Forecast &>();
            return matrix(self, f.core, f.time.size());
          },
          "What the thermometer will show until it is done, held from then on [°C] (members, times).")
      .def_property_readonly(
          "stage_end",
          [](const py::object &self) {
            const auto &f = self.cast<const Forecast &>();
            return matrix(self, f.stage_end, f.plan.stages.size());
          },
          "When each stage ends [s] (members, stages); infinite: never.")
      .def_property_readonly(
          "values",
          [](const py::object &self) {
            const auto &f = self.cast<const Forecast &>();
            return matrix(self, f.values, f.names.size());
          },
          "Free numbers in their units (members, names).")
      .def("_never", &Forecast::never, py::arg("stage"))
      .def("_quantile", &Forecast::quantile, py::arg("q"), py::arg("stage"))
      .def("_chance_after", &Forecast::chance_after, py::arg("seconds"), py::arg("stage"))
      .def(
          "_core_quantile", [](const Forecast &f, double q) { return array_of(f.core_quantile(q)); },
          py::arg("q"));
  m.def(
      "forecast",
      [](const Plan &plan, const CookLog &log, int members, std::uint64_t seed, const ModelError &error,
         std::vector<FreeParameter> free, int threads, std::optional<Fit> fit, bool join_rules) {
        ForecastOptions options = forecast_options(members, seed, error, std::move(free), threads);
        options.join_rules = join_rules;
        return long_call([&, own = plan, readings = log](const std::function<bool()> &interrupted) {
          options.interrupted = interrupted;
          return forecast(own, readings, options, fit ? &*fit : nullptr);
        });
      },
      py::arg("plan"), py::arg("log"), py::arg("members"), py::arg("seed"), py::arg("model_error"),
      py::arg("free"), py::arg("threads"), py::arg("fit"), py::arg("join_rules"),
      "Forecast a cook; Ctrl-C stops it.");
  m.def(
      "what_if",
      [](const Forecast &base, std::vector<Stage> remaining) {
        return long_call([&, own = base](const std::function<bool()> &interrupted) {
          return what_if(own, remaining, interrupted);
        });
      },
      py::arg("forecast"), py::arg("remaining"), "The same members with other stages from now on.");
  m.def("weighted_quantile", &weighted_quantile, py::arg("value"), py::arg("weight"), py::arg("q"),
        "Value below which a share of the weight lies.");
}

} // namespace cook::python
