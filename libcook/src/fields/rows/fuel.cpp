/// @file
/// Table rows of fuels.
/// Values stand in the structs (include/cook), ranges and sources of their members in the *_fields.hpp beside
/// them; here is what is no member of a struct.
#include "cook/cooker/fire_fields.hpp"
#include "fields/parameter_rows.hpp"

namespace cook::rows {

namespace {

using enum Provenance;

constexpr std::string_view heating =
    "higher heating value by the correlation of Channiwala & Parikh, Fuel 81 (2002) 1051, "
    "less the latent heat of the water formed";

void add_charcoal(std::vector<Parameter> &table) {
  constexpr std::string_view lump = "lump hardwood charcoal carbonised near 500 °C, from memory";
  add_known(table, "fuel.charcoal.", fuel("charcoal"),
            {{&Fuel::carbon, {0.70, 0.92, from_memory, lump}},
             {&Fuel::hydrogen, {0.01, 0.045, from_memory, lump}},
             {&Fuel::oxygen, {0.03, 0.22, from_memory, lump}},
             {&Fuel::ash,
              {0.01, 0.18, published,
               "3 to 5 % for lump (FAO Forestry Paper 41, 1987, as quoted); up to 18 % in briquettes (EN "
               "1860-2, as quoted)"}},
             {&Fuel::moisture,
              {0.02, 0.15, published,
               "5 to 8 % as delivered, at most 8 % by EN 1860-2 (as quoted); takes up more in damp air"}},
             {&Fuel::dry_heating, {26e6, 33e6, derived, heating}}});
}

void add_wood(std::vector<Parameter> &table, const std::string &name, const Sure &moisture) {
  constexpr std::string_view oak =
      "ultimate analysis of dry oak, firewood tutorial at bioenergylists.org; 0.1 % nitrogen";
  add_known(table, "fuel." + name + ".", fuel(name),
            {{&Fuel::carbon, {0.47, 0.53, published, oak}},
             {&Fuel::hydrogen, {0.055, 0.070, published, oak}},
             {&Fuel::oxygen, {0.39, 0.45, published, oak}},
             {&Fuel::ash, {0.001, 0.02, published, oak}},
             {&Fuel::moisture, moisture},
             {&Fuel::dry_heating, {17.5e6, 19.5e6, derived, heating}}});
}

void add_propane(std::vector<Parameter> &table) {
  constexpr std::string_view formula = "C3H8 with the atomic masses of IUPAC (2013)";
  add_known(table, "fuel.propane.", fuel("propane"),
            {{&Fuel::carbon, {0.81, 0.83, derived, formula}},
             {&Fuel::hydrogen, {0.17, 0.19, derived, formula}},
             {&Fuel::dry_heating,
              {45.5e6, 46.5e6, derived,
               "enthalpies of formation (from memory): 3 x 393.51 + 4 x 241.83 - 104.7 kJ/mol"}}});
}

} // namespace

void add_fuels(std::vector<Parameter> &table) {
  add_charcoal(table);
  add_wood(table, "wood", {0.10, 0.35, common_practice, "seasoned splits: 15 to 20 %"});
  add_wood(table, "pellets",
           {0.04, 0.10, from_memory, "at most 10 % by ISO 17225-2 (from memory); 6 to 8 % as delivered"});
  add_propane(table);
}

} // namespace cook::rows
