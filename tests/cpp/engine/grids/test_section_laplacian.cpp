/// The two-point fluxes of the cross-section's mesh are second-order accurate on a strongly graded, curved
/// grid: steady diffusion with a manufactured solution. Method: Salari & Knupp, Code Verification by the
/// Method of Manufactured Solutions, Sandia report SAND2000-1444 (2000).
#include <doctest/doctest.h>

#include <array>
#include <cmath>
#include <utility>
#include <vector>

#include <Eigen/SparseCore>
#include <Eigen/SparseLU>

#include "engine/grids/section_grid.hpp"
#include "engine/grids/sections.hpp"

using namespace cook;
using namespace cook::engine;
using namespace cook::testing;

namespace {

/// A smooth field without any symmetry of the section's, its gradient and its source -div grad u.
struct Field {
  double value, x, z, source;
};

Field field(double x, double z) {
  constexpr double a = 17.0; // 1/m
  constexpr double b = 31.0; // 1/m
  const double wave = std::sin(a * x + 0.3) * std::cos(b * z - 0.2);
  const double grown = std::exp(3.0 * x + 9.0 * z);
  return {wave + grown, a * std::cos(a * x + 0.3) * std::cos(b * z - 0.2) + 3.0 * grown,
          -b * std::sin(a * x + 0.3) * std::sin(b * z - 0.2) + 9.0 * grown,
          (a * a + b * b) * wave - (9.0 + 81.0) * grown};
}

enum class Edge { given_value, exchange };

/// Volume-weighted L2 norm of the error.
double error_of(const SectionGrid &g, Edge edge) {
  const std::size_t nodes = g.x.size();
  using Index = Eigen::Index;
  std::vector<Eigen::Triplet<double>> entries;
  Eigen::VectorXd right(static_cast<Index>(nodes));
  std::vector<char> fixed(nodes, 0);
  for (const BoundaryNode &at : g.boundary) {
    const std::size_t i = at.node / g.nz;
    const bool corner = !at.end && (i == 0 || i + 1 == g.nx); // two normals: its value is given
    fixed[at.node] = edge == Edge::given_value || corner ? 1 : 0;
  }
  for (std::size_t p = 0; p < nodes; ++p) {
    const Field f = field(g.x[p], g.z[p]);
    right[static_cast<Index>(p)] = fixed[p] != 0 ? f.value : f.source * g.volume[p];
    if (fixed[p] != 0) {
      entries.emplace_back(static_cast<int>(p), static_cast<int>(p), 1.0);
    }
  }
  const auto couple = [&](std::size_t p, std::size_t q, double conductance) {
    for (const auto &[here, there] : {std::pair{p, q}, std::pair{q, p}}) {
      if (fixed[here] == 0) {
        entries.emplace_back(static_cast<int>(here), static_cast<int>(here), conductance);
        entries.emplace_back(static_cast<int>(here), static_cast<int>(there), -conductance);
      }
    }
  };
  for (std::size_t i = 0; i < g.nx; ++i) {
    for (std::size_t k = 0; k < g.nz; ++k) {
      const std::size_t p = i * g.nz + k;
      if (k + 1 < g.nz) {
        couple(p, p + 1, g.across[i * (g.nz - 1) + k]);
      }
      if (i + 1 < g.nx) {
        couple(p, p + g.nz, g.along[p]);
      }
    }
  }
  for (const BoundaryNode &at : g.boundary) {
    if (fixed[at.node] != 0) {
      continue;
    }
    // Outward: down or up from a level line, or along it at the ends. du/dn + h (u - surroundings) = 0.
    const double x = g.x[at.node];
    const double z = g.z[at.node];
    const auto [height, slope] = g.profile(x);
    const double rise = z / height * slope;
    const double sign = at.end ? (at.node < g.nz ? -1.0 : 1.0) : (at.side == 0 ? -1.0 : 1.0);
    const Field f = field(x, z);
    const double outward =
        sign * (at.end ? f.x + rise * f.z : f.z - rise * f.x) / std::sqrt(1.0 + rise * rise);
    constexpr double h = 40.0; // 1/m
    const double surroundings = f.value + outward / h;
    entries.emplace_back(static_cast<int>(at.node), static_cast<int>(at.node), h * at.area);
    right[static_cast<Index>(at.node)] += h * at.area * surroundings;
  }
  Eigen::SparseMatrix<double> matrix(static_cast<Index>(nodes), static_cast<Index>(nodes));
  matrix.setFromTriplets(entries.begin(), entries.end());
  Eigen::SparseLU<Eigen::SparseMatrix<double>> solver(matrix);
  REQUIRE(solver.info() == Eigen::Success);
  const Eigen::VectorXd u = solver.solve(right);
  double square = 0.0;
  double volume = 0.0;
  for (std::size_t p = 0; p < nodes; ++p) {
    const double off = u[static_cast<Index>(p)] - field(g.x[p], g.z[p]).value;
    square += g.volume[p] * off * off;
    volume += g.volume[p];
  }
  return std::sqrt(square / volume);
}

std::array<double, 3> errors(Edge edge) {
  RefinedSections meshes;
  std::array<double, 3> error{};
  for (double &level : error) {
    level = error_of(meshes.next(), edge);
  }
  return error;
}

} // namespace

TEST_CASE("diffusion on the curved, graded mesh: second order with values given on the boundary") {
  const std::array<double, 3> error = errors(Edge::given_value);
  INFO("errors ", error[0], " ", error[1], " ", error[2]);
  CHECK(error[0] < 0.02);
  CHECK(std::log2(error[0] / error[1]) >= 1.9);
  CHECK(std::log2(error[1] / error[2]) >= 1.9);
}

TEST_CASE("diffusion on the curved, graded mesh: second order with exchange through every face") {
  const std::array<double, 3> error = errors(Edge::exchange);
  INFO("errors ", error[0], " ", error[1], " ", error[2]);
  CHECK(error[0] < 0.05);
  CHECK(std::log2(error[0] / error[1]) >= 1.9);
  CHECK(std::log2(error[1] / error[2]) >= 1.9);
}
