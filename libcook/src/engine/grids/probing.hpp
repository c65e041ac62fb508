/// @file
/// From the probes of a plan to the spots of a mesh.
#pragma once

#include <functional>

#include "cook/plan/outcome.hpp"
#include "cook/plan/plan.hpp"
#include "engine/grids/spot.hpp"

namespace cook::engine {

/// A spot and the place [m] that it stands for.
struct Placed {
  Spot spot;
  double x = 0.0;
  double z = 0.0;
};

/// Finds a probe's place on a mesh; `field` names it in errors.
using Locate = std::function<Placed(const Probe &probe, const std::string &field)>;

/// Fills spots, cores and probes of the layout, and the (still empty) traces of the outcome.
/// @param always probes that every outcome on this mesh has; the first one is the core until a stage says
/// otherwise
void place_probes(const Plan &plan, const std::vector<Probe> &always, const Locate &locate, Layout &layout,
                  Outcome &outcome);

} // namespace cook::engine
