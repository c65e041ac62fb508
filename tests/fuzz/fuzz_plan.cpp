/// @file
/// Any bytes as a plan: a Plan or InvalidInput. A plan comes back bit by bit, and a short run of it ends in
/// an outcome, whole or partial, whose ledgers
/// close, alone or in a pack.
#include <array>
#include <cstddef>
#include <cstdint>
#include <exception>
#include <string>
#include <string_view>
#include <vector>

#include "cook/engine/simulate.hpp"
#include "cook/engine/simulate_many.hpp"
#include "cook/errors.hpp"
#include "cook/json/json.hpp"
#include "outcome_checks.hpp"
#include "require.hpp"

namespace {

using namespace cook;
using namespace cook::fuzz;

void round_trip(const Plan &plan) {
  const std::string text = to_json(plan);
  require(to_json(plan_from_json(text)) == text, "what is written is read back bit by bit");
}

/// Whether a run would take long for its many moments: each asks for a few steps, which are counted anew.
bool takes_long(const Plan &plan) {
  constexpr double most = 500.0;
  double moments = 0.0;
  for (const Stage &stage : plan.stages) {
    const Surroundings &s = stage.surroundings;
    moments += static_cast<double>(s.air.time.size() + s.vapour_pressure.time.size() + stage.lid.size());
    moments += stage.spritz ? stage.at_most / stage.spritz->every : 0.0;
    moments += s.air.ripple_amplitude > 0.0 ? stage.at_most / s.air.ripple_period : 0.0;
    for (const End &end : stage.until) {
      moments += end.every > 0.0 ? stage.at_most / end.every : 0.0;
    }
  }
  return moments > most;
}

/// A coarse grid and few steps: enough for every kind of stage to begin, many plans a second.
Options coarse(std::uint8_t salt) {
  Options options;
  options.nodes = 9 + 2 * (salt % 4);
  options.face_spacing = 1e-3;
  options.max_steps = salt % 64 == 0 ? 2000 : 150;
  options.output_every = 900.0;
  options.physics.evaporation = salt % 5 != 0;
  options.physics.squeezing = salt % 7 != 0;
  return options;
}

void run_a_little(const Plan &plan, const Options &options) {
  try {
    const auto outcome = simulate(plan, options);
    check_outcome(*outcome);
    check_readings(*outcome);
    const std::string text = to_json(*outcome, true);
    require(to_json(outcome_from_json(text), true) == text, "an outcome is read back bit by bit");
  } catch (const SolverFailure &failure) { // Unreachable is one
    require(failure.outcome() != nullptr, "a failure keeps what was computed");
    check_outcome(*failure.outcome());
    check_readings(*failure.outcome());
  } catch (const InvalidInput
               &refusal) { // of what these options make of it: a film too large where meat evaporates
    require(std::string_view(refusal.what()).size() > 10, "a refusal says why");
  }
}

/// In a pack with itself and with cooks that end at other times: what a lane computes is its own affair.
void run_side_by_side(const Plan &plan, const Options &options) {
  Plan other = plan;
  other.meat.start += 1.0;
  const std::array<Plan, 4> plans{plan, other, other, plan};
  const std::vector<Result> results = simulate_many(plans, options, 1);
  const auto told = [](const Result &result) -> std::string {
    if (result.outcome) {
      check_outcome(*result.outcome);
      Outcome timeless = *result.outcome;
      timeless.ledger.solver_seconds = 0.0;
      return to_json(timeless, true);
    }
    try {
      std::rethrow_exception(result.failure);
    } catch (const SolverFailure &failure) {
      require(failure.outcome() != nullptr, "a failure keeps what was computed");
      check_outcome(*failure.outcome());
      return failure.what();
    } catch (const InvalidInput &refusal) { // the warmer start
      return refusal.what();
    }
  };
  require(told(results[0]) == told(results[3]), "two lanes with one plan agree bit by bit");
  require(told(results[1]) == told(results[2]), "and so do the two beside them");
}

} // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t *data, std::size_t size) {
  const std::string_view text(reinterpret_cast<const char *>(data), size);
  Plan plan;
  try {
    plan = plan_from_json(text);
  } catch (const InvalidInput &refusal) {
    require(std::string_view(refusal.what()).size() > 10, "a refusal says why");
    return 0;
  }
  round_trip(plan);
  std::uint8_t salt = 0;
  for (const char letter : text) {
    salt = static_cast<std::uint8_t>(31U * salt + static_cast<std::uint8_t>(letter));
  }
  if (takes_long(plan)) {
    return 0;
  }
  if (salt % 4 == 0) { // a run costs a hundred times what reading does
    run_a_little(plan, coarse(salt));
  } else if (salt % 8 == 1) {
    run_side_by_side(plan, coarse(salt));
  }
  return 0;
}
