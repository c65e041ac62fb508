#include "cook/cooker/pit_air.hpp"

#include "cook/cooker/chamber.hpp"

#include "module.hpp"
#include "records/record.hpp"

namespace cook::python {

void bind_pit_air(py::module_ &m) {
  Record<WaterPan>(m, "WaterPan", "water_pan", "A water pan in a cooker.")
      .number("area", &WaterPan::area, "Water surface, and pan bottom [m²].")
      .quantity("water", &WaterPan::water, "mass", "Water at the start [kg].")
      .quantity("temperature", &WaterPan::temperature, "temperature", "Of the water at the start [°C].")
      .nested("film", &WaterPan::film, "Convection at the surface, and under the bottom.", "film")
      .quantity("emissivity", &WaterPan::emissivity, "dimensionless", "Of water and pan [-].")
      .quantity("view", &WaterPan::view, "dimensionless", "Factor on the radiation exchange [-].")
      .quantity("radiant_bottom", &WaterPan::radiant_bottom, "temperature_difference",
                "What the bottom sees, above air temperature (coals) [K].")
      .number("heat_capacity", &WaterPan::heat_capacity, "Of the empty pan [J/K].")
      .finish([](const WaterPan &made) { made.validate(); });
  Record<PitAir>(m, "PitAir", "pit_air",
                 "How a cooker's chamber breathes: the vapour balance of its own air.")
      .number("air_flow", &PitAir::air_flow, "Dry air through the chamber [kg/s].")
      .quantity("inlet_vapour_pressure", &PitAir::inlet_vapour_pressure, "pressure",
                "Of water in the air that comes in [Pa].")
      .number("fuel_water", &PitAir::fuel_water, "Vapour from the fuel [kg/s].")
      .number("volume", &PitAir::volume, "Of the chamber [m³].")
      .quantity("pressure", &PitAir::pressure, "pressure", "Total pressure [Pa].")
      .number("meat_count", &PitAir::meat_count, "How many such pieces share the chamber [-].")
      .nested("pan", &PitAir::pan, "Water pan, or None.")
      .finish([](const PitAir &made) { made.validate(); });
  m.def("chamber_kinds", &chamber_kinds, "Kinds of cooker that `pit_air` knows.");
  m.def(
      "pit_air",
      [](const std::string &kind, double air, double ambient, double humidity, double wind, double pressure) {
        return pit_air(kind, air, ambient, humidity, wind, pressure);
      },
      py::arg("kind"), py::arg("air"), py::arg("ambient"), py::arg("humidity"), py::arg("wind"),
      py::arg("pressure"), "The vapour balance of a generic kind of cooker.");
  m.def("steady_vapour_pressure", &steady_vapour_pressure, py::arg("air"), py::arg("evaporation"),
        "Vapour pressure [Pa] that a balance settles at.");
}

} // namespace cook::python
