/// @file
/// How a plan's equations are solved, and which parts of the physics count.
#pragma once

#include <functional>
#include <optional>

namespace cook {

/// Parts of the physics that can be turned off to see what they do.
struct Physics {
  bool evaporation = true; ///< water leaves the faces as vapour
  bool squeezing = true;   ///< denaturing proteins express juice (the second, fast mobility)
  bool radiation = true;   ///< the walls radiate
  bool sinks = true;       ///< melting fat and denaturing protein take up heat

  [[nodiscard]] bool operator==(const Physics &) const = default;
};

/// What the equations are solved on.
enum class GridKind {
  piece, ///< through the thickness, at the middle of the footprint and at its rim: sides and ends counted
  slab,  ///< through the thickness alone, slab or cylinder: as if it went on for ever, no sides, no ends
  cross_section ///< a lengthwise section from the flat to the point (2-D); meat.section, or one of the same
                ///< volume
};

/// Distance of the first node from a face where none is given [m]. A section's faces are coarser: each of
/// their cells dries and is wetted again on its own, and the finer they are the more steps that takes.
inline constexpr double slab_face_spacing = 0.15e-3;
inline constexpr double section_face_spacing = 0.4e-3;

/// How the equations are solved. The defaults are converged to well under 1 % in finish time.
struct Options {
  GridKind grid = GridKind::piece;
  int nodes = 31; ///< across the thickness (odd, 9 to 2001); along the radius of a cylinder half of it
  /// Distance of the first node from a face [m]; empty: slab_face_spacing or section_face_spacing.
  std::optional<double> face_spacing{};
  int columns = 61;          ///< cross-section: nodes along the length (11 to 801)
  int rows = 25;             ///< cross-section: nodes across the thickness (odd, 9 to 401)
  double end_spacing = 3e-3; ///< cross-section: distance of the first column from an end face [m]
  int sweeps =
      2; ///< cross-section: passes of a step's first linear solve (1 to 20); the later ones take one less
  double temperature_tolerance = 0.04; ///< local error per step [K]
  double water_tolerance = 0.004;      ///< local error per step [kg/kg dry]
  double output_every = 60.0;          ///< spacing of the stored times [s]
  bool keep_fields = true;             ///< store temperature and water of every node, not only core and faces
  int max_steps = 200000; ///< from one moment of the plan (stage, spray, lid, row of a log) to the next, and
                          ///< within a day, before a cook that does not get on is given up
  Physics physics{};
  std::function<bool()> interrupted{}; ///< asked now and then; true stops the run

  void validate() const;
};

} // namespace cook
