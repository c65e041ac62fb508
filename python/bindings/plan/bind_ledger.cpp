#include "cook/plan/outcome.hpp"

#include "module.hpp"
#include "records/record.hpp"

namespace cook::python {

void bind_ledger(py::module_ &m) {
  Record<Ledger> r(m, "Ledger", "ledger",
                   "Totals over the whole cook for the whole piece, and how well they close.");
  const auto total = [&r](const char *name, double Ledger::*member, const char *doc) {
    r.add({.name = name,
           .get = [member](Ledger &l, py::handle) -> py::object { return py::float_(l.*member); },
           .set = [member, name](Ledger &l, py::handle v) { l.*member = read_number(v, name); },
           .doc = doc,
           .fixed = true});
  };
  const auto work = [&r](const char *name, int Ledger::*member, const char *doc) {
    r.add({.name = name,
           .get = [member](Ledger &l, py::handle) -> py::object { return py::int_(l.*member); },
           .set = [member, name](Ledger &l, py::handle v) { l.*member = read_count(v, name); },
           .doc = doc,
           .fixed = true});
  };
  total("heat_stored", &Ledger::heat_stored, "Gain of the meat and of the liquid on it [J].");
  total("convection", &Ledger::convection, "Heat from the air [J].");
  total("radiation", &Ledger::radiation, "Heat from what the faces see [J].");
  total("latent", &Ledger::latent, "Heat taken by evaporation [J].");
  total("water_enthalpy", &Ledger::water_enthalpy, "Carried away by water that left [J].");
  total("spritz_enthalpy", &Ledger::spritz_enthalpy, "Brought by spritzing [J].");
  total("heat_residual", &Ledger::heat_residual, "Stored - (in - out), relative to the largest flow [-].");
  total("water_start", &Ledger::water_start, "Water in the meat at the start [kg].");
  total("water_end", &Ledger::water_end, "Water in the meat at the end [kg].");
  total("on_surface", &Ledger::on_surface, "Liquid on the faces or in the wrap at the end [kg].");
  total("evaporated", &Ledger::evaporated, "Water evaporated [kg].");
  total("run_off", &Ledger::run_off, "Water that ran off [kg].");
  total("spritzed", &Ledger::spritzed, "Water brought by spritzing [kg].");
  total("water_residual", &Ledger::water_residual, "What the water totals miss, relative to the start [-].");
  total("vapour_in", &Ledger::vapour_in, "Vapour that came into balanced air with air and fuel [kg].");
  total("vapour_out", &Ledger::vapour_out,
        "Vapour that left it with the air, or condensed on cold walls [kg].");
  total("pan_given", &Ledger::pan_given, "Vapour from the water pan [kg].");
  total("air_residual", &Ledger::air_residual,
        "What the vapour's totals miss, relative to the largest flow [-].");
  work("steps", &Ledger::steps, "Accepted steps.");
  work("rejected", &Ledger::rejected, "Rejected steps.");
  work("evaluations", &Ledger::evaluations, "Evaluations of the right-hand side.");
  work("factorisations", &Ledger::factorisations, "Matrix factorisations.");
  total("solver_seconds", &Ledger::solver_seconds, "Wall time inside the solver [s].");
  r.finish();
}

} // namespace cook::python
