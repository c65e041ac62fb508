#include "cook/meat/cut.hpp"

#include <doctest/doctest.h>

#include "cook/errors.hpp"
#include "cook/json/json.hpp"

using namespace cook;

TEST_CASE("a piece without its fat cap, or with it elsewhere, is as heavy and as thick") {
  const Meat down = brisket(6.0);
  REQUIRE(down.fat_cap.side == FatSide::down);
  const Meat bare = with_fat(down, FatSide::none);
  CHECK(bare.fat_cap.side == FatSide::none);
  CHECK(bare.mass() == doctest::Approx(6.0).epsilon(1e-12));
  CHECK(bare.shape.thickness == down.shape.thickness);
  CHECK(bare.shape.extent > 1.05 * down.shape.extent); // what the cap weighed is lean now
  const Meat up = with_fat(down, FatSide::up);
  CHECK(up.shape.extent == down.shape.extent);
  CHECK(up.fat_cap.side == FatSide::up);
  const Meat back = with_fat(bare, FatSide::down);
  CHECK(back.mass() == doctest::Approx(6.0).epsilon(1e-12));
  CHECK(back.shape.extent == doctest::Approx(down.shape.extent).epsilon(1e-12));
}

TEST_CASE("a plan's JSON takes the fat off a cut and holds meat in a humid oven") {
  const std::string text =
      R"({"format": "libcook plan", "version": 1, "meat": {"cut": "brisket", "mass": 6, "fat": "none"},
    "stages": [{"name": "hold", "surroundings": {"holding_oven": 66, "humidity": 0.5},
                "until": {"elapsed": 3600}}]})";
  const Plan plan = plan_from_json(text);
  CHECK(plan.meat.fat_cap.side == FatSide::none);
  CHECK(plan.meat.shape.extent == with_fat(brisket(6.0), FatSide::none).shape.extent);
  CHECK(plan.stages[0].surroundings.kind == "holding oven");
  CHECK(plan.stages[0].surroundings.vapour_pressure.at(0.0) ==
        holding_oven(66.0, 0.5).vapour_pressure.at(0.0));
  const auto refusal = [](std::string changed) {
    try {
      (void)plan_from_json(changed);
    } catch (const InvalidInput &error) {
      return error.field();
    }
    return std::string();
  };
  const auto with = [&](const std::string &from, const std::string &to) {
    std::string changed = text;
    return changed.replace(changed.find(from), from.size(), to);
  };
  CHECK(refusal(with("0.5", "50")) == "stages[0].surroundings.humidity");
  CHECK(refusal(with("\"none\"", "\"side\"")) == "meat.fat");
  CHECK(refusal(with("\"holding_oven\": 66", "\"oven\": 66")) == "stages[0].surroundings.humidity");
}
