#include "cook/meat/shape.hpp"

#include <cmath>
#include <numbers>
#include <utility>

#include "cook/errors.hpp"
#include "cook/meat/piece_fields.hpp"
#include "fields/check.hpp"

namespace cook {

void Shape::validate(const std::string &field) const {
  check::member(field + ".", *this, &Shape::thickness, kind == ShapeKind::slab ? "thickness" : "diameter");
  if (kind == ShapeKind::slab) {
    check::within(field + ".area", extent, 1e-4, 10.0, "m²", "area of one face");
    if (width) {
      check::member(field + ".", *this, &Shape::width);
      check::within(field + ".area", extent / *width, 0.01, 10.0, "m",
                    "area over width is the length of the piece");
    }
  } else {
    check::within(field + ".length", extent, 0.01, 10.0, "m");
    if (width) {
      throw InvalidInput(field + ".width", "a cylinder has a diameter and a length; leave the width out");
    }
  }
}

double Shape::volume() const {
  if (kind == ShapeKind::slab) {
    return thickness * extent;
  }
  return 0.25 * std::numbers::pi * thickness * thickness * extent;
}

double Shape::surface_area() const {
  if (kind == ShapeKind::cylinder) {
    return std::numbers::pi * thickness * (extent + 0.5 * thickness);
  }
  return 2.0 * extent + (width ? 2.0 * thickness * (*width + extent / *width) : 0.0);
}

double FatCap::heat_resistance() const { return thickness / component_conductivity(Component::fat, 40.0); }

void Meat::validate(const std::string &field) const {
  tissue.validate(field);
  shape.validate(field + ".shape");
  check::members(field + ".", *this);
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

} // namespace cook
