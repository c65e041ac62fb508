/// The table of readings: each is what the function it stands for says, alone, together, and of many plans.
#include <doctest/doctest.h>

#include <cmath>
#include <map>
#include <mutex>
#include <set>
#include <string>
#include <vector>

#include "cook/engine/simulate_many.hpp"
#include "cook/errors.hpp"
#include "cook/readings/read_many.hpp"
#include "cook/readings/readings.hpp"
#include "readings/sample_outcomes.hpp"

using namespace cook;

namespace {

std::vector<std::string> all_names() {
  std::vector<std::string> names;
  for (const Reading &reading : reading_table()) {
    names.push_back(reading.name);
  }
  return names;
}

std::vector<double> read(const Reader &reader, const Outcome &outcome) {
  std::vector<double> values(reader.width());
  reader.read(outcome, values);
  return values;
}

/// The one number of a reading.
double read(const std::string &name, const Outcome &outcome, double hold = 60.0) {
  return read(Reader(std::vector<std::string>{name}, outcome.stage_ends.size(), hold), outcome).at(0);
}

/// Equal to the bit, or both NaN.
bool same(double a, double b) { return a == b || (std::isnan(a) && std::isnan(b)); }

/// Pulled at 10 h and 90 °C, peaks at 93 °C half an hour later, then falls 10 K/h to 63 °C.
Outcome rested() {
  Outcome out = samples::outcome({{0, 4}, {4, 66}, {7, 68}, {10, 90}, {10.5, 93}, {13.5, 63}});
  samples::end_stage(out, "smoke", 10.0, 110.0);
  samples::end_stage(out, "rest", 13.5, 21.0);
  out.stage_ends[0].core = 90.0;
  out.stage_ends[1].core = 63.0;
  out.plan = samples::plan(110.0);
  out.tenderness.assign(out.times(), 0.25);
  out.ledger.evaporated = 0.8;
  out.ledger.run_off = 0.3;
  out.ledger.on_surface = 0.1;
  return out;
}

std::vector<Plan> plans_of_all_kinds() {
  std::vector<Plan> plans;
  for (int i = 0; i < 12; ++i) {
    plans.push_back(samples::plan(108.0 + 2.5 * i, i % 3 == 0 ? "foil" : "none"));
    if (i % 4 == 1) {
      plans.back().stages.pop_back();
      plans.back().stages.push_back(plans.back().stages[0]); // never rests
      plans.back().stages[1].until = {{EndKind::elapsed, 600.0}};
    }
  }
  plans[5].stages[0].until = {{EndKind::core, 300.0}};
  plans[7].stages[0].at_most = 3600.0;
  return plans;
}

} // namespace

TEST_CASE("every reading of the table has a name of its own, units and a meaning") {
  std::set<std::string> names;
  for (const Reading &reading : reading_table()) {
    INFO(reading.name);
    CHECK(names.insert(reading.name).second);
    CHECK_FALSE(reading.units.empty());
    CHECK_FALSE(reading.long_name.empty());
  }
}

TEST_CASE("readings are what the functions they stand for say") {
  const Outcome out = rested();
  CHECK(read("finish_time", out) == doctest::Approx(36000.0));
  CHECK(read("end_time", out) == doctest::Approx(48600.0));
  CHECK(read("carryover_peak", out) == doctest::Approx(93.0));
  CHECK(read("carryover_rise", out) == doctest::Approx(3.0));
  CHECK(read("carryover_time", out) == doctest::Approx(1800.0));
  CHECK(read("held", out, 60.0) == doctest::Approx(12600.0));
  CHECK(read("held", out, 73.0) == doctest::Approx(9000.0)); // 93 to 73 °C takes 2 h, after the half
  CHECK(read("still_held", out, 60.0) == 1.0);
  CHECK(read("still_held", out, 73.0) == 0.0);
  const auto stall = find_stall(out);
  REQUIRE(stall);
  CHECK(read("stall_start", out) == stall->start);
  CHECK(read("stall_end", out) == stall->end);
  CHECK(read("stall_duration", out) == stall->duration());
  CHECK(read("stall_plateau", out) == stall->plateau);
  const Loss lost = loss(out);
  CHECK(read("raw_mass", out) == lost.raw);
  CHECK(read("evaporated", out) == 0.8);
  CHECK(read("dripped", out) == 0.3);
  CHECK(read("in_wrap", out) == 0.1);
  CHECK(read("rendered_fat", out) == lost.fat);
  CHECK(read("loss", out) == lost.total() / lost.raw);
  CHECK(read("yield", out) == lost.yield());
  CHECK(read("tenderness", out) == 0.25);
  const Safety safe = safety(out);
  CHECK(read("log_reduction", out) == safe.log_reduction);
  CHECK(read("lethality_time", out) == safe.lethality_at);
  CHECK(read("core_danger_time", out) == safe.core_danger_time);
  CHECK(read("surface_danger_time", out) == safe.surface_danger_time);
  CHECK(read("safety_warnings", out) == static_cast<double>(safe.warnings.size()));
}

