/// @file
/// What a simulation computed, and the ledger that proves it.
#pragma once

#include <array>
#include <cstddef>
#include <string>
#include <vector>

#include "cook/plan/plan.hpp"

namespace cook {

/// Running totals through one face, per area [J m⁻² or kg m⁻²], since the start of the cook. Heat is positive
/// into the meat, water is positive out of it.
enum class FacePath : std::size_t {
  convection,       ///< heat from the air [J m⁻²]
  radiation,        ///< heat from what the face sees [J m⁻²]
  latent,           ///< heat that evaporation took [J m⁻²]
  vapour_sensible,  ///< liquid enthalpy (from 0 °C) of what evaporated [J m⁻²]
  evaporated,       ///< [kg m⁻²]
  run_off_sensible, ///< liquid enthalpy of what ran off [J m⁻²]
  run_off,          ///< [kg m⁻²]
  count
};
inline constexpr std::size_t face_paths = static_cast<std::size_t>(FacePath::count);

/// Where a stage ended.
struct StageEnd {
  std::string name;
  double start = 0.0; ///< [s]
  double time = 0.0;  ///< [s]
  double core = 0.0;  ///< [°C]
  std::string reason; ///< which end condition, in words
};

/// A probe's trace.
struct ProbeTrace {
  std::string name;                ///< "flat", "point", or as asked for
  double x = 0.0;                  ///< from the flat end [m]; 0 in a slab
  double z = 0.0;                  ///< from the bottom [m]
  std::vector<double> temperature; ///< what it reads at every stored time [°C]
  std::vector<double> tenderness;  ///< collagen converted there [share]
};

/// Something that happened at a time.
struct Event {
  double time = 0.0; ///< [s]
  std::string what;  ///< "spritz", "lid"
};

/// Totals over the whole cook for the whole piece, and how well they close.
struct Ledger {
  // heat [J]
  double heat_stored = 0.0; ///< gain of the meat and of the liquid on it
  double convection = 0.0;
  double radiation = 0.0;
  double latent = 0.0;          ///< taken by evaporation
  double water_enthalpy = 0.0;  ///< carried away by water that left as vapour or run-off
  double spritz_enthalpy = 0.0; ///< brought by spritzing
  double heat_residual = 0.0;   ///< stored - (in - out), relative to the largest flow [-]
  // water [kg]
  double water_start = 0.0; ///< in the meat at the start
  double water_end = 0.0;   ///< in the meat at the end
  double on_surface = 0.0;  ///< liquid on the faces or in the wrap at the end
  double evaporated = 0.0;
  double run_off = 0.0;
  double spritzed = 0.0;
  double water_residual = 0.0; ///< relative to the water at the start [-]
  // the cooker's own air, in stages with a vapour balance [kg]
  double vapour_in = 0.0;    ///< came in with air and fuel
  double vapour_out = 0.0;   ///< left with the air, or condensed on what is colder than its dew point
  double pan_given = 0.0;    ///< evaporated from the water pan
  double air_residual = 0.0; ///< gain - (in - out), relative to the largest flow [-]
  // work
  int steps = 0; ///< accepted
  int rejected = 0;
  int evaluations = 0; ///< right-hand sides
  int factorisations = 0;
  double solver_seconds = 0.0; ///< wall time inside the solver [s]
};

/// The result of simulate(). All arrays share the time axis; fields are row-major (times x nodes).
struct Outcome {
  Plan plan;
  std::vector<double> time;    ///< [s], strictly increasing
  std::vector<double> core;    ///< temperature at the middle of the thickness or on the axis [°C]
  std::vector<double> coldest; ///< lowest temperature anywhere in the meat [°C]
  std::array<std::vector<double>, 2>
      surface; ///< of the meat at the bottom and top face [°C]; a cylinder has only [1]
  std::array<std::vector<double>, 2> surface_water; ///< [kg/kg dry]
  std::array<std::vector<double>, 2> film;          ///< liquid on the face [kg m⁻²]
  std::vector<double> air;                          ///< around the meat [°C]
  std::vector<double> vapour_pressure;              ///< of water in the air around the meat [Pa]
  std::vector<double> pan_water;                    ///< left in the water pan [kg]; 0 without one
  std::vector<double> tenderness;                   ///< collagen converted at the core [share]
  std::vector<double> mean_water;                   ///< of the whole piece [kg/kg dry]
  std::vector<double> mean_temperature;             ///< volume mean [°C]
  /// paths[face][path][time]: running totals per face area.
  std::array<std::array<std::vector<double>, face_paths>, 2> paths;

  std::vector<double> position; ///< of the nodes: depth from the bottom face, or radius [m]
  /// Lines of nodes side by side: 2 on a whole piece, the nodes of its middle first, then as many of its rim;
  /// 1 on a slab or cylinder; 0 on a cross-section.
  int lines = 0;
  std::vector<double> along; ///< of the nodes of a cross-section: distance from the flat end [m]
  int columns = 0; ///< nodes along the length of a cross-section; node = column x (nodes / columns) + row
  std::vector<int> region;         ///< of the nodes of a cross-section: 0 flat, 1 point, 2 seam
  std::vector<ProbeTrace> probes;  ///< flat and point of a cross-section, and those that the plan asks for
  std::vector<double> node_volume; ///< share of the volume that each node stands for [-]
  std::vector<double> temperature; ///< (times x nodes) [°C]; empty unless Options::keep_fields
  std::vector<double> water;       ///< (times x nodes) [kg/kg dry]

  std::array<double, 2> face_area{}; ///< bottom, top [m²]
  std::vector<StageEnd> stage_ends;
  std::vector<Event> events;
  std::vector<std::string> notes; ///< anything a user should know: extrapolated properties, skipped stages
  Ledger ledger;

  [[nodiscard]] std::size_t times() const { return time.size(); }
  [[nodiscard]] std::size_t nodes() const { return position.size(); }
  /// Core temperature at a time, by straight lines between stored times [°C].
  [[nodiscard]] double core_at(double seconds) const;
  /// Temperature at a depth from the bottom face (or radius) over time [°C]; needs fields.
  [[nodiscard]] std::vector<double> probe(double position_m) const;
  /// Temperature at a place of a cross-section over time [°C]: distance from the flat end and height above
  /// the bottom [m]; needs fields.
  [[nodiscard]] std::vector<double> probe(double x, double z) const;
  /// Throws InvalidInput unless there is at least one time, times increase, and all arrays fit each other;
  /// the readings rely on it. For outcomes that come from elsewhere.
  void validate() const;
};

} // namespace cook
