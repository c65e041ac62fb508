#include "cook/shape.hpp"

#include "module.hpp"
#include "record.hpp"

namespace cook::python {

void bind_shape(py::module_ &m) {
  m.attr("coldest_start") = coldest_start;
  m.attr("hottest_start") = hottest_start;
  Record<Shape> shape(
      m, "Shape", "shape",
      "Size of the raw piece: a slab with two faces, or a cylinder with one. Shrinkage is left out.");
  shape.choice("kind", &Shape::kind, {"slab", "cylinder"}, "\"slab\" or \"cylinder\".")
      .quantity("thickness", &Shape::thickness, "length",
                "Slab thickness or cylinder diameter, without the fat cap [m].")
      .number("extent", &Shape::extent, "Area of one face of a slab [m²], or length of a cylinder [m].")
      .finish();
  shape.cls.def_property_readonly("volume", &Shape::volume, "Volume [m³].")
      .def_property_readonly("surface_area", &Shape::surface_area, "Exposed area, both faces [m²].");

  Record<FatCap> cap(m, "FatCap", "fat_cap",
                     "A layer of fat on one face: it slows vapour and adds a conduction layer.");
  cap.choice("side", &FatCap::side, {"none", "down", "up"},
             "Which face carries it: \"none\", \"down\" or \"up\".")
      .quantity("thickness", &FatCap::thickness, "length", "Thickness [m].")
      .number("vapour_resistivity", &FatCap::vapour_resistivity, "Resistance to vapour per thickness [s/m²].")
      .finish();
  cap.cls.def_property_readonly("heat_resistance", &FatCap::heat_resistance, "Resistance to heat [m²·K/W].")
      .def_property_readonly("vapour_resistance", &FatCap::vapour_resistance, "Resistance to vapour [s/m].");

  Record<Meat> meat(m, "Meat", "meat",
                    "The piece on the table: material, shape, fat cap and starting temperature.");
  meat.nested("tissue", &Meat::tissue, "Material.")
      .nested("shape", &Meat::shape, "Shape and size.")
      .nested("fat_cap", &Meat::fat_cap, "Fat cap.", "fat_cap")
      .quantity("start", &Meat::start, "temperature", "Temperature throughout at the start [°C].")
      .copied(
          "section", &Meat::section,
          "Lengthwise cross-section, for runs on one (a `Section`), or None: the default brisket's. The same "
          "piece as the shape; see `with_section`.")
      .finish([](const Meat &made) { made.validate(); });
  meat.cls.def_property_readonly("mass", &Meat::mass, "Raw mass, fat cap included [kg].")
      .def(
          "validate", [](const Meat &self) { self.validate(); },
          "Raise `InvalidInput` naming the field that is out of range.");

  m.def("brisket", &brisket, py::arg("mass"), py::arg("thickness"), py::arg("start"),
        "A whole brisket from its mass [kg], thickness [m] or None, and start [°C].");
  m.def("pork_shoulder", &pork_shoulder, py::arg("mass"), py::arg("diameter"), py::arg("start"),
        "A boneless pork shoulder from its mass [kg], diameter [m] or None, and start [°C].");
}

} // namespace cook::python