TEST_CASE("a cook that ends on the heat, with a steady rise, has neither carryover nor stall") {
  Outcome out = samples::outcome({{0, 4}, {5, 50}});
  samples::end_stage(out, "smoke", 5.0, 110.0);
  CHECK(read("finish_time", out) == doctest::Approx(18000.0));
  for (const char *name : {"stall_start", "stall_end", "stall_plateau", "carryover_peak", "carryover_rise",
                           "carryover_time", "held", "lethality_time", "tenderness"}) {
    INFO(name);
    CHECK(std::isnan(read(name, out)));
  }
  CHECK(read("stall_duration", out) == 0.0);
  CHECK(read("still_held", out, 40.0) == 0.0);
}

TEST_CASE("readings of stages take a number each, in the order asked for, and NaN for stages not begun") {
  const Outcome out = rested();
  const std::vector<std::string> names{"end_time", "stage_core", "end_time", "stage_end"};
  const Reader reader(names, 3, 60.0);
  REQUIRE(reader.width() == 8);
  const std::vector<double> values = read(reader, out);
  CHECK(values[0] == values[4]);
  CHECK(values[1] == 90.0);
  CHECK(values[2] == 63.0);
  CHECK(std::isnan(values[3]));
  CHECK(values[4] == doctest::Approx(48600.0));
  CHECK(values[5] == doctest::Approx(36000.0));
  CHECK(std::isnan(values[7]));
}

TEST_CASE("a reader refuses what it cannot read") {
  const std::vector<std::string> good{"yield"};
  CHECK_THROWS_WITH_AS(Reader(std::vector<std::string>{"yeild"}, 1, 60.0),
                       doctest::Contains("'yeild' is not in the table"), InvalidInput);
  CHECK_THROWS_AS(Reader(good, 1, 140.0), InvalidInput);
  std::vector<double> values(2);
  CHECK_THROWS_AS(Reader(good, 1, 60.0).read(rested(), values), InvalidInput);
  CHECK_THROWS_AS(Reader(good, 1, 60.0).read(Outcome{}, std::span(values).first(1)), InvalidInput);
}

TEST_CASE("what is read of many plans is what is read of each; one that fails has NaN and its reason") {
  const std::vector<Plan> plans = plans_of_all_kinds();
  const Reader reader(all_names(), 2, 55.0);
  const std::vector<Result> results = simulate_many(plans);
  for (const int threads : {1, 3}) {
    std::vector<double> values(plans.size() * reader.width());
    std::map<std::size_t, std::exception_ptr> noted;
    std::mutex mutex;
    read_many(plans, {}, threads, reader, values, [&](std::size_t i, const std::exception_ptr &failure) {
      const std::lock_guard lock(mutex);
      CHECK(noted.emplace(i, failure).second);
    });
    REQUIRE(noted.size() == plans.size());
    for (std::size_t i = 0; i < plans.size(); ++i) {
      INFO("plan ", i);
      const auto row = std::span(values).subspan(i * reader.width(), reader.width());
      const std::vector<double> expected =
          results[i].outcome ? read(reader, *results[i].outcome) : std::vector<double>(reader.width(), NAN);
      CHECK(std::equal(row.begin(), row.end(), expected.begin(), same));
      CHECK((noted[i] == nullptr) == (results[i].failure == nullptr));
    }
    CHECK_THROWS_AS(std::rethrow_exception(noted[5]), InvalidInput);
    CHECK_THROWS_AS(std::rethrow_exception(noted[7]), Unreachable);
  }
  std::vector<double> few(3);
  CHECK_THROWS_AS(read_many(plans, {}, 1, reader, few, [](auto, const auto &) {}), InvalidInput);
}
