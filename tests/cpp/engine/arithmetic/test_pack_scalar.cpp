/// The pack as a scalar: every operation gives in each lane what it gives a double.
#include <doctest/doctest.h>

#include <cmath>
#include <limits>
#include <random>

#include "engine/arithmetic/pack.hpp"
#include "engine/arithmetic/scalar.hpp"

using namespace cook::engine;

namespace {

Pack random_pack(std::mt19937 &random, double low, double high) {
  Pack p{};
  for (std::size_t i = 0; i < pack_lanes; ++i) {
    p.set(i, low + (high - low) * static_cast<double>(random()) / 4294967295.0);
  }
  return p;
}

} // namespace

TEST_CASE("arithmetic, comparisons and choices of a pack are those of its lanes") {
  std::mt19937 random(1);
  for (int n = 0; n < 200; ++n) {
    const Pack a = random_pack(random, -3.0, 3.0);
    const Pack b = random_pack(random, -3.0, 3.0);
    for (std::size_t i = 0; i < pack_lanes; ++i) {
      CHECK((a + b)[i] == a[i] + b[i]);
      CHECK((a - b)[i] == a[i] - b[i]);
      CHECK((a * b)[i] == a[i] * b[i]);
      CHECK((a / b)[i] == a[i] / b[i]);
      CHECK((-a)[i] == -a[i]);
      CHECK((2.0 * a)[i] == 2.0 * a[i]);
      CHECK(min(a, b)[i] == min(a[i], b[i]));
      CHECK(max(a, b)[i] == max(a[i], b[i]));
      CHECK(abs(a)[i] == std::fabs(a[i]));
      CHECK(sqrt(abs(a))[i] == std::sqrt(std::fabs(a[i])));
      CHECK((a < b)[i] == (a[i] < b[i]));
      CHECK((a >= b)[i] == (a[i] >= b[i]));
      CHECK(select(a < b, a, b)[i] == (a[i] < b[i] ? a[i] : b[i]));
      CHECK(((a < b) && !(a < Pack(0.0)))[i] == (a[i] < b[i] && !(a[i] < 0.0)));
      CHECK(((a < b) || (a > Pack(1.0)))[i] == (a[i] < b[i] || a[i] > 1.0));
    }
  }
}

TEST_CASE("any and all look at every lane") {
  for (std::size_t i = 0; i < pack_lanes; ++i) {
    PackMask one{};
    CHECK_FALSE(any(one));
    one.set(i, true);
    CHECK(any(one));
    CHECK_FALSE(all(one));
    CHECK_FALSE(all(!one));
    CHECK(any(!one));
    one.set(i, false);
    CHECK(all(!one));
  }
}

TEST_CASE("the logarithm of a pack is right to the last digit or two over all magnitudes") {
  std::mt19937 random(2);
  double worst = 0.0;
  for (int n = 0; n < 20000; ++n) {
    const Pack small = random_pack(random, -300.0, 300.0);
    Pack x{};
    for (std::size_t i = 0; i < pack_lanes; ++i) {
      x.set(i, n % 2 == 0 ? std::pow(10.0, small[i]) : 1.0 + small[i] / 700.0);
    }
    const Pack got = log(x);
    for (std::size_t i = 0; i < pack_lanes; ++i) {
      const double right = std::log(x[i]);
      worst = std::fmax(worst, std::fabs(got[i] - right) / std::fmax(std::fabs(right), 1.0));
    }
  }
  MESSAGE("largest error of the logarithm ", worst);
  CHECK(worst < 1e-15);
  Pack bad(2.0);
  bad.set(3, std::numeric_limits<double>::quiet_NaN());
  bad.set(5, std::numeric_limits<double>::infinity());
  const Pack got = log(bad);
  CHECK_FALSE(std::isfinite(got[3]));
  CHECK_FALSE(std::isfinite(got[5]));
  CHECK(got[4] == doctest::Approx(std::log(2.0)).epsilon(1e-15));
  CHECK(all(is_finite(Pack(1.0))));
  CHECK_FALSE(is_finite(bad)[3]);
  CHECK_FALSE(is_finite(bad)[5]);
  CHECK(is_finite(bad)[4]);
}
