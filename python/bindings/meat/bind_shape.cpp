#include "cook/meat/cut.hpp"
#include "cook/meat/piece_fields.hpp"

#include <pybind11/stl.h>

#include "module.hpp"
#include "records/record.hpp"

namespace cook::python {

void bind_shape(py::module_ &m) {
  m.attr("coldest_start") = coldest_start;
  m.attr("hottest_start") = hottest_start;
  Record<Shape> shape(m);
  Attribute<Shape> &extent = shape.of("extent");
  extent.takes = "Quantity";
  extent.set = [](Shape &s, py::handle v) {
    s.extent = read_quantity(v, s.kind == ShapeKind::slab ? "area" : "length", "shape.extent");
  };
  shape.finish();
  shape.cls.def_property_readonly("volume", &Shape::volume, "Volume [m³].")
      .def_property_readonly("surface_area", &Shape::surface_area,
                             "Exposed area: both faces, and sides or ends where known [m²].");

  Record<FatCap> cap(m);
  cap.finish();
  cap.cls.def_property_readonly("heat_resistance", &FatCap::heat_resistance, "Resistance to heat [m²·K/W].")
      .def_property_readonly("vapour_resistance", &FatCap::vapour_resistance, "Resistance to vapour [s/m].");

  Record<Meat> meat(m, {{"fat_cap", "fat_cap", "FatCap | str"}});
  meat.finish([](const Meat &made) { made.validate(); }, "meat_form");
  meat.cls.def_property_readonly("mass", &Meat::mass, "Raw mass, fat cap included [kg].")
      .def(
          "validate", [](const Meat &self) { self.validate(); },
          "Raise `InvalidInput` naming the field that is out of range.");

  py::class_<Cut>(m, "Cut", "A cut of meat as it is bought, raw and trimmed: one entry of `cuts()`.")
      .def_readonly("name", &Cut::name, "As the trade has it.")
      .def_readonly("composition", &Cut::composition, "Of the meat without its fat cap and bone.")
      .def_readonly("bone", &Cut::bone, "Share of the mass that is bone [-].")
      .def_readonly("mass", &Cut::mass, "Of a middling whole piece [kg].")
      .def_readonly("smallest", &Cut::smallest, "Lightest that is still a whole piece [kg].")
      .def_readonly("largest", &Cut::largest, "Heaviest [kg].")
      .def_readonly("thickness", &Cut::thickness, "Of the piece of `mass` [m].")
      .def_readonly("width", &Cut::width, "Width over thickness [-].")
      .def_readonly("spread", &Cut::spread, "How pieces of one mass differ: deviation of ln(thickness) [-].")
      .def_readonly("fat_thickness", &Cut::fat_thickness, "Of its fat cap [m].")
      .def_readonly("sources", &Cut::sources, "Of composition and size.");
  m.def("cuts", &cuts, "All cuts, the most usual first.");
  m.def("cut",
        py::overload_cast<const std::string &, std::optional<double>, std::optional<double>, double>(&cut),
        py::arg("name"), py::arg("mass"), py::arg("thickness"), py::arg("start"),
        "A piece of a cut from its mass [kg] or None, thickness [m] or None, and start [°C].");
  m.def("with_mass", &with_mass, py::arg("meat"), py::arg("mass"),
        "A piece of the same cut with another mass [kg]; its thickness follows.");
  m.def("resized", &resized, py::arg("meat"), py::arg("mass"), py::arg("thickness"),
        "The same piece with another mass [kg] and thickness [m].");
  m.def(
      "with_fat",
      [](const Meat &piece, const py::object &fat) {
        return with_fat(piece, static_cast<FatSide>(read_word(fat, words(FatSide{}), "fat")));
      },
      py::arg("meat"), py::arg("fat"), "The same piece, as heavy, with its fat cap elsewhere.");
  m.attr("FAT_SIDES") = words_tuple(words(FatSide{}));
  m.def("brisket", &brisket, py::arg("mass"), py::arg("thickness"), py::arg("start"),
        "A whole brisket from its mass [kg], thickness [m] or None, and start [°C].");
  m.def("pork_shoulder", &pork_shoulder, py::arg("mass"), py::arg("thickness"), py::arg("start"),
        "A boneless pork shoulder from its mass [kg], thickness [m] or None, and start [°C].");
}

} // namespace cook::python
