/// The grid: what its parts add up to, and how it is graded.
#include <doctest/doctest.h>

#include <cmath>
#include <numbers>
#include <numeric>

#include "engine/grids/grid.hpp"

using namespace cook;
using namespace cook::engine;

namespace {

constexpr double face_spacing = 0.15e-3;
const Shape slab{.kind = ShapeKind::slab, .thickness = 0.056, .extent = 0.1};
const Shape cylinder{.kind = ShapeKind::cylinder, .thickness = 0.14, .extent = 0.21};

double sum(const std::vector<double> &values) { return std::accumulate(values.begin(), values.end(), 0.0); }

} // namespace

TEST_CASE("graded spacings start as asked, grow by one ratio and fill the length") {
  const auto s = graded_spacings(0.028, 20, face_spacing);
  REQUIRE(s.size() == 20);
  CHECK(sum(s) == doctest::Approx(0.028).epsilon(1e-14));
  CHECK(s[0] == doctest::Approx(face_spacing).epsilon(1e-10));
  const double ratio = s[1] / s[0];
  CHECK(ratio > 1.0);
  CHECK(ratio < 1.5); // gentle enough for second order
  for (std::size_t i = 0; i + 1 < s.size(); ++i) {
    CHECK(s[i + 1] / s[i] == doctest::Approx(ratio).epsilon(1e-12));
  }
}

TEST_CASE("a first spacing wider than an even one gives an even grid") {
  for (const double first : {0.0014, 0.01}) {
    for (const double s : graded_spacings(0.028, 20, first)) {
      CHECK(s == doctest::Approx(0.0014).epsilon(1e-14));
    }
  }
}

TEST_CASE("a slab's grid is symmetric, fine at both faces, with a node at the core") {
  const Grid g = make_grid(slab, 41, face_spacing);
  REQUIRE(g.nodes() == 41);
  CHECK(g.position.front() == 0.0);
  CHECK(g.position.back() == doctest::Approx(0.056).epsilon(1e-13));
  CHECK(g.middle == 20);
  CHECK(g.position[g.middle] == doctest::Approx(0.028).epsilon(1e-13));
  for (std::size_t i = 0; i < g.nodes(); ++i) {
    CHECK(g.position[i] + g.position[g.nodes() - 1 - i] == doctest::Approx(0.056).epsilon(1e-13));
    CHECK(g.volume[i] == doctest::Approx(g.volume[g.nodes() - 1 - i]).epsilon(1e-10));
    CHECK(g.volume[i] > 0.0);
  }
  CHECK(sum(g.volume) == doctest::Approx(0.056).epsilon(1e-13)); // per m² of face
  CHECK(g.volume.front() == doctest::Approx(0.5 * face_spacing).epsilon(1e-9));
  CHECK(g.face_area[0] == 1.0);
  CHECK(g.face_area[1] == 1.0);
  CHECK(g.extent == slab.extent);
  CHECK(sum(g.volume) * g.extent == doctest::Approx(slab.volume()).epsilon(1e-13));
  REQUIRE(g.edge_spacing.size() == 40);
  REQUIRE(g.edge_area.size() == 40);
  for (std::size_t i = 0; i < 40; ++i) {
    CHECK(g.edge_spacing[i] == doctest::Approx(g.position[i + 1] - g.position[i]).epsilon(1e-9));
    CHECK(g.edge_area[i] == 1.0);
  }
}

TEST_CASE("a cylinder's grid runs from the axis to the one face, volumes and areas those of rings") {
  const Grid g = make_grid(cylinder, 41, face_spacing);
  REQUIRE(g.nodes() == 21);
  CHECK(g.middle == 0);
  CHECK(g.position.front() == 0.0);
  CHECK(g.position.back() == doctest::Approx(0.07).epsilon(1e-13));
  CHECK(g.edge_spacing.back() == doctest::Approx(face_spacing).epsilon(1e-10));
  CHECK(g.edge_spacing.front() > g.edge_spacing.back());
  CHECK(sum(g.volume) == doctest::Approx(std::numbers::pi * 0.07 * 0.07).epsilon(1e-13)); // per m of length
  CHECK(sum(g.volume) * g.extent == doctest::Approx(cylinder.volume()).epsilon(1e-13));
  CHECK(g.face_area[0] == 0.0);
  CHECK(g.face_area[1] == doctest::Approx(2.0 * std::numbers::pi * 0.07).epsilon(1e-13)); // ends are not seen
  for (std::size_t i = 0; i + 1 < g.nodes(); ++i) {
    const double between = 0.5 * (g.position[i] + g.position[i + 1]);
    CHECK(g.edge_area[i] == doctest::Approx(2.0 * std::numbers::pi * between).epsilon(1e-13));
    CHECK(g.volume[i] > 0.0);
  }
}

TEST_CASE("the node count asked for is the one made, from the fewest to many") {
  for (const int nodes : {9, 15, 41, 401}) {
    CHECK(make_grid(slab, nodes, face_spacing).nodes() == static_cast<std::size_t>(nodes));
    CHECK(make_grid(cylinder, nodes, face_spacing).nodes() == static_cast<std::size_t>(nodes / 2 + 1));
    CHECK(sum(make_grid(slab, nodes, face_spacing).volume) == doctest::Approx(0.056).epsilon(1e-12));
  }
}
