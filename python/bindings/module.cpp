#include "module.hpp"

// The classes of a field are bound before the class that has it.
PYBIND11_MODULE(_core, m) {
  using namespace cook::python;
  // Signatures are in _core.pyi, where they carry types that tools understand.
  pybind11::options options;
  options.disable_function_signatures();

  m.doc() = "The C++ core of libcook. Use it through the package libcook, which knows units.";
  m.attr("__version__") = COOK_VERSION;
  bind_errors(m);
  bind_food_components(m);
  bind_tissue(m);
  bind_section(m);
  bind_shape(m);
  bind_signal(m);
  bind_film(m);
  bind_pit_air(m);
  bind_surroundings(m);
  bind_wrap(m);
  bind_probe(m);
  bind_plan(m);
  bind_ledger(m);
  bind_outcome(m);
  bind_readings(m);
  bind_doneness(m);
  bind_simulate(m);
  bind_simulate_many(m);
  bind_read_many(m);
  bind_json(m);
  bind_parameters(m);
  bind_physics(m);
  bind_components(m);
  bind_equations(m);
  bind_calibrate(m);
  bind_forecast(m);
  bind_schedule(m);
}
