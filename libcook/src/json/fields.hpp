// The members of the structs under their names in JSON: one list for reading, writing and knowing the keys.
#pragma once

#include <concepts>
#include <string_view>
#include <type_traits>

#include "plan/words.hpp"

namespace cook::json {

// `v` is called with each name and member, `S` is the struct or const struct

template <class T, class S>
concept Is = std::same_as<std::remove_const_t<T>, S>;

/// A time of day [s after midnight] that may be written as "hh:mm". `T` is an optional double, const or not.
template <class T> struct TimeOfDay { T &value; };
// Not every C++20 compiler deduces this for an aggregate.
template <class T> TimeOfDay(T &) -> TimeOfDay<T>;

void describe(auto &v, Is<Composition> auto &s) {
  v("water", s.water);
  v("protein", s.protein);
  v("fat", s.fat);
  v("carbohydrate", s.carbohydrate);
  v("ash", s.ash);
}

void describe(auto &v, Is<WaterHolding> auto &s) {
  v("final_share", s.final_share);
  v("midpoint", s.midpoint);
  v("width", s.width);
}

void describe(auto &v, Is<WaterMobility> auto &s) {
  v("expressed", s.expressed);
  v("held", s.held);
  v("held_activation", s.held_activation);
  v("dry_below", s.dry_below);
  v("dry_floor", s.dry_floor);
  v("switch_width", s.switch_width);
}

void describe(auto &v, Is<Sorption> auto &s) {
  v("monolayer", s.monolayer);
  v("c", s.c);
  v("k", s.k);
}

void describe(auto &v, Is<HeatSinks> auto &s) {
  v("fat_latent", s.fat_latent);
  v("fat_melt_start", s.fat_melt_start);
  v("fat_melt_end", s.fat_melt_end);
  v("denaturation", s.denaturation);
  v("denaturation_start", s.denaturation_start);
  v("denaturation_end", s.denaturation_end);
}

void describe(auto &v, Is<Exudation> auto &s) {
  v("path", s.path);
  v("bare_film", s.bare_film);
  v("run_off_time", s.run_off_time);
}

void describe(auto &v, Is<Tenderness> auto &s) {
  v("rate_90", s.rate_90);
  v("activation", s.activation);
}

void describe(auto &v, Is<FixedThermal> auto &s) {
  v("conductivity", s.conductivity);
  v("heat_capacity", s.heat_capacity);
}

void describe(auto &v, Is<Tissue> auto &s) {
  v("name", s.name);
  v("composition", s.composition);
  v("holding", s.holding);
  v("mobility", s.mobility);
  v("sorption", s.sorption);
  v("sinks", s.sinks);
  v("exudation", s.exudation);
  v("tenderness", s.tenderness);
  v("fixed", s.fixed);
  v("emissivity", s.emissivity);
  v("cooked_conductivity", s.cooked_conductivity);
}

void describe(auto &v, Is<Shape> auto &s) {
  v("kind", s.kind);
  v("thickness", s.thickness);
  v("extent", s.extent);
  v("width", s.width);
}

void describe(auto &v, Is<FatCap> auto &s) {
  v("side", s.side);
  v("thickness", s.thickness);
  v("vapour_resistivity", s.vapour_resistivity);
}

void describe(auto &v, Is<Section> auto &s) {
  v("length", s.length);
  v("width", s.width);
  v("at", s.at);
  v("thickness", s.thickness);
  v("point", s.point);
  v("seam", s.seam);
  v("seam_from", s.seam_from);
  v("seam_height_end", s.seam_height_end);
  v("seam_thickness", s.seam_thickness);
  v("side_share", s.side_share);
}

void describe(auto &v, Is<Meat> auto &s) {
  v("tissue", s.tissue);
  v("shape", s.shape);
  v("fat_cap", s.fat_cap);
  v("start", s.start);
  v("build", s.build);
  v("section", s.section);
}

void describe(auto &v, Is<Signal> auto &s) {
  v("time", s.time);
  v("value", s.value);
  v("ripple_amplitude", s.ripple_amplitude);
  v("ripple_period", s.ripple_period);
  v("measured", s.measured);
}

void describe(auto &v, Is<Film> auto &s) {
  v("kind", s.kind);
  v("value", s.value);
  v("length", s.length);
  v("factor", s.factor);
}

void describe(auto &v, Is<Box> auto &s) {
  v("heat_capacity", s.heat_capacity);
  v("loss", s.loss);
  v("start", s.start);
}

void describe(auto &v, Is<WaterPan> auto &s) {
  v("area", s.area);
  v("water", s.water);
  v("temperature", s.temperature);
  v("film", s.film);
  v("emissivity", s.emissivity);
  v("view", s.view);
  v("radiant_bottom", s.radiant_bottom);
  v("heat_capacity", s.heat_capacity);
}

void describe(auto &v, Is<PitAir> auto &s) {
  v("air_flow", s.air_flow);
  v("inlet_vapour_pressure", s.inlet_vapour_pressure);
  v("fuel_water", s.fuel_water);
  v("volume", s.volume);
  v("pressure", s.pressure);
  v("meat_count", s.meat_count);
  v("pan", s.pan);
}

void describe(auto &v, Is<Surroundings> auto &s) {
  v("kind", s.kind);
  v("air", s.air);
  v("air_below", s.air_below);
  v("radiant_bottom", s.radiant_bottom);
  v("radiant_top", s.radiant_top);
  v("view", s.view);
  v("bottom", s.bottom);
  v("top", s.top);
  v("vapour_pressure", s.vapour_pressure);
  v("pressure", s.pressure);
  v("ambient", s.ambient);
  v("box", s.box);
  v("pit_air", s.pit_air);
}

void describe(auto &v, Is<Covering> auto &s) {
  v("vapour_resistance", s.vapour_resistance);
  v("heat_resistance", s.heat_resistance);
  v("emissivity", s.emissivity);
  v("juice_capacity", s.juice_capacity);
}

void describe(auto &v, Is<Wrap> auto &s) {
  v("name", s.name);
  v("bottom", s.bottom);
  v("top", s.top);
  v("ends", s.ends);
}

void describe(auto &v, Is<Spritz> auto &s) {
  v("every", s.every);
  v("first", s.first);
  v("amount", s.amount);
  v("temperature", s.temperature);
  v("lid_open", s.lid_open);
}

void describe(auto &v, Is<LidOpening> auto &s) {
  v("at", s.at);
  v("duration", s.duration);
}

void describe(auto &v, Is<Probe> auto &s) {
  v("name", s.name);
  v("x", s.x);
  v("z", s.z);
  v("tip", s.tip);
  v("stem", s.stem);
}

void describe(auto &v, Is<Stage> auto &s) {
  v("name", s.name);
  v("surroundings", s.surroundings);
  v("wrap", s.wrap);
  v("until", s.until);
  v("spritz", s.spritz);
  v("lid", s.lid);
  v("at_most", s.at_most);
  v("probe", s.probe);
}

void describe(auto &v, Is<Plan> auto &s) {
  v("meat", s.meat);
  TimeOfDay clock_start{s.clock_start};
  v("clock_start", clock_start);
  v("stages", s.stages);
  v("probes", s.probes);
}

void describe(auto &v, Is<StageEnd> auto &s) {
  v("name", s.name);
  v("start", s.start);
  v("time", s.time);
  v("core", s.core);
  v("reason", s.reason);
}

void describe(auto &v, Is<ProbeTrace> auto &s) {
  v("name", s.name);
  v("x", s.x);
  v("z", s.z);
  v("temperature", s.temperature);
  v("tenderness", s.tenderness);
}

void describe(auto &v, Is<Event> auto &s) {
  v("time", s.time);
  v("what", s.what);
}

void describe(auto &v, Is<Ledger> auto &s) {
  v("heat_stored", s.heat_stored);
  v("convection", s.convection);
  v("radiation", s.radiation);
  v("latent", s.latent);
  v("water_enthalpy", s.water_enthalpy);
  v("spritz_enthalpy", s.spritz_enthalpy);
  v("heat_residual", s.heat_residual);
  v("water_start", s.water_start);
  v("water_end", s.water_end);
  v("on_surface", s.on_surface);
  v("evaporated", s.evaporated);
  v("run_off", s.run_off);
  v("spritzed", s.spritzed);
  v("water_residual", s.water_residual);
  v("vapour_in", s.vapour_in);
  v("vapour_out", s.vapour_out);
  v("pan_given", s.pan_given);
  v("air_residual", s.air_residual);
  v("steps", s.steps);
  v("rejected", s.rejected);
  v("evaluations", s.evaluations);
  v("factorisations", s.factorisations);
  v("solver_seconds", s.solver_seconds);
}

void describe(auto &v, Is<Outcome> auto &s) {
  v("plan", s.plan);
  v("time", s.time);
  v("core", s.core);
  v("coldest", s.coldest);
  v("surface", s.surface);
  v("surface_water", s.surface_water);
  v("film", s.film);
  v("air", s.air);
  v("vapour_pressure", s.vapour_pressure);
  v("pan_water", s.pan_water);
  v("tenderness", s.tenderness);
  v("mean_water", s.mean_water);
  v("mean_temperature", s.mean_temperature);
  v("paths", s.paths);
  v("position", s.position);
  v("node_volume", s.node_volume);
  v("along", s.along);
  v("lines", s.lines);
  v("columns", s.columns);
  v("region", s.region);
  v("probes", s.probes);
  v("face_area", s.face_area);
  v("stage_ends", s.stage_ends);
  v("events", s.events);
  v("notes", s.notes);
  v("ledger", s.ledger);
}

/// The members of an outcome that are written on request only.
void describe_fields(auto &v, Is<Outcome> auto &s) {
  v("temperature", s.temperature);
  v("water", s.water);
}

} // namespace cook::json
