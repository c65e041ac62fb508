/// @file
/// What becomes of the possible cooks of a forecast under other plans: the search for a plan goes by it.
///
/// All plans are run with the same possible cooks, so that differences between them are not blurred by chance
/// (common random numbers). Each plan ends in a wait for dinner, of which the meat is read off at several
/// moments: how long it really waits follows from the start, which needs no further simulation.
#pragma once

#include <cstddef>
#include <functional>
#include <string>
#include <vector>

#include "cook/fit/forecast.hpp"

namespace cook {

/// Possible cooks under one plan. Times in s since the start of the cook; infinite where a cook does not get
/// there, and readings of such a cook are not a number.
struct Futures {
  std::string why;               ///< not empty: the plan cannot be used, and nothing else is filled
  std::size_t stages = 0;        ///< from the one that is under way on
  std::vector<double> stage_end; ///< cooks x stages: as the clock on the wall will show [s]
  std::vector<double> shown;     ///< cooks x looks: what the thermometer shows [°C]; held once it is done
  std::vector<double> bark;      ///< cooks: index of the bark that set while the meat was bare [-]
  std::vector<double> come_up;   ///< cooks: the coldest part's way through the danger zone, see Safety [s]
  /// cooks: by how much the 6.5 decimal reductions of Safety come before the wait for dinner [s]; minus
  /// infinity: never.
  std::vector<double> lethal_before;
  std::vector<double> kept;       ///< cooks x waits: share of the raw weight that is left [-]
  std::vector<double> tenderness; ///< cooks x waits: collagen converted at the core [-]
  std::vector<double> coldest;    ///< cooks x waits: lowest temperature in the meat [°C]
  std::vector<double> core;       ///< cooks x waits [°C]
};

/// What is asked of each cook.
struct FuturesQuery {
  std::vector<std::size_t> members; ///< of the forecast, as places in it
  std::vector<double> looks;        ///< times of looks at the thermometer [s since the start]
  std::vector<double> waits;        ///< moments of the last stage, from its beginning [s]
  std::function<bool()> interrupted{};
};

/// Runs possible cooks of a forecast under each of the plans.
/// @param plans of each what is left to do: the stage that is under way, from now on, and all after it. The
/// last one is the wait for dinner, which ends after a time. It and the other stages after the meat is done
/// have their surroundings as planned: what is believed of a cooker tells nothing of a rest.
/// @throws InvalidInput for a member that is not there; Interrupted
[[nodiscard]] std::vector<Futures>
futures(const Forecast &forecast, const std::vector<std::vector<Stage>> &plans, const FuturesQuery &query);

} // namespace cook
