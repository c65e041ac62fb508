/// @file
/// The two halves of a pack's step, compiled for several widths of vectors, and how a lane gets its
/// conditions.
#pragma once

#include <vector>

#include "engine/cells/pack_table.hpp"
#include "engine/equations/line_system.hpp"
#include "engine/faces/face_lanes.hpp"
#include "engine/time/ros3.hpp"
#include "engine/time/step_error.hpp"

namespace cook::engine {

using StepVerdict = Verdict<Pack>; ///< of a step, for each lane

template <std::size_t Lines> using PackSystem = LineSystem<Pack, PackTable, Lines>;

// Overloads, not templates: only functions are compiled for several widths.
void linearise(PackSystem<1> &system, const Pack &time, const std::vector<Pack> &y, std::vector<Pack> &f);
void linearise(PackSystem<2> &system, const Pack &time, const std::vector<Pack> &y, std::vector<Pack> &f);

/// @param booked lanes whose cells remember their peaks before the step
StepVerdict step(PackSystem<1> &system, Ros3<Pack> &stepper, StepError<Pack> &measure, const PackMask &booked,
                 const Pack &time, const std::vector<Pack> &y, const std::vector<Pack> &f, const Pack &length,
                 std::vector<Pack> &next, std::vector<Pack> &error);
StepVerdict step(PackSystem<2> &system, Ros3<Pack> &stepper, StepError<Pack> &measure, const PackMask &booked,
                 const Pack &time, const std::vector<Pack> &y, const std::vector<Pack> &f, const Pack &length,
                 std::vector<Pack> &next, std::vector<Pack> &error);

void set_lane(Drive<Pack> &to, std::size_t lane, const Drive<double> &from);

} // namespace cook::engine
