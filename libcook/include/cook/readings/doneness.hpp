/// @file
/// Doneness place by place: collagen, bark, and how long every part stays hot. Pure functions of an outcome.
///
/// The table of all defaults, their sources and how sure we are of them is `parameters.hpp`.
#pragma once

#include <array>
#include <optional>
#include <vector>

#include "cook/meat/kinetics.hpp"
#include "cook/plan/outcome.hpp"
#include "cook/readings/limits.hpp"

namespace cook {

/// Share of the collagen converted at every node [-] (nodes,), from the stored temperatures: first-order
/// kinetics of the plan's tissue, the rate by Simpson's rule over each interval of the time axis.
/// @param at until when [s]: within an interval, that part of what the interval converts; empty: to the end
/// @throws InvalidInput when the fields were not kept, or for a time outside the cook
[[nodiscard]] std::vector<double> tenderness_by_node(const Outcome &outcome, std::optional<double> at = {});

/// How far the bark has come on a face.
struct Bark {
  double index = 0.0;             ///< integral of Browning::rate; 1 counts as set: a heuristic, tunable [-]
  std::optional<double> set_at{}; ///< when the index passed 1 [s]
  double driest = 0.0;            ///< least water content the face has had [kg/kg dry]
};
/// Bark of bottom and top, at the faces under and over the core (a cylinder has only the second). It ranks
/// cooks; it is no colour. Temperature and water activity of the face go into Browning (kinetics.hpp).
[[nodiscard]] std::array<Bark, 2> bark(const Outcome &outcome, const Browning &browning = {});

/// How long the piece stays hot after the pull.
struct HotHold {
  double pulled_at = 0.0;                ///< [s]; 0 when it was never pulled
  std::optional<double> coldest_until{}; ///< when the coldest part falls below the limit [s]
  std::optional<double> hottest_until{}; ///< when the hottest part falls below it, at the latest [s]
  std::optional<double> slice_at{};      ///< when the hottest part has cooled to `slicing` [s]
  double coldest_at_end = 0.0;           ///< [°C]
  double hottest_at_end = 0.0;           ///< [°C]
};
/// Temperature below which slicing keeps the juice in, of the hottest part: common practice, no source [°C].
inline constexpr double slicing_temperature = 65.0;
/// @param limit hot holding, FDA Food Code 3-501.16: 57 °C; your local rules may ask for more [°C]
/// @throws InvalidInput when the fields were not kept
[[nodiscard]] HotHold hot_hold(const Outcome &outcome, double limit = safety_limits::hot_holding,
                               double slicing = slicing_temperature);

/// Hottest node over time [°C] (times,). @throws InvalidInput when the fields were not kept
[[nodiscard]] std::vector<double> hottest(const Outcome &outcome);

} // namespace cook
