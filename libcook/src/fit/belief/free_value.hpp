/// @file
/// How a free number that was read from one plan is written into a plan that was made from it.
#pragma once

#include <optional>
#include <string>

#include "cook/plan/plan.hpp"

namespace cook {

/// As value_in(), empty when the plan has no such thing.
[[nodiscard]] std::optional<double> value_if_any(const Plan &plan, const std::string &name);

/// As set_value(), for fits: `before` is the number as the plan that the user gave has it, while `plan` has
/// since taken over what a log shows, such as the pit's temperature. So a film that is 1.2 times what the
/// user's plan says is that in both. A probe whose place the plan leaves open is put where its distance says,
/// even where that is the usual one: a fit needs cooks that change smoothly with its numbers.
void write_value(Plan &plan, const std::string &name, double value, double before);

} // namespace cook
