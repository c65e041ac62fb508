#include "cook/fit/schedule.hpp"

#include "calls/long_call.hpp"
#include "fit/forecast_options.hpp"
#include "module.hpp"
#include "records/record.hpp"

namespace cook::python {

void bind_schedule(py::module_ &m) {
  py::class_<Alternative>(m, "Alternative",
                          "A change that would make a cook quicker, run with the same members.")
      .def_readonly("what", &Alternative::what, "In words.")
      .def_property_readonly(
          "plan", [](const Alternative &a) { return a.plan; }, "The changed plan (a copy).")
      .def_readonly("duration", &Alternative::duration, "At the wanted confidence [s].")
      .def_readonly("sooner", &Alternative::sooner, "Than the plan asked about [s].")
      .def_readonly("start", &Alternative::start, "Latest start [s after the midnight before dinner].")
      .def_readonly("chance_late", &Alternative::chance_late, "When started when the schedule says [0 to 1].")
      .def("__repr__", written_by("fit_forms", "alternative_form"));
  py::class_<Remedy>(m, "Remedy",
                     "A look at the thermometer, and what is done from then on if the core gets there late.")
      .def_readonly("stage", &Remedy::stage, "Position of the stage that is under way at the look.")
      .def_readonly("core", &Remedy::core, "Looked for [°C].")
      .def_readonly("by", &Remedy::by, "Late if the core gets there after that [s since the start].")
      .def_readonly("what", &Remedy::what, "In words.")
      .def_property_readonly(
          "plan", [](const Remedy &r) { return r.plan; },
          "Of a cook that is late; its stage is cut in two at the look (a copy).")
      .def_readonly("late", &Remedy::late, "Share of the possible cooks that first turn out late here.")
      .def_readonly("sooner", &Remedy::sooner, "That those are done, in the middle of them [s].")
      .def("__repr__", written_by("fit_forms", "remedy_form"));
  py::class_<StageTime>(m, "StageTime", "When a stage ends, late cooks hurried.")
      .def_readonly("name", &StageTime::name, "Of the stage.")
      .def_readonly("median", &StageTime::median, "In the middle of the possible cooks [s since the start].")
      .def_readonly("sure", &StageTime::sure, "At the wanted confidence [s since the start].")
      .def("__repr__", written_by("fit_forms", "stage_time_form"));
  py::class_<Schedule>(m, "Schedule", "A start time.")
      .def(py::init([](const Schedule &other) { return other; }), py::arg("other"))
      .def_property_readonly(
          "plan", [](const Schedule &s) { return s.plan; }, "The plan asked about (a copy).")
      .def_readonly("serve", &Schedule::serve, "Dinner [s after midnight].")
      .def_readonly("confidence", &Schedule::confidence, "Wanted chance to be on time.")
      .def_readonly("start", &Schedule::start,
                    "When to start [s after the midnight before dinner]; negative: the day before.")
      .def_readonly("latest", &Schedule::latest, "Latest start that keeps the wanted chance, same clock [s].")
      .def_readonly("chance_late", &Schedule::chance_late,
                    "When started at `start`, nothing changed on the way [0 to 1].")
      .def_readonly("chance_late_with_remedies", &Schedule::chance_late_with_remedies,
                    "When started at `start`, late cooks hurried [0 to 1].")
      .def_readonly("duration50", &Schedule::duration50, "Of the whole plan, median [s].")
      .def_readonly("duration", &Schedule::duration,
                    "At the wanted confidence, nothing changed on the way [s].")
      .def_readonly("duration_with_remedies", &Schedule::duration_with_remedies,
                    "At the wanted confidence, late cooks hurried [s]: sets the start.")
      .def_readonly("never", &Schedule::never, "Share of the possible cooks that never end.")
      .def_readonly("remedies", &Schedule::remedies, "What to do if it runs late, in the order of the cook.")
      .def_readonly("stages", &Schedule::stages, "When each stage ends, late cooks hurried.")
      .def_readonly("hold50", &Schedule::hold50, "Waiting until dinner, median [s].")
      .def_readonly("hold95", &Schedule::hold95, "The longest wait in 19 of 20 cooks [s].")
      .def_readonly("stays_hot", &Schedule::stays_hot,
                    "How long it stays above the hold limit after the plan [s]; None: the last stage heats.")
      .def_readonly("alternatives", &Schedule::alternatives, "What would be quicker, best first.")
      .def_readonly("warnings", &Schedule::warnings, "In words.")
      .def_readonly("caution", &Schedule::caution, "Shown with every schedule.")
      .def_property_readonly("_forecast", [](const Schedule &s) { return s.forecast; });
  m.def(
      "start_by",
      [](const Plan &plan, double serve, double confidence, std::optional<double> earliest, double hold_limit,
         bool alternatives, bool remedies, int members, std::uint64_t seed, const ModelError &error,
         std::vector<FreeParameter> free, int threads, std::optional<Fit> fit) {
        ScheduleOptions options;
        options.serve = serve;
        options.confidence = confidence;
        options.earliest = earliest;
        options.hold_limit = hold_limit;
        options.alternatives = alternatives;
        options.remedies = remedies;
        options.forecast = forecast_options(members, seed, error, std::move(free), threads);
        return long_call([&, own = plan](const std::function<bool()> &interrupted) {
          options.forecast.interrupted = interrupted;
          return start_by(own, options, fit ? &*fit : nullptr);
        });
      },
      py::arg("plan"), py::arg("serve"), py::arg("confidence"), py::arg("earliest"), py::arg("hold_limit"),
      py::arg("alternatives"), py::arg("remedies"), py::arg("members"), py::arg("seed"),
      py::arg("model_error"), py::arg("free"), py::arg("threads"), py::arg("fit"),
      "Find the latest start; Ctrl-C stops it.");
}

} // namespace cook::python
