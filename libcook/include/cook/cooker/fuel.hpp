/// @file
/// Fuels of a cooker: what they are made of, the air they need, the water vapour and heat that burning gives.
///
/// All from the stoichiometry of complete combustion, C + O2 -> CO2 and 4 H + O2 -> 2 H2O, with the atomic
/// masses of IUPAC (2013) and the oxygen of dry air of the U.S. Standard Atmosphere 1976. A smouldering fire
/// leaves part of its carbon as carbon monoxide and soot, and needs more fuel for the same heat; its water is
/// the same. Burn charcoal, wood and gas outdoors only.
#pragma once

#include <string>
#include <vector>

#include "cook/units.hpp"

namespace cook {

/// Oxygen in dry air by mass [-]: mole fraction 0.209476 (U.S. Standard Atmosphere 1976, table 3).
inline constexpr double oxygen_in_air = 0.209476 * 31.998e-3 / molar_mass_dry_air;
/// Oxygen that burns one kg of carbon [kg].
inline constexpr double oxygen_per_carbon = 31.998 / 12.011;
/// Oxygen that burns one kg of hydrogen [kg].
inline constexpr double oxygen_per_hydrogen = 31.998 / (4.0 * 1.008);
/// Water from burning one kg of hydrogen [kg].
inline constexpr double water_per_hydrogen = molar_mass_water * 1e3 / (2.0 * 1.008);
/// Latent heat between higher and lower heating values [J kg-1]: at constant pressure and 25 °C, the 24.43 kJ
/// per per cent of moisture of EN ISO 18125 (from memory).
inline constexpr double heating_value_latent_heat = 2.443e6;

/// A fuel as it is fired. Mass fractions are of dry fuel; what is left to 1 is nitrogen and counts as inert.
struct Fuel {
  std::string name;
  double carbon = 0.0;      ///< [kg per kg dry]
  double hydrogen = 0.0;    ///< [kg per kg dry]
  double oxygen = 0.0;      ///< [kg per kg dry]
  double ash = 0.0;         ///< [kg per kg dry]
  double moisture = 0.0;    ///< water in the fuel as fired [kg per kg as fired]
  double dry_heating = 0.0; ///< lower heating value of dry fuel [J kg-1]

  /// Whether it burns at all; electric heat does not.
  [[nodiscard]] bool burns() const noexcept { return carbon + hydrogen > 0.0; }
  /// Throws InvalidInput naming `field`.member: fractions in 0 to 1 that sum to at most 1, moisture up to
  /// 0.6, a heating value of 1 to 60 MJ/kg.
  void validate(const std::string &field = "fuel") const;
};

/// Names that `fuel()` knows.
[[nodiscard]] const std::vector<std::string> &fuel_names();
/// "charcoal" (lump), "wood" (seasoned oak), "pellets", "propane" or "electric" (nothing burns). The numbers
/// and their sources are in the table of parameters. @throws InvalidInput for another name.
[[nodiscard]] Fuel fuel(const std::string &name);

/// Dry air that burns a kg of fuel as fired, nothing left over [kg]: oxygen for carbon and hydrogen less the
/// oxygen that the fuel brings.
[[nodiscard]] double stoichiometric_air(const Fuel &fuel) noexcept;
/// Water vapour from a kg of fuel as fired [kg]: its moisture and what its hydrogen burns to.
[[nodiscard]] double water_yield(const Fuel &fuel) noexcept;
/// Lower heating value as fired [J kg-1]: (1 - moisture) dry_heating - moisture x 2.443 MJ/kg (EN ISO 18125).
[[nodiscard]] double heating_value(const Fuel &fuel) noexcept;
/// Water vapour per heat released [kg J-1]: water_yield / heating_value; zero for electric heat.
[[nodiscard]] double water_per_heat(const Fuel &fuel) noexcept;
/// Dry gas that leaves the fire per kg of fuel as fired [kg], by conservation of mass.
/// @param air_ratio air drawn over stoichiometric_air [-], 1 or more; the excess air is air_ratio - 1
[[nodiscard]] double dry_flue_gas(const Fuel &fuel, double air_ratio) noexcept;

/// A fire that holds a cooker at its temperature.
struct Combustion {
  double fuel_rate = 0.0;      ///< fuel burnt, as fired [kg s-1]
  double air_flow = 0.0;       ///< dry air drawn [kg s-1]
  double water = 0.0;          ///< vapour from the fuel [kg s-1]
  double dry_gas = 0.0;        ///< dry flue gas [kg s-1]
  double humidity_ratio = 0.0; ///< of the flue gas [kg per kg dry gas]; of the ambient air when nothing burns
};

/// The fire that gives `heat_demand` to a cooker whose gas leaves at `gas_temperature`.
///
///     fuel = demand / (heating_value - heat that the flue gas carries off per kg of fuel)
///
/// with the enthalpy of humid air (ASHRAE Handbook - Fundamentals, ch. 1) for the flue gas, above ambient.
/// @param heat_demand [W], 0 to 1e5  @param air_ratio [-], 1 to 100; ignored when nothing burns
/// @param gas_temperature [°C], from ambient to 400  @param ambient_temperature [°C], -40 to 60
/// @param ambient_vapour_pressure [Pa], 0 to 10 kPa  @param pressure total [Pa], 50 to 110 kPa
/// @throws InvalidInput outside these, and for an air ratio at which the flue gas carries off all the heat
[[nodiscard]] Combustion burn(const Fuel &fuel, double heat_demand, double air_ratio, double gas_temperature,
                              double ambient_temperature, double ambient_vapour_pressure,
                              double pressure = standard_atmosphere);

} // namespace cook
