#include "cook/engine/simulate.hpp"

#include <chrono>
#include <utility>

#include "cook/errors.hpp"
#include "engine/runs/runs.hpp"

namespace cook {

void Options::validate() const {
  check::within("options.nodes", nodes, 9, 2001, "");
  if (nodes % 2 == 0) {
    throw InvalidInput("options.nodes",
                       std::to_string(nodes) + "; must be odd, so that a node lies at the core");
  }
  if (face_spacing) {
    check::within("options.face_spacing", *face_spacing, 1e-6, 0.05, "m");
  }
  check::within("options.columns", columns, 11, 801, "");
  check::within("options.rows", rows, 9, 401, "");
  if (rows % 2 == 0) {
    throw InvalidInput("options.rows",
                       std::to_string(rows) + "; must be odd, so that a row lies half-way up");
  }
  check::within("options.end_spacing", end_spacing, 1e-5, 0.05, "m");
  check::within("options.sweeps", sweeps, 1, 20, "");
  check::within("options.temperature_tolerance", temperature_tolerance, 1e-9, 5.0, "K");
  check::within("options.water_tolerance", water_tolerance, 1e-10, 0.5, "kg/kg");
  check::within("options.output_every", output_every, 0.1, 86400.0, "s");
  check::within("options.max_steps", max_steps, 1, 1e9, "");
}

namespace engine {

void check_films(const Plan &plan, const Options &options) {
  constexpr double liveliest = 1000.0; // W/m²K
  for (std::size_t i = 0; options.physics.evaporation && i < plan.stages.size(); ++i) {
    const Surroundings &s = plan.stages[i].surroundings;
    for (const auto &[film, name] : {std::pair{&s.bottom, "bottom"}, std::pair{&s.top, "top"}}) {
      if (film->kind == Convection::given && film->value > liveliest) {
        throw InvalidInput("stages[" + std::to_string(i) + "].surroundings." + name + ".value",
                           format_number(film->value) + " W/m²K; accepted: up to " +
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
