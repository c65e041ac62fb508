// What holds for every free number of every plan: reading one and writing it back changes nothing, and what
// was written is what is read.
#include <algorithm>
#include <cmath>
#include <optional>
#include <vector>

#include "cook/errors.hpp"
#include "cook/fit/free_parameter.hpp"
#include "cook/json/json.hpp"
#include "engine/faces/convection.hpp"
#include "engine/stages/stage_setup.hpp"
#include "fit/calibrate/problem.hpp"

#include "fit/invented_logs.hpp"
#include "plan/random_plans.hpp"
#include "json/json_support.hpp"

#include <doctest/doctest.h>

using namespace cook;
using namespace cook::testing;

namespace {

constexpr int plans = 500;

std::optional<double> read(const Plan &plan, const FreeKind &kind) {
  try {
    return value_in(plan, kind.name);
  } catch (const InvalidInput &) {
    return {};
  }
}

std::vector<double> numbers_of(const Plan &plan) {
  std::vector<double> numbers;
  json_support::Walk walk([&](const double &x) { numbers.push_back(x); });
  walk.visit(plan);
  return numbers;
}

bool is_offset(const FreeKind &kind) { return kind.name == "pit_offset" || kind.name == "sensor_offset"; }

bool has_placed_probe(const Plan &plan) {
  const auto &probe = plan.stages.front().probe;
  return probe && probe->z && std::fabs(*probe->z - 0.5 * plan.meat.shape.thickness) > 1e-9;
}

} // namespace

TEST_CASE("reading any free number of any plan and writing it back changes nothing, bit for bit") {
  RandomPlans random(11);
  std::vector<int> had(free_kinds().size(), 0);
  for (int i = 0; i < plans; ++i) {
    const Plan plan = random.next();
    const auto before = json_support::contents_of(plan);
    const std::string text = to_json(plan);
    for (std::size_t k = 0; k < free_kinds().size(); ++k) {
      const FreeKind &kind = free_kinds()[k];
      if (const auto value = read(plan, kind)) {
        Plan written = plan;
        set_value(written, kind.name, *value);
        CAPTURE(i);
        CAPTURE(kind.name);
        CHECK(json_support::contents_of(written) == before);
        CHECK(to_json(written) == text);
        ++had[k];
      }
    }
  }
  for (std::size_t k = 0; k < had.size(); ++k) {
    CAPTURE(free_kinds()[k].name);
    CHECK(had[k] > plans / 10); // the plans have them all
  }
}

TEST_CASE("what is written into any plan is what is read, and the old number brings the old plan back") {
  RandomPlans random(12);
  for (int i = 0; i < plans; ++i) {
    const Plan plan = random.next();
    const std::vector<double> before = numbers_of(plan);
    for (const FreeKind &kind : free_kinds()) {
      const auto value = read(plan, kind);
      if (!value) {
        continue;
      }
      CAPTURE(i);
      CAPTURE(kind.name);
      Plan written = plan;
      double wanted = kind.scale == Scale::linear ? *value + random.between(-0.5, 0.5) * kind.spread
                                                  : *value * random.between(0.85, 1.15);
      wanted = kind.name == "probe_distance" ? std::min(wanted, 0.45 * plan.meat.shape.thickness) : wanted;
      set_value(written, kind.name, wanted);
      if (!is_offset(kind)) {
        CHECK(value_in(written, kind.name) == doctest::Approx(wanted).epsilon(1e-9));
      }
      if (kind.name == "probe_distance" && !has_placed_probe(plan)) {
        continue; // there was none to put back
      }
      set_value(written, kind.name, kind.name == "pit_offset" ? -wanted : *value);
      const std::vector<double> after = numbers_of(written);
      REQUIRE(after.size() == before.size());
      for (std::size_t j = 0; j < before.size(); ++j) {
        CHECK(std::fabs(after[j] - before[j]) <= 1e-12 * std::max(std::fabs(before[j]), 1e-2));
      }
    }
  }
}

