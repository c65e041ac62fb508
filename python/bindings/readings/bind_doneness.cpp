#include "cook/readings/doneness.hpp"

#include "calls/coerce.hpp"
#include "module.hpp"
#include "records/views.hpp"

namespace cook::python {

void bind_doneness(py::module_ &m) {
  py::class_<Bark>(m, "Bark", "How far the bark of a face has come: a heuristic that ranks cooks.")
      .def_readonly("index", &Bark::index, "Integral of the browning rate; 1 counts as set [-].")
      .def_readonly("set_at", &Bark::set_at, "When the index passed 1 [s], or None.")
      .def_readonly("driest", &Bark::driest, "Least water content the face has had [kg/kg dry].")
      .def("__repr__", written_by("reading_forms", "bark_form"));
  py::class_<HotHold>(m, "HotHold", "How long the piece stays hot after the pull.")
      .def_readonly("pulled_at", &HotHold::pulled_at, "[s]; 0 when it was never pulled.")
      .def_readonly("coldest_until", &HotHold::coldest_until,
                    "When the coldest part falls below the limit [s], or None: it does not.")
      .def_readonly("hottest_until", &HotHold::hottest_until, "When the hottest part does [s], or None.")
      .def_readonly("slice_at", &HotHold::slice_at,
                    "When the hottest part has cooled to slicing [s], or None.")
      .def_readonly("coldest_at_end", &HotHold::coldest_at_end, "[°C].")
      .def_readonly("hottest_at_end", &HotHold::hottest_at_end, "[°C].")
      .def("__repr__", written_by("reading_forms", "hold_form"));
  m.def(
      "tenderness_by_node",
      [](const Outcome &out, std::optional<double> at) { return array_of(tenderness_by_node(out, at)); },
      py::arg("outcome"), py::arg("at") = py::none(),
      "Share of the collagen converted at every node until a time [s], or the end [-] (nodes,).");
  m.def(
      "hottest", [](const Outcome &out) { return array_of(hottest(out)); }, py::arg("outcome"),
      "Hottest node over time [°C] (times,).");
  m.def(
      "bark",
      [](const Outcome &out) {
        const auto both = bark(out);
        return std::pair{both[0], both[1]};
      },
      py::arg("outcome"), "Bark of (bottom, top).");
  m.def("hot_hold", &hot_hold, py::arg("outcome"), py::arg("limit"), py::arg("slicing"),
        "How long the coldest and the hottest part stay hot.");
}

} // namespace cook::python
