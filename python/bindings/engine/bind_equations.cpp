#include "cook/engine/equations.hpp"

#include "cook/engine/section_equations.hpp"
#include "cook/errors.hpp"

#include "calls/door.hpp"
#include "module.hpp"
#include "records/record.hpp"
#include "records/views.hpp"

namespace cook::python {

namespace {

using Vector = Array;

/// One state of the equations, as it came in `y`.
class State {
public:
  explicit State(const py::object &y) : values_(Argument<Vector>::read(y, "y")) {
    if (values_.ndim() != 1) {
      throw InvalidInput("y", "an array of " + std::to_string(values_.ndim()) +
                                  " dimensions came; one state is a vector");
    }
  }
  [[nodiscard]] std::size_t size() const { return static_cast<std::size_t>(values_.size()); }
  [[nodiscard]] std::span<const double> span() const { return {values_.data(), size()}; }

private:
  Vector values_;
};

/// The time as it came in `t` [s].
double time_of(const py::object &t) { return read_number(t, "t"); }

/// A new array that `fill` writes.
template <class Fill> Vector filled(std::size_t count, const Fill &fill) {
  Vector values(static_cast<py::ssize_t>(count));
  fill(std::span<double>(values.mutable_data(), count));
  return values;
}

/// What both kinds of equations can do with a state.
/// NOTE: a call changes buffers inside the object and keeps the interpreter locked, so threads cannot mix
/// states.
template <class E> py::class_<E> bind_states(py::module_ &m, const char *name, const char *doc) {
  py::class_<E> made(m, name, doc);
  made.def(py::init<const Plan &, const Options &>(), py::arg("plan"), py::arg("options"))
      .def_property_readonly("size", &E::size, "Length of the state.")
      .def(
          "initial", [](const E &e) { return array_of(e.initial()); }, "State at the start of the cook.")
      .def(
          "rhs",
          [](E &e, const py::object &t, const py::object &y) {
            const State state(y);
            return filled(state.size(),
                          [&](std::span<double> rates) { e.rhs(time_of(t), state.span(), rates); });
          },
          py::arg("t"), py::arg("y"), "Rates of a state [1/s times its unit] at a time [s].")
      .def(
          "temperatures", [](E &e, const py::object &y) { return array_of(e.temperatures(State(y).span())); },
          py::arg("y"),
          "Node temperatures of a state [°C]: bottom to top, axis to surface, or column by column.")
      .def(
          "core", [](E &e, const py::object &y) { return e.core(State(y).span()); }, py::arg("y"),
          "Temperature of a state where the core trace is [°C].");
  return made;
}

void bind_section_equations(py::module_ &m) {
  bind_states<SectionEquations>(
      m, "SectionEquations",
      "The semi-discrete equations of a plan's first stage on a cross-section: dy/dt = rhs(t, y).")
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
          "jacobian",
          [](SectionEquations &e, const py::object &t, const py::object &y) {
            const State state(y);
            return filled(e.pattern().column.size(),
                          [&](std::span<double> entries) { e.jacobian(time_of(t), state.span(), entries); });
          },
          py::arg("t"), py::arg("y"), "Entries of the Jacobian, analytic, in the order of `pattern`.")
      .def(
          "heat", [](const SectionEquations &e, const py::object &y) { return e.heat(State(y).span()); },
          py::arg("y"), "Heat in the whole piece from 0 °C [J]; of rates, its rate [W].")
      .def(
          "water", [](const SectionEquations &e, const py::object &y) { return e.water(State(y).span()); },
          py::arg("y"), "Water in and on the whole piece [kg]; of rates, its rate [kg/s].");
}

} // namespace

void bind_equations(py::module_ &m) {
  bind_states<Equations>(m, "Equations",
                         "The semi-discrete equations of a plan's first stage: dy/dt = rhs(t, y).")
      .def_property_readonly("bandwidth", &Equations::bandwidth,
                             "Jacobian entries further than this from the diagonal are zero.");
  bind_section_equations(m);
}

} // namespace cook::python