TEST_CASE("the film coefficient that is read is the one that the engine heats with") {
  constexpr double rounded = 2e-5; // the engine rounds off the corner of |gap|^(1/4), see convection.hpp
  RandomPlans random(13);
  for (int i = 0; i < plans; ++i) {
    Plan plan = random.next();
    const Surroundings &s = plan.stages.front().surroundings;
    const double gap = s.air.mean() - 65.0; // where films are named, see face_film.hpp
    if (std::fabs(gap) < 10.0) {
      continue;
    }
    const auto in_engine = [&] {
      const auto faces = engine::face_settings(plan.meat, plan.stages.front(), Physics{});
      double sum = 0.0;
      for (const std::size_t f : {0U, 1U}) {
        const auto &face = faces[f];
        sum += engine::film_coefficient(face.h_given, face.natural_cold, face.natural_hot, gap).value;
      }
      return 0.5 * sum;
    };
    CAPTURE(i);
    CHECK(value_in(plan, "film_coefficient") == doctest::Approx(in_engine()).epsilon(rounded));
    set_value(plan, "film_coefficient", 9.5);
    CHECK(in_engine() == doctest::Approx(9.5).epsilon(rounded));
  }
}

TEST_CASE("a fit begins at the plan's own numbers, whatever its log's pit does") {
  RandomPlans random(14);
  for (int i = 0; i < 100; ++i) {
    Plan plan = random.next();
    plan.stages.front().probe =
        Probe{.z = 0.75 * plan.meat.shape.thickness}; // nearer than usual would begin there
    std::vector<FreeParameter> free;
    for (const FreeKind &kind : free_kinds()) {
      const auto value = read(plan, kind);
      if (value && *value >= kind.low && *value <= kind.high) {
        free.push_back({.name = kind.name});
      }
    }
    CookLog log; // lit with the meat in it
    for (double t = 0.0; t <= 7200.0; t += 300.0) {
      log.time.push_back(t);
      log.core.push_back(4.0 + t / 400.0);
      log.pit_time.push_back(t);
      log.pit.push_back(std::min(20.0 + t / 10.0, 130.0));
    }
    const fit::Problem problem = fit::set_up(std::span(&plan, 1), std::span(&log, 1), free, {}, false);
    for (const fit::Number &number : problem.numbers) {
      CAPTURE(number.kind->name);
      CHECK(number.value(0.0) == value_in(plan, number.kind->name));
    }
    CAPTURE(i);
    for (const Plan *start : {&problem.logs[0].asked, &problem.logs[0].followed.plan}) {
      Plan written = *start;
      problem.write(written, 0, Eigen::VectorXd::Zero(static_cast<Eigen::Index>(free.size())));
      CHECK(json_support::contents_of(written) == json_support::contents_of(*start));
    }
  }
}

TEST_CASE("a tuned film is the same share of the plan's in the plan and in the cook that follows the log") {
  Plan plan = nominal_plan();
  CookLog log;
  for (double t = 0.0; t <= 7200.0; t += 300.0) {
    log.time.push_back(t);
    log.core.push_back(4.0 + t / 400.0);
    log.pit_time.push_back(t);
    log.pit.push_back(std::min(20.0 + t / 10.0, 150.0));
  }
  const auto free = named({"film_coefficient"});
  const fit::Problem problem = fit::set_up(std::span(&plan, 1), std::span(&log, 1), free, {}, false);
  Plan followed = problem.logs[0].followed.plan;
  const Eigen::VectorXd u = Eigen::VectorXd::Constant(1, 0.5);
  problem.write(followed, 0, u);
  problem.write(plan, 0, u);
  CHECK(followed.stages[0].surroundings.top.factor == plan.stages[0].surroundings.top.factor);
  CHECK(plan.stages[0].surroundings.top.factor > 1.05);
  CHECK(value_in(plan, "film_coefficient") == doctest::Approx(problem.numbers[0].value(0.5)).epsilon(1e-12));
}
