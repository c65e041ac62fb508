/// @file
/// Plans by the thousand, on their way from Python to the workers.
#pragma once

#include <iterator>
#include <memory>
#include <vector>

#include "cook/plan/plan.hpp"

namespace cook::python {

/// Copies of plans, made once and run where they lie.
class PlanBatch {
public:
  /// NOTE: a call may be running the plans without the interpreter's lock; it keeps the ones it began with.
  void add(const Plan &plan) { mine().push_back(plan); }
  void add(std::vector<Plan> plans) {
    mine().insert(mine().end(), std::make_move_iterator(plans.begin()), std::make_move_iterator(plans.end()));
  }
  [[nodiscard]] std::shared_ptr<const std::vector<Plan>> plans() const { return plans_; }

private:
  std::vector<Plan> &mine() {
    if (plans_.use_count() > 1) {
      plans_ = std::make_shared<std::vector<Plan>>(*plans_);
    }
    return *plans_;
  }

  std::shared_ptr<std::vector<Plan>> plans_ = std::make_shared<std::vector<Plan>>();
};

} // namespace cook::python
