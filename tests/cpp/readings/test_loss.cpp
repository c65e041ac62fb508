// Where the weight goes, and the estimate of rendered fat against the table it rests on.
#include "cook/errors.hpp"
#include "cook/readings/readings.hpp"
#include "readings/sample_outcomes.hpp"

#include <doctest/doctest.h>

#include <cmath>

using namespace cook;

TEST_CASE("rendered share of the fat") {
  // USDA table of cooking yields, brisket flat half, lean and fat, 1/8" trim: 22.15 % fat raw, 10.2 points
  // less when braised.
  CHECK(22.15 * (1.0 - rendered_share(95.0)) == doctest::Approx(11.95).epsilon(1e-12));
  CHECK(rendered_share(rendering_start) == 0.0);
  CHECK(rendered_share(-5.0) == 0.0);
  CHECK(rendered_share(150.0) == rendered_share_cooked);
  CHECK(rendered_share(0.5 * (rendering_start + rendering_end)) ==
        doctest::Approx(0.5 * rendered_share_cooked));
  for (int i = 40; i < 100; ++i) {
    CHECK(rendered_share(i + 1.0) >= rendered_share(i));
  }
}

TEST_CASE("rendered fat weighs nodes by volume and by their highest temperature") {
  Outcome out = samples::outcome({{0, 4}, {1, 60}}, 1800.0); // three samples
  out.plan.meat.fat_cap.side = FatSide::none;
  const Meat &meat = out.plan.meat;
  const double fat = meat.tissue.fat_density() * meat.shape.volume();
  CHECK(rendered_fat(out) == doctest::Approx(fat * rendered_share(60.0))); // no fields: the mean temperature
  out.node_volume = {0.25, 0.75};
  out.temperature = {4, 4, 90, 40, 60, 70}; // the first node peaks in between
  CHECK(rendered_fat(out) ==
        doctest::Approx(fat * (0.25 * rendered_share_cooked + 0.75 * rendered_share(70.0))));
  // The cap renders by the temperature of the face it lies on.
  out.surface[0] = {4, 60, 70};
  out.surface[1] = {4, 4, 4};
  const double without = rendered_fat(out);
  out.plan.meat.fat_cap.side = FatSide::up;
  CHECK(rendered_fat(out) == doctest::Approx(without));
  out.plan.meat.fat_cap.side = FatSide::down;
  const double cap = meat.mass() - meat.tissue.raw_density() * meat.shape.volume();
  CHECK(cap > 0.1);
  CHECK(rendered_fat(out) - without == doctest::Approx(cap * 0.7089 * rendered_share(70.0)));
  CHECK_THROWS_AS((void)rendered_fat(Outcome{}), InvalidInput);
}

TEST_CASE("loss of a simulated cook closes with its water") {
  Plan plan = samples::plan(121.0, "foil");
  Stage bare = plan.stages[0];
  bare.wrap = wrap("none");
  bare.spritz = Spritz{};
  bare.until = {{EndKind::core, 66.0}};
  plan.stages.insert(plan.stages.begin(), bare);
  const auto out = simulate(plan);
  const Loss lost = loss(*out);
  CHECK(lost.raw == doctest::Approx(5.0).epsilon(1e-6));
  CHECK(lost.evaporated > 0.1);
  CHECK(lost.in_wrap > 0.1); // foil keeps juice
  CHECK(lost.spritzed > 0.0);
  CHECK(lost.fat > 0.0);
  const double water = out->ledger.water_start - out->ledger.water_end;
  CHECK(std::fabs(lost.total() - lost.fat - water) < 1e-9 * out->ledger.water_start);
  CHECK(lost.yield() == 1.0 - lost.total() / lost.raw);
  CHECK(lost.yield() > 0.4);
  CHECK(lost.yield() < 0.9);

  Options lean;
  lean.keep_fields = false;
  const Loss coarse = loss(*simulate(plan, lean));
  CHECK(coarse.evaporated == doctest::Approx(lost.evaporated).epsilon(1e-9));
  CHECK(coarse.fat ==
        doctest::Approx(lost.fat).epsilon(0.2)); // an estimate from the mean instead of the nodes
  CHECK_THROWS_AS((void)loss(Outcome{}), InvalidInput);
}
