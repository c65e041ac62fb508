#include "engine/grids/grid.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace cook::engine {

namespace {

double geometric_sum(double first, double ratio, std::size_t count) {
  double sum = 0.0;
  double term = first;
  for (std::size_t i = 0; i < count; ++i) {
    sum += term;
    term *= ratio;
  }
  return sum;
}

} // namespace

std::vector<double> graded_spacings(double length, std::size_t count, double first) {
  const double uniform = length / static_cast<double>(count);
  std::vector<double> spacing(count, uniform);
  if (first >= uniform) {
    return spacing;
  }
  double low = 1.0;
  double high = 10.0;
  for (int i = 0; i < 80; ++i) { // bisection to the last bit: the sum grows steadily with the ratio
    const double ratio = 0.5 * (low + high);
    (geometric_sum(first, ratio, count) < length ? low : high) = ratio;
  }
  double term = first;
  double sum = 0.0;
  for (double &s : spacing) {
    s = term;
    sum += term;
    term *= low;
  }
  for (double &s : spacing) {
    s *= length / sum;
  }
  return spacing;
}

Grid make_grid(const Shape &shape, int nodes, double face_spacing) {
  Grid grid;
  grid.extent = shape.extent;
  const double half = 0.5 * shape.thickness;
  const auto count = static_cast<std::size_t>(nodes / 2);
  const std::vector<double> from_face = graded_spacings(half, count, face_spacing);
  std::vector<double> spacing;
  if (shape.kind == ShapeKind::slab) {
    spacing = from_face;
    spacing.insert(spacing.end(), from_face.rbegin(), from_face.rend());
    grid.middle = count;
  } else {
    spacing.assign(from_face.rbegin(), from_face.rend());
    grid.middle = 0;
  }
  grid.position.assign(1, 0.0);
  for (const double s : spacing) {
    grid.position.push_back(grid.position.back() + s);
  }
  grid.edge_spacing = spacing;
  const std::size_t n = grid.position.size();
  grid.volume.assign(n, 0.0);
  if (shape.kind == ShapeKind::slab) {
    grid.edge_area.assign(n - 1, 1.0);
    for (std::size_t i = 0; i + 1 < n; ++i) {
      grid.volume[i] += 0.5 * spacing[i];
      grid.volume[i + 1] += 0.5 * spacing[i];
    }
    grid.face_area = {1.0, 1.0};
    return grid;
  }
  double inner = 0.0;
  for (std::size_t i = 0; i < n; ++i) {
    const double outer = i + 1 < n ? 0.5 * (grid.position[i] + grid.position[i + 1]) : half;
    grid.volume[i] = std::numbers::pi * (outer * outer - inner * inner);
    if (i + 1 < n) {
      grid.edge_area.push_back(2.0 * std::numbers::pi * outer);
    }
    inner = outer;
  }
  grid.face_area = {0.0, 2.0 * std::numbers::pi * half};
  return grid;
}

} // namespace cook::engine
