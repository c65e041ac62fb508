#include "cook/errors.hpp"
#include "cook/meat/piece_fields.hpp"

#include "calls/door.hpp"
#include "module.hpp"
#include "records/record.hpp"

namespace cook::python {

void bind_section(py::module_ &m) {
  Record<Section> r(
      m, {{"at", "lengths", "Sequence[Quantity]"}, {"thickness", "lengths", "Sequence[Quantity]"}});
  r.finish([](const Section &made) { made.validate("section"); }, "section_form");
  r.cls
      .def("thickness_at",
           door([](const Section &s,
                   double x) { return s.thickness_at(check::within("x", x, 0.0, s.length, "m")); },
                {"self", "x"}),
           py::arg("x"), "Thickness at a distance [m] [m].")
      .def_property_readonly("area", &Section::area, "Of the section [m²].")
      .def_property_readonly("volume", &Section::volume, "Area x width [m³].")
      .def("place",
           door(
               [](const Section &s, const std::string &name) {
                 const Section::Place place = s.place(name);
                 return std::pair{place.x, place.z};
               },
               {"self", "name"}),
           py::arg("name"), "Where \"flat\", \"point\" or \"seam\" is: (x, z) [m].");
  m.def("default_section", &default_section, py::arg("meat"),
        "The section of a meat that has none of its own.");
  m.def("brisket_section", &brisket_section, py::arg("meat"),
        "The default section of a brisket: same volume and mean thickness as its shape.");
  m.def("with_section", &with_section, py::arg("meat"), py::arg("section"),
        "The same meat in a measured section.");
  m.def("brisket_point_tissue", &brisket_point_tissue, py::arg("meat"), "Tissue of a brisket's point.");
  m.def("brisket_seam_tissue", &brisket_seam_tissue, py::arg("meat"), "Tissue of its seam.");
}

} // namespace cook::python
