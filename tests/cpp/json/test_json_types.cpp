// A member of the wrong type is refused with its path, what came and what is needed; null empties what may
// be empty.
#include <doctest/doctest.h>

#include <limits>
#include <string>

#include "cook/errors.hpp"
#include "cook/json/json.hpp"
#include "json/json_support.hpp"

using namespace cook;
using namespace json_support;

namespace {

/// A short plan with `from` replaced by `to`.
std::string plan_with(const std::string &from, const std::string &to) {
  std::string text =
      R"({"format": "libcook plan", "version": 1, "meat": {"cut": "brisket", "mass": 6},
 "stages": [{"name": "smoke", "surroundings": {"pit": "drum", "air": 121}, "wrap": "none", "lid": [],
 "until": {"core": 70}}]})";
  const std::size_t at = text.find(from);
  REQUIRE(at != std::string::npos);
  return text.replace(at, from.size(), to);
}

std::string refusal(const std::string &text) {
  try {
    (void)plan_from_json(text);
  } catch (const InvalidInput &error) {
    return error.what();
  }
  return "accepted";
}

} // namespace

TEST_CASE("wrong types, one by one") {
  CHECK(refusal(plan_with("smoke", "smoke")) == "accepted");
  CHECK(refusal(plan_with(R"("smoke")", "7")) ==
        "stages[0].name: the number 7 came; text in double quotes is needed");
  CHECK(refusal(plan_with(R"("wrap": "none")", R"("wrap": 3)")) ==
        "stages[0].wrap: the number 3 came; the name of a wrap or an object is needed");
  CHECK(
      refusal(plan_with(R"({"core": 70})", "70"))
          .starts_with(
              R"(stages[0].until: the number 70 came; an object such as {"core": 71}, or a list of them, is needed)"));
  CHECK(refusal(plan_with(R"("version": 1, )", "")) ==
        "version: missing; this libcook reads and writes version 1");
  CHECK(refusal(plan_with(R"("version": 1)", R"("version": 1, "$schema": 5)")) ==
        "$schema: the number 5 came; text in double quotes is needed");
  CHECK(refusal(plan_with(R"("version": 1)", R"("version": 1, "$schema": "plan.schema.json")")) ==
        "accepted");
  CHECK(refusal(
            plan_with(R"("air": 121)", R"("air": {"time": [0, 60], "value": [100, 121], "measured": 1})")) ==
        "stages[0].surroundings.air.measured: the number 1 came; true or false is needed");
  const std::string film = refusal(plan_with(R"("air": 121)", R"("air": 121, "top": {"kind": 2})"));
  CHECK(film.starts_with("stages[0].surroundings.top.kind: the number 2 came; a word ("));
  CHECK(film.find("natural") != std::string::npos);
}

TEST_CASE("null empties an optional member") {
  Plan plan = plan_from_json(plan_with("smoke", "smoke"));
  plan.clock_start = 3600.0;
  std::string text = to_json(plan);
  CHECK(plan_from_json(text).clock_start.value() == 3600.0);
  const std::size_t at = text.find(R"("01:00")");
  REQUIRE(at != std::string::npos);
  text.replace(at, 7, "null");
  CHECK_FALSE(plan_from_json(text).clock_start);
}

TEST_CASE("constant properties, of checks against textbooks, are written and read") {
  Plan plan = plan_from_json(plan_with("smoke", "smoke"));
  plan.meat.tissue.fixed = FixedThermal{.conductivity = 0.47, .heat_capacity = 3.7e6};
  const Plan back = plan_from_json(to_json(plan));
  REQUIRE(back.meat.tissue.fixed);
  CHECK(back.meat.tissue.fixed->conductivity == 0.47);
  CHECK(back.meat.tissue.fixed->heat_capacity == 3.7e6);
}

TEST_CASE("an enumerator that does not exist is not written") {
  Plan plan = plan_from_json(plan_with("smoke", "smoke"));
  plan.stages[0].surroundings.top.kind = static_cast<Convection>(9); // NOLINT: what a stray write leaves
  CHECK_THROWS_WITH_AS((void)to_json(plan),
                       "stages[0].surroundings.top.kind: 9 is not one of its enumerators", InvalidInput);
}

TEST_CASE("texts as other systems save them: byte order mark, line ends") {
  CHECK(refusal("\xEF\xBB\xBF" + plan_with("smoke", "smoke")) == "accepted");
  const std::string text = plan_with("},\n", "},\r\n");
  CHECK(refusal(text) == "accepted");
  std::string spoilt = plan_with(R"("mass": 6},)", "\"mass\": 6}, oops\r");
  const std::string said = refusal(spoilt);
  CHECK(said.find("line 1") != std::string::npos);
  CHECK(said.find('\r') == std::string::npos); // would overwrite the line on a terminal
  CHECK(said.find('^') != std::string::npos);
}

TEST_CASE("text that is UTF-8 comes back, overlong forms and surrogates are refused") {
  Plan plan = plan_from_json(plan_with("smoke", "smoke"));
  // The first and last characters on either side of what the standard (Unicode 15, table 3-7) leaves out.
  for (const std::string good : {"\xE0\xA0\x80", "\xED\x9F\xBF", "\xF0\x90\x80\x80", "\xF4\x8F\xBF\xBF"}) {
    plan.stages[0].name = good;
    CHECK(plan_from_json(to_json(plan)).stages[0].name == good);
  }
  for (const std::string bad :
       {"\xE0\x9F\xBF", "\xED\xA0\x80", "\xF0\x8F\xBF\xBF", "\xF4\x90\x80\x80", "\xC3"}) {
    plan.stages[0].name = bad;
    CHECK_THROWS_AS((void)to_json(plan), InvalidInput);
  }
}
