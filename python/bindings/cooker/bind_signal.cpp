#include "cook/cooker/cooker_fields.hpp"

#include "module.hpp"
#include "records/record.hpp"

namespace cook::python {

void bind_signal(py::module_ &m) {
  // Signals do not change once made: they are shared by copying, and a stale one would mislead.
  Record<Signal> r(m,
                   {{"time", "durations", "Any", "time"}, {"value", "numbers_of", "npt.ArrayLike", "value"}});
  r.fixed();
  r.finish([](const Signal &made) { made.validate("signal"); }, "signal_form");
  r.cls
      .def(
          "at",
          [](const Signal &s, const py::object &time) {
            return s.at(read_quantity(time, "duration", "time"));
          },
          py::arg("time"), "Value at a time since the start of the cook.")
      .def_property_readonly("minimum", &Signal::minimum, "Lowest value, ripple included.")
      .def_property_readonly("maximum", &Signal::maximum, "Highest value, ripple included.")
      .def_property_readonly("is_constant", &Signal::is_constant, "Whether it is one number.");
}

} // namespace cook::python
