#include "plan/locate_place.hpp"

#include <algorithm>
#include <cmath>

namespace cook::engine {

namespace {

/// Corners of a cell and the inverse of the bilinear map onto it.
struct Quad {
  std::array<double, 4> x{}, z{}; ///< of (i, k), (i+1, k), (i, k+1), (i+1, k+1)

  [[nodiscard]] static std::array<double, 4> weights(double u, double v) {
    return {(1.0 - u) * (1.0 - v), u * (1.0 - v), (1.0 - u) * v, u * v};
  }
  /// From the place that the weights make of the corners to another one [m].
  [[nodiscard]] std::array<double, 2> off(double at_x, double at_z,
                                          const std::array<double, 4> &weight) const {
    for (std::size_t c = 0; c < 4; ++c) {
      at_x -= weight[c] * x[c];
      at_z -= weight[c] * z[c];
    }
    return {at_x, at_z};
  }
  /// Weights of the corners at a place, or at the edge of the cell next to it, and how far off that is [m].
  double invert(double at_x, double at_z, std::array<double, 4> &weight) const {
    double u = 0.5;
    double v = 0.5;
    constexpr int iterations = 12;
    for (int n = 0; n < iterations; ++n) { // Newton's method; cells are near-rectangles
      const double x_u = (1.0 - v) * (x[1] - x[0]) + v * (x[3] - x[2]);
      const double x_v = (1.0 - u) * (x[2] - x[0]) + u * (x[3] - x[1]);
      const double z_u = (1.0 - v) * (z[1] - z[0]) + v * (z[3] - z[2]);
      const double z_v = (1.0 - u) * (z[2] - z[0]) + u * (z[3] - z[1]);
      weight = weights(u, v);
      const auto [off_x, off_z] = off(at_x, at_z, weight);
      const double determinant = x_u * z_v - x_v * z_u;
      // Kept near the cell: far away the map folds.
      u = std::clamp(u + (off_x * z_v - off_z * x_v) / determinant, -0.5, 1.5);
      v = std::clamp(v + (off_z * x_u - off_x * z_u) / determinant, -0.5, 1.5);
    }
    weight = weights(std::clamp(u, 0.0, 1.0), std::clamp(v, 0.0, 1.0));
    const auto [off_x, off_z] = off(at_x, at_z, weight);
    return std::hypot(off_x, off_z);
  }
  [[nodiscard]] bool box_holds(double at_x, double at_z) const {
    const auto [left, right] = std::minmax_element(x.begin(), x.end());
    const auto [low, high] = std::minmax_element(z.begin(), z.end());
    return at_x >= *left && at_x <= *right && at_z >= *low && at_z <= *high;
  }
};

} // namespace

LocatedPlace locate_place(const std::vector<double> &x, const std::vector<double> &z, std::size_t nz,
                          double at_x, double at_z) {
  constexpr double rounding = 1e-9;
  const std::size_t nx = x.size() / nz;
  LocatedPlace found;
  found.off = HUGE_VAL;
  // First the cells whose box holds the place; then, for one that a bevel or the chord of the top leaves out,
  // all.
  for (const bool everywhere : {false, true}) {
    for (std::size_t i = 0; i + 1 < nx; ++i) {
      for (std::size_t k = 0; k + 1 < nz; ++k) {
        const std::size_t p = i * nz + k;
        const std::array<std::size_t, 4> node{p, p + nz, p + 1, p + nz + 1};
        Quad quad;
        for (std::size_t c = 0; c < 4; ++c) {
          quad.x[c] = x[node[c]];
          quad.z[c] = z[node[c]];
        }
        if (!everywhere && !quad.box_holds(at_x, at_z)) {
          continue;
        }
        std::array<double, 4> weight{};
        const double off = quad.invert(at_x, at_z, weight);
        if (off < found.off) {
          found = {node, weight, off};
        }
      }
    }
    if (found.off < rounding) {
      break;
    }
  }
  return found;
}

} // namespace cook::engine
