/// @file
/// What the page tells of a cook: numbers read off an outcome, no words. The counterpart of
/// python/libcook/readings/facts.py, which the tests hold it to.
#pragma once

#include "cook/plan/outcome.hpp"
#include "json/text.hpp"

namespace cook::page {

using json::Json;

/// Core temperature above which meat is held hot [°C]: 140 °F, common practice, no source.
inline constexpr double holding_core = 60.0;

/// Stages, pull, stall and who takes the heat meanwhile, carryover, loss, safety, ledger. SI, °C.
[[nodiscard]] Json facts_of(const Outcome &outcome);

/// Mean over the faces of where the heat goes, over each interval [W m⁻²]; the faces have one area.
struct FaceHeat {
  std::vector<double> convection;
  std::vector<double> radiation;
  std::vector<double> evaporation;
  std::vector<double> into_meat;
};
[[nodiscard]] FaceHeat face_heat(const Outcome &outcome);

/// Curves on at most so many times, the ends of stages among them; 0: on all times stored.
[[nodiscard]] Json curves_of(const Outcome &outcome, std::size_t points);

} // namespace cook::page
