#include "cook/cooker/evaporation.hpp"
#include "cook/cooker/film_coefficient.hpp"
#include "cook/cooker/humid_air.hpp"
#include "cook/errors.hpp"
#include "cook/meat/kinetics.hpp"

#include "calls/door.hpp"
#include "module.hpp"
#include "records/record.hpp"

// The functions of the physics headers, over arrays: NumPy's broadcasting rules, a float for floats. They are
// noexcept in C++, being made for inner loops; here they are called by hand, so what goes in is checked.

namespace cook::python {

namespace {

double air_temperature(const char *name, double value) { return check::celsius(name, value, -100.0, 600.0); }

double total_pressure(double value) {
  return check::within("pressure", value, 1e3, 1e7, "Pa", "pressures are in Pa: 1 atm is 101325");
}

double partial_pressure(const char *name, double value, double pressure) {
  return check::within(name, value, 0.0, pressure, "Pa", "pressures are in Pa: 8 kPa is 8000");
}

/// f(temperature).
void of_temperature(py::module_ &m, const char *name, double (*f)(double), const char *doc) {
  m.def(name, over_arrays([f](double t) { return f(air_temperature("temperature", t)); }, {"temperature"}),
        py::arg("temperature"), doc);
}

/// f(temperature, pressure).
void of_pressure(py::module_ &m, const char *name, double (*f)(double, double), const char *doc) {
  m.def(
      name,
      over_arrays([f](double t, double p) { return f(air_temperature("temperature", t), total_pressure(p)); },
                  {"temperature", "pressure"}),
      py::arg("temperature"), py::arg("pressure") = standard_atmosphere, doc);
}

/// f(vapour_pressure, pressure).
void of_vapour(py::module_ &m, const char *name, double (*f)(double, double), double share, const char *doc) {
  m.def(name,
        over_arrays(
            [f, share](double v, double p) {
              return f(partial_pressure("vapour_pressure", v, share * total_pressure(p)), p);
            },
            {"vapour_pressure", "pressure"}),
        py::arg("vapour_pressure"), py::arg("pressure") = standard_atmosphere, doc);
}

/// f(temperature, vapour_pressure, pressure).
void of_humid_air(py::module_ &m, const char *name, double (*f)(double, double, double), const char *doc) {
  m.def(name,
        over_arrays(
            [f](double t, double v, double p) {
              air_temperature("temperature", t);
              return f(t, partial_pressure("vapour_pressure", v, total_pressure(p)), p);
            },
            {"temperature", "vapour_pressure", "pressure"}),
        py::arg("temperature"), py::arg("vapour_pressure"), py::arg("pressure") = standard_atmosphere, doc);
}

void bind_humidity(py::module_ &m) {
  of_temperature(
      m, "saturation_pressure", saturation_pressure,
      "Saturation pressure of water vapour over liquid water at a temperature [Pa].\n\n"
      "Hyland & Wexler (1983), ASHRAE Handbook - Fundamentals, ch. 1; 0 to 200 °C, and over supercooled\n"
      "water down to -20 °C. Outside that it is finite and increasing, but means nothing.");
  m.def("saturation_temperature", over_arrays(saturation_temperature, {"pressure"}), py::arg("pressure"),
        "Boiling point, or dew point, at a pressure of water vapour [Pa -> °C]; -20 to 200 °C.\n\n"
        "Inverse of `saturation_pressure`: Hyland & Wexler (1983).");
  of_temperature(m, "latent_heat", latent_heat,
                 "Latent heat of vaporisation of water at a temperature [J/kg].\n\n"
                 "Cubic fitted to IAPWS SR1-86 (1992); within 0.04 % from 0.01 to 200 °C.");
  of_vapour(m, "humidity_ratio", humidity_ratio, 0.999,
            "Humidity ratio of a vapour pressure [kg water per kg dry air]; ideal gases.");
  m.def("vapour_pressure_from_humidity_ratio",
        over_arrays(
            [](double w, double p) {
              check::within("humidity_ratio", w, 0.0, 1e3, "kg/kg", "5 g/kg is 0.005");
              return vapour_pressure_from_humidity_ratio(w, total_pressure(p));
            },
            {"humidity_ratio", "pressure"}),
        py::arg("humidity_ratio"), py::arg("pressure") = standard_atmosphere,
        "Vapour pressure of a humidity ratio [Pa]; inverse of `humidity_ratio`, ideal gases.");
  m.def("relative_humidity",
        over_arrays(
            [](double t, double v) {
              return relative_humidity(air_temperature("temperature", t),
                                       check::within("vapour_pressure", v, 0.0, 1e7, "Pa"));
            },
            {"temperature", "vapour_pressure"}),
        py::arg("temperature"), py::arg("vapour_pressure"),
        "Relative humidity [-]: by definition vapour pressure over the saturation pressure at the air "
        "temperature.");
  m.def("vapour_pressure_from_relative_humidity",
        over_arrays(
            [](double t, double rh) {
              air_temperature("temperature", t);
              return vapour_pressure_from_relative_humidity(
                  t, check::within("relative_humidity", rh, 0.0, 1.0, "", "50 % is 0.5"));
            },
            {"temperature", "relative_humidity"}),
        py::arg("temperature"), py::arg("relative_humidity"),
        "Vapour pressure of a relative humidity [Pa], by definition a share of saturation.");
  m.def("dew_point", over_arrays(dew_point, {"vapour_pressure"}), py::arg("vapour_pressure"),
        "Dew point of a vapour pressure [Pa -> °C], over liquid water; -20 to 200 °C.\n\n"
        "Inverse of `saturation_pressure`: Hyland & Wexler (1983).");
  m.def("humid_air_enthalpy",
        over_arrays(
            [](double t, double w) {
              air_temperature("temperature", t);
              return humid_air_enthalpy(t, check::within("humidity_ratio", w, 0.0, 1e3, "kg/kg"));
            },
            {"temperature", "humidity_ratio"}),
        py::arg("temperature"), py::arg("humidity_ratio"),
        "Enthalpy of humid air [J per kg dry air], zero for dry air and liquid water at 0 °C.\n\n"
        "ASHRAE Handbook - Fundamentals, ch. 1: 1006 t + W (2 501 000 + 1860 t).");
  m.def("wet_bulb", over_arrays(wet_bulb, {"temperature", "vapour_pressure", "pressure"}),
        py::arg("temperature"), py::arg("vapour_pressure"), py::arg("pressure") = standard_atmosphere,
        "Thermodynamic wet-bulb (adiabatic saturation) temperature [°C].\n\n"
        "ASHRAE Handbook - Fundamentals, ch. 1, over liquid water; air of 0 to 300 °C. A wet surface also "
        "takes "
        "up\nradiation and is warmer: see `wet_surface`.");
}

void bind_air(py::module_ &m) {
  of_pressure(m, "air_density", air_density, "Density of dry air [kg/m³]; ideal gas.");
  of_humid_air(m, "humid_air_density", humid_air_density, "Density of humid air [kg/m³]; ideal gases.");
  of_temperature(
      m, "air_specific_heat", air_specific_heat,
      "Specific heat of dry air at constant pressure [J/(kg·K)]; within 0.2 % from -20 to 200 °C.\n\n"
      "Parabola through Incropera & DeWitt, Table A.4 (300, 350, 400 K; from memory).");
  of_humid_air(
      m, "humid_air_specific_heat", humid_air_specific_heat,
      "Specific heat of humid air [J per kg of mixture and K]; by mass, vapour 1860 J/(kg·K) (ASHRAE).");
  of_temperature(m, "air_conductivity", air_conductivity,
                 "Thermal conductivity of dry air [W/(m·K)]; U.S. Standard Atmosphere 1976, eq. 53.");
  of_temperature(m, "air_viscosity", air_viscosity,
                 "Dynamic viscosity of dry air [Pa·s]; Sutherland, U.S. Standard Atmosphere 1976, eq. 51.");
  of_temperature(m, "air_prandtl", air_prandtl, "Prandtl number of dry air [-]; by definition cp mu / k.");
  of_pressure(m, "air_thermal_diffusivity", air_thermal_diffusivity,
              "Thermal diffusivity of dry air [m²/s]; by definition k / (rho cp).");
  of_pressure(
      m, "vapour_diffusivity", vapour_diffusivity,
      "Diffusivity of water vapour in air [m²/s].\n\n"
      "Marrero & Mason, J. Phys. Chem. Ref. Data 1:3 (1972): 1.87e-10 T^2.072 / p, T in K, p in atm; 9 to "
      "177 °C.");
}

WetSurface settle(double air, double vapour, double h, double emissivity, std::optional<double> radiant,
                  double pressure, double activity) {
  return wet_surface({.air_temperature = air,
                      .vapour_pressure = vapour,
                      .film_coefficient = h,
                      .emissivity = emissivity,
                      .radiant_temperature = radiant.value_or(air),
                      .pressure = pressure,
                      .water_activity = activity});
}

void bind_evaporation(py::module_ &m) {
  of_temperature(
      m, "lewis_number", lewis_number,
      "Lewis number of water vapour in air at a film temperature [-]: about 0.83 to 0.87; by definition\n"
      "`air_thermal_diffusivity` over `vapour_diffusivity`.");
  of_pressure(
      m, "lewis_factor", lewis_factor,
      "Mass-transfer coefficient per film coefficient at a film temperature [m³·K/J].\n\n"
      "Chilton & Colburn (1934): 1 / (rho cp Le^(2/3)); multiplies a difference of vapour densities.");
  of_vapour(m, "stefan_potential", stefan_potential, 10.0,
            "Potential of diffusion through stagnant air, -ln(1 - p_v / p) [-], straight from 98 % on.\n\n"
            "Bird, Stewart & Lightfoot, Transport Phenomena (1960), ch. 18.");
  m.def("evaporation_flux",
        over_arrays(
            [](double hm, double film, double surface, double vapour, double p) {
              check::not_negative("mass_transfer_coefficient", hm, "m/s");
              return evaporation_flux(
                  hm, air_temperature("film_temperature", film),
                  partial_pressure("surface_vapour_pressure", surface, 10.0 * total_pressure(p)),
                  partial_pressure("vapour_pressure", vapour, p), p);
            },
            {"mass_transfer_coefficient", "film_temperature", "surface_vapour_pressure", "vapour_pressure",
             "pressure"}),
        py::arg("mass_transfer_coefficient"), py::arg("film_temperature"), py::arg("surface_vapour_pressure"),
        py::arg("vapour_pressure"), py::arg("pressure") = standard_atmosphere,
        "Evaporation from a surface [kg/(m²·s)], with Stefan flow; negative when vapour condenses.\n\n"
        "h_m p / (R_v T_film) [potential(p_surface) - potential(p_air)], outward positive; Bird, Stewart &\n"
        "Lightfoot, Transport Phenomena (1960), ch. 18, with `stefan_potential`.");

  py::class_<WetSurface>(
      m, "WetSurface",
      "A wet surface in balance: convection and radiation in, evaporation out, nothing inward.")
      .def_readonly("temperature", &WetSurface::temperature, "Of the surface [°C].")
      .def_readonly("evaporation", &WetSurface::evaporation,
                    "Water leaving [kg/(m²·s)]; negative: condensing.")
      .def_readonly("convection", &WetSurface::convection, "Heat in [W/m²].")
      .def_readonly("radiation", &WetSurface::radiation, "Heat in [W/m²].");
  m.def("wet_surface",
        door(settle, {"air_temperature", "vapour_pressure", "film_coefficient", "emissivity",
                      "radiant_temperature", "pressure", "water_activity"}),
        py::arg("air_temperature") = 107.0, py::arg("vapour_pressure") = 3000.0,
        py::arg("film_coefficient") = 5.0, py::arg("emissivity") = 0.9,
        py::arg("radiant_temperature") = py::none(), py::arg("pressure") = standard_atmosphere,
        py::arg("water_activity") = 1.0,
        "Where a wet surface settles, the floor of a stall: a `WetSurface` [°C, kg/(m²·s), W/m²].\n\n"
        "Solves h (T_air - T_s) + eps sigma (T_rad^4 - T_s^4) = m L(T_s) with Stefan flow and the "
        "Chilton-Colburn\n"
        "analogy. Radiant temperature: that of the air unless given. With emissivity 0 it is the "
        "psychrometer's\n"
        "wet-bulb temperature. Sources: `evaporation_flux`, `lewis_factor` (Chilton & Colburn, 1934).");
}

void bind_nusselt(py::module_ &m) {
  const auto one = [&m](const char *name, double (*f)(double), const char *doc) {
    m.def(name,
          over_arrays([f](double ra) { return f(check::not_negative("rayleigh", ra, "")); }, {"rayleigh"}),
          py::arg("rayleigh"), doc);
  };
  const auto two = [&m](const char *name, const char *number, double (*f)(double, double), const char *doc) {
    m.def(name,
          over_arrays(
              [f, number](double value, double pr) {
                return f(check::not_negative(number, value, ""), check::positive("prandtl", pr, ""));
              },
              {number, "prandtl"}),
          py::arg(number), py::arg("prandtl"), doc);
  };
  one("nusselt_plate_buoyant", nusselt_plate_buoyant,
      "Nusselt number of a horizontal plate, hot side up or cold side down [-]; McAdams (1954), Ra 1e4 to "
      "1e11,\n"
      "length = area / perimeter.");
  one("nusselt_plate_stable", nusselt_plate_stable,
      "Nusselt number of a horizontal plate, hot side down or cold side up [-]; McAdams (1954), Ra 1e5 to "
      "1e10,\n"
      "length = area / perimeter.");
  two("nusselt_vertical_plate", "rayleigh", nusselt_vertical_plate,
      "Nusselt number of a vertical plate [-]; Churchill & Chu (1975), Ra up to 1e12.");
  two("nusselt_vertical_plate_laminar", "rayleigh", nusselt_vertical_plate_laminar,
      "Nusselt number of a vertical plate, laminar [-]; Churchill & Chu (1975), Ra below 1e9.");
  two("nusselt_horizontal_cylinder", "rayleigh", nusselt_horizontal_cylinder,
      "Nusselt number of a long horizontal cylinder [-]; Churchill & Chu (1975), Ra up to 1e12.");
  two("nusselt_sphere", "rayleigh", nusselt_sphere,
      "Nusselt number of a sphere in still air [-]; Churchill (1983), Ra up to 1e11, Pr at least 0.5.");
  two("nusselt_forced_plate_laminar", "reynolds", nusselt_forced_plate_laminar,
      "Mean Nusselt number along a flat plate, laminar [-]; Pohlhausen (1921), Re up to 5e5.");
  two("nusselt_forced_plate", "reynolds", nusselt_forced_plate,
      "Mean Nusselt number along a flat plate, transition at 5e5 [-]; Incropera & DeWitt, ch. 7, Re up to\n"
      "1e8.");
  two("nusselt_cross_flow_cylinder", "reynolds", nusselt_cross_flow_cylinder,
      "Mean Nusselt number across a cylinder [-]; Churchill & Bernstein (1977), Re Pr at least 0.2.");
  m.def("natural_plate",
        door(
            [](double surface, double air, double length, const std::string &facing) {
              if (facing != "up" && facing != "down") {
                throw InvalidInput("facing", in_quotes(facing) + " came; 'up' or 'down' is accepted");
              }
              return natural_plate(surface, air, length, facing == "up" ? Facing::up : Facing::down);
            },
            {"surface_temperature", "air_temperature", "length", "facing"}),
        py::arg("surface_temperature"), py::arg("air_temperature"), py::arg("length"), py::arg("facing"),
        "Film coefficient of still air at a horizontal face looking \"up\" or \"down\" [W/(m²·K)].\n\n"
        "McAdams (1954); length [m] is area / perimeter. See `nusselt_plate_buoyant` and "
        "`nusselt_plate_stable`.");
  m.def("forced_plate",
        over_arrays(
            [](double velocity, double length, double film) {
              check::not_negative("velocity", velocity, "m/s");
              return forced_plate(velocity, check::positive("length", length, "m"),
                                  air_temperature("film_temperature", film));
            },
            {"velocity", "length", "film_temperature"}),
        py::arg("velocity"), py::arg("length"), py::arg("film_temperature"),
        "Film coefficient of air moving along a flat face [W/(m²·K)], mean over its length [m].\n\n"
        "Incropera & DeWitt, ch. 7: `nusselt_forced_plate`.");
}

void bind_kinetics(py::module_ &m) {
  const auto rate = [&m](const char *name, Arrhenius law, const char *doc) {
    m.def(
        name,
        over_arrays([law](double t) { return law.rate(air_temperature("temperature", t)); }, {"temperature"}),
        py::arg("temperature"), doc);
  };
  rate("collagen_denaturation_rate", collagen_denaturation,
       "First-order rate of collagen shrinking [1/s]; Pearce et al. (from memory), 50 to 80 °C. Half the "
       "drop in\n"
       "shear force of beef took 11 min at 58 °C (Machlik & Draudt, 1963); this gives 13.");
  rate("collagen_solubilisation_rate", collagen_solubilisation(),
       "First-order rate of collagen turning to gelatin [1/s]; low confidence: by definition 1.8e-4 at 90 °C "
       "and\n"
       "110 kJ/mol, from trade equivalences (common practice, no source).");
  rate("myoglobin_denaturation_rate", myoglobin_denaturation,
       "First-order rate of myoglobin losing its red [1/s]; Geileskey et al. (1998), 55 to 75 °C.");
  of_temperature(m, "decimal_reduction_time", decimal_reduction_time,
                 "Time for one log10 reduction of Salmonella in beef [s]; fitted to USDA FSIS Appendix A, "
                 "130 to 158 °F\n"
                 "(54.4 to 70 °C), and constant beyond. Local food-safety rules come first.");
  of_temperature(
      m, "lethality_rate", lethality_rate,
      "Rate of Salmonella reduction in beef [log10/s]: nothing below 54.4 °C, no more than at 70 °C above\n"
      "it. Local food-safety rules come first. Fitted to USDA FSIS Appendix A.");
}

} // namespace

void bind_physics(py::module_ &m) {
  bind_humidity(m);
  bind_air(m);
  bind_evaporation(m);
  bind_nusselt(m);
  bind_kinetics(m);
}

} // namespace cook::python
