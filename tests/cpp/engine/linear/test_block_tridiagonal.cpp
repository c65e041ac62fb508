/// Block-tridiagonal solves: what comes out satisfies the equations, for lines of any length.
#include <doctest/doctest.h>

#include <cmath>
#include <random>
#include <vector>

#include "engine/linear/block_tridiagonal.hpp"

using namespace cook::engine;

TEST_CASE("block-tridiagonal solves satisfy their equations, for even and odd numbers of rows") {
  std::mt19937 random(3); // NOLINT: the same numbers every time
  std::uniform_real_distribution<double> number(-1.0, 1.0);
  const double shift = 6.0; // dominates two neighbours and a cell's own coupling
  for (const std::size_t n : {1U, 2U, 3U, 4U, 5U, 8U, 31U}) {
    BlockTridiagonal<double> matrix(n);
    for (auto *blocks : {&matrix.lower, &matrix.diagonal, &matrix.upper}) {
      for (auto &b : *blocks) {
        b = {number(random), number(random), number(random), number(random)};
      }
    }
    std::vector<double> right(2 * n);
    for (auto &value : right) {
      value = number(random);
    }
    std::vector<double> x = right;
    matrix.factorise_shifted(shift);
    matrix.solve(x);
    for (std::size_t i = 0; i < n; ++i) {
      double p = shift * x[2 * i] - right[2 * i];
      double q = shift * x[2 * i + 1] - right[2 * i + 1];
      const auto take = [&](const Block<double> &b, std::size_t j) {
        p -= b.a * x[2 * j] + b.b * x[2 * j + 1];
        q -= b.c * x[2 * j] + b.d * x[2 * j + 1];
      };
      take(matrix.diagonal[i], i);
      if (i > 0) {
        take(matrix.lower[i], i - 1);
      }
      if (i + 1 < n) {
        take(matrix.upper[i], i + 1);
      }
      CAPTURE(n);
      CAPTURE(i);
      CHECK(std::fabs(p) < 1e-13);
      CHECK(std::fabs(q) < 1e-13);
    }
  }
}
