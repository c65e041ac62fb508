/// @file
/// Vertex-centred control volumes on a line: the first and last node lie on the faces.
#pragma once

#include <array>
#include <cstddef>
#include <vector>

#include "cook/shape.hpp"

namespace cook::engine {

/// Nodes, the edges between them and the volumes around them. For a slab per m² of face (edge area 1, volume
/// = length); for a cylinder per m of length (edge area 2 pi r).
struct Grid {
  std::vector<double> position;      ///< depth or radius [m]
  std::vector<double> volume;        ///< of each node [m³ per m² or per m]
  std::vector<double> edge_area;     ///< between node i and i + 1
  std::vector<double> edge_spacing;  ///< distance of node i and i + 1 [m]
  std::array<double, 2> face_area{}; ///< bottom/axis, top/surface
  double extent = 1.0;               ///< footprint [m²] or length [m]: totals = per-unit value x extent
  std::size_t middle = 0;            ///< node of the core

  [[nodiscard]] std::size_t nodes() const { return position.size(); }
};

/// Spacings that grow geometrically away from a graded end: `count` of them, the first `first`, summing to
/// `length`. Uniform when `first` would not be smaller than that.
[[nodiscard]] std::vector<double> graded_spacings(double length, std::size_t count, double first);

/// @param nodes across the thickness; a cylinder takes half of them along its radius
[[nodiscard]] Grid make_grid(const Shape &shape, int nodes, double face_spacing);

} // namespace cook::engine
