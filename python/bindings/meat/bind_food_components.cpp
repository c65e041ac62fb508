#include "cook/meat/tissue_fields.hpp"

#include "module.hpp"
#include "records/record.hpp"

namespace cook::python {

void bind_food_components(py::module_ &m) {
  Record<Composition> r(m);
  r.finish();

  const auto property = [&r](const char *name, double (*function)(const Composition &, double),
                             const char *doc) {
    r.cls.def(
        name,
        [function](const Composition &c, const py::object &temperature) {
          return function(c, read_quantity(temperature, "temperature", "temperature"));
        },
        py::arg("temperature"), doc);
  };
  property("density", mixture_density,
           "Density without pores at a temperature [kg/m³]; Choi & Okos (1986), -40 to 150 °C.");
  property("specific_heat", mixture_specific_heat,
           "Specific heat at a temperature, without melting [J/(kg·K)]; Choi & Okos (1986), -40 to 150 °C.");
  property("enthalpy", mixture_enthalpy,
           "Specific enthalpy, zero at 0 °C [J/kg]: the integral of `specific_heat`.");
  property("conductivity", mixture_conductivity,
           "Conductivity at a temperature [W/(m·K)]: fat dispersed (Maxwell-Eucken) in the other components, "
           "which\n"
           "conduct in parallel; component values by Choi & Okos (1986), -40 to 150 °C.");
  r.cls.def(
      "validate", [](const Composition &c) { c.validate(); },
      "Raise `InvalidInput` unless the fractions are in 0 to 1 and sum to 1 within 0.01.");
}

} // namespace cook::python
