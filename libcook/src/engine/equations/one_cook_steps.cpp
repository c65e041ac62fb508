#include "engine/equations/one_cook_steps.hpp"

#include "engine/arithmetic/vector_clones.hpp"

namespace cook::engine {

COOK_STEP_CLONES
void linearise(LineSystem<double> &system, double time, const std::vector<double> &y, std::vector<double> &f) {
  system.linearise(time, y, f);
}

COOK_STEP_CLONES
void linearise(PieceSystem &system, double time, const std::vector<double> &y, std::vector<double> &f) {
  system.linearise(time, y, f);
}

COOK_STEP_CLONES
void make_step(LineSystem<double> &system, Ros3<double> &stepper, double time, const std::vector<double> &y,
               const std::vector<double> &f, double length, std::vector<double> &next,
               std::vector<double> &error) {
  stepper.step(system, time, y, f, length, next, error);
}

COOK_STEP_CLONES
void make_step(PieceSystem &system, Ros3<double> &stepper, double time, const std::vector<double> &y,
               const std::vector<double> &f, double length, std::vector<double> &next,
               std::vector<double> &error) {
  stepper.step(system, time, y, f, length, next, error);
}

} // namespace cook::engine
