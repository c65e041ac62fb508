/// @file
/// The fields of the piece: shape, fat cap, cross-section, the meat as a whole.
#pragma once

#include "cook/fields/field.hpp"
#include "cook/meat/shape.hpp"
#include "cook/meat/tissue_fields.hpp"

namespace cook {

/// What a thickness can be: that of a slab, the diameter of a cylinder, at a place of a section.
inline constexpr Range thickness_range =
    range::within(0.005, 0.5, "lengths are in metres: 66 mm is 0.066, or write '66 mm'");
inline constexpr std::string_view from_the_refrigerator = "out of the refrigerator";

template <>
inline constexpr About about<Shape>{
    "Shape", "shape",
    "size of the raw piece, a slab with two faces and four sides, or a cylinder; shrinkage is left out"};
template <>
inline constexpr auto fields_of<Shape> = std::tuple{
    field("kind", &Shape::kind, "what shape it is"),
    field("thickness", &Shape::thickness, kind::length, thickness_range.at_times(),
          "slab thickness or cylinder diameter, without the fat cap",
          {0.045, 0.13, Provenance::common_practice,
           "whole trimmed brisket, mean over flat (about 50 mm) and point (up to 130 mm); measure yours"}),
    field("extent", &Shape::extent, kind::face_area, range::any,
          "area of one face of a slab; of a cylinder its length [m]",
          {0.03, 0.16, Provenance::common_practice, "whole brisket: 0.30 to 0.51 m long, up to 0.30 m wide"}),
    field(
        "width", &Shape::width, kind::length,
        range::within(0.01, 10.0, "lengths are in metres: 280 mm is 0.28, or write '280 mm'").at_times(),
        "one side of a slab's face; the other one is extent / width, and without it the sides are not known "
        "and not counted"),
};

template <>
inline constexpr About about<FatCap>{
    "FatCap", "fat_cap", "a layer of fat on one face: it slows vapour and adds a conduction layer"};
template <>
inline constexpr auto fields_of<FatCap> = std::tuple{
    field("side", &FatCap::side, "which face carries it; a cylinder has none"),
    field("thickness", &FatCap::thickness, kind::length, range::within(0.0, 0.05), "thickness",
          {0.0, 0.013, Provenance::common_practice, "trimmed to about 1/4 inch"}),
    field("vapour_resistivity", &FatCap::vapour_resistivity, kind::vapour_resistivity,
          range::within(0.0, 1e8), "resistance to vapour per thickness",
          {1e4, 1e5, Provenance::derived,
           "fat-covered meat evaporates down to half as much as lean (Lovett, Int. J. Refrigeration 1 (1978) "
           "225, abstract)"}),
};

template <>
inline constexpr About about<Section>{
    "Section", "section",
    "lengthwise cross-section of a cut, from the thin flat end to the thick point end; its volume is the "
    "shape's"};
template <>
inline constexpr auto fields_of<Section> = std::tuple{
    field("length", &Section::length, kind::length,
          range::within(0.02, 2.0, "lengths are in metres: 400 mm is 0.4, or write '400 mm'"),
          "from the flat end to the point end"),
    field("width", &Section::width, kind::length,
          range::within(0.01, 2.0, "lengths are in metres: 400 mm is 0.4, or write '400 mm'"),
          "across, the direction that the section does not see"),
    field("at", &Section::at, kind::length, range::any, "distances from the flat end; 0 first, length last"),
    field("thickness", &Section::thickness, kind::length, thickness_range.at_times(),
          "thickness of the lean part there"),
    field("point", &Section::point, "tissue above the seam; without it the meat's own"),
    field("seam", &Section::seam, "tissue of the seam; without it there is no seam"),
    field("seam_from", &Section::seam_from, kind::share,
          range::within(0.0, 0.95, "a share of the length: half-way is 0.5"),
          "where the seam leaves the top face, as a share of the length",
          {0.3, 0.7, Provenance::common_practice,
           "share of the length: the point covers about the thicker half of the flat"}),
    field("seam_height_end", &Section::seam_height_end, kind::share,
          range::within(0.0, 0.95, "a share of the thickness: half-way up is 0.5"),
          "its height at the point end, as a share of the thickness",
          {0.1, 0.5, Provenance::common_practice,
           "share of the thickness: the flat tapers out beneath the point"}),
    field("seam_thickness", &Section::seam_thickness, kind::length,
          range::within(0.0005, 0.05, "lengths are in metres: 8 mm is 0.008, or write '8 mm'").at_times(),
          "thickness of the seam",
          {0.003, 0.02, Provenance::common_practice,
           "between 1/4 and 1/2 inch, left in when the piece is cooked whole"}),
    field("side_share", &Section::side_share, kind::share,
          range::within(0.0, 1.0, "a share: 1 is all of the sides"),
          "share of the two long sides that counts",
          {0.0, 1.0, Provenance::derived,
           "what reaches the middle of the width, from the product solution of a bar against a slab at Biot "
           "numbers of 0.6 to 1.1 (Incropera et al., Fundamentals of Heat and Mass Transfer, ch. 5)"}),
};

template <>
inline constexpr About about<Meat>{
    "Meat", "meat", "the piece on the table: material, shape, fat cap and starting temperature"};
template <>
inline constexpr auto fields_of<Meat> = std::tuple{
    field("tissue", &Meat::tissue, "material"),
    field("shape", &Meat::shape, "shape and size"),
    field("fat_cap", &Meat::fat_cap, "fat cap"),
    field("start", &Meat::start, kind::temperature, range::celsius(coldest_start, hottest_start),
          "temperature throughout at the start",
          {0.0, 25.0, Provenance::common_practice, from_the_refrigerator}),
    field("build", &Meat::build, "how a lengthwise section looks when none is given"),
    field("section", &Meat::section,
          "lengthwise cross-section, for runs on one; without it as the build says. The same piece as the "
          "shape: see `with_section`"),
};

} // namespace cook
