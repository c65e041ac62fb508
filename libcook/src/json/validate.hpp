// The checks of what was read, with their fields named as paths in the document.
#pragma once

#include <string>

#include "cook/plan/outcome.hpp"
#include "cook/plan/plan.hpp"

namespace cook::json {

/// Plan::validate(), its fields renamed to the keys of the document.
/// @param prefix of the paths: "" or "plan."
void validate(const Plan &plan, const std::string &prefix);

/// Checks an outcome: its plan, and that its arrays fit each other.
void validate(const Outcome &outcome);

/// A field as Signal::validate() names a bad point, "air[3].time", as a path: "air.time[3]".
std::string point_path(std::string field);

} // namespace cook::json
