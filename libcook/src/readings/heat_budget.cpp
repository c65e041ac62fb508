/// @file
/// Heat through a face, interval by interval, as differences of the running totals.
#include "cook/readings/readings.hpp"
#include "readings/reading_tools.hpp"

namespace cook {

HeatBudget heat_budget(const Outcome &outcome, std::size_t face) {
  readings::require_samples(outcome);
  if (face > 1) {
    throw InvalidInput("face", std::to_string(face) + "; accepted: 0 (bottom) or 1 (top)");
  }
  if (!readings::has_face(outcome, face)) {
    throw InvalidInput("face", "0; a cylinder has one curved face, which is 1");
  }
  const auto total = [&](FacePath path) -> const std::vector<double> & {
    return outcome.paths[face][static_cast<std::size_t>(path)];
  };
  HeatBudget budget;
  const std::size_t intervals = outcome.times() - 1;
  for (auto *list : {&budget.time, &budget.convection, &budget.radiation, &budget.evaporation,
                     &budget.carried, &budget.into_meat}) {
    list->resize(intervals);
  }
  for (std::size_t i = 0; i < intervals; ++i) {
    const double length = outcome.time[i + 1] - outcome.time[i];
    const auto mean = [&](FacePath path) { return (total(path)[i + 1] - total(path)[i]) / length; };
    budget.time[i] = 0.5 * (outcome.time[i] + outcome.time[i + 1]);
    budget.convection[i] = mean(FacePath::convection);
    budget.radiation[i] = mean(FacePath::radiation);
    budget.evaporation[i] = mean(FacePath::latent);
    budget.carried[i] = mean(FacePath::vapour_sensible) + mean(FacePath::run_off_sensible);
    budget.into_meat[i] = budget.convection[i] + budget.radiation[i] - budget.evaporation[i];
  }
  return budget;
}

} // namespace cook
