#include "cook/fields/parameters.hpp"

#include "calls/coerce.hpp"
#include "calls/door.hpp"
#include "module.hpp"

namespace cook::python {

void bind_parameters(py::module_ &m) {
  py::class_<Parameter>(m, "Parameter", "One default of the library: value, range, where it comes from.")
      .def_readonly("name", &Parameter::name, "As in the structs, such as \"tissue.mobility.expressed\".")
      .def_readonly("value", &Parameter::value, "The default, in `unit`.")
      .def_readonly("unit", &Parameter::unit, "SI or °C; \"-\" for a pure number.")
      .def_readonly("low", &Parameter::low,
                    "Low end of the range that is physically reasonable or published.")
      .def_readonly("high", &Parameter::high, "High end of the range.")
      .def_readonly("source", &Parameter::source, "Where it comes from, in words.")
      .def_property_readonly(
          "kind", [](const Parameter &p) { return std::string(describe(p.kind)); },
          "How sure it is, such as \"common practice, no source\".")
      .def("__repr__", written_by("forms", "parameter_form"));
  m.def("parameters", &parameters, "Every default, in a fixed order: value, unit, range, source, how sure.");
  m.def("parameter", door(parameter, {"name"}), py::arg("name"), "One default by name.");
}

} // namespace cook::python
