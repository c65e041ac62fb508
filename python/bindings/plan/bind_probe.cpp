#include "cook/plan/probe.hpp"

#include "module.hpp"
#include "records/record.hpp"

namespace cook::python {

void bind_probe(py::module_ &m) {
  Record<Probe>(
      m, "Probe", "probe",
      "Where a probe sits, and how it errs. Without x and z: the place that its name says, \"flat\" or\n"
      "\"point\" in a cross-section, the middle of a slab.")
      .text("name", &Probe::name, "What its trace is called.")
      .maybe("x", &Probe::x, "length", "Of the tip, from the flat end [m], or None.")
      .maybe("z", &Probe::z, "length", "Of the tip, from the bottom face [m], or None.")
      .quantity("tip", &Probe::tip, "length", "Length that the sensor averages over [m].")
      .quantity("stem", &Probe::stem, "dimensionless",
                "Share of (air - meat) that the stem conducts to the tip; see `stem_error`.")
      .finish([](const Probe &made) { made.validate("probe"); });
  m.def("stem_error", &stem_error, py::arg("immersion"), py::arg("diameter"), py::arg("wall"),
        py::arg("conductivity"), py::arg("contact"),
        "Share of (air - meat) that conduction along a probe's stem adds to its reading.");
}

} // namespace cook::python
