#include "outcome_checks.hpp"

#include <algorithm>
#include <cmath>
#include <string>
#include <vector>

#include "cook/errors.hpp"
#include "cook/readings/reading_table.hpp"
#include "cook/readings/readings.hpp"
#include "require.hpp"

namespace cook::fuzz {

namespace {

bool all_finite(const std::vector<double> &list) {
  return std::all_of(list.begin(), list.end(), [](double x) { return std::isfinite(x); });
}

} // namespace

void check_outcome(const Outcome &out) {
  require(out.times() >= 1, "an outcome has at least its start");
  for (const auto *list : {&out.time, &out.core, &out.coldest, &out.air, &out.tenderness, &out.mean_water,
                           &out.mean_temperature}) {
    require(list->size() == out.times() && all_finite(*list), "traces are finite, one value for each time");
  }
  for (std::size_t face = 0; face < 2; ++face) {
    for (const auto *list : {&out.surface[face], &out.surface_water[face], &out.film[face]}) {
      require(list->empty() || list->size() == out.times(), "a face has one value for each time");
      require(all_finite(*list), "faces are finite");
    }
    for (const auto &path : out.paths[face]) {
      require(all_finite(path), "running totals are finite");
    }
  }
  require(all_finite(out.temperature) && all_finite(out.water), "fields are finite");
  require(out.temperature.size() == out.water.size(), "fields have one size");
  require(std::adjacent_find(out.time.begin(), out.time.end(), [](double a, double b) { return !(a < b); }) ==
              out.time.end(),
          "time increases");
  require(std::all_of(out.tenderness.begin(), out.tenderness.end(),
                      [](double x) { return x > -1e-9 && x < 1.0 + 1e-9; }),
          "tenderness is a share");
  const Ledger &ledger = out.ledger;
  require(std::fabs(ledger.heat_residual) < rounding, "the heat ledger closes",
          std::to_string(ledger.heat_residual * 1e9));
  require(std::fabs(ledger.water_residual) < rounding, "the water ledger closes",
          std::to_string(ledger.water_residual * 1e9));
}

std::vector<double> read_all(const Outcome &out) {
  std::vector<std::string> names;
  for (const Reading &reading : reading_table()) {
    names.push_back(reading.name);
  }
  const Reader reader(names, out.stage_ends.size(), 60.0);
  std::vector<double> numbers(reader.width());
  reader.read(out, numbers);
  return numbers;
}

void check_readings(const Outcome &out) {
  try {
    if (const auto stall = find_stall(out)) {
      require(std::isfinite(stall->plateau) && stall->end >= stall->start, "a stall is finite");
    }
    if (const auto rest = carryover(out)) {
      require(std::isfinite(rest->rise()), "a carryover is finite");
    }
    if (const auto when = falls_to(out, 60.0)) {
      require(std::isfinite(*when), "the time of cooling is finite");
    }
    require(std::isfinite(time_above(out, 60.0)), "the time above a temperature is finite");
    require(std::isfinite(loss(out).total()), "the loss is finite");
    const Safety read = safety(out);
    require(std::isfinite(read.log_reduction) && std::isfinite(read.core_danger_time) &&
                std::isfinite(read.surface_danger_time) && !read.caution.empty(),
            "safety readings are finite");
    const HeatBudget budget = heat_budget(out, 1);
    require(all_finite(budget.convection) && all_finite(budget.radiation) && all_finite(budget.evaporation) &&
                all_finite(budget.into_meat),
            "heat budgets are finite");
    const std::vector<double> numbers = read_all(out);
    require(std::none_of(numbers.begin(), numbers.end(), [](double x) { return std::isinf(x); }),
            "numbers read off are finite, or there are none");
  } catch (const InvalidInput &) {
    return; // too short a trace
  }
}

} // namespace cook::fuzz
