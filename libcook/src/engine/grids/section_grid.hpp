/// @file
/// Vertex-centred control volumes in a cross-section of varying thickness: an orthogonal curved mesh.
///
/// With H(x) the thickness, the lines of constant level = z / H(x) run along the piece, from the bottom (0)
/// to the top (1); the lines across are their orthogonal trajectories,
///
///     dx/d(level) = -level H' H / (1 + level^2 H'^2),
///
/// integrated from points spread along level = 1/2. As the two families are orthogonal, the flux through the
/// edge between two nodes is second-order accurate from these two alone: no cross terms, and a matrix of the
/// sign pattern that keeps solutions inside their bounds.
///
/// The end faces are the first and the last trajectory, slightly bevelled where the thickness changes there,
/// placed so that the mesh has the area of the section.
#pragma once

#include <array>
#include <cstddef>
#include <cstdint>
#include <string>
#include <vector>

#include "cook/meat/section.hpp"
#include "meat/thickness_profile.hpp"

namespace cook::engine {

/// A node on the boundary. The lower half of an end face counts to the bottom, with the node in the middle,
/// the upper half to the top. A corner counts to the bottom or top with its two half segments, and is no end.
struct BoundaryNode {
  std::size_t node = 0;
  int side = 0;      ///< 0 bottom, 1 top
  bool end = false;  ///< on an end face
  double area = 0.0; ///< [m² per m of width]; at bottom and top with their share of the side walls
  double x = 0.0;    ///< [m]
};

/// Nodes i * nz + k, i along the length from the flat end, k from the bottom up. Everything is per metre of
/// width.
struct SectionGrid {
  std::size_t nx = 0, nz = 0;
  std::vector<double> x, z;           ///< of each node [m]
  std::vector<double> volume;         ///< of each node [m³ per m]
  std::vector<double> across;         ///< between (i, k) and (i, k+1): edge / distance [-], at i * (nz-1) + k
  std::vector<double> along;          ///< between (i, k) and (i+1, k): edge / distance [-], at i * nz + k
  std::vector<std::uint8_t> region;   ///< of each node: 0 flat, 1 point, 2 seam
  std::vector<BoundaryNode> boundary; ///< bottom, point end, top (backwards), flat end (downwards)
  std::array<double, 2> side_area{};  ///< sums of the boundary's areas by side [m² per m]
  double width = 0.0;                 ///< [m]
  ThicknessProfile profile;           ///< the top face

  /// The node closest to a place.
  [[nodiscard]] std::size_t nearest(double at_x, double at_z) const;
  struct Weights {
    std::array<std::size_t, 4> node{};
    std::array<double, 4> weight{}; ///< 0 to 1, sum 1
  };
  /// Bilinear interpolation in the cell that holds a place; a place in the section that a bevel leaves out
  /// takes the edge next to it. Throws InvalidInput naming `field`.x or `field`.z outside the section.
  [[nodiscard]] Weights locate(double at_x, double at_z, const std::string &field = "probe") const;
};

/// @param nx, nz nodes along the length and across the thickness, 3 or more
/// @param face_spacing distance of the first node from bottom and top at the mean thickness [m]; it goes with
/// the thickness  @param end_spacing distance of the first nodes from the end faces at half the thickness [m]
[[nodiscard]] SectionGrid make_section_grid(const Section &section, int nx, int nz, double face_spacing,
                                            double end_spacing);

} // namespace cook::engine
