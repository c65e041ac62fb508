#include "cook/meat/food_components.hpp"

#include "module.hpp"
#include "records/record.hpp"

namespace cook::python {

void bind_food_components(py::module_ &m) {
  Record<Composition> r(m, "Composition", "composition",
                        "Mass fractions of a raw food [kg per kg]; they should sum to 1.");
  r.quantity("water", &Composition::water, "dimensionless", "Mass fraction of water [-].")
      .quantity("protein", &Composition::protein, "dimensionless", "Mass fraction of protein [-].")
      .quantity("fat", &Composition::fat, "dimensionless", "Mass fraction of fat [-].")
      .quantity("carbohydrate", &Composition::carbohydrate, "dimensionless",
                "Mass fraction of carbohydrate [-].")
      .quantity("ash", &Composition::ash, "dimensionless", "Mass fraction of ash [-].");
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
