/// @file
/// Vertex-centred control volumes on a line: the first and last level lie on the faces.
#pragma once

#include <cstddef>
#include <vector>

#include "cook/meat/shape.hpp"

namespace cook::engine {

/// Nodes, the edges between them and the volumes around them, on one line or on two side by side. Node i is
/// on line i % lines, at level i / lines. Units: a slab per m² of face (edge area 1, volume = length), a
/// cylinder per m of length (edge area 2 pi r), a whole piece as it is.
struct Grid {
  std::size_t lines = 1;
  std::vector<double> position;  ///< depth or radius of each node; of its level where there are two lines [m]
  std::vector<double> volume;    ///< of each node [m³ per m² or per m, or m³]
  std::vector<double> edge_area; ///< between node i and i + lines
  std::vector<double> edge_spacing; ///< distance of these two [m]
  std::vector<double> across;       ///< area / distance between the two lines at each level [m]
  std::vector<double> face_area;    ///< bottom (or axis), then top (or surface), of each line in turn
  double extent = 1.0;              ///< footprint [m²], length [m] or 1: totals = per-unit value x extent
  std::size_t middle = 0;           ///< node of the core

  [[nodiscard]] std::size_t nodes() const { return position.size(); }
};

/// Spacings that grow geometrically away from a graded end: `count` of them, the first `first`, summing to
/// `length`. Uniform when `first` would not be smaller than that.
[[nodiscard]] std::vector<double> graded_spacings(double length, std::size_t count, double first);

/// @param nodes across the thickness; a cylinder takes half of them along its radius
[[nodiscard]] Grid make_grid(const Shape &shape, int nodes, double face_spacing);

} // namespace cook::engine
