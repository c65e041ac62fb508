#include "cook/plan/plan_fields.hpp"

#include "module.hpp"
#include "records/record.hpp"

namespace cook::python {

void bind_probe(py::module_ &m) {
  Record<Probe>(m).finish([](const Probe &made) { made.validate("probe"); });
  m.def("stem_error", &stem_error, py::arg("immersion"), py::arg("diameter"), py::arg("wall"),
        py::arg("conductivity"), py::arg("contact"),
        "Share of (air - meat) that conduction along a probe's stem adds to its reading.");
}

} // namespace cook::python
