/// The mesh of a cross-section: orthogonal, tiling, positive, with the right boundary, and the slab's grid
/// where the thickness does not vary.
#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>
#include <numeric>

#include "cook/errors.hpp"
#include "cook/meat/shape.hpp"
#include "engine/grids/grid.hpp"
#include "engine/grids/section_grid.hpp"
#include "engine/grids/sections.hpp"

using namespace cook;
using namespace cook::engine;
using namespace cook::testing;

namespace {

constexpr double face_spacing = 0.15e-3;
constexpr double end_spacing = 1e-3;

double sum(const std::vector<double> &values) { return std::accumulate(values.begin(), values.end(), 0.0); }

/// Largest cosine between the level line and the line across at the inner nodes. The level line's direction
/// is exact; the other's is that of the parabola through three nodes.
double worst_cosine(const SectionGrid &g) {
  double worst = 0.0;
  for (std::size_t i = 0; i < g.nx; ++i) {
    for (std::size_t k = 1; k + 1 < g.nz; ++k) {
      const std::size_t p = i * g.nz + k;
      const auto level = [&](std::size_t q) { return g.z[q] / g.profile(g.x[q]).height; };
      const double down = level(p) - level(p - 1);
      const double up = level(p + 1) - level(p);
      const double x_level =
          (down * (g.x[p + 1] - g.x[p]) / up + up * (g.x[p] - g.x[p - 1]) / down) / (down + up);
      const auto [height, slope] = g.profile(g.x[p]);
      const double z_level = height + level(p) * slope * x_level;
      const double rise = level(p) * slope;
      worst = std::fmax(worst, std::fabs(x_level + rise * z_level) /
                                   (std::hypot(x_level, z_level) * std::hypot(1.0, rise)));
    }
  }
  return worst;
}

double boundary_area(const SectionGrid &g) { return g.side_area[0] + g.side_area[1]; }

} // namespace

TEST_CASE("the lines of the mesh cross at right angles") {
  const double coarse = worst_cosine(make_section_grid(bumpy_section(), 41, 21, 1e-3, 4e-3));
  const double middle = worst_cosine(make_section_grid(bumpy_section(), 81, 41, 0.5e-3, 2e-3));
  const double fine = worst_cosine(make_section_grid(bumpy_section(), 161, 81, 0.25e-3, 1e-3));
  CHECK(coarse < 0.01);
  CHECK(coarse / middle > 3.5); // what is left is the parabola's, of second order
  CHECK(middle / fine > 3.5);
}

TEST_CASE("the control volumes tile the section, each of them positive") {
  for (const Section &s : {bumpy_section(), brisket_section(brisket()), straight_section(0.09, 0.03)}) {
    double last = 1.0;
    for (const int n : {1, 2, 4}) {
      const SectionGrid g = make_section_grid(s, 60 * n + 1, 24 * n + 1, face_spacing / n, end_spacing / n);
      REQUIRE(g.nx == static_cast<std::size_t>(60 * n + 1));
      REQUIRE(g.nz == static_cast<std::size_t>(24 * n + 1));
      const std::size_t nodes = g.nx * g.nz;
      REQUIRE(g.x.size() == nodes);
      REQUIRE(g.volume.size() == nodes);
      REQUIRE(g.across.size() == g.nx * (g.nz - 1));
      REQUIRE(g.along.size() == (g.nx - 1) * g.nz);
      for (const auto *values : {&g.volume, &g.across, &g.along}) {
        CHECK(*std::min_element(values->begin(), values->end()) > 0.0);
      }
      const double error = std::fabs(sum(g.volume) / s.area() - 1.0);
      CHECK(error < 2e-4);
      CHECK((error < last / 3.0 || error < 1e-9)); // the chords of curved lines, second order
      last = error;
    }
  }
}

TEST_CASE("mass: the mesh of the default brisket weighs what the slab weighs") {
  const Meat meat = brisket();
  const SectionGrid g = make_section_grid(brisket_section(meat), 61, 25, face_spacing, end_spacing);
  CHECK(sum(g.volume) * g.width == doctest::Approx(meat.shape.volume()).epsilon(1e-4));
}

