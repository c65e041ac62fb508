#include "cook/errors.hpp"
#include "cook/meat/tissue_fields.hpp"

#include "calls/door.hpp"
#include "module.hpp"
#include "records/record.hpp"

namespace cook::python {

void bind_tissue(py::module_ &m) {
  Record<WaterHolding>(m).finish();
  Record<WaterMobility>(m).finish();
  Record<Sorption> sorption(m);
  sorption.finish();
  sorption.cls
      .def("water_activity",
           door([](const Sorption &s,
                   double x) { return s.water_activity(check::not_negative("water_content", x, "kg/kg")); },
                {"self", "water_content"}),
           py::arg("water_content"), "Water activity at a water content [kg/kg dry] [-].")
      .def("water_content",
           door([](const Sorption &s, double a) { return s.water_content(a); }, {"self", "activity"}),
           py::arg("activity"), "Water content at a water activity in 0 to 1 [kg/kg dry].");
  Record<HeatSinks>(m).finish();
  Record<Exudation>(m).finish();
  Record<FixedThermal>(m).finish();
  Record<Tenderness>(m).finish();

  Record<Tissue> r(m);
  // The order of the constructor's arguments.
  r.before("cooked_conductivity", "fixed").before("emissivity", "fixed");
  r.finish();

  r.cls.def_property_readonly("raw_density", &Tissue::raw_density, "Density at 5 °C [kg/m³].")
      .def_property_readonly("solids_density", &Tissue::solids_density,
                             "Fat-free dry solids per raw volume [kg/m³].")
      .def_property_readonly("fat_density", &Tissue::fat_density, "Fat per raw volume [kg/m³].")
      .def_property_readonly("raw_water_content", &Tissue::raw_water_content,
                             "Water per fat-free dry solids, raw [kg/kg].");
  const auto curve = [&r](const char *name, double (Tissue::*function)(double) const, const char *doc) {
    r.cls.def(
        name,
        [function](const Tissue &tissue, const py::object &temperature) {
          return (tissue.*function)(read_quantity(temperature, "temperature", "temperature"));
        },
        py::arg("temperature"), doc);
  };
  curve("held_water", &Tissue::held_water, "Water held by the proteins at a temperature [kg/kg dry].");
  curve("expressed_mobility", &Tissue::expressed_mobility,
        "Mobility of expressed juice [m²/s]: permeability x modulus / viscosity, scaled to its value at 60 "
        "°C.");
  curve("held_mobility", &Tissue::held_mobility, "Mobility of held water in wet tissue [m²/s], Arrhenius.");
  curve("denaturation_enthalpy", &Tissue::denaturation_enthalpy,
        "Denaturation heat taken up on the way to a temperature [J per m³ raw].");
  r.cls.def(
      "validate", [](const Tissue &tissue) { tissue.validate("tissue"); },
      "Raise `InvalidInput` naming the field that is out of range.");

  m.def("brisket_tissue", &brisket_tissue, "Tissue of a trimmed brisket flat.");
  m.def("pork_shoulder_tissue", &pork_shoulder_tissue, "Tissue of a pork shoulder.");
}

} // namespace cook::python
