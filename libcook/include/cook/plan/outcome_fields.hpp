/// @file
/// The fields of an outcome and its ledger.
#pragma once

#include "cook/plan/outcome.hpp"
#include "cook/plan/plan_fields.hpp"

namespace cook {

template <>
inline constexpr auto fields_of<StageEnd> = std::tuple{
    field("name", &StageEnd::name, "of the stage"),
    field("start", &StageEnd::start, kind::duration, range::any, "when the stage began"),
    field("time", &StageEnd::time, kind::duration, range::any, "when it ended"),
    field("core", &StageEnd::core, kind::temperature, range::any, "core temperature then"),
    field("reason", &StageEnd::reason, "which end condition, in words"),
};

template <>
inline constexpr auto fields_of<ProbeTrace> = std::tuple{
    field("name", &ProbeTrace::name, "\"flat\", \"point\", or as asked for"),
    field("x", &ProbeTrace::x, kind::length, range::any, "from the flat end"),
    field("z", &ProbeTrace::z, kind::length, range::any, "from the bottom"),
    field("temperature", &ProbeTrace::temperature, kind::temperature, range::any, "what it reads"),
    field("tenderness", &ProbeTrace::tenderness, kind::share, range::any, "collagen converted there"),
};

template <>
inline constexpr auto fields_of<Event> = std::tuple{
    field("time", &Event::time, kind::duration, range::any, "when"),
    field("what", &Event::what, "\"spritz\" or \"lid\""),
};

template <>
inline constexpr About about<Ledger>{
    "Ledger", "ledger", "totals over the whole cook for the whole piece, and how well they close"};
template <>
inline constexpr auto fields_of<Ledger> = std::tuple{
    field("heat_stored", &Ledger::heat_stored, kind::energy, range::any,
          "gain of the meat and of the liquid on it"),
    field("convection", &Ledger::convection, kind::energy, range::any, "heat from the air"),
    field("radiation", &Ledger::radiation, kind::energy, range::any, "heat from what the faces see"),
    field("latent", &Ledger::latent, kind::energy, range::any, "heat taken by evaporation"),
    field("water_enthalpy", &Ledger::water_enthalpy, kind::energy, range::any,
          "carried away by water that left"),
    field("spritz_enthalpy", &Ledger::spritz_enthalpy, kind::energy, range::any, "brought by spritzing"),
    field("heat_residual", &Ledger::heat_residual, kind::number, range::any,
          "stored - (in - out), relative to the largest flow"),
    field("water_start", &Ledger::water_start, kind::mass, range::any, "water in the meat at the start"),
    field("water_end", &Ledger::water_end, kind::mass, range::any, "water in the meat at the end"),
    field("on_surface", &Ledger::on_surface, kind::mass, range::any,
          "liquid on the faces or in the wrap at the end"),
    field("evaporated", &Ledger::evaporated, kind::mass, range::any, "water evaporated"),
    field("run_off", &Ledger::run_off, kind::mass, range::any, "water that ran off"),
    field("spritzed", &Ledger::spritzed, kind::mass, range::any, "water brought by spritzing"),
    field("water_residual", &Ledger::water_residual, kind::number, range::any,
          "what the water totals miss, relative to the start"),
    field("vapour_in", &Ledger::vapour_in, kind::mass, range::any,
          "vapour that came into balanced air with air and fuel"),
    field("vapour_out", &Ledger::vapour_out, kind::mass, range::any,
          "vapour that left it with the air, or condensed on cold walls"),
    field("pan_given", &Ledger::pan_given, kind::mass, range::any, "vapour from the water pan"),
    field("air_residual", &Ledger::air_residual, kind::number, range::any,
          "what the vapour's totals miss, relative to the largest flow"),
    field("steps", &Ledger::steps, "accepted steps"),
    field("rejected", &Ledger::rejected, "rejected steps"),
    field("evaluations", &Ledger::evaluations, "evaluations of the right-hand side"),
    field("factorisations", &Ledger::factorisations, "matrix factorisations"),
    field("solver_seconds", &Ledger::solver_seconds, kind::duration, range::any,
          "wall time inside the solver"),
};

template <>
inline constexpr auto fields_of<Outcome> = std::tuple{
    field("plan", &Outcome::plan, "the plan that was run"),
    field("time", &Outcome::time, kind::duration, range::any, "times; strictly increasing"),
    field("core", &Outcome::core, kind::temperature, range::any,
          "temperature in the middle of the thickness or on the axis"),
    field("coldest", &Outcome::coldest, kind::temperature, range::any,
          "lowest temperature anywhere in the meat"),
    field("surface", &Outcome::surface, kind::temperature, range::any,
          "temperature of the meat at its faces"),
    field("surface_water", &Outcome::surface_water, kind::water_content, range::any,
          "water content at the faces, of dry solids"),
    field("film", &Outcome::film, kind::areal_mass, range::any, "liquid on the faces"),
    field("air", &Outcome::air, kind::temperature, range::any, "air around the meat"),
    field("vapour_pressure", &Outcome::vapour_pressure, kind::pressure, range::any,
          "of water in the air around the meat"),
    field("pan_water", &Outcome::pan_water, kind::mass, range::any, "left in the water pan; 0 without one"),
    field("tenderness", &Outcome::tenderness, kind::share, range::any,
          "share of the collagen converted at the core"),
    field("mean_water", &Outcome::mean_water, kind::water_content, range::any,
          "mean water content, of dry solids"),
    field("mean_temperature", &Outcome::mean_temperature, kind::temperature, range::any,
          "mean temperature by volume"),
    field("paths", &Outcome::paths, "running totals of heat and water through the faces, per area"),
    field("position", &Outcome::position, kind::length, range::any,
          "of the nodes: height above the bottom face, or radius"),
    field("node_volume", &Outcome::node_volume, kind::share, range::any, "share of the volume of each node"),
    field("along", &Outcome::along, kind::length, range::any,
          "of the nodes of a cross-section: distance from the flat end; none in 1-D"),
    field("lines", &Outcome::lines, "lines of nodes side by side"),
    field("columns", &Outcome::columns, "nodes along the length of a cross-section"),
    field("region", &Outcome::region, "of the nodes of a cross-section: 0 flat, 1 point, 2 seam"),
    field("probes", &Outcome::probes, "flat and point of a cross-section, and what the plan asks for"),
    field("face_area", &Outcome::face_area, kind::area, range::any, "areas of the faces"),
    field("stage_ends", &Outcome::stage_ends, "where each stage ended"),
    field("events", &Outcome::events, "what happened"),
    field("notes", &Outcome::notes, "what a user should know"),
    field("ledger", &Outcome::ledger, "totals and residuals"),
};

/// The members of an outcome that hold every node, and are written on request only.
inline constexpr auto fields_of_nodes = std::tuple{
    field("temperature", &Outcome::temperature, kind::temperature, range::any, "temperature of every node"),
    field("water", &Outcome::water, kind::water_content, range::any,
          "water content of every node, of dry solids"),
};

} // namespace cook