TEST_CASE("first spacings are those asked for") {
  const Section s = bumpy_section();
  const SectionGrid g = make_section_grid(s, 61, 25, face_spacing, end_spacing);
  const double mean = s.area() / s.length;
  for (const std::size_t i : {std::size_t{0}, std::size_t{30}, std::size_t{60}}) {
    const std::size_t bottom = i * g.nz;
    const double scale = s.thickness_at(g.x[bottom]) / mean;
    CHECK(g.z[bottom] == 0.0);
    CHECK(g.z[bottom + 1] == doctest::Approx(face_spacing * scale).epsilon(1e-3));
    const std::size_t top = bottom + g.nz - 1;
    CHECK(g.z[top] == doctest::Approx(s.thickness_at(g.x[top])).epsilon(1e-12));
  }
  const std::size_t half = g.nz / 2;
  CHECK(g.x[g.nz + half] - g.x[half] == doctest::Approx(end_spacing).epsilon(0.02));
  const std::size_t last = (g.nx - 1) * g.nz + half;
  CHECK(g.x[last] - g.x[last - g.nz] == doctest::Approx(end_spacing).epsilon(0.02));
}

TEST_CASE("the boundary goes round once, with the length of the outline and its share of the side walls") {
  Section s = brisket_section(brisket());
  s.side_share = 0.0;
  const SectionGrid g = make_section_grid(s, 121, 49, face_spacing, end_spacing);
  REQUIRE(g.boundary.size() == 2 * (g.nx + g.nz) - 4);
  std::vector<int> seen(g.x.size(), 0);
  std::array<double, 2> sides{};
  for (std::size_t b = 0; b < g.boundary.size(); ++b) {
    const BoundaryNode &at = g.boundary[b];
    const std::size_t i = at.node / g.nz;
    const std::size_t k = at.node % g.nz;
    CHECK(++seen[at.node] == 1);
    CHECK(at.area > 0.0);
    CHECK(at.x == g.x[at.node]);
    CHECK(at.end == (k != 0 && k + 1 != g.nz));
    CHECK((i == 0 || k == 0 || i + 1 == g.nx || k + 1 == g.nz));
    CHECK(at.side == (k > g.nz / 2 ? 1 : 0));
    sides[static_cast<std::size_t>(at.side)] += at.area;
    const std::size_t next = g.boundary[(b + 1) % g.boundary.size()].node; // neighbours are adjacent nodes
    const std::size_t gap = next > at.node ? next - at.node : at.node - next;
    CHECK((gap == 1 || gap == g.nz));
  }
  CHECK(sides[0] == doctest::Approx(g.side_area[0]).epsilon(1e-13));
  CHECK(sides[1] == doctest::Approx(g.side_area[1]).epsilon(1e-13));

  // The outline, from many short chords along the top and the nodes of the ends.
  const auto node = [&](std::size_t i, std::size_t k) { return i * g.nz + k; };
  double outline = g.x[node(g.nx - 1, 0)] - g.x[node(0, 0)];
  const double from = g.x[node(0, g.nz - 1)];
  const double to = g.x[node(g.nx - 1, g.nz - 1)];
  constexpr int chords = 20000;
  for (int n = 0; n < chords; ++n) {
    const double a = from + (to - from) * n / chords;
    const double b = from + (to - from) * (n + 1) / chords;
    outline += std::hypot(b - a, s.thickness_at(b) - s.thickness_at(a));
  }
  for (const std::size_t i : {std::size_t{0}, g.nx - 1}) {
    for (std::size_t k = 0; k + 1 < g.nz; ++k) {
      outline += std::hypot(g.x[node(i, k + 1)] - g.x[node(i, k)], g.z[node(i, k + 1)] - g.z[node(i, k)]);
    }
  }
  CHECK(boundary_area(g) == doctest::Approx(outline).epsilon(1e-5));

  s.side_share = 1.0;
  const SectionGrid walls = make_section_grid(s, 121, 49, face_spacing, end_spacing);
  // The two side walls are 2 x area of the section, per metre of width 2 x area / width; half to each side.
  const double share = s.area() / s.width;
  CHECK(walls.side_area[0] - g.side_area[0] == doctest::Approx(share).epsilon(0.02)); // the end is bevelled
  CHECK(walls.side_area[1] - g.side_area[1] == doctest::Approx(share).epsilon(0.02));
  CHECK(boundary_area(walls) - boundary_area(g) == doctest::Approx(2.0 * share).epsilon(0.005));
}

