#include "cook/equations.hpp"

#include <pybind11/numpy.h>

#include "cook/errors.hpp"
#include "cook/section_equations.hpp"

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

template <class Value> py::array_t<Value> array_of(const std::vector<Value> &values) {
  return py::array_t<Value>(static_cast<py::ssize_t>(values.size()), values.data());
}

/// A new array that `fill` writes.
template <class Fill> Vector filled(std::size_t count, const Fill &fill) {
  Vector values(static_cast<py::ssize_t>(count));
  fill(std::span<double>(values.mutable_data(), count));
  return values;
}

constexpr const char *rhs_doc = "Rates of a state [1/s times its unit] at a time [s].";

void bind_section_equations(py::module_ &m) {
  py::class_<SectionEquations>(
      m, "SectionEquations",
      "The semi-discrete equations of a plan's first stage on a cross-section: dy/dt = rhs(t, y).")
      .def(py::init<const Plan &, const Options &>(), py::arg("plan"), py::arg("options"))
      .def_property_readonly("size", &SectionEquations::size, "Length of the state.")
      .def_property_readonly("nodes", &SectionEquations::nodes, "Nodes of the mesh.")
      .def_property_readonly(
          "along", [](const SectionEquations &e) { return array_of(e.along()); },
          "Distance of the nodes from the flat end [m].")
      .def_property_readonly(
          "height", [](const SectionEquations &e) { return array_of(e.height()); },
          "Height of the nodes above the bottom [m].")
      .def_property_readonly(
          "pattern",
          [](const SectionEquations &e) {
            return std::pair{array_of(e.pattern().row_start), array_of(e.pattern().column)};
          },
          "Where the Jacobian may have entries, by compressed rows: (row starts, columns).")
      .def(
          "initial", [](const SectionEquations &e) { return array_of(e.initial()); },
          "State at the start of the cook.")
      .def(
          "rhs",
          [](SectionEquations &e, double t, const Vector &y) {
            const auto state = state_of(y);
            return filled(state.size(), [&](std::span<double> rates) { e.rhs(t, state, rates); });
          },
          py::arg("t"), py::arg("y"), rhs_doc)
      .def(
          "jacobian",
          [](SectionEquations &e, double t, const Vector &y) {
            const auto state = state_of(y);
            return filled(e.pattern().column.size(),
                          [&](std::span<double> entries) { e.jacobian(t, state, entries); });
          },
          py::arg("t"), py::arg("y"), "Entries of the Jacobian, analytic, in the order of `pattern`.")
      .def(
          "temperatures",
          [](SectionEquations &e, const Vector &y) { return array_of(e.temperatures(state_of(y))); },
          py::arg("y"), "Node temperatures of a state [°C].")
      .def(
          "core", [](SectionEquations &e, const Vector &y) { return e.core(state_of(y)); }, py::arg("y"),
          "Temperature of a state where the core trace is [°C].")
      .def(
          "heat", [](const SectionEquations &e, const Vector &y) { return e.heat(state_of(y)); },
          py::arg("y"), "Heat in the whole piece from 0 °C [J]; of rates, its rate [W].")
      .def(
          "water", [](const SectionEquations &e, const Vector &y) { return e.water(state_of(y)); },
          py::arg("y"), "Water in and on the whole piece [kg]; of rates, its rate [kg/s].");
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
            const auto state = state_of(y);
            return filled(state.size(), [&](std::span<double> rates) { e.rhs(t, state, rates); });
          },
          py::arg("t"), py::arg("y"), rhs_doc)
      .def(
          "temperatures", [](Equations &e, const Vector &y) { return array_of(e.temperatures(state_of(y))); },
          py::arg("y"), "Node temperatures of a state [°C], bottom to top, or axis to surface.")
      .def(
          "core", [](Equations &e, const Vector &y) { return e.core(state_of(y)); }, py::arg("y"),
          "Core temperature of a state [°C].");
  bind_section_equations(m);
}

} // namespace cook::python
