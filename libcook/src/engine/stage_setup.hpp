/// @file
/// From what the user describes (surroundings, wrap, fat cap) to the numbers of a face.
#pragma once

#include <array>

#include "cook/plan.hpp"
#include "cook/simulate.hpp"
#include "engine/face.hpp"

namespace cook::engine {

/// Settings of a stage's faces: bottom, top, and the lower and upper half of the end faces of a
/// cross-section. Film properties are taken once, at the mean of the stage's first air temperature and a
/// surface of 65 °C: they change the film coefficient by about 1 % per 10 K.
[[nodiscard]] std::array<FaceSetting<double>, 4> face_settings(const Meat &meat, const Stage &stage,
                                                               double start, const Physics &physics);

} // namespace cook::engine
