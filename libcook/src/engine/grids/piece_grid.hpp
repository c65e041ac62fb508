/// @file
/// Two lines for a whole piece: through the middle of its footprint, and through its rim, where the sides
/// are.
///
/// A line through the thickness alone knows nothing of sides and ends: 38 % more surface than the two faces
/// of a brisket have, half as much again on a shoulder. Here the footprint is cut into a middle, which is a
/// slab (or, of a cylinder, a shorter cylinder), and a rim of the width
///
///     w = 0.52 a b^0.63,     b the harmonic mean of both half-widths over the half-thickness a,
///
/// which has the rest of the volume and all that is left of the surface: of its part of both faces and of the
/// sides. Its cross-section narrows inward, as in a rounded edge: at a depth s of D the share (1 - s/D)^p of
/// its surface is left, D such that the volume is right. Heat and water pass between the lines level by
/// level, through the wall between middle and rim over the distance 0.57 b a.
///
/// The numbers are no property of meat: they were fitted once so that a brick of constant properties, heated
/// from all sides at Biot numbers of 0.5 to 20, follows the exact product solution (Incropera et al.,
/// Fundamentals of Heat and Mass Transfer, ch. 5) from the first change to the last at its centre and in its
/// mean. What is left: 2 to 3 % of the time for 1 : 1.4 : 2.3 and flatter, 3 % for a cube (validation,
/// whole_piece.py, which holds cooks of the full model against a solver in three dimensions as well).
#pragma once

#include "cook/meat/shape.hpp"
#include "engine/grids/grid.hpp"

namespace cook::engine {

/// Whether the sizes that sides and ends need are known: always of a cylinder, of a slab with a width.
[[nodiscard]] bool has_sides(const Shape &shape);

/// @param shape with has_sides()  @param nodes levels across the thickness; a cylinder takes half of them
[[nodiscard]] Grid make_piece_grid(const Shape &shape, int nodes, double face_spacing);

/// Share of each face of the rim that belongs to the sides or ends; the rest is footprint (of a cylinder:
/// mantle).
[[nodiscard]] double rim_side_share(const Shape &shape);

} // namespace cook::engine
