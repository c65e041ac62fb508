#include "cook/readings/readings.hpp"

#include "calls/coerce.hpp"
#include "calls/door.hpp"
#include "module.hpp"
#include "records/views.hpp"

namespace cook::python {

namespace {

/// -1 stands for "never" in C++; Python says None.
py::object moment(double seconds) {
  return seconds < 0.0 ? py::object(py::none()) : py::object(py::float_(seconds));
}

std::span<const double> span_of(const Array &array) {
  return {array.data(), static_cast<std::size_t>(array.size())};
}

void bind_core_readings(py::module_ &m) {
  py::class_<Stall>(m, "Stall", "The stall of a core trace.")
      .def_readonly("start", &Stall::start, "When it began [s].")
      .def_readonly("end", &Stall::end, "When it ended [s]; the end of the trace where it is not over.")
      .def_readonly("over", &Stall::over, "Whether it was seen to end.")
      .def_readonly("plateau", &Stall::plateau, "Core temperature at the slowest point [°C].")
      .def_readonly("slowest", &Stall::slowest, "Slowest rate of rise [K/s].")
      .def_readonly("slowest_at", &Stall::slowest_at, "When the core was slowest [s].")
      .def_readonly("core_start", &Stall::core_start, "Core temperature at the start [°C].")
      .def_readonly("core_end", &Stall::core_end, "Core temperature at the end [°C].")
      .def_property_readonly("duration", &Stall::duration, "How long it lasted [s].")
      .def("__repr__", written_by("reading_forms", "stall_form"));
  py::class_<Carryover>(m, "Carryover", "Rise of the core after the heat is off.")
      .def_readonly("pulled_at", &Carryover::pulled_at, "End of the last stage hotter than the core [s].")
      .def_readonly("pulled_core", &Carryover::pulled_core, "Core temperature then [°C].")
      .def_readonly("peak", &Carryover::peak, "Highest core temperature afterwards [°C].")
      .def_readonly("peak_at", &Carryover::peak_at, "When [s].")
      .def_property_readonly("rise", &Carryover::rise, "By how much the core rose [K].")
      .def("__repr__", written_by("reading_forms", "carryover_form"));
}

void bind_loss(py::module_ &m) {
  py::class_<Loss>(m, "Loss", "Where the weight of the whole piece went [kg].")
      .def_readonly("raw", &Loss::raw, "Raw mass [kg].")
      .def_readonly("evaporated", &Loss::evaporated, "Water evaporated [kg].")
      .def_readonly("dripped", &Loss::dripped, "Juice that ran off [kg].")
      .def_readonly("in_wrap", &Loss::in_wrap, "Liquid on the faces or kept by the wrap [kg].")
      .def_readonly("fat", &Loss::fat, "Fat rendered out [kg]; an estimate.")
      .def_readonly("spritzed", &Loss::spritzed,
                    "Sprayed on [kg]: in what evaporated or dripped, but never in the meat.")
      .def_property_readonly("total", &Loss::total, "What the meat has lost [kg].")
      .def_property_readonly("yield_", &Loss::yield, "Share of the raw weight that is left [-].")
      .def("__repr__", written_by("reading_forms", "loss_form"));
}

void bind_heat_budget(py::module_ &m) {
  py::class_<HeatBudget, std::shared_ptr<HeatBudget>> cls(
      m, "HeatBudget",
      "Mean heat fluxes through a face over each interval between stored times [W/m²].\n\n"
      "convection + radiation - evaporation = into_meat, exactly: all are differences of the "
      "ledger.");
  const auto series = [&cls](const char *name, std::vector<double> HeatBudget::*member, const char *doc) {
    cls.def_property_readonly(name, view_of(member), doc);
  };
  series("time", &HeatBudget::time, "Middle of the interval [s] (times - 1,).");
  series("convection", &HeatBudget::convection, "From the air, into the meat [W/m²] (times - 1,).");
  series("radiation", &HeatBudget::radiation, "From what the face sees, into the meat [W/m²] (times - 1,).");
  series("evaporation", &HeatBudget::evaporation, "Taken by evaporation [W/m²] (times - 1,).");
  series("carried", &HeatBudget::carried, "Own heat (from 0 °C) of the water that left [W/m²] (times - 1,).");
  series("into_meat", &HeatBudget::into_meat, "What is left to warm the meat [W/m²] (times - 1,).");
}

void bind_safety(py::module_ &m) {
  py::class_<Safety>(m, "Safety", "Safety readings. Never a permission: follow your local food-safety rules.")
      .def_readonly("log_reduction", &Safety::log_reduction,
                    "Decimal reductions of Salmonella, least of all places [-].")
      .def_property_readonly(
          "lethality_at", [](const Safety &s) { return moment(s.lethality_at); },
          "When every place has passed 6.5 reductions [s], or None.")
      .def_readonly("core_danger_time", &Safety::core_danger_time,
                    "Time the core spends between 5 and 57 °C while warming [s].")
      .def_readonly("surface_danger_time", &Safety::surface_danger_time, "The slower face, same range [s].")
      .def_property_readonly(
          "come_up", [](const Safety &s) { return moment(s.come_up); },
          "Time the coldest place takes from 10 to 54.4 °C [s], or None.")
      .def_property_readonly(
          "cooling_start", [](const Safety &s) { return moment(s.cooling_start); },
          "When the core falls through 57 °C after the cook [s], or None.")
      .def_readonly("warnings", &Safety::warnings, "In plain words, each with the rule it rests on.")
      .def_readonly("caution", &Safety::caution, "Shown with every outcome.")
      .def("__repr__", written_by("reading_forms", "safety_form"));
}

} // namespace

void bind_readings(py::module_ &m) {
  bind_core_readings(m);
  bind_loss(m);
  bind_heat_budget(m);
  bind_safety(m);
  m.def("find_stall",
        door([](const Array &time, const Array &core) { return find_stall(span_of(time), span_of(core)); },
             {"time", "core"}),
        py::arg("time"), py::arg("core"),
        "The first stall of a core trace [s], [°C] (at least 5 samples), or None.");
  m.def("find_stalls",
        door([](const Array &time, const Array &core) { return find_stalls(span_of(time), span_of(core)); },
             {"time", "core"}),
        py::arg("time"), py::arg("core"),
        "All stalls of a core trace [s], [°C] (at least 5 samples), in order.");
  m.def(
      "slowest_rise",
      [](const Array &time, const Array &core) {
        const auto found = slowest_rise(span_of(time), span_of(core));
        return found ? std::optional(std::tuple(found->from, found->to, found->core, found->rate))
                     : std::nullopt;
      },
      py::arg("time"), py::arg("core"),
      "Where a core without a stall climbs slowest: from, to [s], core [°C], rate [K/s], or None.");
  m.def(
      "stall", [](const Outcome &outcome) { return find_stall(outcome); }, py::arg("outcome"),
      "The first stall of an outcome, or None.");
  m.def("carryover", &carryover, py::arg("outcome"), "Carryover after the last heated stage, or None.");
  m.def("falls_to", &falls_to, py::arg("outcome"), py::arg("celsius"),
        "When the core falls to a temperature [s].");
  m.def("time_above", &time_above, py::arg("outcome"), py::arg("celsius"),
        "How long the core stays above [s].");
  m.def("loss", &loss, py::arg("outcome"), "Where the weight went.");
  m.def("heat_budget", &heat_budget, py::arg("outcome"), py::arg("face"), "Heat fluxes through a face.");
  m.def("safety", &safety, py::arg("outcome"), "Safety readings.");
}

} // namespace cook::python
