#include "cook/meat/section.hpp"

#include <algorithm>
#include <cmath>

#include "cook/errors.hpp"
#include "cook/meat/piece_fields.hpp"
#include "cook/meat/shape.hpp"
#include "fields/check.hpp"
#include "meat/thickness_profile.hpp"

namespace cook {

namespace {

/// Steeper than this a cut has a step, which the mesh cannot follow [m per m].
constexpr double steepest = 1.0;
/// Where a cook puts the probe into the flat of a whole brisket: the thickest of it before the point covers
/// it, as a share of the length. Common practice, no source.
constexpr double thickest_flat = 0.57;

std::string element(const std::string &field, std::size_t i) { return field + "[" + std::to_string(i) + "]"; }

void check_points(const Section &s, const std::string &field) {
  const std::string at = field + ".at";
  const std::string thickness = field + ".thickness";
  if (s.at.size() != s.thickness.size()) {
    throw InvalidInput(thickness, std::to_string(s.at.size()) + " distances but " +
                                      std::to_string(s.thickness.size()) +
                                      " thicknesses; each distance in `at` needs one thickness");
  }
  if (s.at.size() < 2 || s.at.size() > 1000) {
    throw InvalidInput(at, std::to_string(s.at.size()) +
                               " points; 2 to 1000 are needed, the first at 0 and the last at the length");
  }
  for (std::size_t i = 0; i < s.at.size(); ++i) {
    check::finite(element(at, i), s.at[i]);
    check::accepted(element(thickness, i), s.thickness[i], told_of(&Section::thickness));
  }
  if (s.at.front() != 0.0) {
    throw InvalidInput(element(at, 0), format_number(s.at.front()) +
                                           " m; the first distance is 0, the flat end; measure there too");
  }
  for (std::size_t i = 1; i < s.at.size(); ++i) {
    if (!(s.at[i] > s.at[i - 1])) {
      throw InvalidInput(element(at, i), format_number(s.at[i]) + " m after " + format_number(s.at[i - 1]) +
                                             " m; distances from the flat end must increase" +
                                             (s.at[i] == s.at[i - 1] ? "; is one repeated?" : ""));
    }
    const double slope = std::fabs(s.thickness[i] - s.thickness[i - 1]) / (s.at[i] - s.at[i - 1]);
    if (slope > steepest) {
      throw InvalidInput(
          element(thickness, i),
          "changes from " + format_number(s.thickness[i - 1]) + " m to " + format_number(s.thickness[i]) +
              " m within " + format_number(s.at[i] - s.at[i - 1]) + " m; accepted: slopes up to " +
              format_number(steepest) + "; a step is not part of the model: leave one of the points out");
    }
  }
  constexpr double rounding = 1e-6;
  if (std::fabs(s.at.back() - s.length) > rounding * s.length) {
    const double ratio = s.at.back() / s.length;
    throw InvalidInput(element(at, s.at.size() - 1),
                       format_number(s.at.back()) + " m, but " + field + ".length is " +
                           format_number(s.length) + " m; the last distance is the length" +
                           (ratio > 100.0 ? "; are the distances in millimetres?" : ""));
  }
}

engine::ThicknessProfile profile_of(const Section &s) {
  check_points(s, "section");
  return {s.at, s.thickness};
}

} // namespace

double Section::thickness_at(double x) const { return profile_of(*this)(x).height; }

double Section::area() const { return profile_of(*this).area_to(length); }

double Section::volume() const { return area() * width; }

void Section::validate(const std::string &field) const {
  check::members(field + ".", *this);
  check_points(*this, field);
  if (point) {
    point->validate(field + ".point");
  }
  if (seam) {
    seam->validate(field + ".seam");
    check::member(field + ".", *this, &Section::seam_thickness);
  }
}

Section::Place Section::place(const std::string &name) const {
  const auto seam_here = [this](double x) { return has_seam() ? std::fmin(seam_share(x), 1.0) : 1.0; };
  if (name == "flat") {
    const double x = (has_seam() ? thickest_flat : 0.5) * length;
    return {x, 0.5 * seam_here(x) * thickness_at(x)};
  }
  if (name == "point") {
    const double x = 0.85 * length;
    const double from = seam_here(x);
    return {x, (from < 1.0 ? 0.5 * (1.0 + from) : 0.5) * thickness_at(x)};
  }
  if (name == "seam" && has_seam()) {
    const double x = 0.5 * (seam_from + 1.0) * length;
    return {x, seam_share(x) * thickness_at(x)};
  }
  throw InvalidInput("place", in_quotes(name) + " has no place in this cross-section; known: flat, point" +
                                  (has_seam() ? ", seam" : " (and seam, where there is one)") +
                                  "; or give x and z");
}

Tissue brisket_point_tissue(const Tissue &meat) {
  Tissue tissue = meat;
  tissue.name = "brisket point";
  tissue.composition = {
      .water = 0.5996, .protein = 0.1765, .fat = 0.2098, .carbohydrate = 0.0, .ash = 0.0082};
  return tissue;
}

Tissue brisket_seam_tissue(const Tissue &meat) {
  Tissue tissue = meat;
  tissue.name = "brisket seam";
  tissue.composition = {
      .water = 0.2021, .protein = 0.0821, .fat = 0.7089, .carbohydrate = 0.0, .ash = 0.0028};
  return tissue;
}

double middle_side_share(double thickness, double width) {
  constexpr double factor = 1.3; // see section.hpp
  return std::fmin(factor * thickness / width, 1.0);
}

Section default_section(const Meat &meat) {
  if (meat.build == Build::flat_and_point) {
    return brisket_section(meat);
  }
  const Shape &shape = meat.shape;
  shape.validate();
  if (!shape.width) {
    throw InvalidInput("meat.shape.width",
                       "missing; a cross-section needs the width of the piece, or give meat.section");
  }
  Section section;
  section.width = *shape.width;
  section.length = shape.extent / section.width;
  section.at = {0.0, section.length};
  section.thickness = {shape.thickness, shape.thickness};
  section.side_share = middle_side_share(shape.thickness, section.width);
  section.validate();
  return section;
}

Section brisket_section(const Meat &meat) {
  if (meat.shape.kind != ShapeKind::slab) {
    throw InvalidInput("meat.shape.kind",
                       "a cylinder has no flat and no point; a cross-section is made from a "
                       "slab, or give meat.section");
  }
  meat.shape.validate();
  Section section;
  section.width = meat.shape.width.value_or(std::sqrt(meat.shape.extent / brisket_slenderness));
  section.length = meat.shape.extent / section.width;
  for (const double share : brisket_profile_at) {
    section.at.push_back(share * section.length);
  }
  section.thickness.assign(brisket_profile.begin(), brisket_profile.end());
  // The curve scales with its points, so one factor makes the mean thickness exact.
  const double mean =
      engine::ThicknessProfile(section.at, section.thickness).area_to(section.length) / section.length;
  for (double &t : section.thickness) {
    t *= meat.shape.thickness / mean;
  }
  section.side_share = middle_side_share(meat.shape.thickness, section.width);
  section.point = brisket_point_tissue(meat.tissue);
  section.seam = brisket_seam_tissue(meat.tissue);
  try {
    section.validate();
  } catch (const InvalidInput &error) {
    // The user gave no section: name what was given.
    throw InvalidInput("meat.shape", std::string("no cross-section of a brisket can be made from it (") +
                                         error.what() + "); give meat.section");
  }
  return section;
}

} // namespace cook
