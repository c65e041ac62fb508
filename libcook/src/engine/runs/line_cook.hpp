/// @file
/// A cook on one line or two, set up and ready to begin.
#pragma once

#include <memory>

#include "engine/equations/line_system.hpp"
#include "engine/runs/cook_run.hpp"

namespace cook::engine {

template <std::size_t Lines> struct LineCook {
  std::shared_ptr<const PropertyTable> table; ///< kept for as long as the run needs it
  std::unique_ptr<CookRun<LineSystem<double, PropertyTable, Lines>>> run;
};

/// How many lines a plan's meat is solved on: two where its sides or ends are known and asked for.
[[nodiscard]] std::size_t lines_of(const Meat &meat, const Options &options);

/// The grid of a plan's meat, on lines_of() lines.
[[nodiscard]] Grid line_grid(const Meat &meat, const Options &options);

/// @param plan, options must outlive the cook; lines_of() them is Lines
/// @param table of the plan's tissue and the options' physics
template <std::size_t Lines>
[[nodiscard]] LineCook<Lines> make_line_cook(const Plan &plan, const Options &options,
                                             std::shared_ptr<const PropertyTable> table);

} // namespace cook::engine
