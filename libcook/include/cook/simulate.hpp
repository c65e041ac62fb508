/// @file
/// Plan in, Outcome out.
#pragma once

#include <functional>
#include <memory>

#include "cook/outcome.hpp"
#include "cook/plan.hpp"

namespace cook {

/// Parts of the physics that can be turned off to see what they do.
struct Physics {
  bool evaporation = true; ///< water leaves the faces as vapour
  bool squeezing = true;   ///< denaturing proteins express juice (the second, fast mobility)
  bool radiation = true;   ///< the walls radiate
  bool sinks = true;       ///< melting fat and denaturing protein take up heat
};

/// How the equations are solved. The defaults are converged to well under 1 % in finish time.
struct Options {
  int nodes = 31; ///< across the thickness (odd, 9 to 2001); along the radius of a cylinder half of it
  double face_spacing = 0.15e-3;       ///< distance of the first node from a face [m]
  double temperature_tolerance = 0.04; ///< local error per step [K]
  double water_tolerance = 0.004;      ///< local error per step [kg/kg dry]
  double output_every = 60.0;          ///< spacing of the stored times [s]
  bool keep_fields = true;             ///< store temperature and water of every node, not only core and faces
  int max_steps = 200000;              ///< over the whole cook
  Physics physics{};
  std::function<bool()> interrupted{}; ///< asked now and then; true stops the run

  void validate() const;
};

/// Runs the plan.
/// @throws InvalidInput before any work; Unreachable, SolverFailure, Interrupted with what was computed so
/// far.
[[nodiscard]] std::shared_ptr<const Outcome> simulate(const Plan &plan, const Options &options = {});

} // namespace cook
