/// @file
/// Pickling of outcomes: plain arrays and facts, nothing live.
#pragma once

#include <memory>

#include <pybind11/pybind11.h>

#include "cook/plan/outcome.hpp"

namespace cook::python {

/// (version, dictionary) of an outcome; arrays are views on it.
pybind11::tuple outcome_state(const pybind11::object &self);
/// The outcome again.
std::shared_ptr<Outcome> outcome_from_state(const pybind11::tuple &state);

} // namespace cook::python
