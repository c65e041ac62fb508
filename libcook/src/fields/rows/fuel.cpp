/// @file
/// Table rows of fuels.
#include "cook/cooker/fuel.hpp"
#include "fields/parameter_rows.hpp"

namespace cook::rows {

namespace {

using enum Provenance;

const std::string heating =
    "higher heating value by the correlation of Channiwala & Parikh, Fuel 81 (2002) 1051, "
    "less the latent heat of the water formed";

void add_charcoal(std::vector<Parameter> &table) {
  const Fuel f = fuel("charcoal");
  const std::string lump = "lump hardwood charcoal carbonised near 500 °C, from memory";
  table.insert(
      table.end(),
      {
          {"fuel.charcoal.carbon", f.carbon, "-", 0.70, 0.92, lump, from_memory},
          {"fuel.charcoal.hydrogen", f.hydrogen, "-", 0.01, 0.045, lump, from_memory},
          {"fuel.charcoal.oxygen", f.oxygen, "-", 0.03, 0.22, lump, from_memory},
          {"fuel.charcoal.ash", f.ash, "-", 0.01, 0.18,
           "3 to 5 % for lump (FAO Forestry Paper 41, 1987, as quoted); up to 18 % in briquettes (EN "
           "1860-2, as quoted)",
           published},
          {"fuel.charcoal.moisture", f.moisture, "-", 0.02, 0.15,
           "5 to 8 % as delivered, at most 8 % by EN 1860-2 (as quoted); takes up more in damp air",
           published},
          {"fuel.charcoal.dry_heating", f.dry_heating, "J/kg", 26e6, 33e6, heating, derived},
      });
}

void add_wood(std::vector<Parameter> &table, const std::string &name, double low, double high,
              const std::string &moisture, Provenance kind) {
  const Fuel f = fuel(name);
  const std::string at = "fuel." + name + ".";
  const std::string oak =
      "ultimate analysis of dry oak, firewood tutorial at bioenergylists.org; 0.1 % nitrogen";
  table.insert(table.end(), {
                                {at + "carbon", f.carbon, "-", 0.47, 0.53, oak, published},
                                {at + "hydrogen", f.hydrogen, "-", 0.055, 0.070, oak, published},
                                {at + "oxygen", f.oxygen, "-", 0.39, 0.45, oak, published},
                                {at + "ash", f.ash, "-", 0.001, 0.02, oak, published},
                                {at + "moisture", f.moisture, "-", low, high, moisture, kind},
                                {at + "dry_heating", f.dry_heating, "J/kg", 17.5e6, 19.5e6, heating, derived},
                            });
}

void add_propane(std::vector<Parameter> &table) {
  const Fuel f = fuel("propane");
  const std::string formula = "C3H8 with the atomic masses of IUPAC (2013)";
  table.insert(table.end(),
               {
                   {"fuel.propane.carbon", f.carbon, "-", 0.81, 0.83, formula, derived},
                   {"fuel.propane.hydrogen", f.hydrogen, "-", 0.17, 0.19, formula, derived},
                   {"fuel.propane.dry_heating", f.dry_heating, "J/kg", 45.5e6, 46.5e6,
                    "enthalpies of formation (from memory): 3 x 393.51 + 4 x 241.83 - 104.7 kJ/mol", derived},
               });
}

} // namespace

void add_fuels(std::vector<Parameter> &table) {
  add_charcoal(table);
  add_wood(table, "wood", 0.10, 0.35, "seasoned splits: 15 to 20 %", common_practice);
  add_wood(table, "pellets", 0.04, 0.10, "at most 10 % by ISO 17225-2 (from memory); 6 to 8 % as delivered",
           from_memory);
  add_propane(table);
}

} // namespace cook::rows
