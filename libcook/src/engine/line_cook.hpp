/// @file
/// A cook on a line, set up and ready to begin.
#pragma once

#include <memory>

#include "engine/cook_run.hpp"
#include "engine/line_system.hpp"

namespace cook::engine {

struct LineCook {
  std::shared_ptr<const PropertyTable> table; ///< kept for as long as the run needs it
  std::unique_ptr<CookRun<LineSystem<double>>> run;
};

/// @param plan, options must outlive the cook
/// @param table of the plan's tissue and the options' physics
[[nodiscard]] LineCook make_line_cook(const Plan &plan, const Options &options,
                                      std::shared_ptr<const PropertyTable> table);

} // namespace cook::engine
