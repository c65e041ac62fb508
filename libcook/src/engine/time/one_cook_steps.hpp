/// @file
/// The two halves of one cook's step, compiled for wider vectors too: without fused multiply-adds, so that a
/// cook gives the same bits on every machine. A pack's are in pack_steps.hpp.
#pragma once

#include <vector>

#include "engine/equations/line_system.hpp"
#include "engine/equations/section_system.hpp"
#include "engine/time/ros3.hpp"
#include "engine/time/step_error.hpp"

namespace cook::engine {

// Overloads, not templates: only functions are compiled for several widths.
void linearise(LineSystem<double> &system, double time, const std::vector<double> &y, std::vector<double> &f);
void linearise(PieceSystem &system, double time, const std::vector<double> &y, std::vector<double> &f);
inline void linearise(SectionSystem &system, double time, const std::vector<double> &y,
                      std::vector<double> &f) {
  system.linearise(time, y, f); // whose parts have their versions already
}

Verdict<double> make_step(LineSystem<double> &system, Ros3<double> &stepper, StepError<double> &measure,
                          double time, const std::vector<double> &y, const std::vector<double> &f,
                          double length, std::vector<double> &next, std::vector<double> &error);
Verdict<double> make_step(PieceSystem &system, Ros3<double> &stepper, StepError<double> &measure, double time,
                          const std::vector<double> &y, const std::vector<double> &f, double length,
                          std::vector<double> &next, std::vector<double> &error);
Verdict<double> make_step(SectionSystem &system, Ros3<double> &stepper, StepError<double> &measure,
                          double time, const std::vector<double> &y, const std::vector<double> &f,
                          double length, std::vector<double> &next, std::vector<double> &error);

} // namespace cook::engine
