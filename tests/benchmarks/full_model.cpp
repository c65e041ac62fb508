#include "benchmarks/full_model.hpp"

#include <chrono>
#include <stdexcept>
#include <utility>
#include <vector>

#include "benchmarks/reference/halton.hpp"
#include "cook/engine/simulate.hpp"
#include "cook/engine/simulate_many.hpp"
#include "cook/meat/shape.hpp"
#include "cook/units.hpp"

namespace cook::benchmarks {

namespace {

Plan default_plan(double fahrenheit = 237.0, Meat meat = brisket()) {
  Plan plan{.meat = std::move(meat), .stages = {}};
  plan.stages.push_back({.name = "smoke",
                         .surroundings = pit("drum", celsius_from_fahrenheit(fahrenheit)),
                         .until = {{.kind = EndKind::elapsed, .value = full_model_end}}});
  return plan;
}

/// What a cook would try: pits of 225 to 250 °F, pieces of 5 to 7 kg.
Plan variant(std::size_t index) {
  return default_plan(225.0 + 25.0 * reference::halton(index + 1, 2),
                      brisket(5.0 + 2.0 * reference::halton(index + 1, 3)));
}

Plan plan_of(int index) { return index < 0 ? default_plan() : variant(static_cast<std::size_t>(index)); }

void set_tolerance(Options &options, double kelvin) {
  if (kelvin > 0.0) {
    options.water_tolerance *= kelvin / options.temperature_tolerance;
    options.temperature_tolerance = kelvin;
  }
}

} // namespace

reference::Trace simulate_full_model(int index, double tolerance) {
  Options options;
  options.output_every = reference::output_every;
  set_tolerance(options, tolerance);
  const auto outcome = simulate(plan_of(index), options);
  reference::Trace trace;
  trace.end = outcome->time.back();
  for (double t = 0.0; t <= trace.end; t += reference::output_every) {
    trace.middle.push_back(outcome->core_at(t));
  }
  trace.steps = outcome->ledger.steps;
  trace.rejected = outcome->ledger.rejected;
  trace.evaluations = outcome->ledger.evaluations;
  return trace;
}

double sweep_full_model(std::size_t count, int threads, double tolerance) {
  std::vector<Plan> plans;
  for (std::size_t i = 0; i < count; ++i) {
    plans.push_back(variant(i));
  }
  Options options;
  set_tolerance(options, tolerance);
  options.output_every = 300.0;
  std::size_t failed = 0;
  const auto begin = std::chrono::steady_clock::now();
  simulate_many(plans, options, threads,
                [&failed](std::size_t /*index*/, const Result &result) { failed += result.failure ? 1 : 0; });
  const std::chrono::duration<double> took = std::chrono::steady_clock::now() - begin;
  if (failed > 0) {
    throw std::runtime_error("a cook of the sweep failed");
  }
  return took.count();
}

Equations full_model_equations(int index) { return Equations(plan_of(index)); }

} // namespace cook::benchmarks
