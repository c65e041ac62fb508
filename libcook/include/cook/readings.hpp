/// @file
/// What a cook reads off an outcome. Pure functions; nothing here acts back on the simulation.
///
/// Each takes a partial outcome (of a run that failed or was stopped) as well as a whole one, and throws
/// InvalidInput for an empty one.
///
/// The table of all defaults, their sources and how sure we are of them is `parameters.hpp`.
#pragma once

#include <cstddef>
#include <optional>
#include <span>
#include <string>
#include <vector>

#include "cook/outcome.hpp"

namespace cook {

/// The stall: see find_stall.
struct Stall {
  double start = 0.0;      ///< [s]
  double end = 0.0;        ///< [s]
  double plateau = 0.0;    ///< core temperature at the slowest point [°C]
  double slowest = 0.0;    ///< slowest rate of rise [K s⁻¹]; slightly negative when the core falls back
  double slowest_at = 0.0; ///< [s]
  double core_start = 0.0; ///< core temperature at the start [°C]
  double core_end = 0.0;   ///< core temperature at the end [°C]
  [[nodiscard]] double duration() const { return end - start; }
};

/// Finds the stall in a core trace.
///
/// Definition. The *rise* runs from the start of the trace to when the core first comes within 1 K of its
/// peak, or to 90 °C if that is sooner. The rate r is the slope of a straight line fitted to the samples
/// within a window of 1/10 of the rise, at 401 evenly spaced moments; the core that goes with it is the
/// line's value. The typical rate R is the mean rate from 30 °C (or from the start, if warmer) to the end of
/// the rise. A stall is a spell of r < R/2 between 50 and 90 °C with a recovery: after the spell's slowest
/// point, before the rise ends, r climbs by at least R/5. Of several, the first: a wrap that breathes can
/// make a second one near 80 °C. The slowest point is the one with the largest climb after it; the spell ends
/// where r passes R/2 again, at the latest where that climb is complete.
///
/// Hence: a core that only ever slows down (a slab that approaches its surroundings) has no stall, nor has
/// one that slows down but keeps to at least half its typical rate (a shoulder); a trace that ends within a
/// stall has none yet. Only ratios to the rise enter, so stretching time stretches the answer. Noise of a few
/// tenths of a kelvin, sampled every five minutes or faster, moves r by a few per cent of R. A stall shorter
/// than about 1/20 of the rise is not seen. The thresholds are this library's own; no published definition
/// was found.
///
/// @param time [s] strictly increasing  @param core [°C] finite  @return empty when there is none
/// @throws InvalidInput for fewer than 5 samples, lengths that differ, times that do not increase, values not
/// finite.
[[nodiscard]] std::optional<Stall> find_stall(std::span<const double> time, std::span<const double> core);
/// All stalls in order of time; same definition, arguments and errors.
[[nodiscard]] std::vector<Stall> find_stalls(std::span<const double> time, std::span<const double> core);
/// The same for an outcome's core; an outcome with fewer than 5 samples has none.
[[nodiscard]] std::optional<Stall> find_stall(const Outcome &outcome);

/// Rise of the core after the heat is off.
struct Carryover {
  double pulled_at = 0.0;   ///< end of the last heated stage [s]
  double pulled_core = 0.0; ///< [°C]
  double peak = 0.0;        ///< highest core temperature afterwards [°C]
  double peak_at = 0.0;     ///< [s]
  [[nodiscard]] double rise() const { return peak - pulled_core; }
};
/// Carryover after the last heated stage: the last one whose air is hotter than the core on average over the
/// stage (so ripple, an open lid or a warm holding cabinet do not matter). Empty when nothing follows it.
[[nodiscard]] std::optional<Carryover> carryover(const Outcome &outcome);

/// Time at which the core, after its peak, first falls through `celsius` [s]; empty when the peak is not
/// above it or the outcome ends before. The peak is the one after the pull, or of the whole outcome when
/// never pulled.
[[nodiscard]] std::optional<double> falls_to(const Outcome &outcome, double celsius);
/// How long the core stays at or above a temperature after the pull [s] (whole outcome when never pulled).
[[nodiscard]] double time_above(const Outcome &outcome, double celsius);

/// Where the weight went [kg], for the whole piece.
struct Loss {
  double raw = 0.0; ///< raw weight, fat cap included
  double evaporated = 0.0;
  double dripped = 0.0;  ///< ran off
  double in_wrap = 0.0;  ///< liquid on the faces or kept by the wrap
  double fat = 0.0;      ///< rendered out; an estimate, see rendered_fat
  double spritzed = 0.0; ///< sprayed on: part of what evaporated or dripped without having been in the meat
  /// What the meat has lost [kg].
  [[nodiscard]] double total() const { return evaporated + dripped + in_wrap + fat - spritzed; }
  [[nodiscard]] double yield() const { return 1.0 - total() / raw; } ///< share of the raw weight
};
[[nodiscard]] Loss loss(const Outcome &outcome);

/// Share of the fat that a braise renders out: USDA table of cooking yields, beef brisket flat half, lean and
/// fat, 1/8" trim, braised: fat change -10.2 points of 22.15 % raw. The same table's composition rows for the
/// whole and the point half come to 0.05, so the range is wide: 0.05 to 0.5.
inline constexpr double rendered_share_cooked = 10.2 / 22.15;
/// Highest temperature up to which no fat is rendered out [°C]; assumed: above the melting range of tallow.
inline constexpr double rendering_start = 50.0;
/// Highest temperature from which the full share is rendered out [°C]; assumed: a braise's end.
inline constexpr double rendering_end = 90.0;
/// Fat in separable fat (the cap) [kg per kg]; USDA Standard Reference 13019, beef, separable fat, raw.
inline constexpr double cap_fat_share = 0.7089;

/// Share of the fat rendered out of tissue whose highest temperature was `highest` [°C]: smooth from 0 at
/// rendering_start to rendered_share_cooked at rendering_end. An estimate: it knows no time and no size of
/// the piece.
[[nodiscard]] double rendered_share(double highest);
/// Fat rendered out of the piece [kg], an estimate: rendered_share of each node's highest temperature,
/// weighted by volume, and of the fat cap at its face's. Without fields the highest volume-mean temperature
/// stands for all nodes.
[[nodiscard]] double rendered_fat(const Outcome &outcome);

/// Mean heat fluxes through a face over each interval of the outcome's time axis [W m⁻²]; sizes times - 1.
/// convection + radiation - evaporation = into_meat: what is left to warm the meat. Water that leaves takes
/// its own heat along without cooling what stays, so that is listed apart: into_meat - carried is the change
/// of the enthalpy held in meat and film, exactly, because all are differences of the ledger. What a spray
/// brings is not in it.
struct HeatBudget {
  std::vector<double> time;        ///< middle of the interval [s]
  std::vector<double> convection;  ///< from the air
  std::vector<double> radiation;   ///< from what the face sees
  std::vector<double> evaporation; ///< taken by evaporation (latent heat)
  std::vector<double> carried;     ///< enthalpy (from 0 °C) of the liquid that evaporated or ran off
  std::vector<double> into_meat;   ///< what is left to warm it
};
/// @param face 0 bottom, 1 top (a cylinder has only 1) @throws InvalidInput for a face the piece does not
/// have.
[[nodiscard]] HeatBudget heat_budget(const Outcome &outcome, std::size_t face);

/// Safety readings. Never a permission: follow your local food-safety rules.
struct Safety {
  double log_reduction =
      0.0; ///< decimal reductions of Salmonella, least of all nodes (regulator's table) [-]
  double lethality_at = -1.0; ///< when every node has passed 6.5 reductions [s]; -1 never
  double core_danger_time =
      0.0; ///< time the core spends between 5 and 57 °C while warming, up to its peak [s]
  double surface_danger_time = 0.0; ///< the slower face, same range, up to the core's peak [s]
  double come_up = -1.0; ///< time the coldest point takes from 10 °C (or its start) to 54.4 °C [s]; -1: it
                         ///< does not get there
  double cooling_start = -1.0;       ///< when the core falls through 57 °C after the cook [s]; -1 never
  std::vector<std::string> warnings; ///< in plain words, each with the rule it rests on
  std::string caution;               ///< shown with every outcome
};
/// Reads lethality, time in the danger zone, come-up, hot holding and two-step cooling off an outcome.
///
/// Lethality integrates lethality_rate over each node's history (without fields: over the coldest temperature
/// anywhere, which is a lower bound). Rules behind the warnings:
/// - USDA FSIS cooking guideline, Appendix A: 6.5 decimal reductions of Salmonella; its humidity conditions
/// are not checked;
/// - the same, from memory: at most 6 h between 50 and 130 °F (10 and 54.4 °C) while warming;
/// - FDA Food Code 3-501.16: hot holding at 57 °C (135 °F) or above;
/// - FDA Food Code 3-501.14: cooling from 57 to 21 °C within 2 h, and to 5 °C within 6 h in all.
/// Local rules may be stricter (some ask for 7 decimal reductions).
[[nodiscard]] Safety safety(const Outcome &outcome);

} // namespace cook
