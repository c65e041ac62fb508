/// @file
/// The cuts: one entry each in table(), and nothing else names it. After a new one
/// `python python/bindings/generate.py` writes the schema anew.
#include "cook/meat/cut.hpp"

#include <algorithm>
#include <cctype>
#include <cmath>

#include "cook/errors.hpp"
#include "suggestion.hpp"

namespace cook {

namespace {

constexpr double lightest = 0.15; // kg
constexpr double beyond = 1.2;    // times the largest whole piece; a plain 14 is meant in pounds

// Compositions: USDA National Nutrient Database for Standard Reference, raw, by the row named. Sizes:
// measured ones are those of validation/field/dimensions.csv; whatever else is judged from pictures of the
// trade: common practice, no source.
const std::vector<Cut> &table() {
  static const std::vector<Cut> list{
      {.name = "brisket",
       .composition = brisket_tissue().composition,
       .mass = 6.0,
       .smallest = 3.2,
       .largest = 9.5,
       .thickness = 0.0533,
       .width = 4.6,
       .spread = 0.12,
       .fat_side = FatSide::down,
       .fat_thickness = 0.006,
       .build = Build::flat_and_point,
       .sources =
           "USDA SR, beef brisket, flat half, boneless, 0\" trim, choice; size: mean of a flat of about 50 "
           "mm and a point of up to 127 mm over 0.45 m x 0.28 m, common practice"},
      {.name = "brisket flat",
       .composition = brisket_tissue().composition,
       .mass = 2.5,
       .smallest = 1.6,
       .largest = 4.5,
       .thickness = 0.045,
       .width = 4.1,
       .spread = 0.15,
       .fat_side = FatSide::down,
       .fat_thickness = 0.006,
       .build = Build::even,
       .sources = "composition as brisket; size: 38 to 51 mm at 2.3 kg by eye (dimensions.csv)"},
      {.name = "brisket point",
       .composition = brisket_point_tissue().composition,
       .mass = 2.5,
       .smallest = 1.6,
       .largest = 4.5,
       .thickness = 0.062,
       .width = 3.2,
       .spread = 0.15,
       .fat_side = FatSide::down,
       .fat_thickness = 0.006,
       .build = Build::even,
       .sources = "USDA SR 13807, beef brisket, point half, 1/8\" trim; size: common practice, no source"},
      {.name = "brisket half",
       .composition = brisket_tissue().composition,
       .mass = 3.0,
       .smallest = 1.6,
       .largest = 5.0,
       .thickness = 0.053,
       .width = 4.0,
       .spread = 0.15,
       .fat_side = FatSide::down,
       .fat_thickness = 0.006,
       .build = Build::even,
       .sources = "a whole brisket cut across in the middle: as thick, half as long"},
      {.name = "pork shoulder",
       .composition = pork_shoulder_tissue().composition,
       .mass = 3.6,
       .smallest = 1.6,
       .largest = 5.5,
       .thickness = 0.0794,
       .width = 2.3,
       .spread = 0.12,
       .sources =
           "USDA SR, pork shoulder, blade (butt), lean and fat: from memory; size: 203 x 254 x 102 mm over "
           "all "
           "at 3.9 kg, 76 to 89 mm for halves of 1.4 to 1.8 kg (dimensions.csv), rounded edges filled up"},
      {.name = "pork butt",
       .composition = pork_shoulder_tissue().composition,
       .bone = 0.06,
       .mass = 3.6,
       .smallest = 1.6,
       .largest = 5.5,
       .thickness = 0.0794,
       .width = 2.3,
       .spread = 0.12,
       .sources = "as pork shoulder, with the blade bone: share from memory"},
      {.name = "pork picnic",
       .composition = {.water = 0.624, .protein = 0.167, .fat = 0.202, .ash = 0.0083},
       .bone = 0.12,
       .mass = 3.4,
       .smallest = 2.2,
       .largest = 5.0,
       .thickness = 0.095,
       .width = 1.5,
       .spread = 0.12,
       .sources =
           "USDA SR, pork shoulder, arm picnic, lean and fat: from memory; size: common practice, no source"},
      {.name = "pork neck",
       .composition = {.water = 0.65, .protein = 0.18, .fat = 0.16, .ash = 0.009},
       .mass = 2.2,
       .smallest = 1.5,
       .largest = 3.2,
       .thickness = 0.080,
       .width = 1.4,
       .spread = 0.10,
       .sources = "composition between butt and loin, size of a boneless neck of 90 mm across: from memory"},
      {.name = "beef chuck",
       .composition = {.water = 0.636, .protein = 0.180, .fat = 0.175, .ash = 0.0089},
       .mass = 1.5,
       .smallest = 1.0,
       .largest = 4.0,
       .thickness = 0.062,
       .width = 2.2,
       .spread = 0.15,
       .sources =
           "USDA SR, beef chuck, blade roast, lean and fat: from memory; size: 64 mm for half of 1.4 kg "
           "(dimensions.csv)"},
      {.name = "beef clod",
       .composition = {.water = 0.690, .protein = 0.195, .fat = 0.105, .ash = 0.0100},
       .mass = 8.5,
       .smallest = 5.0,
       .largest = 12.0,
       .thickness = 0.115,
       .width = 2.2,
       .spread = 0.12,
       .sources =
           "USDA SR, beef chuck, shoulder clod, lean and fat: from memory; size: common practice, no source"},
      {.name = "beef rib roast",
       .composition = {.water = 0.558, .protein = 0.164, .fat = 0.268, .ash = 0.0080},
       .bone = 0.12,
       .mass = 3.5,
       .smallest = 1.5,
       .largest = 8.0,
       .thickness = 0.105,
       .width = 1.4,
       .spread = 0.10,
       .fat_side = FatSide::up,
       .fat_thickness = 0.006,
       .sources = "USDA SR, beef rib, whole, lean and fat: from memory; size: common practice, no source"},
      {.name = "beef plate ribs",
       .composition = {.water = 0.50, .protein = 0.150, .fat = 0.340, .ash = 0.0075},
       .bone = 0.22,
       .mass = 2.5,
       .smallest = 1.5,
       .largest = 4.0,
       .thickness = 0.060,
       .width = 3.5,
       .spread = 0.15,
       .sources = "USDA SR, beef short ribs, choice, lean and fat, less their leanest trim: from memory; "
                  "size: 76 mm of "
                  "meat and bone at 3 kg (dimensions.csv)"},
      {.name = "beef short ribs",
       .composition = {.water = 0.49, .protein = 0.146, .fat = 0.355, .ash = 0.0072},
       .bone = 0.25,
       .mass = 1.2,
       .smallest = 0.4,
       .largest = 2.0,
       .thickness = 0.052,
       .width = 2.5,
       .spread = 0.15,
       .sources =
           "USDA SR, beef short ribs, choice, lean and fat: from memory; size: common practice, no source"},
      {.name = "lamb shoulder",
       .composition = {.water = 0.611, .protein = 0.166, .fat = 0.213, .ash = 0.0090},
       .bone = 0.18,
       .mass = 2.2,
       .smallest = 1.4,
       .largest = 3.5,
       .thickness = 0.068,
       .width = 2.3,
       .spread = 0.15,
       .sources =
           "USDA SR, lamb shoulder, whole, lean and fat: from memory; size: common practice, no source"},
      {.name = "lamb leg",
       .composition = {.water = 0.646, .protein = 0.182, .fat = 0.162, .ash = 0.0094},
       .bone = 0.15,
       .mass = 2.3,
       .smallest = 1.5,
       .largest = 4.0,
       .thickness = 0.082,
       .width = 1.5,
       .spread = 0.15,
       .sources = "USDA SR, lamb leg, whole, lean and fat: from memory; size: common practice, no source"},
      {.name = "turkey breast",
       .composition = {.water = 0.700, .protein = 0.219, .fat = 0.070, .ash = 0.0094},
       .bone = 0.08,
       .mass = 2.5,
       .smallest = 1.0,
       .largest = 5.0,
       .thickness = 0.080,
       .width = 1.7,
       .spread = 0.15,
       .sources = "USDA SR, turkey, breast, meat and skin: from memory; size: common practice, no source"},
  };
  return list;
}

/// What bone is made of: long bone with its marrow, from memory.
constexpr Composition bone_composition{.water = 0.30, .protein = 0.20, .fat = 0.15, .ash = 0.35};

Composition with_bone(const Composition &meat, double share) {
  const auto mix = [share](double lean, double bone) { return lean + share * (bone - lean); };
  return {.water = mix(meat.water, bone_composition.water),
          .protein = mix(meat.protein, bone_composition.protein),
          .fat = mix(meat.fat, bone_composition.fat),
          .carbohydrate = mix(meat.carbohydrate, bone_composition.carbohydrate),
          .ash = mix(meat.ash, bone_composition.ash)};
}

std::string plain(const std::string &name) {
  std::string word = name;
  for (char &c : word) {
    c = c == '_' || c == '-' ? ' ' : static_cast<char>(std::tolower(static_cast<unsigned char>(c)));
  }
  return word;
}

void check_mass(const Cut &cut, double mass) {
  check::within("mass", mass, lightest, beyond * cut.largest, "kg",
                "a plain number is in kg; pounds are written '8 lb'");
}

} // namespace

const std::vector<Cut> &cuts() { return table(); }

const Cut &find_cut(const std::string &name) {
  const std::string wanted = plain(name);
  std::vector<std::string> known;
  for (const Cut &one : cuts()) {
    if (one.name == wanted) {
      return one;
    }
    known.push_back(one.name);
  }
  throw InvalidInput("name", in_quotes(name) + " is not a cut that is known; " + suggestion(wanted, known) +
                                 "; for another one, describe it by its tissue (composition) and its shape "
                                 "(thickness, area, width)");
}

double cut_thickness(const Cut &cut, double mass) {
  return cut.thickness * std::cbrt(std::fmax(mass, cut.smallest) / cut.mass);
}

Meat cut(const Cut &cut, std::optional<double> mass, std::optional<double> thickness, double start) {
  const double whole = mass.value_or(cut.mass);
  check_mass(cut, whole);
  Meat meat;
  meat.tissue.name = cut.name;
  meat.tissue.composition = with_bone(cut.composition, cut.bone);
  meat.start = start;
  meat.build = cut.build;
  meat.fat_cap.side = cut.fat_side;
  if (cut.fat_side != FatSide::none) {
    meat.fat_cap.thickness = cut.fat_thickness;
  }
  meat.shape.thickness = thickness.value_or(cut_thickness(cut, whole));
  meat.shape.extent = 1.0; // resized() finds it
  meat.shape.width = 1.0;
  meat = resized(std::move(meat), whole, meat.shape.thickness);
  // As wide as the whole piece it is cut from; once it is shorter than wide, both shrink.
  const double wide = cut.width * cut_thickness(cut, whole);
  meat.shape.width = std::fmin(wide, std::sqrt(meat.shape.extent));
  meat.validate(cut.name);
  return meat;
}

Meat cut(const std::string &name, std::optional<double> mass, std::optional<double> thickness, double start) {
  return cut(find_cut(name), mass, thickness, start);
}

Meat brisket(double mass, std::optional<double> thickness, double start) {
  return cut("brisket", mass, thickness, start);
}

Meat pork_shoulder(double mass, std::optional<double> thickness, double start) {
  return cut("pork shoulder", mass, thickness, start);
}

Meat with_fat(Meat meat, FatSide side) {
  const bool as_heavy = (meat.fat_cap.side == FatSide::none) == (side == FatSide::none);
  const double whole = meat.mass();
  meat.fat_cap.side = side;
  if (as_heavy) {
    return meat;
  }
  const double thickness = meat.shape.thickness;
  return resized(std::move(meat), whole, thickness);
}

Meat with_mass(Meat meat, double mass) {
  const auto &known = cuts();
  const auto cut =
      std::find_if(known.begin(), known.end(), [&](const Cut &one) { return one.name == meat.tissue.name; });
  const double before = meat.mass();
  double thicker = std::cbrt(mass / before);
  if (cut != known.end()) {
    check_mass(*cut, mass);
    check_mass(*cut, before);
    thicker = cut_thickness(*cut, mass) / cut_thickness(*cut, before);
  }
  const double thickness = meat.shape.thickness * thicker;
  return resized(std::move(meat), mass, thickness);
}

Meat resized(Meat meat, double mass, double thickness) {
  Shape &shape = meat.shape;
  const double before = shape.extent;
  const double cap = meat.fat_cap.side == FatSide::none
                         ? 0.0
                         : meat.fat_cap.thickness * component_density(Component::fat, meat.start);
  shape.thickness = thickness;
  if (shape.kind == ShapeKind::slab) {
    shape.extent = mass / (thickness * meat.tissue.raw_density() + cap);
    if (shape.width) {
      shape.width = *shape.width * std::sqrt(shape.extent / before);
    }
  } else {
    shape.extent = 1.0;
    shape.extent = mass / (shape.volume() * meat.tissue.raw_density());
  }
  if (meat.section) {
    // The section's outline stretches with the piece.
    Section &section = *meat.section;
    const double along = std::sqrt(shape.extent / before);
    const double up = shape.thickness / (section.area() / section.length);
    section.length *= along;
    section.width *= along;
    for (double &x : section.at) {
      x *= along;
    }
    for (double &z : section.thickness) {
      z *= up;
    }
    section.seam_thickness *= up;
    section.at.back() = section.length;
  }
  return meat;
}

} // namespace cook
