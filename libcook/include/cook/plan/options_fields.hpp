/// @file
/// The fields of how the equations are solved.
#pragma once

#include <array>

#include "cook/fields/field.hpp"
#include "cook/plan/options.hpp"

namespace cook {

constexpr auto words(GridKind /*of*/) {
  return std::array<std::string_view, 3>{"piece", "slab", "cross-section"};
}

template <>
inline constexpr About about<Physics>{"Physics", "physics",
                                      "parts of the physics that can be turned off to see what they do"};
template <>
inline constexpr auto fields_of<Physics> = std::tuple{
    field("evaporation", &Physics::evaporation, "water leaves the faces as vapour"),
    field("squeezing", &Physics::squeezing, "denaturing proteins express juice"),
    field("radiation", &Physics::radiation, "the walls radiate"),
    field("sinks", &Physics::sinks, "melting fat and denaturing protein take up heat"),
};

template <> inline constexpr About about<Options>{"Options", "options", "how the equations are solved"};
template <>
inline constexpr auto fields_of<Options> = std::tuple{
    field("grid", &Options::grid, "what the equations are solved on"),
    field("columns", &Options::columns, kind::none, range::within(11, 801),
          "cross-section: nodes along the length (11 to 801)"),
    field("rows", &Options::rows, kind::none, range::within(9, 401),
          "cross-section: nodes across the thickness (odd, 9 to 401)"),
    field("end_spacing", &Options::end_spacing, kind::length, range::within(1e-5, 0.05),
          "cross-section: distance of the first column from an end face"),
    field("sweeps", &Options::sweeps, kind::none, range::within(1, 20),
          "cross-section: passes of a step's first linear solve (1 to 20); later ones take one less"),
    field("nodes", &Options::nodes, kind::none, range::within(9, 2001),
          "across the thickness (odd, 9 to 2001); half of it along a cylinder's radius"),
    field("face_spacing", &Options::face_spacing, kind::length, range::within(1e-6, 0.05),
          "distance of the first node from a face; without it 0.15 mm for a slab, 0.4 mm for a section"),
    field("temperature_tolerance", &Options::temperature_tolerance, kind::difference,
          range::within(1e-9, 5.0), "local error per step"),
    field("water_tolerance", &Options::water_tolerance, kind::water_content, range::within(1e-10, 0.5),
          "local error per step, of dry solids"),
    field("output_every", &Options::output_every, kind::duration, range::within(0.1, 86400.0),
          "spacing of the stored times"),
    field("keep_fields", &Options::keep_fields, "store every node, not only core and faces"),
    field("max_steps", &Options::max_steps, kind::none, range::within(1, 1e9),
          "steps from one moment of the plan to the next, and within a day, after which it is given up"),
    field("physics", &Options::physics, "switches"),
};

} // namespace cook
