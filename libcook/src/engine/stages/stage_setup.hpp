/// @file
/// From what the user describes (surroundings, wrap, fat cap) to the numbers of a face.
#pragma once

#include <array>

#include "cook/plan/options.hpp"
#include "cook/plan/plan.hpp"
#include "engine/faces/face_terms.hpp"

namespace cook::engine {

/// Settings of a stage's faces: bottom, top, and the lower and upper half of a cross-section's end faces or
/// of a whole piece's rim. Film properties are taken once, at the mean of the air's mean temperature, over
/// all that is given of it, and a surface of 65 °C: they change the film coefficient by about 1 % per 10 K.
/// When the stage begins does not matter, so a stage cut in two is the same cook.
/// @param upright share of those halves that is upright, the rest being as the bottom or top: 1 for end
/// faces, of a rim its rim_side_share(). The two parts are beside each other, so what passes through them
/// adds up.
[[nodiscard]] std::array<FaceSetting<double>, 4> face_settings(const Meat &meat, const Stage &stage,
                                                               const Physics &physics, double upright = 1.0);

} // namespace cook::engine
