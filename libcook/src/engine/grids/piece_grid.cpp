#include "engine/grids/piece_grid.hpp"

#include <cmath>
#include <numbers>

namespace cook::engine {

namespace {

/// Fitted to product solutions; see piece_grid.hpp. Lengths count in half thicknesses, of a cylinder in
/// radii.
struct Rule {
  double width, width_power;                         ///< of the rim, by the piece's size
  double distance;                                   ///< between the lines, by its size
  double power, power_by_size, power_by_slenderness; ///< how the rim narrows inward
};
constexpr Rule of_brick{.width = 0.52,
                        .width_power = 0.63,
                        .distance = 0.57,
                        .power = 1.84,
                        .power_by_size = 0.87,
                        .power_by_slenderness = 0.38};
constexpr Rule of_cylinder{.width = 0.50,
                           .width_power = 0.50,
                           .distance = 0.53,
                           .power = 2.27,
                           .power_by_size = 1.26,
                           .power_by_slenderness = 0.0};
constexpr double widest = 0.9;   ///< rim's width, as a share of the smaller half-width
constexpr double flattest = 0.2; ///< power

/// The two parts of a piece.
struct Parts {
  double inner = 0.0;      ///< the middle's footprint [m²], of a cylinder its length [m]
  double rim_volume = 0.0; ///< [m³]
  double rim_faces = 0.0;  ///< the rim's part of both faces, of a cylinder of its mantle [m²]
  double rim_sides = 0.0;  ///< sides or ends [m²]
  double wall = 0.0;     ///< between both: perimeter of the middle [m], of a cylinder the number of its ends
  double power = 0.0;    ///< the rim's surface left at a depth s of D is (1 - s/D)^power [-]
  double distance = 0.0; ///< between the lines [m]

  [[nodiscard]] double rim_area() const { return rim_faces + rim_sides; }
  [[nodiscard]] double rim_depth() const { return rim_volume / rim_area() * (power + 1.0); }
};

double power_of(const Rule &rule, double size, double slenderness) {
  const double power =
      (rule.power + rule.power_by_size * std::log(size)) * std::pow(slenderness, rule.power_by_slenderness);
  return std::fmax(power, flattest);
}

Parts parts_of(const Shape &shape) {
  const double half = 0.5 * shape.thickness;
  Parts p;
  if (shape.kind == ShapeKind::cylinder) {
    const double length = shape.extent;
    const double size = 0.5 * length / half;
    const double rim =
        std::fmin(of_cylinder.width * std::pow(size, of_cylinder.width_power) * half, widest * 0.5 * length);
    const double disc = std::numbers::pi * half * half;
    p.inner = length - 2.0 * rim;
    p.rim_volume = 2.0 * rim * disc;
    p.rim_faces = 2.0 * std::numbers::pi * half * 2.0 * rim;
    p.rim_sides = 2.0 * disc;
    p.wall = 2.0;
    p.power = power_of(of_cylinder, size, 1.0);
    p.distance = of_cylinder.distance * size * half;
    return p;
  }
  const double width = *shape.width;
  const double length = shape.extent / width;
  const double size = 2.0 / (shape.thickness / width + shape.thickness / length);
  const double narrow = std::fmin(width, length);
  const double rim =
      std::fmin(of_brick.width * std::pow(size, of_brick.width_power) * half, widest * 0.5 * narrow);
  const double inner_width = width - 2.0 * rim;
  const double inner_length = length - 2.0 * rim;
  p.inner = inner_width * inner_length;
  p.rim_volume = (shape.extent - p.inner) * shape.thickness;
  p.rim_faces = 2.0 * (shape.extent - p.inner);
  p.rim_sides = 2.0 * (width + length) * shape.thickness;
  p.wall = 2.0 * (inner_width + inner_length);
  p.power = power_of(of_brick, size, narrow / std::fmax(width, length));
  p.distance = of_brick.distance * size * half;
  return p;
}

} // namespace

bool has_sides(const Shape &shape) { return shape.kind == ShapeKind::cylinder || shape.width.has_value(); }

double rim_side_share(const Shape &shape) {
  const Parts p = parts_of(shape);
  return p.rim_sides / p.rim_area();
}

Grid make_piece_grid(const Shape &shape, int nodes, double face_spacing) {
  const Grid line = make_grid(shape, nodes, face_spacing);
  const Parts parts = parts_of(shape);
  const std::size_t levels = line.nodes();
  const double half = 0.5 * shape.thickness;
  const double sides = shape.kind == ShapeKind::slab ? 2.0 : 1.0; // a cylinder's line begins on its axis
  // Share of the way from the middle to the nearer face: 0 in the middle.
  const auto outward = [&](double position) {
    return shape.kind == ShapeKind::slab ? std::fabs(position - half) / half : position / half;
  };
  // The rim's surface left at such a place, and the volume inward of it, of one side.
  const auto surface = [&](double share) { return parts.rim_area() / sides * std::pow(share, parts.power); };
  const auto inward = [&](double share) {
    return parts.rim_volume / sides * std::pow(share, parts.power + 1.0);
  };
  const auto edge = [&](std::size_t i) { return 0.5 * (line.position[i] + line.position[i + 1]); };
  Grid grid;
  grid.lines = 2;
  grid.middle = 2 * line.middle;
  for (const double face : line.face_area) {
    grid.face_area.push_back(parts.inner * face);
    grid.face_area.push_back(face > 0.0 ? surface(1.0) : 0.0);
  }
  for (std::size_t i = 0; i < levels; ++i) {
    // The control volume of the level. The one in the middle of a slab has both sides; on an axis there is
    // one.
    const double low = outward(i > 0 ? edge(i - 1) : line.position.front());
    const double high = outward(i + 1 < levels ? edge(i) : line.position.back());
    const bool both = i == line.middle && sides > 1.0;
    const double volume = both ? inward(low) + inward(high) : std::fabs(inward(high) - inward(low));
    grid.position.insert(grid.position.end(), 2, line.position[i]);
    grid.volume.insert(grid.volume.end(), {parts.inner * line.volume[i], volume});
    grid.across.push_back(parts.wall * line.volume[i] / parts.distance);
    if (i + 1 < levels) {
      const double spacing = line.edge_spacing[i];
      grid.edge_area.insert(grid.edge_area.end(),
                            {parts.inner * line.edge_area[i], surface(outward(edge(i)))});
      grid.edge_spacing.insert(grid.edge_spacing.end(), {spacing, spacing * parts.rim_depth() / half});
    }
  }
  return grid;
}

} // namespace cook::engine
