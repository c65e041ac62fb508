/// @file
/// Numbers of a plan by their way: found once, set in thousands of copies.
#pragma once

#include <cstddef>
#include <functional>
#include <span>
#include <string>
#include <variant>

#include "cook/plan/plan.hpp"

namespace cook {

/// A step from an object to what it holds: a member, by the name that messages and Python use, or a place in
/// a list.
using PlanStep = std::variant<std::string, std::size_t>;

/// Sets a number in a plan. What the plan has to be like is what number_in() was given.
using SetNumber = std::function<void(Plan &, double)>;

/// What sets the number at the end of a way: a number, in the unit of its member; a signal, which it makes
/// constant; a film coefficient [W m⁻² K⁻¹]; the value of the one end of a stage. ("meat", "mass") [kg] and
/// ("meat", "thickness") [m] reshape the piece.
/// @param plan what the plans that it will be set in look like: as many stages, the same parts there
/// @return empty where no number is, which includes whole numbers
[[nodiscard]] SetNumber number_in(const Plan &plan, std::span<const PlanStep> way);

} // namespace cook
