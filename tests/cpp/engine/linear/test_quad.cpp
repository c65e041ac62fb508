// A 4 x 4 block by columns against the same by blocks, and both against what they should be.
#include <doctest/doctest.h>

#include <array>
#include <cmath>
#include <vector>

#include "engine/linear/quad_blocks.hpp"
#include "engine/linear/quad_columns.hpp"

using namespace cook::engine;

namespace {

using Blocks = QuadBlocks<double>;
using Matrix = std::array<std::array<double, 4>, 4>;
using Pair = std::array<Block<double>, 2>;

/// Numbers that look random, the diagonal large: what a step's matrices are like.
struct Drawn {
  Pair diagonal, partner, coupling;
  double shift;
  explicit Drawn(int seed) {
    int at = 7 * seed;
    const auto next = [&at] { return std::sin(12.9898 * ++at) * 0.7; };
    for (Pair *pair : {&diagonal, &partner, &coupling}) {
      for (Block<double> &b : *pair) {
        b = {next(), next(), next(), next()};
      }
    }
    shift = 4.0 + next();
  }
};

Matrix dense(const Blocks &q) {
  return {{{q.mm.a, q.mm.b, q.mr.a, q.mr.b},
           {q.mm.c, q.mm.d, q.mr.c, q.mr.d},
           {q.rm.a, q.rm.b, q.rr.a, q.rr.b},
           {q.rm.c, q.rm.d, q.rr.c, q.rr.d}}};
}
Matrix dense(const QuadColumns &q) {
  Matrix m{};
  for (std::size_t r = 0; r < 4; ++r) {
    m[r] = {q.one[r], q.two[r], q.three[r], q.four[r]};
  }
  return m;
}
double apart(const Matrix &a, const Matrix &b) {
  double worst = 0.0;
  for (std::size_t r = 0; r < 4; ++r) {
    for (std::size_t c = 0; c < 4; ++c) {
      worst = std::fmax(worst, std::fabs(a[r][c] - b[r][c]));
    }
  }
  return worst;
}
Matrix product(const Matrix &a, const Matrix &b) {
  Matrix m{};
  for (std::size_t r = 0; r < 4; ++r) {
    for (std::size_t c = 0; c < 4; ++c) {
      for (std::size_t k = 0; k < 4; ++k) {
        m[r][c] += a[r][k] * b[k][c];
      }
    }
  }
  return m;
}
const Matrix unit{{{1, 0, 0, 0}, {0, 1, 0, 0}, {0, 0, 1, 0}, {0, 0, 0, 1}}};

} // namespace

TEST_CASE("4 x 4 blocks by columns and by blocks are the same") {
  for (int seed = 1; seed <= 50; ++seed) {
    INFO("seed ", seed);
    const Drawn d(seed);
    const Blocks blocks = Blocks::shifted(d.diagonal.data(), d.partner.data(), d.shift);
    const QuadColumns columns = QuadColumns::shifted(d.diagonal.data(), d.partner.data(), d.shift);
    // Row and column of each entry: the middle acts on the rim through partner[0].
    CHECK(dense(blocks)[2][0] == -d.partner[0].a);
    CHECK(dense(blocks)[0][0] == d.shift - d.diagonal[0].a);
    CHECK(apart(dense(blocks), dense(columns)) == 0.0);
    CHECK(apart(dense(Blocks::times(d.coupling.data(), blocks)),
                dense(QuadColumns::times(d.coupling.data(), columns))) == 0.0);
    CHECK(apart(dense(Blocks::times(blocks, d.coupling.data())),
                dense(QuadColumns::times(columns, d.coupling.data()))) == 0.0);
    CHECK(apart(dense(blocks - Blocks::times(d.coupling.data(), blocks)),
                dense(columns - QuadColumns::times(d.coupling.data(), columns))) == 0.0);
    CHECK(apart(product(dense(blocks), dense(inverse(blocks))), unit) < 1e-13);
    CHECK(apart(product(dense(columns), dense(inverse(columns))), unit) < 1e-13);
    const std::vector<double> x{0.3, -1.2, 2.5, 0.7, 1.1, -0.4, 0.9, 3.1};
    std::vector<double> a(8), b(8);
    Blocks::Four::put(a, 0, Blocks::Four::plus(Blocks::Four::at(x, 0), blocks, Blocks::Four::at(x, 1)));
    Blocks::Four::put(a, 1,
                      Blocks::Four::plus(Blocks::Four::at(x, 1), d.coupling.data(), Blocks::Four::at(x, 0)));
    using Four = QuadColumns::Four;
    Four::put(b, 0, Four::plus(Four::at(x, 0), columns, Four::at(x, 1)));
    Four::put(b, 1, Four::plus(Four::at(x, 1), d.coupling.data(), Four::at(x, 0)));
    CHECK(a == b);
    double third = x[2];
    for (std::size_t c = 0; c < 4; ++c) {
      third += dense(blocks)[2][c] * x[4 + c];
    }
    CHECK(a[2] == doctest::Approx(third).epsilon(1e-14));
  }
}
