/// @file
/// The lengthwise cross-section of a cut that is thin at one end and thick at the other.
///
/// The table of all defaults, their sources and how sure we are of them is `parameters.hpp`.
#pragma once

#include <array>
#include <optional>
#include <string>
#include <vector>

#include "cook/meat/tissue.hpp"

namespace cook {

struct Meat;

/// Lengthwise cross-section of a cut, from the thin flat end (x = 0) to the thick point end (x = length). It
/// lies on its bottom face, z = 0; the top face is at z = thickness_at(x). Raw sizes, without a fat cap.
///
/// Tissue below the seam (and everywhere when neither `point` nor `seam` is set) is the meat's own. The seam
/// leaves the top face at seam_from and falls, as a share of the thickness, in a straight line to
/// seam_height_end at the point end.
struct Section {
  double length = 0.0;           ///< from the flat end to the point end [m]
  double width = 0.0;            ///< across, the direction that the section does not see [m]
  std::vector<double> at;        ///< distances from the flat end [m]: 0 first, increasing, `length` last
  std::vector<double> thickness; ///< of the lean part there [m]
  std::optional<Tissue> point;   ///< tissue above the seam; absent: the meat's own
  std::optional<Tissue> seam;    ///< fat-rich tissue of the seam between flat and point; absent: none
  double seam_from = 0.5; ///< where the seam leaves the top face, as a share of the length: common practice
  /// Its height at the point end, as a share of the thickness: the flat tapers out beneath the point, common
  /// practice, no source.
  double seam_height_end = 0.3;
  double seam_thickness = 0.008; ///< between 1/4 and 1/2 inch: common practice, no source [m]
  /// Share of the two long sides that counts, 0 to 1. They are not resolved: each length of the bottom and of
  /// the top takes this share of half of the side walls next to it, which multiplies its area by 1 +
  /// side_share thickness/width. Less than all of them, since the section stands for the middle of the cut,
  /// half a width away from either: by the product solution the middle of a bar follows its surroundings
  /// faster than a slab does by the factor 1 + (zeta_w/zeta_h)^2 (thickness/width)^2, zeta tan(zeta) = Bi
  /// (Incropera et al., Fundamentals of Heat and Mass Transfer, ch. 5; valid once the first term rules). For
  /// Biot numbers of 0.6 to 1.1 and the proportions of a brisket this is a share of 0.5 to 0.6.
  double side_share = 0.55;

  /// Thickness at a distance from the flat end [m]: through the points, monotone between them (no overshoot),
  /// with continuous slope and curvature. Outside 0 to length the slope of the end goes on.
  [[nodiscard]] double thickness_at(double x) const;
  [[nodiscard]] double area() const;   ///< of the section [m²], exact integral of thickness_at
  [[nodiscard]] double volume() const; ///< area x width [m³]
  [[nodiscard]] bool has_seam() const { return point.has_value() || seam.has_value(); }
  /// Height of the middle of the seam as a share of the thickness [-]; above 1 before it leaves the top face.
  [[nodiscard]] double seam_share(double x) const {
    return 1.0 - (1.0 - seam_height_end) * (x / length - seam_from) / (1.0 - seam_from);
  }

  /// Throws InvalidInput naming `field`.something when a number is out of range or two do not fit.
  void validate(const std::string &field = "meat.section") const;

  /// A place in the section.
  struct Place {
    double x = 0.0; ///< from the flat end [m]
    double z = 0.0; ///< from the bottom face [m]
  };
  /// Places that have a name: "flat" is half-way up, below the seam, where the flat is thickest, at 57 % of
  /// the length (of a section without seam: in its middle); "point" is half-way between the seam and the top
  /// face at 85 % of the length, half-way up when there is no seam; "seam" is on the seam, half-way between
  /// where it leaves the top face and the point end. Throws InvalidInput for another name, and for "seam"
  /// without a seam.
  [[nodiscard]] Place place(const std::string &name) const;
};

/// Shape of the default brisket: thickness relative to its mean at shares of the length. Common practice, no
/// source: a flat of 40 to 50 mm at its thin end and a point about 2.3 times as thick; measure yours.
inline constexpr std::array<double, 5> brisket_profile_at{0.0, 0.25, 0.5, 0.75, 1.0};
inline constexpr std::array<double, 5> brisket_profile{0.65, 0.75, 0.93, 1.25, 1.5};
/// Length over width of a whole brisket, 0.45 m by 0.28 m: common practice, no source.
inline constexpr double brisket_slenderness = 0.45 / 0.28;

/// Tissue of the point: the meat's own with the composition of the point half, which holds part of the seam
/// and 1/8 inch of cover as well. USDA National Nutrient Database for Standard Reference, 13807: beef
/// brisket, point half, lean and fat, 1/8 inch trim, all grades, raw.
[[nodiscard]] Tissue brisket_point_tissue(const Tissue &meat = brisket_tissue());
/// Tissue of the seam: the meat's own with the composition of separable fat, which stands for fat between
/// muscles. USDA National Nutrient Database for Standard Reference, 13019: beef, retail cuts, separable fat,
/// raw.
[[nodiscard]] Tissue brisket_seam_tissue(const Tissue &meat = brisket_tissue());

/// Share of the sides that lets the middle of the section finish when the middle of the whole piece does:
/// 1.3 thickness / width, at most 1. How the middle of a bar outruns that of a slab goes with (thickness /
/// width)^2, see Section::side_share; the factor was read off three dimensions (validation, whole_piece.py).
/// A section so leaves out part of the heat and of the water that pass the sides.
[[nodiscard]] double middle_side_share(double thickness, double width);

/// The section of a meat that has none of its own, as its build says: of one tissue and thickness, or that of
/// a brisket. Throws InvalidInput for a cylinder, and for an even piece of unknown width.
[[nodiscard]] Section default_section(const Meat &meat);

/// Cross-section of a brisket with the volume and the mean thickness of `meat.shape`, so that both
/// are the same piece: length x width = face of the slab. Throws InvalidInput for a cylinder.
[[nodiscard]] Section brisket_section(const Meat &meat);

} // namespace cook
