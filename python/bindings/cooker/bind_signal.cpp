#include "cook/cooker/signal.hpp"

#include <pybind11/numpy.h>

#include "module.hpp"
#include "records/record.hpp"

namespace cook::python {

namespace {

Field<Signal> points(const char *name, std::vector<double> Signal::*member, const char *doc) {
  return {.name = name,
          .get = [member](Signal &s, py::handle) -> py::object { return py::tuple(py::cast(s.*member)); },
          .set =
              [member, name](Signal &s, py::handle v) {
                s.*member = coerce("numbers_of", v, name).cast<std::vector<double>>();
              },
          .doc = doc,
          .fixed = true};
}

template <class T>
Field<Signal> fixed(const char *name, T Signal::*member, T (*read)(py::handle, const std::string &),
                    const char *doc) {
  return {.name = name,
          .get = [member](Signal &s, py::handle) -> py::object { return py::cast(s.*member); },
          .set = [member, read, field = std::string("signal.") + name](
                     Signal &s, py::handle v) { s.*member = read(v, field); },
          .doc = doc,
          .fixed = true};
}

} // namespace

void bind_signal(py::module_ &m) {
  // Signals do not change once made: they are shared by copying, and a stale one would mislead.
  Record<Signal> r(
      m, "Signal", "signal",
      "A quantity that changes with time: straight lines between points, held before the first and after\n"
      "the last, plus a sinusoid as a controller makes it. Does not change once made.");
  r.add(points("time", &Signal::time, "Times since the start of the cook [s], strictly increasing (tuple)."))
      .add(points("value", &Signal::value, "Values, as many as times (tuple)."))
      .add(fixed("ripple_amplitude", &Signal::ripple_amplitude, read_number,
                 "Of the sinusoid, in the unit of the values."))
      .add(fixed("ripple_period", &Signal::ripple_period, read_number, "Of the sinusoid [s]."))
      .add(fixed("measured", &Signal::measured, read_flag,
                 "Whether it is a log: lid openings are in it already, so they are not applied again."));
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
