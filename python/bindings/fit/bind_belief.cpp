#include "cook/fit/belief.hpp"

#include <pybind11/numpy.h>
#include <pybind11/stl.h>

#include "calls/long_call.hpp"
#include "module.hpp"
#include "records/views.hpp"

namespace cook::python {

void bind_belief(py::module_ &m) {
  py::class_<Belief>(m, "Belief", "What is believed of a cook before any reading.")
      .def(py::init([](const Belief &other) { return other; }), py::arg("other"))
      .def_property_readonly(
          "plan", [](const Belief &b) { return b.plan; }, "The plan (a copy).")
      .def_readonly("names", &Belief::names, "Of the numbers.")
      .def_readonly("units", &Belief::units, "Of the numbers, SI and °C.")
      .def_property_readonly(
          "scales",
          [](const Belief &b) {
            std::vector<std::string> made;
            for (const Scale scale : b.scales) {
              made.emplace_back(scale == Scale::logarithmic ? "logarithmic" : "linear");
            }
            return made;
          },
          "Of the spreads: 'logarithmic', a share, or 'linear', in the unit.")
      .def_property_readonly("median", view_of(&Belief::median), "Of the numbers, in their units (names,).")
      .def_property_readonly("spread", view_of(&Belief::spread),
                             "Standard deviations on their scales (names,).")
      .def_property_readonly(
          "correlation",
          [](const py::object &self) {
            const auto &b = self.cast<const Belief &>();
            const auto n = static_cast<py::ssize_t>(b.names.size());
            return view(self, b.correlation, {n, n});
          },
          "Of the numbers on their scales [-] (names, names).")
      .def_readonly("model_error", &Belief::error, "How far the model is trusted.")
      .def_readonly("error_share", &Belief::error_share,
                    "Standard deviation, at its middling size, of the model's error in the time until it is "
                    "done [share].")
      .def(
          "_draw",
          [](const Belief &b, int count, std::uint64_t seed) {
            Draws drawn = draw_cooks(b, count, seed);
            const auto rows = static_cast<py::ssize_t>(drawn.plans.size());
            py::array_t<double> pace(rows, drawn.pace.data());
            py::array_t<double> values({rows, static_cast<py::ssize_t>(b.names.size())}, drawn.values.data());
            return py::make_tuple(std::move(drawn.plans), std::move(pace), std::move(values));
          },
          py::arg("count"), py::arg("seed"));
  m.def(
      "believe",
      [](const Plan &plan, const ModelError &error) {
        return long_call([&, own = plan](const std::function<bool()> &interrupted) {
          return believe(own, error, interrupted);
        });
      },
      py::arg("plan"), py::arg("model_error"), "What is believed of a cook; Ctrl-C stops it.");
  m.def("meat_ends", &meat_ends, py::arg("stage"), "Whether the meat decides when a stage ends.");
}

} // namespace cook::python