TEST_CASE("a uniform section is the slab's graded grid, column by column") {
  const Shape slab{.kind = ShapeKind::slab, .thickness = 0.056, .extent = 0.1};
  const Grid line = make_grid(slab, 25, face_spacing);
  Section s = straight_section(0.056, 0.056);
  for (const int nx : {61, 60}) { // with a column in the middle, and without
    const SectionGrid g = make_section_grid(s, nx, 25, face_spacing, end_spacing);
    CHECK(g.x.front() == doctest::Approx(0.0).scale(1.0).epsilon(1e-13));
    CHECK(g.x.back() == doctest::Approx(0.4).epsilon(1e-13));
    const double ratio = (g.x[2 * g.nz] - g.x[g.nz]) / (g.x[g.nz] - g.x[0]);
    CHECK(ratio > 1.0);
    CHECK(ratio < 1.4);
    for (std::size_t i = 0; i < g.nx; ++i) {
      const double left = i > 0 ? 0.5 * (g.x[i * g.nz] - g.x[(i - 1) * g.nz]) : 0.0;
      const double right = i + 1 < g.nx ? 0.5 * (g.x[(i + 1) * g.nz] - g.x[i * g.nz]) : 0.0;
      CHECK(g.x[i * g.nz] + g.x[(g.nx - 1 - i) * g.nz] == doctest::Approx(0.4).epsilon(1e-12)); // symmetric
      for (std::size_t k = 0; k < g.nz; ++k) {
        const std::size_t p = i * g.nz + k;
        CHECK(g.x[p] == doctest::Approx(g.x[i * g.nz]).epsilon(1e-14));
        CHECK(g.z[p] == doctest::Approx(line.position[k]).epsilon(1e-12));
        CHECK(g.volume[p] == doctest::Approx((left + right) * line.volume[k]).epsilon(1e-10));
        if (k + 1 < g.nz) {
          CHECK(g.across[i * (g.nz - 1) + k] ==
                doctest::Approx((left + right) / line.edge_spacing[k]).epsilon(1e-9));
        }
        if (i + 1 < g.nx) {
          CHECK(g.along[p] == doctest::Approx(line.volume[k] / (2.0 * right)).epsilon(1e-9));
        }
      }
    }
    CHECK(sum(g.volume) == doctest::Approx(0.4 * 0.056).epsilon(1e-13));
    const double side = 0.4 * (1.0 + s.side_share * 0.056 / 0.25);
    CHECK(boundary_area(g) == doctest::Approx(2.0 * (side + 0.056)).epsilon(1e-12));
  }
}

TEST_CASE("regions: flat below, seam between, point above") {
  Section s = brisket_section(brisket());
  for (const int n : {1, 4}) {
    const SectionGrid g = make_section_grid(s, 60 * n + 1, 24 * n + 1, face_spacing, end_spacing);
    std::array<double, 3> share{};
    for (std::size_t i = 0; i < g.nx; ++i) {
      constexpr std::array<int, 3> order{0, 2,
                                         1}; // by region: flat, then seam, then point, from the bottom up
      std::size_t seam = 0;
      for (std::size_t k = 0; k < g.nz; ++k) {
        const std::size_t p = i * g.nz + k;
        REQUIRE(g.region[p] <= 2);
        share[g.region[p]] += g.volume[p] / sum(g.volume);
        seam += g.region[p] == 2 ? 1 : 0;
        if (k > 0) {
          CHECK(order[g.region[p]] >= order[g.region[p - 1]]);
        }
      }
      if (g.x[i * g.nz] > (s.seam_from + 0.05) * s.length) {
        CHECK(seam > 0); // no gap that water could slip through
      }
      if (g.x[i * g.nz] < (s.seam_from - 0.1) * s.length) {
        CHECK(g.region[i * g.nz + g.nz - 1] == 0);
      }
    }
    CHECK(share[0] > 0.7);
    CHECK(share[1] > 0.1);
    // 8 mm along half of the length; a coarse mesh makes it as thick as its nodes are apart.
    const double seam_share = s.seam_thickness * (1.0 - s.seam_from) * s.length / s.area();
    CHECK(share[2] == doctest::Approx(seam_share).epsilon(n == 1 ? 0.35 : 0.1));
    CHECK(g.region[g.nearest(s.place("flat").x, s.place("flat").z)] == 0);
    CHECK(g.region[g.nearest(s.place("point").x, s.place("point").z)] == 1);
    CHECK(g.region[g.nearest(s.place("seam").x, s.place("seam").z)] == 2);
  }
  s.seam.reset();
  const SectionGrid two = make_section_grid(s, 61, 25, face_spacing, end_spacing);
  CHECK(std::count(two.region.begin(), two.region.end(), 2) == 0);
  CHECK(std::count(two.region.begin(), two.region.end(), 1) > 0);
  s.point.reset();
  const SectionGrid one = make_section_grid(s, 61, 25, face_spacing, end_spacing);
  CHECK(std::count(one.region.begin(), one.region.end(), 0) == 61 * 25);
}

