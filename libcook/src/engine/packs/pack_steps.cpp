#include "engine/packs/pack_steps.hpp"

#include "engine/arithmetic/vector_clones.hpp"

namespace cook::engine {

namespace {

template <std::size_t Lines>
[[gnu::always_inline]] inline StepVerdict
step_of(PackSystem<Lines> &system, Ros3<Pack> &stepper, StepError<Pack> &measure, const PackMask &booked,
        const Pack &time, const std::vector<Pack> &y, const std::vector<Pack> &f, const Pack &length,
        std::vector<Pack> &next, std::vector<Pack> &error) {
  system.remember(booked);
  return step_and_judge(system, stepper, measure, time, y, f, length, next, error);
}

} // namespace

COOK_PACK_CLONES
void linearise(PackSystem<1> &system, const Pack &time, const std::vector<Pack> &y, std::vector<Pack> &f) {
  system.linearise(time, y, f);
}

COOK_PACK_CLONES
void linearise(PackSystem<2> &system, const Pack &time, const std::vector<Pack> &y, std::vector<Pack> &f) {
  system.linearise(time, y, f);
}

COOK_PACK_CLONES
StepVerdict step(PackSystem<1> &system, Ros3<Pack> &stepper, StepError<Pack> &measure, const PackMask &booked,
                 const Pack &time, const std::vector<Pack> &y, const std::vector<Pack> &f, const Pack &length,
                 std::vector<Pack> &next, std::vector<Pack> &error) {
  return step_of(system, stepper, measure, booked, time, y, f, length, next, error);
}

COOK_PACK_CLONES
StepVerdict step(PackSystem<2> &system, Ros3<Pack> &stepper, StepError<Pack> &measure, const PackMask &booked,
                 const Pack &time, const std::vector<Pack> &y, const std::vector<Pack> &f, const Pack &length,
                 std::vector<Pack> &next, std::vector<Pack> &error) {
  return step_of(system, stepper, measure, booked, time, y, f, length, next, error);
}

void set_lane(Drive<Pack> &to, std::size_t lane, const Drive<double> &from) {
  to.start.set(lane, from.start);
  for (std::size_t s = 0; s < 2; ++s) {
    to.air[s].set(lane, from.air[s]);
    to.air_slope[s].set(lane, from.air_slope[s]);
    to.ripple[s].set(lane, from.ripple[s]);
    to.ripple_rate[s].set(lane, from.ripple_rate[s]);
  }
  to.vapour.set(lane, from.vapour);
  to.vapour_slope.set(lane, from.vapour_slope);
  to.vapour_ripple.set(lane, from.vapour_ripple);
  to.vapour_ripple_rate.set(lane, from.vapour_ripple_rate);
  to.may_condense.set(lane, from.may_condense);
  to.lid.set(lane, from.lid);
  to.lid_slope.set(lane, from.lid_slope);
  to.ambient.set(lane, from.ambient);
  to.boxed.set(lane, from.boxed);
  to.box_capacity.set(lane, from.box_capacity);
  to.box_loss.set(lane, from.box_loss);
  to.balanced.set(lane, from.balanced);
  to.chamber_volume.set(lane, from.chamber_volume);
  to.pieces.set(lane, from.pieces);
  to.pan_area.set(lane, from.pan_area);
  to.balance[lane] = from.balance;
}

} // namespace cook::engine
