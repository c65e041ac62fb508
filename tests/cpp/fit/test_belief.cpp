// What is believed of a cook before any reading, and cooks drawn from it.
#include <algorithm>
#include <cmath>
#include <numeric>

#include <doctest/doctest.h>

#include "cook/errors.hpp"
#include "cook/fit/belief.hpp"
#include "cook/meat/cut.hpp"
#include "cooks.hpp"

using namespace cook;

namespace {

double mean(const std::vector<double> &values) {
  return std::accumulate(values.begin(), values.end(), 0.0) / static_cast<double>(values.size());
}

} // namespace

TEST_CASE("cooks drawn spread and go together as believed") {
  const Belief belief = believe(testing::wrapped_cook(121.0, "butcher paper", 66.0));
  const Draws drawn = draw_cooks(belief, 2000);
  const std::size_t p = belief.names.size();
  REQUIRE(drawn.values.size() == 2000 * p);
  std::vector<std::vector<double>> u(p);
  for (std::size_t j = 0; j < p; ++j) {
    for (std::size_t i = 0; i < 2000; ++i) {
      const double value = drawn.values[i * p + j];
      u[j].push_back(belief.scales[j] == Scale::logarithmic
                         ? std::log(value / belief.median[j]) / belief.spread[j]
                         : (value - belief.median[j]) / belief.spread[j]);
    }
  }
  for (std::size_t a = 0; a < p; ++a) {
    CAPTURE(belief.names[a]);
    CHECK(mean(u[a]) == doctest::Approx(0.0).epsilon(0.1).scale(1.0));
    for (std::size_t b = 0; b <= a; ++b) {
      double product = 0.0;
      for (std::size_t i = 0; i < 2000; ++i) {
        product += u[a][i] * u[b][i] / 2000.0;
      }
      CHECK(std::fabs(product - belief.correlation[a * p + b]) < 0.12);
    }
  }
  for (std::size_t i = 0; i < 20; ++i) {
    CHECK(drawn.plans[i].meat.mass() == doctest::Approx(belief.plan.meat.mass()).epsilon(1e-3));
    CHECK(drawn.plans[i].meat.tissue.holding.final_share != belief.plan.meat.tissue.holding.final_share);
  }
}

TEST_CASE("the pace drawn has the tails of Student's t") {
  const Belief belief = believe(testing::wrapped_cook(121.0, "butcher paper", 66.0));
  const auto off = [&](const ModelError &error) {
    Belief other = belief;
    other.error = error;
    std::vector<double> pace = draw_cooks(other, 4000).pace;
    std::sort(pace.begin(), pace.end());
    return std::pair{(pace[3000] - 1.0) / belief.error_share, (pace[3800] - 1.0) / belief.error_share};
  };
  // Quartile and 95 % point of t with three degrees of freedom, and of the normal (handbook tables); nine
  // slices of the size cut the far tail a little.
  const auto [half, far] = off(ModelError{});
  CHECK(half == doctest::Approx(0.765).epsilon(0.03));
  CHECK(far == doctest::Approx(2.353).epsilon(0.06));
  const auto [normal_half, normal_far] = off(ModelError{.tails = normal_tails});
  CHECK(normal_half == doctest::Approx(0.674).epsilon(0.02));
  CHECK(normal_far == doctest::Approx(1.645).epsilon(0.02));
}

TEST_CASE("the same seed draws the same cooks, and wrong counts are refused") {
  const Belief belief = believe(testing::wrapped_cook(121.0, "butcher paper", 66.0));
  CHECK(draw_cooks(belief, 10, 3).values == draw_cooks(belief, 10, 3).values);
  CHECK(draw_cooks(belief, 10, 3).values != draw_cooks(belief, 10, 4).values);
  CHECK_THROWS_AS(draw_cooks(belief, 0), InvalidInput);
}
