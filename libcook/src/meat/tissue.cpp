#include "cook/meat/tissue.hpp"

#include <cmath>

#include "cook/errors.hpp"
#include "cook/meat/tissue_fields.hpp"
#include "cook/units.hpp"
#include "engine/faces/water_activity.hpp"
#include "fields/check.hpp"

namespace cook {

namespace {

constexpr double reference = 60.0; // °C, at which mobilities are quoted
constexpr double raw_state = 5.0;  // °C, at which raw densities are taken
constexpr double narrowest = 5.0;  // K: the property table has a knot every kelvin, a sharper peak overshoots

double modulus(double celsius) { return 12e3 + 83e3 / (1.0 + std::exp(-0.3 * (celsius - 60.0))); }

double water_viscosity(double celsius) {
  return 2.414e-5 * std::pow(10.0, 247.8 / (celsius + kelvin_offset - 140.0));
}

/// Smooth rise from 0 to 1 between two temperatures (quintic).
double rise(double celsius, double start, double end) {
  const double u = std::fmin(std::fmax((celsius - start) / (end - start), 0.0), 1.0);
  return u * u * u * (10.0 + u * (6.0 * u - 15.0));
}

} // namespace

double Sorption::water_content(double activity) const {
  check::within("activity", activity, 0.0, 1.0, "");
  const double ka = k * activity;
  return monolayer * c * ka / ((1.0 - ka) * (1.0 - ka + c * ka));
}

double Sorption::water_activity(double water_content) const {
  return engine::water_activity_alone(std::fmax(water_content, 0.0), monolayer, c, k);
}

void Tissue::validate(const std::string &field) const {
  composition.validate(field + ".composition.");
  if (composition.protein + composition.carbohydrate + composition.ash < 0.02) {
    throw InvalidInput(field + ".composition", "less than 2 % fat-free solids; the model needs lean tissue");
  }
  check::members(field + ".", *this);
  check::within(field + ".sinks.fat_melt_end", sinks.fat_melt_end, sinks.fat_melt_start + narrowest, 100.0,
                "°C", "melting spreads over at least 5 K from fat_melt_start on");
  check::within(field + ".sinks.denaturation_end", sinks.denaturation_end,
                sinks.denaturation_start + narrowest, 120.0, "°C",
                "denaturation spreads over at least 5 K from denaturation_start on");
}

double Tissue::raw_density() const { return mixture_density(composition, raw_state); }

double Tissue::solids_density() const {
  return raw_density() * (composition.protein + composition.carbohydrate + composition.ash) /
         composition.sum();
}

double Tissue::fat_density() const { return raw_density() * composition.fat / composition.sum(); }

double Tissue::raw_water_content() const {
  return composition.water / (composition.protein + composition.carbohydrate + composition.ash);
}

double Tissue::held_water(double celsius) const {
  const double released = 1.0 / (1.0 + std::exp(-(celsius - holding.midpoint) / holding.width));
  return raw_water_content() * (1.0 - (1.0 - holding.final_share) * released);
}

double Tissue::expressed_mobility(double celsius) const {
  return mobility.expressed * modulus(celsius) / modulus(reference) * water_viscosity(reference) /
         water_viscosity(celsius);
}

double Tissue::held_mobility(double celsius) const {
  const double inverse = 1.0 / (reference + kelvin_offset) - 1.0 / (celsius + kelvin_offset);
  return mobility.held * std::exp(mobility.held_activation / gas_constant * inverse);
}

double Tissue::dry_enthalpy(double celsius, bool with_sinks) const {
  const double raw = raw_density() / composition.sum();
  const double sensible =
      raw * (composition.fat * component_enthalpy(Component::fat, celsius) +
             composition.protein * component_enthalpy(Component::protein, celsius) +
             composition.carbohydrate * component_enthalpy(Component::carbohydrate, celsius) +
             composition.ash * component_enthalpy(Component::ash, celsius));
  if (!with_sinks) {
    return sensible;
  }
  return sensible +
         raw * composition.fat * sinks.fat_latent * rise(celsius, sinks.fat_melt_start, sinks.fat_melt_end);
}

double Tissue::denaturation_enthalpy(double celsius) const {
  const double protein = raw_density() * composition.protein / composition.sum();
  return protein * sinks.denaturation * rise(celsius, sinks.denaturation_start, sinks.denaturation_end);
}

Tissue brisket_tissue() {
  Tissue tissue;
  // USDA FoodData Central / Standard Reference: beef brisket, flat half, boneless, lean and fat, trimmed to
  // 0", choice, raw. The fat cap is a layer of its own (FatCap), so the 0" trim is the right row for the
  // tissue under it.
  tissue.composition = {
      .water = 0.6989, .protein = 0.2032, .fat = 0.0929, .carbohydrate = 0.0, .ash = 0.0098};
  return tissue;
}

Tissue pork_shoulder_tissue() {
  Tissue tissue;
  tissue.name = "pork shoulder";
  // USDA Standard Reference, pork shoulder (butt), lean and fat, raw: from memory.
  tissue.composition = {.water = 0.649, .protein = 0.171, .fat = 0.170, .carbohydrate = 0.0, .ash = 0.009};
  return tissue;
}

} // namespace cook
