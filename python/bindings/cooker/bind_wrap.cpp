#include "cook/cooker/wrap.hpp"

#include "module.hpp"
#include "records/record.hpp"

namespace cook::python {

void bind_wrap(py::module_ &m) {
  Record<Covering>(m, "Covering", "covering",
                   "What lies between one face and the air. The numbers of\n"
                   "each wrap, with range and source: ``libcook.parameters()``, rows ``wrap.*``.")
      .quantity("vapour_resistance", &Covering::vapour_resistance, "vapour_resistance",
                "1 / conductance for a vapour density difference [s/m].")
      .quantity("heat_resistance", &Covering::heat_resistance, "heat_resistance",
                "Sheet, trapped air or steam [m²·K/W].")
      .maybe("emissivity", &Covering::emissivity, "dimensionless",
             "Of the outside [-]; None: the meat's own.")
      .maybe("juice_capacity", &Covering::juice_capacity, "areal_mass",
             "Liquid it keeps at the face before running off [kg/m²]; None: as a bare face.")
      .finish();
  Record<Wrap> wraps(m, "Wrap", "wrap", "A wrap: its coverings of the two faces.");
  wraps.text("name", &Wrap::name, "What it is called.")
      .nested("bottom", &Wrap::bottom, "Covering of the bottom face.")
      .nested("top", &Wrap::top, "Covering of the top face.")
      .nested("ends", &Wrap::ends,
              "Covering of the end faces of a cross-section; None: below as the bottom, above as the top.")
      .finish([](const Wrap &made) { made.validate("wrap"); });
  m.def("wrap", &wrap, py::arg("name"), "A wrap by name.");
  m.def("wrap_names", &wrap_names, "Names that `wrap` takes.");
}

} // namespace cook::python