TEST_CASE("a place is found in its cell; a linear field is read back exactly") {
  for (const Section &s : {bumpy_section(), brisket_section(brisket()), straight_section(0.03, 0.09)}) {
    const SectionGrid g = make_section_grid(s, 61, 25, face_spacing, end_spacing);
    const auto field = [](double x, double z) { return 5.0 + 40.0 * x - 70.0 * z; };
    for (const double along : {0.0, 0.004, 0.21, 0.5, 0.77, 0.996, 1.0}) {
      for (const double up : {0.0, 0.001, 0.3, 0.5, 0.85, 0.999, 1.0}) {
        const double x = along * s.length;
        const double z = up * s.thickness_at(x);
        const SectionGrid::Weights w = g.locate(x, z);
        double total = 0.0;
        double read = 0.0;
        for (std::size_t c = 0; c < 4; ++c) {
          REQUIRE(w.node[c] < g.x.size());
          CHECK(w.weight[c] >= 0.0);
          total += w.weight[c];
          read += w.weight[c] * field(g.x[w.node[c]], g.z[w.node[c]]);
        }
        CHECK(total == doctest::Approx(1.0).epsilon(1e-12));
        const bool inside = along > 0.01 && along < 0.99 && up < 0.9;
        // Near a bevelled end, and between the top and its chord, the edge next to the place is read.
        CHECK(std::fabs(read - field(x, z)) < (inside ? 1e-9 : 70.0 * 6e-3));
      }
    }
    const std::size_t p = 17 * g.nz + 8;
    const SectionGrid::Weights at_node = g.locate(g.x[p], g.z[p]);
    for (std::size_t c = 0; c < 4; ++c) {
      CHECK(at_node.weight[c] == doctest::Approx(at_node.node[c] == p ? 1.0 : 0.0).scale(1.0).epsilon(1e-9));
    }
    CHECK(g.nearest(g.x[p] + 1e-5, g.z[p] - 1e-5) == p);
    CHECK(g.nearest(-1.0, -1.0) == 0);
  }
}

TEST_CASE("a place outside the section is refused by name") {
  const SectionGrid g = make_section_grid(bumpy_section(), 31, 15, 1e-3, 2e-3);
  CHECK_THROWS_WITH_AS((void)g.locate(0.5, 0.02, "probes[1]"), doctest::Contains("probes[1].x: 0.5 m"),
                       InvalidInput);
  CHECK_THROWS_WITH_AS((void)g.locate(-0.01, 0.02), doctest::Contains("from the flat end"), InvalidInput);
  CHECK_THROWS_WITH_AS((void)g.locate(0.0, 0.031), doctest::Contains("probe.z: 0.031 m"), InvalidInput);
  CHECK_THROWS_WITH_AS((void)g.locate(0.2, 30.0), doctest::Contains("in metres"), InvalidInput);
  CHECK_THROWS_AS((void)g.locate(0.2, std::nan("")), InvalidInput);
}

TEST_CASE("a mesh without nodes or spacing is refused") {
  const Section s = bumpy_section();
  CHECK_THROWS_AS((void)make_section_grid(s, 2, 25, face_spacing, end_spacing), InvalidInput);
  CHECK_THROWS_AS((void)make_section_grid(s, 61, 1, face_spacing, end_spacing), InvalidInput);
  CHECK_THROWS_AS((void)make_section_grid(s, 61, 25, 0.0, end_spacing), InvalidInput);
  CHECK_THROWS_AS((void)make_section_grid(s, 61, 25, face_spacing, std::nan("")), InvalidInput);
  CHECK_NOTHROW((void)make_section_grid(s, 3, 3, face_spacing, end_spacing));
}
