/// @file
/// The settings of the page: a dozen words and numbers that make a plan.
#pragma once

#include "cook/plan/options.hpp"
#include "cook/plan/plan.hpp"
#include "json/text.hpp"

namespace cook::page {

using json::Json;

inline constexpr const char *first_cooker = "drum";
inline constexpr const char *kitchen_oven = "oven";

/// Where everything stands when the page is opened: the brisket of the README.
[[nodiscard]] Json first_settings();

/// What is asked: {"settings": {...}}, or {"plan": {...}} as json.hpp reads it.
/// Settings: "cut", "cooker", "wrap", "rest" by name, and the numbers of dials(), of which "thickness" and
/// "vapour" may be left out or null: then they are the usual ones of this cut and cooker.
/// @throws InvalidInput whose field is a setting's key where one is to blame, else the path in the plan
[[nodiscard]] Plan plan_of(const Json &ask);

/// Whether the wrap of the settings is never put on, since the meat is off the heat before.
[[nodiscard]] bool wrapped_too_late(const Json &ask);

/// Parts of the physics turned off, from {"physics": {"evaporation": false}}. @throws InvalidInput
[[nodiscard]] Physics physics_of(const Json &ask);

} // namespace cook::page
