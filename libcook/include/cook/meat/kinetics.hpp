/// @file
/// What heat does to meat, as rates: proteins, tenderness, colour, bacteria, browning.
///
/// All rates are first order and in s-1 unless said otherwise; a fraction or an index is their integral over
/// the temperature history. None of this is permission to serve: see `lethality_rate` for the caution.
///
/// The table of all defaults, their sources and how sure we are of them is `parameters.hpp`.
#pragma once

#include "cook/units.hpp"

#include <string>

namespace cook {

/// First-order rate k(T) = A exp(-Ea / (R T)).
struct Arrhenius {
  double frequency_factor;  ///< A [s-1]
  double activation_energy; ///< Ea [J mol-1]

  /// Rate [s-1] at `temperature` [°C]; finite for any temperature.
  [[nodiscard]] double rate(double temperature) const noexcept;
  /// The Arrhenius law with a given rate [s-1] at a reference temperature [°C] and activation energy [J
  /// mol-1].
  [[nodiscard]] static Arrhenius from_reference(double rate, double reference_temperature,
                                                double activation_energy) noexcept;
};

/// Fraction converted [-] after `seconds` [s] at a constant rate [s-1]: 1 - exp(-k t).
[[nodiscard]] double fraction_converted(double rate, double seconds) noexcept;

/// Denaturation (shrinking) of collagen: A = 1.606e45 s-1, Ea = 306 kJ/mol.
///
/// Pearce et al., loss of birefringence of rat-skin collagen (from memory). Independent check: Machlik &
/// Draudt (1963) found the drop in shear force of beef half done in 11 min at 58 °C; this gives 13 min.
/// Useful from 50 to 80 °C.
inline constexpr Arrhenius collagen_denaturation{1.606e45, 3.06e5};

/// Denaturation of beef myoglobin, the red colour: k0 = 7.98e43 min-1, Ea = 290 kJ/mol; Geileskey et al.
/// (1998), applied here from about 55 to 75 °C.
inline constexpr Arrhenius myoglobin_denaturation{7.98e43 / seconds_per_minute, 2.90e5};

/// Rate of collagen_solubilisation at its reference temperature [s-1]. Derived, low confidence.
inline constexpr double collagen_solubilisation_rate_90 = 1.8e-4;
/// Activation energy of collagen_solubilisation [J mol-1]. Derived, low confidence.
inline constexpr double collagen_solubilisation_activation_energy = 1.10e5;
/// Slow turning of collagen into gelatin, which makes a brisket tender: 1.8e-4 s-1 at 90 °C, Ea = 110 kJ/mol.
///
/// Derived, LOW CONFIDENCE: no peer-reviewed rate was found. It is set by trade equivalences (72 h at 60 °C,
/// 12 h at 80 °C and 2 h at 95 °C; common practice, no source), which span 88 to 129 kJ/mol, and by 90 %
/// conversion in 3 to 4 h at 90 °C. Tenderness from it ranks plans; it does not measure them.
[[nodiscard]] Arrhenius collagen_solubilisation() noexcept;

// ---- bacteria ----

/// Lowest temperature [°C] that earns lethality: 130 °F, the first row of the FSIS table.
inline constexpr double lethality_range_low = celsius_from_fahrenheit(130.0);
/// Temperature [°C] above which lethality stops growing: 158 °F, the last row of the FSIS table.
inline constexpr double lethality_range_high = celsius_from_fahrenheit(158.0);
/// Temperature rise [K] for ten times the lethality, 10 °F: fitted to the FSIS table (regression gives 10.01
/// °F).
inline constexpr double lethality_z = kelvin_from_fahrenheit_difference(10.0);
/// Time [s] for a 6.5-log10 reduction of Salmonella in beef at 130 °F: 112 min, FSIS Appendix A.
inline constexpr double lethality_time_low = seconds_from_minutes(112.0);
/// The reduction [log10] that lethality_time_low stands for.
inline constexpr double lethality_log_low = 6.5;

/// Time [s] for one log10 reduction of Salmonella in beef at a constant temperature [°C], between
/// lethality_range_low and lethality_range_high (clamped to them outside): D = 112 min / 6.5 * 10^(-(T
/// - 54.44) / 5.556).
[[nodiscard]] double decimal_reduction_time(double temperature) noexcept;
/// Rate of Salmonella reduction [log10 s-1] at `temperature` [°C]: the reciprocal of decimal_reduction_time.
///
/// Fitted to the time-temperature table of USDA FSIS, Appendix A (cooked and roast beef), and repeats it
/// within a second in the rows given in seconds, a minute in those in minutes. Outside the table the cautious
/// side is taken: nothing below 130 °F (54.4 °C), where it has no row and bacteria may grow, and no more than
/// at 158 °F (70 °C) above it. The step at 130 °F is wanted; integrate this over a computed history rather
/// than as a state of a stiff solver.
///
/// Caution: the table presumes the guideline's humidity and come-up conditions; other germs (Listeria) resist
/// more, and times near 54.4 °C were not confirmed by later work (McMinn et al.). Local food-safety rules
/// come first.
[[nodiscard]] double lethality_rate(double temperature) noexcept;

// ---- browning ----

/// Browning (bark) index: a HEURISTIC, tunable, not measured.
///
/// Rate of an index that is 1 when the bark counts as set. Bark comes from a surface that is dry, hot and
/// given time; the activation energy is of the order reported for Maillard browning (about 100 kJ/mol, from
/// memory), which is a factor of 2.3 per 10 K near 100 °C; water slows it by dilution.
struct Browning {
  /// Rate of the dry surface at the reference temperature [s-1]: such that in the pits of the trade, 107 to
  /// 135 °C, the bark of a bare brisket or shoulder sets within the 3 to 6 h that cooks tell of (common
  /// practice, no source).
  double rate_dry = 1.0 / 3000.0;
  double reference_temperature = 80.0; ///< of a face that has dried in the stall [°C]
  double activation_energy = 1.0e5;    ///< [J mol-1]
  double dry_activity = 0.80;          ///< water activity up to which the surface counts as dry [-]
  double wet_factor = 0.1; ///< share of the rate that is left on a wet surface, water activity 1 [-]

  /// Index rate [s-1] at surface temperature [°C] and water activity [-]; smooth in both.
  [[nodiscard]] double rate(double temperature, double water_activity) const noexcept;
  /// Throws InvalidInput naming the member (with `prefix` in front) that is out of range.
  void validate(const std::string &prefix = "browning.") const;
};

} // namespace cook
