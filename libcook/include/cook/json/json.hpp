/// @file
/// Plans and outcomes to and from JSON text (RFC 8259).
///
/// The keys are the names of the members of the structs, the numbers are in their units (SI and °C),
/// enumerators are written as their words. Every document names its format and version:
///
///     {"format": "libcook plan", "version": 1,
///      "meat": {"cut": "brisket", "mass": 6.4},
///      "stages": [{"surroundings": {"pit": "drum", "air": 107}, "until": {"core": 71}},
///                 {"surroundings": {"pit": "drum", "air": 121}, "wrap": "foil", "until": {"core": 94}}]}
///
/// A member that is left out keeps its default; a key that does not exist is an error. What `to_json` writes,
/// the readers give back bit by bit.
#pragma once

#include <string>
#include <string_view>

#include "cook/plan/outcome.hpp"
#include "cook/plan/plan.hpp"

namespace cook {

/// A plan in full: every member, no short forms.
/// @param indent spaces per level; negative: everything on one line
/// @throws InvalidInput for what JSON cannot hold: a number that is not finite, text that is not UTF-8
[[nodiscard]] std::string to_json(const Plan &plan, int indent = 2);

/// Reads a plan and validates it.
///
/// Short forms, all of them described by plan_schema():
/// - meat: {"cut": "brisket", "mass": 6.4} or {"cut": "pork_shoulder", ...}; also "thickness", "start",
/// "fat": "none"
/// - surroundings: {"pit": "drum", "air": 107}, {"oven": 107, "fan": true}, {"counter": 21},
///   {"holding_oven": 66, "humidity": 0.4}, {"insulated_box": {"room": 21, "start": 50}}; members given
///   beside them replace what the short form sets
/// - wrap: a name that wrap() knows
/// - a signal: one number; until: one object for a list of one
/// - times of day: "18:00" or seconds after midnight
/// @throws InvalidInput whose field is the path in the document, for instance "stages[1].until[0].core";
/// malformed
///         text is shown with its line, column and a caret
[[nodiscard]] Plan plan_from_json(std::string_view text);

/// An outcome with its plan.
/// @param fields also the temperature and water of every node, which make up nearly all of the text
/// @param indent as for a plan
/// @throws InvalidInput as for a plan
[[nodiscard]] std::string to_json(const Outcome &outcome, bool fields = false, int indent = -1);

/// Reads an outcome; validates its plan and that the lengths of its arrays agree.
/// @throws InvalidInput as plan_from_json
[[nodiscard]] Outcome outcome_from_json(std::string_view text);

/// The JSON Schema (draft 2020-12) of a plan: the text of `plan.schema.json`, which is installed with the
/// library. It describes the structure; ranges and the sense of the plan are checked by Plan::validate().
[[nodiscard]] std::string_view plan_schema();

} // namespace cook
