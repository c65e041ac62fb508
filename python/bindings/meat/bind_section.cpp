#include "cook/meat/section.hpp"

#include "cook/errors.hpp"
#include "cook/meat/shape.hpp"

#include "calls/door.hpp"
#include "module.hpp"
#include "records/record.hpp"

namespace cook::python {

namespace {

/// A list of lengths, each with a unit or in m.
void lengths(Record<Section> &r, const char *name, std::vector<double> Section::*member, const char *doc) {
  const std::string field = std::string("section.") + name;
  r.add({.name = name,
         .get = [member](Section &s, py::handle) -> py::object { return py::tuple(py::cast(s.*member)); },
         .set =
             [member, field](Section &s, py::handle v) {
               s.*member = coerce("lengths", v, field).cast<std::vector<double>>();
             },
         .doc = doc});
}

} // namespace

void bind_section(py::module_ &m) {
  Record<Section> r(m, "Section", "section",
                    "Lengthwise cross-section of a cut, from the thin flat end to the thick point end.");
  r.quantity("length", &Section::length, "length", "From the flat end to the point end [m].")
      .quantity("width", &Section::width, "length", "Across, the direction the section does not see [m].");
  lengths(r, "at", &Section::at, "Distances from the flat end [m]: 0 first, length last (tuple).");
  lengths(r, "thickness", &Section::thickness, "Thickness of the lean part there [m] (tuple).");
  r.copied("point", &Section::point, "Tissue above the seam, or None: the meat's own.")
      .copied("seam", &Section::seam, "Tissue of the seam, or None: no seam.")
      .quantity("seam_from", &Section::seam_from, "dimensionless",
                "Where the seam leaves the top face, as a share of the length [-].")
      .quantity("seam_height_end", &Section::seam_height_end, "dimensionless",
                "Its height at the point end, as a share of the thickness [-].")
      .quantity("seam_thickness", &Section::seam_thickness, "length", "[m].")
      .quantity("side_share", &Section::side_share, "dimensionless",
                "Share of the two long sides that counts [-], 0 to 1.")
      .finish([](const Section &made) { made.validate("section"); }, "section_form");
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
