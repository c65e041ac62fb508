#include "cook/meat/tissue.hpp"

#include "cook/errors.hpp"

#include "calls/door.hpp"
#include "module.hpp"
#include "records/record.hpp"

namespace cook::python {

namespace {

void bind_water(py::module_ &m) {
  Record<WaterHolding>(
      m, "WaterHolding", "holding",
      "How much water the proteins still hold at a temperature, as a share of the raw water.\n\n"
      "held(T) = 1 - (1 - final_share) / (1 + exp(-(T - midpoint) / width)), after van der Sman, AIChE J. "
      "53\n"
      "(2007) 2986, read on a raw-mass basis; 20 to 100 °C.")
      .quantity("final_share", &WaterHolding::final_share, "dimensionless",
                "Share of the raw water still held when fully cooked [-].")
      .quantity("midpoint", &WaterHolding::midpoint, "temperature", "Temperature of half the release [°C].")
      .quantity("width", &WaterHolding::width, "temperature_difference", "Width of the sigmoid [K].")
      .finish();
  Record<WaterMobility>(
      m, "WaterMobility", "mobility",
      "How fast water moves through tissue: what the proteins squeeze out, and what they hold.")
      .quantity("expressed", &WaterMobility::expressed, "diffusivity",
                "Mobility of expressed juice at 60 °C [m²/s]; tuned.")
      .quantity("held", &WaterMobility::held, "diffusivity", "Mobility of held water at 60 °C [m²/s].")
      .number("held_activation", &WaterMobility::held_activation,
              "Activation energy of the held mobility [J/mol].")
      .number("dry_below", &WaterMobility::dry_below,
              "Water content below which held mobility falls steeply [kg/kg dry].")
      .quantity("dry_floor", &WaterMobility::dry_floor, "dimensionless",
                "Share of the held mobility left in bone-dry crust [-].")
      .number("switch_width", &WaterMobility::switch_width,
              "Width of the smooth onset of expression above held water [kg/kg dry].")
      .finish();
  Record<Sorption> sorption(
      m, "Sorption", "sorption",
      "Guggenheim-Anderson-de Boer sorption isotherm: water activity against water content.");
  sorption.number("monolayer", &Sorption::monolayer, "Monolayer water content X_m [kg/kg dry].")
      .number("c", &Sorption::c, "Energy constant C [-].")
      .number("k", &Sorption::k, "Multilayer constant K [-].")
      .finish();
  sorption.cls
      .def("water_activity",
           door([](const Sorption &s,
                   double x) { return s.water_activity(check::not_negative("water_content", x, "kg/kg")); },
                {"self", "water_content"}),
           py::arg("water_content"), "Water activity at a water content [kg/kg dry] [-].")
      .def("water_content",
           door([](const Sorption &s, double a) { return s.water_content(a); }, {"self", "activity"}),
           py::arg("activity"), "Water content at a water activity in 0 to 1 [kg/kg dry].");
}

void bind_heat_and_juice(py::module_ &m) {
  Record<HeatSinks>(m, "HeatSinks", "sinks",
                    "Heat taken up by melting fat and denaturing protein, spread over temperature ranges.")
      .quantity("fat_latent", &HeatSinks::fat_latent, "specific_energy",
                "Latent heat of melting fat [J/kg fat].")
      .quantity("fat_melt_start", &HeatSinks::fat_melt_start, "temperature", "Start of melting [°C].")
      .quantity("fat_melt_end", &HeatSinks::fat_melt_end, "temperature", "End of melting [°C].")
      .quantity("denaturation", &HeatSinks::denaturation, "specific_energy",
                "Total denaturation enthalpy [J/kg protein].")
      .quantity("denaturation_start", &HeatSinks::denaturation_start, "temperature",
                "Start of denaturation [°C].")
      .quantity("denaturation_end", &HeatSinks::denaturation_end, "temperature", "End of denaturation [°C].")
      .finish();
  Record<Exudation>(m, "Exudation", "exudation", "What happens to juice that reaches a face.")
      .quantity("path", &Exudation::path, "length", "Length over which juice leaves the surface tissue [m].")
      .quantity("bare_film", &Exudation::bare_film, "areal_mass",
                "Liquid a bare face holds before it runs off [kg/m²].")
      .quantity("run_off_time", &Exudation::run_off_time, "duration", "Time constant of running off [s].")
      .finish();
  Record<FixedThermal>(
      m, "FixedThermal", "fixed",
      "Constant thermal properties: for checks against textbook solutions, and other materials.")
      .quantity("conductivity", &FixedThermal::conductivity, "conductivity",
                "Thermal conductivity [W/(m·K)].")
      .number("heat_capacity", &FixedThermal::heat_capacity, "Heat capacity per volume [J/(m³·K)].")
      .finish();
  Record<Tenderness>(m, "Tenderness", "tenderness",
                     "Collagen turning to gelatin, first order in time and Arrhenius in temperature.")
      .number("rate_90", &Tenderness::rate_90, "Rate at 90 °C [1/s].")
      .number("activation", &Tenderness::activation, "Activation energy [J/mol].")
      .finish();
}

} // namespace

void bind_tissue(py::module_ &m) {
  bind_water(m);
  bind_heat_and_juice(m);

  Record<Tissue> r(m, "Tissue", "tissue", "Meat as a material: the numbers of the model.");
  r.text("name", &Tissue::name, "What it is called.")
      .nested("composition", &Tissue::composition, "What it is made of.")
      .nested("holding", &Tissue::holding, "Water that the proteins hold.")
      .nested("mobility", &Tissue::mobility, "How fast water moves.")
      .nested("sorption", &Tissue::sorption, "Water activity.")
      .nested("sinks", &Tissue::sinks, "Melting and denaturation.")
      .nested("exudation", &Tissue::exudation, "Juice at a face.")
      .nested("tenderness", &Tissue::tenderness, "Collagen kinetics.")
      .quantity("cooked_conductivity", &Tissue::cooked_conductivity, "dimensionless",
                "Conductivity of cooked tissue over that of raw tissue of the same composition [-].")
      .quantity("emissivity", &Tissue::emissivity, "dimensionless",
                "Of a bare or fat face in the thermal infrared [-].");
  r.nested("fixed", &Tissue::fixed,
           "Constant thermal properties in place of those from the composition, or None.");
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
