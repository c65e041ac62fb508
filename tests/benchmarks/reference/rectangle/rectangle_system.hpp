/// @file
/// The two-dimensional reference problem: heat and water through a rectangle with four open faces, on equal
/// intervals.
///
/// State [ T of all nodes, C of all nodes ], a row along x after the other. Volumes as in slab_system.hpp, in
/// both directions. Rates only, in loops along the rows.
#pragma once

#include <array>
#include <cstddef>
#include <vector>

#include "benchmarks/reference/properties.hpp"
#include "benchmarks/reference/recipe.hpp"

namespace cook::reference {

class RectangleSystem {
public:
  /// @param along,across intervals: even numbers, at least 10
  RectangleSystem(std::size_t along, std::size_t across);

  void set(const Recipe &recipe, std::size_t phase);
  void start(const Recipe &recipe, double *y) const;

  [[nodiscard]] std::size_t nodes() const { return nx_ * ny_; }
  [[nodiscard]] std::size_t size() const { return 2 * nodes(); }
  /// Where the temperature in the middle stands.
  [[nodiscard]] std::size_t middle() const { return ny_ / 2 * nx_ + nx_ / 2; }
  [[nodiscard]] double mean_water(const double *y) const;

  void rhs(const double *y, double *f);

  /// The Jacobian at a state, entry by entry; entries of one place are to be added up.
  template <class Add> void jacobian(const double *y, Add &&add) const;

private:
  struct Edge {
    std::size_t a, b;          ///< nodes
    double per_area;           ///< 1 / spacing²
    double weight_a, weight_b; ///< 2 where the volume is halved in this direction
  };
  struct Side {
    std::size_t first, stride, count; ///< nodes
    double per_spacing;
  };

  [[nodiscard]] std::vector<Edge> edges() const;
  [[nodiscard]] std::array<Side, 4> sides() const;
  void evaluate_faces(const double *y);

  std::size_t nx_, ny_;
  double per_dx_ = 0.0, per_dy_ = 0.0;
  double scale_ = 0.0;
  FaceConditions<double> face_;
  std::vector<double> d_;
  // Faces: bottom and top row, left and right end, one after the other, filled up to whole packs.
  std::vector<double> face_t_, face_c_, face_heat_, face_water_;
  // Between two rows.
  std::vector<double> heat_below_, water_below_, heat_above_, water_above_;
};

template <class Add> void RectangleSystem::jacobian(const double *y, Add &&add) const {
  const std::size_t n = nodes();
  const double *t = y;
  const double *c = y + n;
  std::vector<Mobility<double>> d;
  d.reserve(n);
  for (std::size_t p = 0; p < n; ++p) {
    d.push_back(mobility(t[p], c[p], scale_));
  }
  for (const Edge &e : edges()) {
    const double heat = Constants::diffusivity * e.per_area;
    const double spread = 0.5 * e.per_area * (d[e.a].value + d[e.b].value);
    const double slope = 0.5 * e.per_area * (c[e.b] - c[e.a]);
    for (const auto &[row, sign] : {std::pair{e.a, e.weight_a}, std::pair{e.b, -e.weight_b}}) {
      add(row, e.b, sign * heat);
      add(row, e.a, -sign * heat);
      add(n + row, e.a, sign * slope * d[e.a].by_t);
      add(n + row, e.b, sign * slope * d[e.b].by_t);
      add(n + row, n + e.a, sign * (slope * d[e.a].by_c - spread));
      add(n + row, n + e.b, sign * (slope * d[e.b].by_c + spread));
    }
  }
  for (const Side &side : sides()) {
    const double heat = 2.0 * side.per_spacing / (Constants::density * Constants::capacity);
    const double water = 2.0 * side.per_spacing / Constants::density;
    for (std::size_t k = 0; k < side.count; ++k) {
      const std::size_t p = side.first + k * side.stride;
      const FaceFlow<double> flow = face_flow(t[p], c[p], face_);
      add(p, p, heat * flow.heat_by_t);
      add(p, n + p, heat * flow.heat_by_c);
      add(n + p, p, -water * flow.water_by_t);
      add(n + p, n + p, -water * flow.water_by_c);
    }
  }
}

} // namespace cook::reference
