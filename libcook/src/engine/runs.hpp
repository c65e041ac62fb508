/// @file
/// A plan solved on a mesh: sets the mesh up and runs the cook on it.
#pragma once

#include <memory>

#include "cook/simulate.hpp"

namespace cook::engine {

/// Slab or cylinder, as the meat's shape says.
[[nodiscard]] std::shared_ptr<const Outcome> run_line(const Plan &plan, const Options &options);
/// Lengthwise cross-section.
[[nodiscard]] std::shared_ptr<const Outcome> run_section(const Plan &plan, const Options &options);

} // namespace cook::engine
