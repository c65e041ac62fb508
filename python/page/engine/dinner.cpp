#include "dinner.hpp"

#include <algorithm>
#include <numeric>
#include <utility>

#include "cook/errors.hpp"
#include "fit/random.hpp"
#include "settings.hpp"

namespace cook::page {

namespace {

constexpr std::uint64_t seed = 20; // the same question gets the same answer
constexpr double patience = 60.0;  // s beyond the longest wait until a plan gives up

double number(const Json &ask, const char *key) {
  const auto found = ask.find(key);
  if (found == ask.end() || !found->is_number()) {
    throw InvalidInput(key, "missing; a number is accepted");
  }
  return found->get<double>();
}

/// The rest and the wait for dinner of python/libcook/planner/recipe.py: held warm, in the wrap that it has.
void rest_and_wait(std::vector<Stage> &stages, double rest, double longest) {
  const Wrap around = stages.back().wrap.name == "none" ? wrap("foil") : stages.back().wrap;
  const auto held = [&](const char *name, double length) {
    Stage made;
    made.name = name;
    made.surroundings = holding_oven();
    made.wrap = around;
    made.until = {End{EndKind::elapsed, length}};
    return made;
  };
  stages.push_back(held("rest", rest));
  stages.push_back(held("hold", longest));
  stages.back().at_most = longest + patience;
}

Plan planned(const Json &settings, const Json &changes, double rest, double longest) {
  Json own = settings;
  own.update(changes);
  own["rest"] = "none";
  Plan plan = plan_of({{"settings", own}});
  plan.clock_start.reset();
  rest_and_wait(plan.stages, rest, longest);
  return plan;
}

Forecast drawn_for(const Plan &habit, int members) {
  ForecastOptions options;
  options.members = members;
  options.seed = seed;
  return forecast(habit, CookLog{}, options);
}

/// Row i of a table with one row for each cook.
std::vector<double> row(const std::vector<double> &table, std::size_t i, std::size_t wide) {
  const auto begin = table.begin() + static_cast<std::ptrdiff_t>(i * wide);
  return {begin, begin + static_cast<std::ptrdiff_t>(wide)};
}

Json told(const Futures &made, std::size_t i, std::size_t waits) {
  // pulled, rested, and waited so long as may be
  const std::vector<double> ends = row(made.stage_end, i, made.stages);
  return {{"pulled", ends[made.stages - 3]},
          {"ready", ends[made.stages - 2]},
          {"bark", made.bark[i]},
          {"come_up", made.come_up[i]},
          {"lethal_before", made.lethal_before[i]},
          {"kept", row(made.kept, i, waits)},
          {"tenderness", row(made.tenderness, i, waits)},
          {"coldest", row(made.coldest, i, waits)}};
}

} // namespace

Dinner::Dinner(const Json &ask) {
  const auto plans = ask.find("plans");
  const auto waits = ask.find("waits");
  if (!ask.contains("settings") || plans == ask.end() || plans->empty() || waits == ask.end()) {
    throw InvalidInput("ask", "settings, plans and waits are needed");
  }
  const double rest = number(ask, "rest");
  const double longest = number(ask, "longest");
  Plan habit;
  for (const Json &changes : *plans) {
    Plan one = planned(ask["settings"], changes, rest, longest);
    plans_.push_back(one.stages);
    if (plans_.size() == 1) {
      habit = std::move(one);
    }
  }
  habit_ = drawn_for(habit, static_cast<int>(number(ask, "members")));
  query_.waits = waits->get<std::vector<double>>();
}

Json Dinner::drawn() const {
  const std::size_t count = habit_.members();
  std::vector<double> normals(count);
  for (std::size_t i = 0; i < count; ++i) {
    normals[i] = fit::normal_quantile((static_cast<double>(i) + 0.5) / static_cast<double>(count));
  }
  fit::Random random(count);
  for (std::size_t i = count; i > 1; --i) {
    const auto other = static_cast<std::size_t>(random.uniform() * static_cast<double>(i));
    std::swap(normals[i - 1], normals[std::min(other, i - 1)]);
  }
  return {{"weight", habit_.weight}, {"normals", normals}};
}

Json Dinner::next(std::size_t count) {
  Json made{{"plan", plan_}, {"cooks", Json::array()}};
  if (done()) {
    return made;
  }
  query_.members.resize(std::min(count, habit_.members() - at_));
  std::iota(query_.members.begin(), query_.members.end(), at_);
  const Futures found = futures(habit_, {plans_[plan_]}, query_).front();
  if (!found.why.empty()) {
    throw InvalidInput("plans", found.why);
  }
  for (std::size_t i = 0; i < query_.members.size(); ++i) {
    made["cooks"].push_back(told(found, i, query_.waits.size()));
  }
  at_ += query_.members.size();
  if (at_ == habit_.members()) {
    at_ = 0;
    ++plan_;
  }
  return made;
}

Plan Dinner::whole(std::size_t plan) const {
  Plan made = habit_.plan;
  made.stages = plans_.at(plan);
  return made;
}

} // namespace cook::page
