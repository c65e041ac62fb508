#include "cook/equations.hpp"

#include <pybind11/numpy.h>

#include "cook/errors.hpp"

#include "module.hpp"
#include "record.hpp"

namespace cook::python {

namespace {

using Vector = py::array_t<double, py::array::c_style | py::array::forcecast>;

std::span<const double> state_of(const Vector &y) {
  if (y.ndim() != 1) {
    throw InvalidInput("y",
                       "an array of " + std::to_string(y.ndim()) + " dimensions came; one state is a vector");
  }
  return {y.data(), static_cast<std::size_t>(y.size())};
}

Vector array_of(const std::vector<double> &values) {
  return Vector(static_cast<py::ssize_t>(values.size()), values.data());
}

} // namespace

void bind_equations(py::module_ &m) {
  // NOTE: a call changes buffers inside the object and keeps the interpreter locked, so threads cannot mix
  // states.
  py::class_<Equations>(m, "Equations",
                        "The semi-discrete equations of a plan's first stage: dy/dt = rhs(t, y).")
      .def(py::init<const Plan &, const Options &>(), py::arg("plan"), py::arg("options"))
      .def_property_readonly("size", &Equations::size, "Length of the state.")
      .def_property_readonly_static(
          "bandwidth", [](const py::object &) { return Equations::bandwidth; },
          "Jacobian entries further than this from the diagonal are zero.")
      .def(
          "initial", [](const Equations &e) { return array_of(e.initial()); },
          "State at the start of the cook.")
      .def(
          "rhs",
          [](Equations &e, double t, const Vector &y) {
            Vector rates(y.size());
            e.rhs(t, state_of(y), {rates.mutable_data(), static_cast<std::size_t>(rates.size())});
            return rates;
          },
          py::arg("t"), py::arg("y"), "Rates of a state [1/s times its unit] at a time [s].")
      .def(
          "temperatures", [](Equations &e, const Vector &y) { return array_of(e.temperatures(state_of(y))); },
          py::arg("y"), "Node temperatures of a state [°C], bottom to top, or axis to surface.")
      .def(
          "core", [](Equations &e, const Vector &y) { return e.core(state_of(y)); }, py::arg("y"),
          "Core temperature of a state [°C].");
}

} // namespace cook::python
