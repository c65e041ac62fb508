#include "module.hpp"
#include "records/record_field.hpp"

namespace cook::python {

/// Before any Record, which adds its fields to the list.
void bind_fields(py::module_ &m) {
  py::class_<FieldTold>(m, "FieldTold", "What a class tells of one of its fields.")
      .def_readonly("gives", &FieldTold::gives, "Type of what it gives.")
      .def_readonly("takes", &FieldTold::takes, "Types that it takes.")
      .def_readonly("fixed", &FieldTold::fixed, "Whether only the constructor takes it.")
      .def_property_readonly(
          "kind", [](const FieldTold &f) { return std::string(f.told.kind.name); },
          "Kind of quantity; empty for what is none.")
      .def_property_readonly(
          "words", [](const FieldTold &f) { return std::string(f.told.words); }, "What it is.")
      .def_property_readonly(
          "unit", [](const FieldTold &f) { return std::string(f.told.kind.unit); },
          "SI or °C, \"-\" for a pure number; empty for what is no quantity.");
  m.attr("FIELDS") = py::dict(); // by class and field
  py::dict kinds;
  for (const Kind &kind : kind::all) {
    kinds[kind.name.data()] = py::make_tuple(std::string(kind.unit), kind.written);
  }
  m.attr("KINDS") = kinds; // unit, and whether text with a unit is read
}

} // namespace cook::python
