// Combustion: stoichiometry against textbook figures, conservation, and the fire that holds a cooker.
#include "cook/cooker/fuel.hpp"
#include "cook/cooker/humid_air.hpp"
#include "cook/errors.hpp"
#include "cook/fields/parameters.hpp"

#include <doctest/doctest.h>

#include <cmath>
#include <string>

using namespace cook;

namespace {

// Higher heating value of a dry solid fuel [J/kg], Channiwala & Parikh, Fuel 81 (2002) 1051, as printed in a
// firewood tutorial at bioenergylists.org; mass fractions. Stated within 1.5 % on average.
double higher_heating(const Fuel &f) {
  return (34.91 * f.carbon + 117.83 * f.hydrogen - 10.34 * f.oxygen - 2.11 * f.ash) * 1e6;
}

Fuel carbon_alone() {
  Fuel f;
  f.name = "carbon";
  f.carbon = 1.0;
  f.dry_heating = 32.76e6; // 393.51 kJ/mol, enthalpy of formation of CO2 (from memory)
  return f;
}

} // namespace

TEST_CASE("propane: air, water and heat") {
  const Fuel gas = fuel("propane");
  // "Engine Testing" (Plint & Martyr), table 13.2: LPG (90 % propane) takes 15.7 kg of air, 46.3 MJ/kg.
  CHECK(stoichiometric_air(gas) == doctest::Approx(15.7).epsilon(0.005));
  CHECK(stoichiometric_air(gas) > 15.6);
  CHECK(heating_value(gas) == doctest::Approx(46.3e6).epsilon(0.003));
  // C3H8 + 5 O2 -> 3 CO2 + 4 H2O: 4 x 18.015 / 44.097.
  CHECK(water_yield(gas) == doctest::Approx(1.634).epsilon(0.001));
  CHECK(water_per_heat(gas) == doctest::Approx(1.634 / 46.33e6).epsilon(0.001));
}

TEST_CASE("carbon, wood and charcoal: stoichiometric air") {
  // Carbon: 11.5 kg of air per kg (137.3 / 12 = 11.4 with rounded molar masses).
  CHECK(stoichiometric_air(carbon_alone()) == doctest::Approx(11.5).epsilon(0.005));
  CHECK(water_yield(carbon_alone()) == 0.0);
  Fuel wood = fuel("wood");
  wood.moisture = 0.0;
  // Kubler, "Indicators and significance of air supply in the combustion of wood for heat", Wood Fiber Sci.
  // (abstract): 6 g of air per g of oven-dry wood.
  CHECK(stoichiometric_air(wood) == doctest::Approx(6.0).epsilon(0.02));
  // Charcoal takes nearly twice the air of wood: 12 against 6 per kg, pure carbon and dry wood; ash and
  // moisture lower it.
  CHECK(stoichiometric_air(fuel("charcoal")) > 9.0);
  CHECK(stoichiometric_air(fuel("charcoal")) < 11.5);
}

TEST_CASE("heating values: correlation, standards") {
  for (const char *name : {"charcoal", "wood"}) {
    CAPTURE(name);
    const Fuel f = fuel(name);
    const double lower = higher_heating(f) - heating_value_latent_heat * water_per_hydrogen * f.hydrogen;
    CHECK(f.dry_heating == doctest::Approx(lower).epsilon(0.015));
  }
  // IPCC Guidelines 2006, vol. 2, table 1.2 (from memory): charcoal 29.5 MJ/kg, wood 15.6 MJ/kg as fired.
  CHECK(heating_value(fuel("charcoal")) == doctest::Approx(29.5e6).epsilon(0.04));
  CHECK(heating_value(fuel("wood")) == doctest::Approx(15.6e6).epsilon(0.06));
  // ISO 17225-2 (from memory): pellets of class A1 give 16.5 MJ/kg or more as received.
  CHECK(heating_value(fuel("pellets")) >= 16.5e6);
  CHECK(heating_value(fuel("pellets")) < 19.0e6);
  // By hand at a fifth of water: 0.8 x 18.8 - 0.2 x 2.443.
  Fuel wet = fuel("wood");
  wet.moisture = 0.2;
  CHECK(heating_value(wet) == doctest::Approx(14.5514e6).epsilon(1e-9));
}

TEST_CASE("water per heat: gas, wood and charcoal in their order") {
  CHECK(water_per_heat(fuel("charcoal")) < 0.4 * water_per_heat(fuel("pellets")));
  CHECK(water_per_heat(fuel("pellets")) < water_per_heat(fuel("wood")));
  CHECK(water_per_heat(fuel("propane")) < water_per_heat(fuel("wood")));
  CHECK(water_per_heat(fuel("electric")) == 0.0);
  Fuel wood = fuel("wood");
  const double seasoned = water_yield(wood);
  wood.moisture += 0.1;
  CHECK(water_yield(wood) > seasoned);
}

TEST_CASE("mass is conserved, element by element") {
  for (const std::string &name : fuel_names()) {
    const Fuel f = fuel(name);
    if (!f.burns()) {
      continue;
    }
    CAPTURE(name);
    for (const double ratio : {1.0, 3.0, 12.0}) {
      const double dry = 1.0 - f.moisture;
      const double air = ratio * stoichiometric_air(f);
      // The flue gas put together from its parts: carbon dioxide, oxygen left over, nitrogen and argon.
      const double dioxide = dry * f.carbon * (12.011 + 31.998) / 12.011;
      const double oxygen = (ratio - 1.0) * stoichiometric_air(f) * oxygen_in_air;
      const double inert =
          air * (1.0 - oxygen_in_air) + dry * (1.0 - f.carbon - f.hydrogen - f.oxygen - f.ash);
      CHECK(dry_flue_gas(f, ratio) == doctest::Approx(dioxide + oxygen + inert).epsilon(1e-5));
    }
  }
}

