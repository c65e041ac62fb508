#include "cook/cooker/cooker_fields.hpp"

#include "calls/door.hpp"
#include "module.hpp"
#include "records/record.hpp"

namespace cook::python {

void bind_film(py::module_ &m) {
  Record<Film> film(m);
  Attribute<Film> &value = film.of("value");
  value.takes = "Quantity";
  value.set = [](Film &f, py::handle v) {
    const char *kind = f.kind == Convection::given    ? "film_coefficient"
                       : f.kind == Convection::forced ? "velocity"
                                                      : nullptr; // natural: nothing that it means
    f.value = kind ? read_quantity(v, kind, "film.value") : read_number(v, "film.value");
  };
  film.finish();
}

void bind_surroundings(py::module_ &m) {
  Record<Box>(m).finish();
  Record<Surroundings> r(m, {{"bottom", "film", "Film | Quantity"}, {"top", "film", "Film | Quantity"}});
  r.finish();
  r.cls.def(
      "validate",
      door([](const Surroundings &s, const std::string &field) { s.validate(field); }, {"self", "field"}),
      py::arg("field") = "surroundings", "Raise `InvalidInput` naming the field that is out of range.");

  m.def("pit_kinds", &pit_kinds, "Kinds of cooker that `pit` knows.");
  m.def("pit", &pit, py::arg("kind"), py::arg("air"), "A generic cooker.");
  m.def("oven", &oven, py::arg("air"), py::arg("fan"), "A kitchen oven.");
  m.def("holding_oven", &holding_oven, py::arg("air"), py::arg("humidity"), "An oven that holds meat.");
  m.def("counter", &counter, py::arg("room"), "A kitchen counter.");
  m.def("insulated_box", &insulated_box, py::arg("room"), py::arg("box"), "A towel-lined insulated box.");
}

} // namespace cook::python
