/// @file
/// What the meat is made of and how its water moves: the numbers of the model, each with its source.
///
/// The table of all defaults, their sources and how sure we are of them is `parameters.hpp`.
#pragma once

#include <optional>
#include <string>

#include "cook/meat/food_components.hpp"
#include "cook/meat/kinetics.hpp"

namespace cook {

/// How much water the proteins still hold at a temperature, as a share of the raw water.
///
///     held(T) = 1 - (1 - final_share) / (1 + exp(-(T - midpoint) / width))
///
/// Source: van der Sman, AIChE J. 53 (2007) 2986, fit of beef water-holding data, read on a raw-mass basis:
/// 0.745 falling by 0.345 gives a final share of 0.537, midpoint 52 + 4 ln 30 = 65.6 °C, width 1/0.25 = 4 K.
/// On a wet basis the same curve would mean a 57 % mass loss, which nobody measures. Whole joints of several
/// muscles, hours at temperature, release it later and over a broader range: the defaults are from
/// the joint tuning on measured cooks (validation/population.py). Valid 20-100 °C.
struct WaterHolding {
  double final_share = 0.53; ///< share of the raw water still held when fully cooked [-]
  double midpoint = 72.4;    ///< temperature of half the release [°C]
  double width = 8.8;        ///< width of the sigmoid [K]

  [[nodiscard]] bool operator==(const WaterHolding &) const = default;
};

/// How fast water moves through tissue, for water squeezed out (expressed) and for water held by the
/// proteins.
struct WaterMobility {
  double expressed = 4.5e-8; ///< mobility of expressed juice at 60 °C [m² s⁻¹]; tuned, see expressed_mobility
  double held = 3.2e-10; ///< mobility of held water at 60 °C [m² s⁻¹]; tuned, drying studies 2e-10 to 1e-9
  double held_activation = 42930; ///< activation energy of the held mobility [J mol⁻¹]; Ismail & Kocabay 2018
  double dry_below = 0.3;         ///< water content below which held mobility falls steeply [kg/kg dry]
  double dry_floor = 0.02;        ///< share of the held mobility left in bone-dry crust [-]
  double switch_width = 0.05;     ///< width of the smooth onset of expression above held water [kg/kg dry]

  [[nodiscard]] bool operator==(const WaterMobility &) const = default;
};

/// Guggenheim-Anderson-de Boer sorption isotherm X = Xm C K a / ((1 - K a)(1 - K a + C K a)).
///
/// The form is the best one for fresh lean beef (Trujillo, Yeow & Pham, J. Food Eng. 60 (2003) 357; Ahmat et
/// al., Meat Sci. 96 (2014) 1417). Their constants could not be read: these are assumed, and tied to two
/// facts they must meet, that raw brisket (3.2 kg/kg dry) has water activity 0.99 and that activity drops
/// below 0.9 only under about 0.7 kg/kg.
struct Sorption {
  double monolayer = 0.08; ///< Xm [kg/kg dry]
  double c = 10.0;         ///< C [-]
  double k = 0.985;        ///< K [-]

  /// Water activity of tissue at water content X [-]; X in kg per kg fat-free dry solids.
  [[nodiscard]] double water_activity(double water_content) const;
  /// Water content at a water activity [kg/kg dry]; activity in [0, 1].
  [[nodiscard]] double water_content(double activity) const;

  [[nodiscard]] bool operator==(const Sorption &) const = default;
};

/// Heat taken up by melting fat and denaturing protein, spread evenly (smoothly) over a temperature range.
/// Fat melting reverses on cooling; denaturation does not.
struct HeatSinks {
  double fat_latent = 150e3;    ///< latent heat of melting tallow [J per kg fat]
  double fat_melt_start = 25.0; ///< [°C]
  double fat_melt_end = 50.0;   ///< [°C]
  double denaturation = 17e3; ///< total denaturation enthalpy [J per kg protein] (3.4 J per g muscle / 0.20)
  double denaturation_start = 50.0; ///< [°C]
  double denaturation_end = 85.0;   ///< [°C]

  [[nodiscard]] bool operator==(const HeatSinks &) const = default;
};

/// What happens to juice that reaches a face.
struct Exudation {
  double path = 0.5e-3;       ///< length over which juice leaves the surface tissue [m]
  double bare_film = 0.05;    ///< liquid that a bare face holds before it runs off [kg m⁻²]
  double run_off_time = 60.0; ///< time constant of running off [s]

