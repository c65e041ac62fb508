#include "cook/meat/kinetics.hpp"

#include "cook/meat/kinetics_fields.hpp"
#include "cook/units.hpp"
#include "fields/check.hpp"

#include <algorithm>
#include <cmath>

namespace cook {

namespace {

// Keeps exp(-Ea / RT) finite for nonsense below absolute zero, which a diverging iteration may try.
double guarded_kelvin(double temperature) { return std::max(kelvin(temperature), 1.0); }

} // namespace

double Arrhenius::rate(double temperature) const noexcept {
  return frequency_factor * std::exp(-activation_energy / (gas_constant * guarded_kelvin(temperature)));
}

Arrhenius Arrhenius::from_reference(double rate, double reference_temperature,
                                    double activation_energy) noexcept {
  return {rate * std::exp(activation_energy / (gas_constant * guarded_kelvin(reference_temperature))),
          activation_energy};
}

double fraction_converted(double rate, double seconds) noexcept { return -std::expm1(-rate * seconds); }

Arrhenius collagen_solubilisation() noexcept {
  return Arrhenius::from_reference(collagen_solubilisation_rate_90, 90.0,
                                   collagen_solubilisation_activation_energy);
}

double decimal_reduction_time(double temperature) noexcept {
  const double inside = std::clamp(temperature, lethality_range_low, lethality_range_high);
  return lethality_time_low / lethality_log_low *
         std::pow(10.0, (lethality_range_low - inside) / lethality_z);
}

double lethality_rate(double temperature) noexcept {
  return temperature < lethality_range_low ? 0.0 : 1.0 / decimal_reduction_time(temperature);
}

double Browning::rate(double temperature, double water_activity) const noexcept {
  const double heat =
      std::exp(activation_energy / gas_constant *
               (1.0 / guarded_kelvin(reference_temperature) - 1.0 / guarded_kelvin(temperature)));
  // Smoothstep from dry to wet: flat at both ends, so that the index has no kink where the surface starts to
  // dry.
  const double x = std::clamp((water_activity - dry_activity) / (1.0 - dry_activity), 0.0, 1.0);
  const double wetness = x * x * (3.0 - 2.0 * x);
  return rate_dry * heat * (1.0 - (1.0 - wet_factor) * wetness);
}

void Browning::validate(const std::string &prefix) const { check::members(prefix, *this); }

} // namespace cook
