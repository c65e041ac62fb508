#include "cook/cooker/chamber.hpp"
#include "cook/cooker/cooker_fields.hpp"

#include "module.hpp"
#include "records/record.hpp"

namespace cook::python {

void bind_pit_air(py::module_ &m) {
  Record<WaterPan>(m, {{"film", "film", "Film | Quantity"}}).finish([](const WaterPan &made) {
    made.validate();
  });
  Record<PitAir>(m).finish([](const PitAir &made) { made.validate(); });
  m.def("cooker_called", &cooker_called, py::arg("words"),
        "Kind of cooker that the trade's words name, or nothing.");
  m.def("chamber_kinds", &chamber_kinds, "Kinds of cooker that `pit_air` knows.");
  m.def(
      "pit_air",
      [](const std::string &kind, double air, double ambient, double humidity, double wind, double pressure) {
        return pit_air(kind, air, ambient, humidity, wind, pressure);
      },
      py::arg("kind"), py::arg("air"), py::arg("ambient"), py::arg("humidity"), py::arg("wind"),
      py::arg("pressure"), "The vapour balance of a generic kind of cooker.");
  m.def("steady_vapour_pressure", &steady_vapour_pressure, py::arg("air"), py::arg("evaporation"),
        "Vapour pressure [Pa] that a balance settles at.");
}

} // namespace cook::python
