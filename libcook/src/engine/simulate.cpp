#include "cook/engine/simulate.hpp"

#include <chrono>
#include <utility>

#include "cook/errors.hpp"
#include "engine/runs/runs.hpp"

namespace cook {

namespace engine {

void check_films(const Plan &plan, const Options &options) {
  constexpr double liveliest = 1000.0; // W/m²K
  for (std::size_t i = 0; options.physics.evaporation && i < plan.stages.size(); ++i) {
    const Surroundings &s = plan.stages[i].surroundings;
    for (const auto &[film, name] : {std::pair{&s.bottom, "bottom"}, std::pair{&s.top, "top"}}) {
      if (film->kind == Convection::given && film->value > liveliest) {
        throw InvalidInput("stages[" + std::to_string(i) + "].surroundings." + name + ".value",
                           format_number(film->value) + " W/(m²·K); accepted: up to " +
                               format_number(liveliest) +
                               " where meat evaporates: still air has about 5, a fan oven 30; a face that is "
                               "held at a temperature needs evaporation switched off");
      }
    }
  }
}

} // namespace engine

std::shared_ptr<const Outcome> simulate(const Plan &plan, const Options &options) {
  const auto begin = std::chrono::steady_clock::now();
  plan.validate();
  options.validate();
  engine::check_films(plan, options);
  auto outcome = options.grid == GridKind::cross_section ? engine::run_section(plan, options)
                                                         : engine::run_line(plan, options);
  const std::chrono::duration<double> took = std::chrono::steady_clock::now() - begin;
  // The outcome is still ours alone: its time is written before anybody else sees it.
  const_cast<Outcome &>(*outcome).ledger.solver_seconds = took.count(); // NOLINT
  return outcome;
}

} // namespace cook
