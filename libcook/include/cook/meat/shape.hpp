/// @file
/// The shape that the equations are solved on, and the meat that fills it.
///
/// The table of all defaults, their sources and how sure we are of them is `parameters.hpp`.
#pragma once

#include <optional>
#include <string>

#include "cook/meat/section.hpp"
#include "cook/meat/tissue.hpp"

namespace cook {

/// Slab: two faces (bottom, top) of the same area, and four upright sides where its width is known. Cylinder:
/// a curved face and two ends.
enum class ShapeKind { slab, cylinder };

/// Size of the piece. Areas and volumes are those of the raw piece; shrinkage is left out.
struct Shape {
  ShapeKind kind = ShapeKind::slab;
  double thickness = 0.056; ///< slab thickness or cylinder diameter, of the meat without its fat cap [m]
  double extent = 0.10;     ///< area of one face of the slab [m²], or length of the cylinder [m]
  /// Shorter or longer side of the slab's face [m]; the other one is extent / width. Empty: a slab that goes
  /// on for ever, whose sides are not known and not counted.
  std::optional<double> width{};

  void validate(const std::string &field = "meat.shape") const;
  [[nodiscard]] double volume() const;       ///< [m³]
  [[nodiscard]] double surface_area() const; ///< exposed: both faces, and sides or ends where known [m²]
};

/// Which face carries the fat cap.
enum class FatSide { none, down, up };

/// A layer of fat on one face: it slows vapour and adds a conduction layer.
struct FatCap {
  FatSide side = FatSide::down;
  double thickness = 0.006; ///< trimmed to about 1/4 inch: common practice, no source [m]
  /// Resistance to vapour per thickness [s m⁻²]: halves the evaporation in still air, as measured on
  /// fat-covered meat (Lovett, Int. J. Refrigeration 1 (1978) 225, abstract).
  double vapour_resistivity = 3.0e4;
  /// Resistance to heat [m² K W⁻¹], from the conductivity of fat at 40 °C.
  [[nodiscard]] double heat_resistance() const;
  /// Resistance to vapour [s m⁻¹].
  [[nodiscard]] double vapour_resistance() const { return vapour_resistivity * thickness; }
};

/// Temperatures at which a cook can start [°C]: thawed (the model has no ice), and no hotter than a piece
/// that was cooked and held hot before.
inline constexpr double coldest_start = -1.0;
inline constexpr double hottest_start = 95.0;

/// How a lengthwise section of a piece looks when none is given.
enum class Build {
  even,          ///< one tissue, as thick at one end as at the other
  flat_and_point ///< from a thin flat to a thick point above it, a seam of fat between them: a whole brisket
};

/// The piece on the table: material, shape, fat cap and starting temperature.
struct Meat {
  Tissue tissue = brisket_tissue();
  Shape shape{};
  FatCap fat_cap{};
  double start = 4.0; ///< temperature throughout at the start [°C]; a rest may start with hot meat
  Build build = Build::flat_and_point; ///< of its section, where none is given
  /// Lengthwise cross-section, for runs on one; empty: default_section(). The same piece as `shape`, which is
  /// its equivalent of even thickness: see with_section().
  std::optional<Section> section{};

  void validate(const std::string &field = "meat") const;
  [[nodiscard]] double mass() const; ///< raw, fat cap included [kg]
};

/// The same meat in a measured section: its shape takes the section's mean thickness and footprint.
[[nodiscard]] Meat with_section(Meat meat, Section section);

/// A whole brisket, cut("brisket"): see cut.hpp.
/// @param mass raw, trimmed [kg]  @param thickness mean of the lean part [m]  @param start [°C]
[[nodiscard]] Meat brisket(double mass = 6.0, std::optional<double> thickness = {}, double start = 4.0);
/// A boneless pork shoulder, cut("pork shoulder").
[[nodiscard]] Meat pork_shoulder(double mass = 3.6, std::optional<double> thickness = {}, double start = 4.0);

} // namespace cook
