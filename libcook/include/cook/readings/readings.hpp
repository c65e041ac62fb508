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

#include "cook/plan/outcome.hpp"

namespace cook {

/// The stall: see find_stall.
struct Stall {
  double start = 0.0;      ///< [s]
  double end = 0.0;        ///< [s]; the end of the trace where it is not over
  bool over = true;        ///< whether the core was seen to climb again
  double plateau = 0.0;    ///< core temperature at the slowest point [°C]
  double slowest = 0.0;    ///< slowest rate of rise [K s⁻¹]; negative when the core falls back
  double slowest_at = 0.0; ///< [s]
  double core_start = 0.0; ///< core temperature at the start [°C]
  double core_end = 0.0;   ///< core temperature at the end [°C]
  [[nodiscard]] double duration() const { return end - start; }
};

/// Finds the stall in a core trace, as somebody beside the cooker would: by what has happened so far.
///
/// Definition. The rate r at a sample is the slope of the straight line fitted to the samples of the last 40
/// minutes (to the last three, where they are further apart); it counts for the middle of that window, and
/// the line's value there is the core. A stall begins when r falls below a quarter of the fastest rate so
/// far, which was 3 K per hour or more, and below 6 K per hour, while the core is between 50 and 80 °C, and
/// has never been above. It is over as soon as r has climbed by 1.5 K per hour or by its slowest value,
/// whichever is more, above the slowest of this stall, or is no longer as slow as that; also when the core
/// leaves 50 to 85 °C. A spell of less than half an hour is none. After a stall another one begins only once
/// the rate has fallen to half of what it had recovered to: a later plateau, such as under paper near 80 °C,
/// is a stall of its own.
///
/// Nothing depends on what comes later: two traces that are the same up to a moment have the same stalls up
/// to it, the last of which may still be going on (`over` is false then). So a core that levels off within
/// the range, since its surroundings are hardly hotter, is said to stall: from the core alone nobody can
/// tell. The thresholds are this library's own; no published definition was found.
///
/// @param time [s] strictly increasing  @param core [°C] finite  @return empty when there is none
/// @throws InvalidInput for fewer than 5 samples, lengths that differ, times that do not increase, values not
/// finite.
[[nodiscard]] std::optional<Stall> find_stall(std::span<const double> time, std::span<const double> core);
/// All stalls in order of time; same definition, arguments and errors.
[[nodiscard]] std::vector<Stall> find_stalls(std::span<const double> time, std::span<const double> core);
/// The same for an outcome's core until it was pulled; one with fewer than 5 samples until then has none.
[[nodiscard]] std::optional<Stall> find_stall(const Outcome &outcome);

/// Where a core that does not stall climbs slowest: by straight lines over a tenth of its way through the
/// range in which stalls begin (stall_rule), up to its peak.
struct SlowestRise {
  double from = 0.0; ///< when it is in that range first [s]
  double to = 0.0;   ///< and last [s]
  double core = 0.0; ///< as the slowest tenth begins [°C]
  double rate = 0.0; ///< [K s⁻¹]
};
/// Empty with fewer than three samples in the range. Lengths are equal, times increase.
[[nodiscard]] std::optional<SlowestRise> slowest_rise(std::span<const double> time,
                                                      std::span<const double> core);

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
