/// @file
/// What is known of each kind of cooker, one entry each: everything that sets one apart stands there.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "cook/fields/field.hpp"

namespace cook {

/// One kind of cooker.
struct KnownCooker {
  std::string_view name;
  // its air, as a Surroundings
  double vapour_pressure; ///< [Pa]
  double air_speed = 0.0; ///< [m s⁻¹]; 0: still air
  double coals = 0.0;     ///< what the bottom sees, above air temperature [K]
  // its chamber
  std::string_view fuel;
  double volume;                ///< [m³]
  double wall_area;             ///< [m²]
  double wall_resistance = 0.0; ///< [m²K/W]
  double air_ratio = 1.0;       ///< air drawn over the least that burns the fuel [-]
  double vent_area = 1e-3;      ///< where nothing burns; else it does not count [m²]
  double vent_height = 0.5;     ///< the same [m]
  // how sure its chamber is; sizes are common practice
  std::string_view wall;                ///< where its resistance comes from
  Sure air_ratio_sure{};                ///< where something burns
  std::string_view leak{};              ///< where the vent comes from, where nothing burns
  std::vector<std::string_view> also{}; ///< words of the trade for it, in small letters
  bool pit = true; ///< for low and slow; else a kitchen oven, which has surroundings of its own
};

[[nodiscard]] const std::vector<KnownCooker> &known_cookers();

/// The entry of a cooker. @throws InvalidInput naming those that are known, of the kitchen too if `any`
[[nodiscard]] const KnownCooker &known_cooker(const std::string &name, bool any);

} // namespace cook
