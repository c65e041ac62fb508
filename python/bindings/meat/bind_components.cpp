#include <array>
#include <string_view>

#include "cook/errors.hpp"
#include "cook/meat/food_components.hpp"

#include "calls/door.hpp"
#include "module.hpp"
#include "records/record.hpp"

namespace cook::python {

namespace {

constexpr std::array<std::string_view, 6> component_words{"water",        "protein", "fat",
                                                          "carbohydrate", "fibre",   "ash"};

double inside(double celsius) { return check::celsius("temperature", celsius, -40.0, 150.0); }

void of_component(py::module_ &m, const char *name, double (*f)(Component, double), const char *doc) {
  m.def(
      name,
      [f](const py::object &component, const py::object &temperature) {
        const auto which = static_cast<Component>(read_word(component, component_words, "component"));
        return over_arrays([f, which](double t) { return f(which, inside(t)); },
                           {"temperature"})(temperature);
      },
      py::arg("component"), py::arg("temperature"), doc);
}

void of_mixture(py::module_ &m, const char *name, double (*f)(const Composition &, double), const char *doc) {
  m.def(
      name,
      [f](const py::object &came, const py::object &temperature) {
        const auto &composition = Argument<Composition>::read(came, "composition");
        composition.validate();
        return over_arrays([f, &composition](double t) { return f(composition, inside(t)); },
                           {"temperature"})(temperature);
      },
      py::arg("composition"), py::arg("temperature"), doc);
}

} // namespace

void bind_components(py::module_ &m) {
  of_component(
      m, "component_conductivity", component_conductivity,
      "Conductivity of \"water\", \"protein\", \"fat\", \"carbohydrate\", \"fibre\" or \"ash\" [W/(m·K)].\n\n"
      "Choi & Okos (1986), -40 to 150 °C.");
  of_component(m, "component_density", component_density,
               "Density of a component [kg/m³]; Choi & Okos (1986), -40 to 150 °C.");
  of_component(
      m, "component_specific_heat", component_specific_heat,
      "Specific heat of a component, without melting [J/(kg·K)]; Choi & Okos (1986), -40 to 150 °C.");
  of_component(m, "component_enthalpy", component_enthalpy,
               "Specific enthalpy of a component, zero at 0 °C [J/kg]: the integral of its specific heat by\n"
               "Choi & Okos (1986).");
  of_mixture(m, "mixture_density", mixture_density,
             "Density of a food without pores [kg/m³]: volumes of the components by Choi & Okos (1986).");
  of_mixture(
      m, "mixture_specific_heat", mixture_specific_heat,
      "Specific heat of a food, without melting [J/(kg·K)]: by mass; components by Choi & Okos (1986).");
  of_mixture(m, "mixture_enthalpy", mixture_enthalpy,
             "Specific enthalpy of a food, zero at 0 °C [J/kg]: by mass; components by Choi & Okos (1986).");
  of_mixture(m, "mixture_conductivity", mixture_conductivity,
             "Conductivity of meat, the library's choice [W/(m·K)]: fat dispersed in the parallel rest.\n\n"
             "`conductivity_maxwell_eucken` with components by Choi & Okos (1986).");
  of_mixture(m, "conductivity_parallel", conductivity_parallel,
             "Conductivity with the components side by side along the heat flow [W/(m·K)]: the upper bound;\n"
             "components by Choi & Okos (1986).");
  of_mixture(m, "conductivity_series", conductivity_series,
             "Conductivity with the components in layers across the heat flow [W/(m·K)]: the lower bound;\n"
             "components by Choi & Okos (1986).");
  const auto two_phases = [&m](const char *name, double (*f)(double, double, double), const char *first,
                               const char *second, const char *share, const char *doc) {
    m.def(name,
          over_arrays(
              [=](double a, double b, double v) {
                return f(check::positive(first, a, "W/m K"), check::positive(second, b, "W/m K"),
                         check::within(share, v, 0.0, 1.0, ""));
              },
              {first, second, share}),
          py::arg(first), py::arg(second), py::arg(share), doc);
  };
  two_phases(
      "conductivity_maxwell_eucken", conductivity_maxwell_eucken, "continuous", "dispersed",
      "dispersed_volume_fraction",
      "Maxwell-Eucken conductivity of spheres dispersed in a continuous phase [W/(m·K)]; ASHRAE Handbook -\n"
      "Refrigeration, Thermal Properties of Foods.");
  two_phases("conductivity_levy", conductivity_levy, "phase_1", "phase_2", "volume_fraction_1",
             "Levy's (1981) form of Maxwell-Eucken, the same whichever phase comes first [W/(m·K)].");
}

} // namespace cook::python
