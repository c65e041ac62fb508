/// @file
/// What each binding file adds to the extension module.
#pragma once

#include <pybind11/pybind11.h>

namespace cook::python {

void bind_errors(pybind11::module_ &m);
void bind_fields(pybind11::module_ &m);
void bind_food_components(pybind11::module_ &m);
void bind_tissue(pybind11::module_ &m);
void bind_shape(pybind11::module_ &m);
void bind_signal(pybind11::module_ &m);
void bind_surroundings(pybind11::module_ &m);
void bind_wrap(pybind11::module_ &m);
void bind_film(pybind11::module_ &m);
void bind_pit_air(pybind11::module_ &m);
void bind_probe(pybind11::module_ &m);
void bind_section(pybind11::module_ &m);
void bind_doneness(pybind11::module_ &m);
void bind_plan(pybind11::module_ &m);
void bind_ledger(pybind11::module_ &m);
void bind_outcome(pybind11::module_ &m);
void bind_readings(pybind11::module_ &m);
void bind_simulate(pybind11::module_ &m);
void bind_simulate_many(pybind11::module_ &m);
void bind_plan_batch(pybind11::module_ &m);
void bind_read_many(pybind11::module_ &m);
void bind_json(pybind11::module_ &m);
void bind_parameters(pybind11::module_ &m);
void bind_physics(pybind11::module_ &m);
void bind_components(pybind11::module_ &m);
void bind_equations(pybind11::module_ &m);
void bind_calibrate(pybind11::module_ &m);
void bind_forecast(pybind11::module_ &m);
void bind_belief(pybind11::module_ &m);
void bind_schedule(pybind11::module_ &m);
void bind_futures(pybind11::module_ &m);

} // namespace cook::python
