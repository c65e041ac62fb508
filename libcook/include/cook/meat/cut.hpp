/// @file
/// Cuts as data: what they are made of, how large they are, how sure that is.
///
/// A cut is one entry in cut.cpp; nothing else in the code names it.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "cook/meat/shape.hpp"

namespace cook {

/// A cut of meat as it is bought, raw and trimmed.
struct Cut {
  std::string name;          ///< as the trade has it: "brisket flat"
  Composition composition{}; ///< of the meat without its fat cap and bone
  double bone = 0.0;         ///< share of the mass that is bone [-]

  // Size: of a whole piece of `mass`; others keep the proportions down to `smallest`, below which they are
  // pieces cut from it, as thick and as wide, but shorter.
  double mass = 0.0;      ///< of a middling whole piece [kg]
  double smallest = 0.0;  ///< lightest that is still a whole piece [kg]
  double largest = 0.0;   ///< heaviest [kg]
  double thickness = 0.0; ///< of the piece of `mass`, mean over its footprint, without the fat cap [m]
  double width = 0.0;     ///< width over thickness [-]; the length follows from the volume
  double spread = 0.12;   ///< how pieces of one mass differ: standard deviation of ln(thickness) [-]

  FatSide fat_side = FatSide::none; ///< where its fat cap is put
  double fat_thickness = 0.0;       ///< [m]
  Build build = Build::even;        ///< how a lengthwise section of it looks

  std::string sources; ///< of composition and size
};

/// All cuts, the most usual first.
[[nodiscard]] const std::vector<Cut> &cuts();

/// A cut by its name; underscores and capitals do not matter. Throws InvalidInput that lists what there is
/// and how to describe one's own.
[[nodiscard]] const Cut &find_cut(const std::string &name);

/// Thickness of a piece of a cut by its mass [kg]: thickness x (mass / middling mass)^(1/3), as for pieces of
/// one shape, and that of the smallest whole piece for anything lighter, which is cut from one.
[[nodiscard]] double cut_thickness(const Cut &cut, double mass);

/// A piece of a cut.
/// @param mass raw and trimmed, cap and bone included [kg]; that of a middling whole piece if empty
/// @param thickness mean, of the lean part [m]; cut_thickness() if empty
/// @param start temperature throughout at the start [°C]
/// @throws InvalidInput naming `name`, `mass`, `thickness` or `start`
[[nodiscard]] Meat cut(const std::string &name, std::optional<double> mass = {},
                       std::optional<double> thickness = {}, double start = 4.0);
[[nodiscard]] Meat cut(const Cut &cut, std::optional<double> mass = {}, std::optional<double> thickness = {},
                       double start = 4.0);

/// The same piece with its fat cap on another face, or without one: as heavy and as thick, for what the cap
/// weighed goes into the lean.
[[nodiscard]] Meat with_fat(Meat meat, FatSide side);

/// A piece of the same cut with another mass [kg]: its thickness follows as cut_thickness() has it, for a
/// meat that is no cut with the cube root of the mass.
[[nodiscard]] Meat with_mass(Meat meat, double mass);

/// The same piece with another mass and thickness: its footprint keeps its proportions. The one place where a
/// piece changes its size.
/// @param mass [kg]  @param thickness of the lean part, of a cylinder its diameter [m]
[[nodiscard]] Meat resized(Meat meat, double mass, double thickness);

} // namespace cook