TEST_CASE("a fire closes its energy balance") {
  const Fuel f = fuel("wood");
  const double ambient = 1200.0;
  const Combustion fire = burn(f, 1500.0, 8.0, 120.0, 15.0, ambient);
  const double released = fire.fuel_rate * heating_value(f);
  const double carried_off = fire.dry_gas * (humid_air_enthalpy(120.0, fire.humidity_ratio) -
                                             humid_air_enthalpy(15.0, fire.humidity_ratio));
  CHECK(released - carried_off == doctest::Approx(1500.0).epsilon(1e-12));
  CHECK(fire.air_flow == doctest::Approx(8.0 * stoichiometric_air(f) * fire.fuel_rate));
  CHECK(fire.water == doctest::Approx(water_yield(f) * fire.fuel_rate));
  // All vapour in is vapour out.
  CHECK(fire.humidity_ratio * fire.dry_gas ==
        doctest::Approx(fire.air_flow * humidity_ratio(ambient) + fire.water).epsilon(1e-12));
  // More demand: in proportion. More air: more fuel, drier gas.
  CHECK(burn(f, 3000.0, 8.0, 120.0, 15.0, ambient).fuel_rate == doctest::Approx(2.0 * fire.fuel_rate));
  const Combustion draughty = burn(f, 1500.0, 16.0, 120.0, 15.0, ambient);
  CHECK(draughty.fuel_rate > 1.2 * fire.fuel_rate);
  CHECK(draughty.humidity_ratio < 0.7 * fire.humidity_ratio);
}

TEST_CASE("humidity of flue gas: hand evaluation") {
  // Propane, air ratio 2, ambient 0.008 kg/kg: dry gas 1 + 2 x 15.68 - 1.634 = 30.73 kg;
  // (31.36 x 0.008 + 1.634) / 30.73 = 0.0613.
  const Combustion fire =
      burn(fuel("propane"), 1000.0, 2.0, 100.0, 20.0, vapour_pressure_from_humidity_ratio(0.008));
  CHECK(fire.humidity_ratio == doctest::Approx(0.0613).epsilon(0.005));
  // Much air: ambient air. Nothing to give: no fire.
  const double far = burn(fuel("propane"), 1000.0, 25.0, 100.0, 20.0, 0.0).humidity_ratio;
  CHECK(far < 0.005);
  CHECK(burn(fuel("propane"), 0.0, 2.0, 100.0, 20.0, 0.0).fuel_rate == 0.0);
  const Combustion none = burn(fuel("electric"), 1000.0, 2.0, 100.0, 20.0, 1000.0);
  CHECK(none.air_flow == 0.0);
  CHECK(none.water == 0.0);
  CHECK(none.humidity_ratio == humidity_ratio(1000.0));
}

TEST_CASE("bad fuels and fires are refused by name") {
  CHECK_THROWS_WITH_AS((void)fuel("coal"),
                       "fuel: 'coal' is not a known fuel; known: charcoal, wood, pellets, propane, electric",
                       InvalidInput);
  Fuel f = fuel("wood");
  f.moisture = 18.0;
  CHECK_THROWS_WITH_AS(f.validate(),
                       "fuel.moisture: 18; accepted: 0 to 0.6; a mass fraction; a value in per cent?",
                       InvalidInput);
  f = fuel("wood");
  f.dry_heating = 18.8;
  CHECK_THROWS_AS(f.validate(), InvalidInput);
  f = fuel("wood");
  f.carbon = 0.7;
  CHECK_THROWS_AS(f.validate(), InvalidInput);
  f = fuel("wood");
  f.carbon = 0.05;
  f.oxygen = 0.9;
  f.hydrogen = 0.02;
  CHECK_THROWS_AS(f.validate(), InvalidInput);
  const Fuel wood = fuel("wood");
  CHECK_THROWS_AS((void)burn(wood, -1.0, 5.0, 110.0, 20.0, 1000.0), InvalidInput);
  CHECK_THROWS_AS((void)burn(wood, 1e3, 0.5, 110.0, 20.0, 1000.0), InvalidInput);
  CHECK_THROWS_AS((void)burn(wood, 1e3, std::nan(""), 110.0, 20.0, 1000.0), InvalidInput);
  CHECK_THROWS_AS((void)burn(wood, 1e3, 5.0, 10.0, 20.0, 1000.0), InvalidInput);
  CHECK_THROWS_WITH_AS((void)burn(wood, 1e3, 90.0, 110.0, 20.0, 1000.0),
                       "air_ratio: 90; so much air carries off all the heat of wood at 110 °C", InvalidInput);
  CHECK_THROWS_AS((void)burn(wood, 1e3, 5.0, 110.0, 20.0, 0.5e5), InvalidInput);
}

TEST_CASE("every number of a fuel is in the table") {
  for (const char *name : {"charcoal", "wood", "pellets"}) {
    const std::string at = std::string("fuel.") + name + ".";
    const Fuel f = fuel(name);
    CHECK_NOTHROW(f.validate());
    CHECK(parameter(at + "carbon").value == f.carbon);
    CHECK(parameter(at + "hydrogen").value == f.hydrogen);
    CHECK(parameter(at + "oxygen").value == f.oxygen);
    CHECK(parameter(at + "ash").value == f.ash);
    CHECK(parameter(at + "moisture").value == f.moisture);
    CHECK(parameter(at + "dry_heating").value == f.dry_heating);
  }
  CHECK(parameter("fuel.propane.dry_heating").value == fuel("propane").dry_heating);
}