  [[nodiscard]] bool operator==(const Exudation &) const = default;
};

/// Collagen turning to gelatin: read off the temperature history, does not act back on the cook.
struct Tenderness {
  double rate_90 = collagen_solubilisation_rate_90;              ///< rate at 90 °C [s⁻¹]
  double activation = collagen_solubilisation_activation_energy; ///< activation energy [J mol⁻¹]

  [[nodiscard]] bool operator==(const Tenderness &) const = default;
};

/// Constant thermal properties in place of those from the composition: for checks against textbook solutions
/// and for materials other than meat. Water then moves and evaporates as usual but carries no heat of its
/// own.
struct FixedThermal {
  double conductivity = 0.5;    ///< [W m⁻¹ K⁻¹]
  double heat_capacity = 3.6e6; ///< per volume [J m⁻³ K⁻¹]

  [[nodiscard]] bool operator==(const FixedThermal &) const = default;
};

/// Meat as a material.
struct Tissue {
  std::string name = "brisket";
  Composition composition{};
  WaterHolding holding{};
  WaterMobility mobility{};
  Sorption sorption{};
  HeatSinks sinks{};
  Exudation exudation{};
  Tenderness tenderness{};
  std::optional<FixedThermal> fixed{}; ///< overrides conductivity and heat capacity
  double emissivity = 0.88;            ///< of a bare or fat face in the thermal infrared [-]
  /// Conductivity of cooked tissue over that of raw tissue of the same composition and temperature [-]; in
  /// between by the share of the water that the proteins have let go. It is measured to fall as proteins
  /// denature (Baghe-Khandan & Okos, J. Food Sci. 46 (1981) 1302, abstract); how far is estimated here from
  /// cooked joints cooling in water (Burfoot et al. 1990).
  double cooked_conductivity = 0.85;

  /// Throws InvalidInput naming `field`.something when a number is out of range.
  void validate(const std::string &field = "meat") const;

  [[nodiscard]] double raw_density() const;       ///< at 5 °C [kg m⁻³]
  [[nodiscard]] double solids_density() const;    ///< fat-free dry solids per raw volume [kg m⁻³]
  [[nodiscard]] double fat_density() const;       ///< fat per raw volume [kg m⁻³]
  [[nodiscard]] double raw_water_content() const; ///< water per fat-free dry solids, raw [kg/kg]

  /// Water held by the proteins [kg/kg dry]; temperature in °C.
  [[nodiscard]] double held_water(double celsius) const;
  /// Mobility of expressed juice [m² s⁻¹]: permeability x modulus / viscosity, scaled to its value at 60 °C.
  /// Permeabilities of cooked beef of 7e-18 to 1.9e-16 m² (J. Food Eng., 2006, abstract) make 8e-10 to 2.2e-8
  /// m² s⁻¹ at 60 °C across the fibres mostly; juice leaves along them, so the default lies a factor of two
  /// above, inside 1e-8 to 1e-7. Modulus: 12 + 83 / (1 + exp(-0.3 (T - 60))) kPa (Feyissa et al. 2013 after
  /// Tornberg 2005); viscosity of water 2.414e-5 * 10^(247.8 / (T_K - 140)) Pa s. Valid 0-150 °C.
  [[nodiscard]] double expressed_mobility(double celsius) const;
  /// Mobility of held water in wet tissue [m² s⁻¹], Arrhenius in temperature.
  [[nodiscard]] double held_mobility(double celsius) const;
  /// Enthalpy of fat and solids per raw volume, from 0 °C, melting included [J m⁻³].
  [[nodiscard]] double dry_enthalpy(double celsius, bool with_sinks = true) const;
  /// Denaturation heat taken up on the way to a temperature [J per m³ raw].
  [[nodiscard]] double denaturation_enthalpy(double celsius) const;

  [[nodiscard]] bool operator==(const Tissue &) const = default;
};

/// Lean-and-fat whole brisket, choice grade, trimmed: the default meat.
[[nodiscard]] Tissue brisket_tissue();
/// Pork shoulder.
[[nodiscard]] Tissue pork_shoulder_tissue();

} // namespace cook
