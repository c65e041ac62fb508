#include "engine/time/one_cook_steps.hpp"

#include "engine/arithmetic/vector_clones.hpp"

namespace cook::engine {

COOK_STEP_CLONES
void linearise(LineSystem<double> &system, double time, const std::vector<double> &y,
               std::vector<double> &f) {
  system.linearise(time, y, f);
}

COOK_STEP_CLONES
void linearise(PieceSystem &system, double time, const std::vector<double> &y, std::vector<double> &f) {
  system.linearise(time, y, f);
}

COOK_STEP_CLONES
Verdict<double> make_step(LineSystem<double> &system, Ros3<double> &stepper, StepError<double> &measure,
                          double time, const std::vector<double> &y, const std::vector<double> &f,
                          double length, std::vector<double> &next, std::vector<double> &error) {
  return step_and_judge(system, stepper, measure, time, y, f, length, next, error);
}

COOK_STEP_CLONES
Verdict<double> make_step(PieceSystem &system, Ros3<double> &stepper, StepError<double> &measure, double time,
                          const std::vector<double> &y, const std::vector<double> &f, double length,
                          std::vector<double> &next, std::vector<double> &error) {
  return step_and_judge(system, stepper, measure, time, y, f, length, next, error);
}

// The section's own functions have their versions already.
COOK_VECTOR_CLONES
Verdict<double> make_step(SectionSystem &system, Ros3<double> &stepper, StepError<double> &measure,
                          double time, const std::vector<double> &y, const std::vector<double> &f,
                          double length, std::vector<double> &next, std::vector<double> &error) {
  return step_and_judge(system, stepper, measure, time, y, f, length, next, error);
}

} // namespace cook::engine
