/// @file
/// A cook from start to slice: stages, each in its surroundings, under its wrap, until something is reached.
///
/// The table of all defaults, their sources and how sure we are of them is `parameters.hpp`.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "cook/cooker/surroundings.hpp"
#include "cook/cooker/wrap.hpp"
#include "cook/meat/shape.hpp"
#include "cook/plan/ends.hpp"
#include "cook/plan/probe.hpp"

namespace cook {

/// Liquid sprayed on the top face at intervals.
struct Spritz {
  double every = 3600.0;     ///< [s]
  double first = 7200.0;     ///< after the start of the stage [s]
  double amount = 0.05;      ///< [kg m⁻²]; common practice, no source: about 15 g on a brisket
  double temperature = 20.0; ///< of the liquid [°C]
  double lid_open = 30.0;    ///< how long the lid stays open for it [s]
};

/// The lid opened once.
struct LidOpening {
  double at = 0.0;        ///< after the start of the stage [s]
  double duration = 60.0; ///< [s]
};

/// One stage of the plan.
struct Stage {
  std::string name = "smoke";
  Surroundings surroundings{};
  Wrap wrap{};
  std::vector<End> until{}; ///< the first one reached ends the stage
  std::optional<Spritz> spritz{};
  std::vector<LidOpening> lid{};
  double at_most = 48 * 3600.0; ///< give up after this long [s]
  /// Where the probe sits that the core trace and `until` follow from this stage on; empty: as before, at
  /// first the flat of a cross-section, the middle of a slab.
  std::optional<Probe> probe{};
};

/// The whole cook.
struct Plan {
  Meat meat{};
  std::vector<Stage> stages{};
  std::optional<double> clock_start{}; ///< time of day at the start [s after midnight]
  std::vector<Probe> probes{};         ///< further probes, read all through the cook

  /// Checks everything that can be known before the run; throws InvalidInput.
  void validate() const;
};

} // namespace cook
