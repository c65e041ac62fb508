#include "benchmarks/full_model.hpp"

#include "cook/shape.hpp"
#include "cook/simulate.hpp"
#include "cook/units.hpp"

namespace cook::benchmarks {

namespace {

Plan default_plan() {
  Plan plan{.meat = brisket(), .stages = {}};
  plan.stages.push_back({.name = "smoke",
                         .surroundings = pit("drum", celsius_from_fahrenheit(237.0)),
                         .until = {{.kind = EndKind::elapsed, .value = full_model_end}}});
  return plan;
}

} // namespace

reference::Trace simulate_full_model(double tolerance) {
  Options options;
  options.output_every = reference::output_every;
  if (tolerance > 0.0) {
    options.water_tolerance *= tolerance / options.temperature_tolerance;
    options.temperature_tolerance = tolerance;
  }
  const auto outcome = simulate(default_plan(), options);
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

Equations full_model_equations() { return Equations(default_plan()); }

} // namespace cook::benchmarks
