/// @file
/// Table rows of the cross-section: the seam, and the default brisket's shape and tissues.
/// Values stand in the structs (include/cook), ranges and sources of their members in the *_fields.hpp beside
/// them; here is what is no member of a struct.
#include <array>

#include "cook/meat/piece_fields.hpp"
#include "fields/parameter_rows.hpp"

namespace cook::rows {

namespace {

using enum Provenance;

void add_default_shape(std::vector<Parameter> &table) {
  table.push_back({"brisket_section.slenderness", brisket_slenderness, "-", 1.2, 2.2,
                   "length over width of a whole brisket, 0.45 m by 0.28 m", common_practice});
  struct Knot {
    const char *name;
    double low, high;
  };
  constexpr std::array<Knot, brisket_profile.size()> knots{{{"flat_end", 0.4, 1.0},
                                                            {"quarter", 0.5, 1.0},
                                                            {"half", 0.7, 1.1},
                                                            {"three_quarters", 1.0, 1.5},
                                                            {"point_end", 1.0, 2.0}}};
  for (std::size_t i = 0; i < knots.size(); ++i) {
    table.push_back(
        {std::string("brisket_section.profile.") + knots[i].name, brisket_profile[i], "-", knots[i].low,
         knots[i].high,
         "thickness over its mean, at that share of the length: a flat of 40 to 50 mm, a point about "
         "2.3 times as thick; measure yours",
         common_practice});
  }
}

} // namespace

void add_section(std::vector<Parameter> &table) {
  add_defaults(table, "section.", Section{});
  add_default_shape(table);
  add_composition(
      table, "brisket_section.point.composition.", brisket_point_tissue().composition,
      "USDA Standard Reference 13807, beef brisket, point half, lean and fat, 1/8\" trim, all grades, "
      "raw; holds part of the seam and of the cover",
      published, {{{0.54, 0.70}, {0.155, 0.21}, {0.08, 0.29}, {0.007, 0.0105}}});
  add_composition(
      table, "brisket_section.seam.composition.", brisket_seam_tissue().composition,
      "USDA Standard Reference 13019, beef retail cuts, separable fat, raw; stands for fat between "
      "muscles",
      published, {{{0.12, 0.35}, {0.05, 0.12}, {0.55, 0.82}, {0.0015, 0.005}}});
}

} // namespace cook::rows
