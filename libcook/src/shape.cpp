#include "cook/shape.hpp"

#include <cmath>
#include <numbers>
#include <utility>

#include "cook/errors.hpp"

namespace cook {

namespace {

/// Of a piece by its mass [kg]; 24 lb (common practice, no source). A plain 12 or 14 is meant in pounds.
constexpr double heaviest = 11.0;

} // namespace

void Shape::validate(const std::string &field) const {
  const char *what = kind == ShapeKind::slab ? ".thickness" : ".diameter";
  check::within(field + what, thickness, 0.005, 0.5, "m",
                "lengths are in metres: 66 mm is 0.066, or write '66 mm'");
  if (kind == ShapeKind::slab) {
    check::within(field + ".area", extent, 1e-4, 10.0, "m²", "area of one face");
  } else {
    check::within(field + ".length", extent, 0.01, 10.0, "m");
  }
}

double Shape::volume() const {
  if (kind == ShapeKind::slab) {
    return thickness * extent;
  }
  return 0.25 * std::numbers::pi * thickness * thickness * extent;
}

double Shape::surface_area() const {
  return kind == ShapeKind::slab ? 2.0 * extent : std::numbers::pi * thickness * extent;
}

double FatCap::heat_resistance() const { return thickness / component_conductivity(Component::fat, 40.0); }

void Meat::validate(const std::string &field) const {
  tissue.validate(field);
  shape.validate(field + ".shape");
  check::celsius(field + ".start", start, coldest_start, hottest_start);
  check::within(field + ".fat_cap.thickness", fat_cap.thickness, 0.0, 0.05, "m");
  check::within(field + ".fat_cap.vapour_resistivity", fat_cap.vapour_resistivity, 0.0, 1e8, "s/m²");
  if (section) {
    section->validate(field + ".section");
    constexpr double close = 0.01;
    if (shape.kind != ShapeKind::slab || std::fabs(section->volume() / shape.volume() - 1.0) > close) {
      throw InvalidInput(field + ".section", "its volume, " + format_number(section->volume() * 1e3) +
                                                 " litres, is not that of the shape, " +
                                                 format_number(shape.volume() * 1e3) +
                                                 " litres; with_section() makes the two fit");
    }
  }
  if (fat_cap.side != FatSide::none && shape.kind == ShapeKind::cylinder) {
    throw InvalidInput(field + ".fat_cap",
                       "a cylinder has one face, so it cannot carry a cap on one side; use FatSide none");
  }
}

double Meat::mass() const {
  const double cap = fat_cap.side == FatSide::none
                         ? 0.0
                         : shape.extent * fat_cap.thickness * component_density(Component::fat, start);
  return shape.volume() * tissue.raw_density() + cap;
}

Meat with_section(Meat meat, Section section) {
  section.validate();
  meat.shape.kind = ShapeKind::slab;
  meat.shape.thickness = section.area() / section.length;
  meat.shape.extent = section.length * section.width;
  meat.section = std::move(section);
  meat.validate();
  return meat;
}

Meat brisket(double mass, std::optional<double> thickness, double start) {
  check::within("mass", mass, 0.3, heaviest, "kg",
                "a whole brisket weighs 4 to 8 kg, 9 to 18 lb; a plain number is in kg");
  Meat meat;
  meat.start = start;
  meat.shape.thickness = thickness.value_or(0.056 * std::cbrt(mass / 6.0));
  const double per_area = meat.shape.thickness * meat.tissue.raw_density() +
                          meat.fat_cap.thickness * component_density(Component::fat, start);
  meat.shape.extent = mass / per_area;
  meat.validate("brisket");
  return meat;
}

Meat pork_shoulder(double mass, std::optional<double> diameter, double start) {
  check::within("mass", mass, 0.3, heaviest, "kg", "a plain number is in kg; pounds are written '8 lb'");
  constexpr double slenderness = 1.5; // length / diameter: common practice, no source
  Meat meat;
  meat.tissue = pork_shoulder_tissue();
  meat.start = start;
  meat.fat_cap.side = FatSide::none;
  meat.shape.kind = ShapeKind::cylinder;
  const double volume = mass / meat.tissue.raw_density();
  meat.shape.thickness = diameter.value_or(std::cbrt(volume * 4.0 / (std::numbers::pi * slenderness)));
  meat.shape.extent = volume / (0.25 * std::numbers::pi * meat.shape.thickness * meat.shape.thickness);
  meat.validate("pork_shoulder");
  return meat;
}

} // namespace cook
