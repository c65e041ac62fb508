/// @file
/// What covers the meat during a stage.
///
/// The table of all defaults, their sources and how sure we are of them is `parameters.hpp`.
#pragma once

#include <optional>
#include <string>
#include <vector>

namespace cook {

/// What lies between one face and the air.
struct Covering {
  double vapour_resistance = 0.0;     ///< [s m⁻¹]: 1 / conductance for a vapour density difference
  double heat_resistance = 0.0;       ///< sheet, trapped air or steam [m² K W⁻¹]
  std::optional<double> emissivity{}; ///< of the outside; empty: the meat's own
  std::optional<double>
      juice_capacity{}; ///< liquid it keeps at the face before running off [kg m⁻²]; empty: as a bare face
};

/// A wrap: its coverings of the faces.
struct Wrap {
  std::string name = "none";
  Covering bottom{};
  Covering top{};
  /// Of the end faces of a cross-section; empty: their lower half as the bottom, their upper half as the top.
  std::optional<Covering> ends{};

  void validate(const std::string &field) const;
};

/// Wraps known by name: the entries of known_wraps.cpp.
[[nodiscard]] Wrap wrap(const std::string &name);
/// The names that `wrap()` takes.
[[nodiscard]] const std::vector<std::string> &wrap_names();

} // namespace cook
