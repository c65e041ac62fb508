/// @file
/// Table rows of the meat as a material.
#include "cook/meat/tissue.hpp"
#include "fields/parameter_rows.hpp"

namespace cook::rows {

namespace {

using enum Provenance;

void add_composition(std::vector<Parameter> &table) {
  const Composition c = brisket_tissue().composition;
  const std::string usda =
      "USDA Standard Reference 13904, beef brisket, flat half, boneless, lean and fat, trimmed to 0\", "
      "raw; range: brisket cuts in the same tables, lean only to 1/8\" trim";
  const std::string at = "tissue.composition.";
  table.insert(table.end(), {
                                {at + "water", c.water, "kg/kg", 0.55, 0.76, usda, published},
                                {at + "protein", c.protein, "kg/kg", 0.16, 0.23, usda, published},
                                {at + "fat", c.fat, "kg/kg", 0.03, 0.28, usda, published},
                                {at + "carbohydrate", c.carbohydrate, "kg/kg", 0.0, 0.01, usda, published},
                                {at + "ash", c.ash, "kg/kg", 0.007, 0.012, usda, published},
                            });
}

void add_water(std::vector<Parameter> &table) {
  const Tissue tissue = brisket_tissue();
  const WaterHolding &h = tissue.holding;
  const std::string sman =
      "van der Sman, AIChE J. 53 (2007) 2986, fit of beef water-holding data, from memory, read on a "
      "raw-mass basis: ";
  table.insert(
      table.end(),
      {
          {"tissue.holding.final_share", h.final_share, "-", 0.45, 0.65,
           sman + "0.745 - 0.345 over 0.745. USDA braised brisket rows keep 54 to 61 % of the raw water" +
               tuning,
           tuned},
          {"tissue.holding.midpoint", h.midpoint, "°C", 60.0, 76.0,
           sman + "52 + 4 ln 30 = 65.6; other fits of meat 60 to 75" + tuning, tuned},
          {"tissue.holding.width", h.width, "K", 2.0, 12.0,
           sman + "1 / 0.25 = 4; a piece of several muscles is broader" + tuning, tuned},
      });
  const WaterMobility &m = tissue.mobility;
  const std::string burger = "permeability of cooked beefburgers 6.8e-18 to 1.9e-16 m² (J. Food Eng. 2006, "
                             "abstract) times modulus over viscosity is 8e-10 to 2.2e-8; above that, up to "
                             "1e-7, rests on the wider channels of whole muscle, which is assumed" +
                             tuning;
  const std::string ismail =
      "Ismail & Kocabay, Heat Transf. Res. 49(14) (2018) 1353, air drying of beef (abstract)";
  table.insert(
      table.end(),
      {
          {"tissue.mobility.expressed", m.expressed, "m²/s", 8e-10, 1e-7, burger, tuned},
          {"tissue.mobility.held", m.held, "m²/s", 2e-10, 1.2e-9,
           "air drying of beef, 40 to 60 °C: 4e-11 to 1.2e-9, most of it 4.6e-10 to 1.2e-9 (Ismail & Kocabay "
           "2018, Mewa et al. 2018; abstracts)" +
               tuning,
           tuned},
          {"tissue.mobility.held_activation", m.held_activation, "J/mol", 2.8e4, 5.9e4,
           ismail + "; other meats and methods 28 to 59 kJ/mol", published},
          {"tissue.mobility.dry_below", m.dry_below, "kg/kg", 0.1, 0.6,
           "judgement: diffusivity falls once only bound water is left; the isotherm bends at about 0.3",
           assumed},
          {"tissue.mobility.dry_floor", m.dry_floor, "-", 0.001, 0.2,
           "judgement: crust still passes some vapour", assumed},
          {"tissue.mobility.switch_width", m.switch_width, "kg/kg", 0.005, 0.2,
           "judgement: narrow against the expressible water, wide enough for the solver", assumed},
      });
  const Sorption &s = tissue.sorption;
  const std::string gab =
      "form: Trujillo, Yeow & Pham, J. Food Eng. 60 (2003) 357 and Ahmat et al., Meat Sci. 96 (2014) "
      "1417; constants not read, tied to raw brisket at water activity 0.99 and below 0.9 only under "
      "0.7 kg/kg";
  table.insert(table.end(), {
                                {"tissue.sorption.monolayer", s.monolayer, "kg/kg", 0.07, 0.09, gab, assumed},
                                {"tissue.sorption.c", s.c, "-", 8.0, 15.0, gab, assumed},
                                {"tissue.sorption.k", s.k, "-", 0.98, 0.99, gab, assumed},
                            });
}

void add_heat(std::vector<Parameter> &table) {
  const Tissue tissue = brisket_tissue();
  const HeatSinks &s = tissue.sinks;
  const std::string melting =
      "tallow: steps near 25 and 43 °C (Liu et al., Int. J. Food Eng. 17 (2021) 945, abstract), melting "
      "point 40 to 50 °C (food chemistry textbook, second hand)";
  const std::string findlay = "Findlay & Stanley, J. Food Sci. 49 (1984) 1513 (abstract): ";
  table.insert(
      table.end(),
      {
          {"tissue.sinks.fat_latent", s.fat_latent, "J/kg", 0.8e5, 1.8e5,
           "130 to 180 kJ/kg for fully solid tallow, from memory; part of it is liquid at 10 °C already",
           from_memory},
          {"tissue.sinks.fat_melt_start", s.fat_melt_start, "°C", 10.0, 30.0, melting, derived},
          {"tissue.sinks.fat_melt_end", s.fat_melt_end, "°C", 43.0, 56.0, melting, derived},
          {"tissue.sinks.denaturation", s.denaturation, "J/kg", 1.5e4, 2.0e4,
           findlay + "3.0 to 3.9 J per g of muscle; 3.4 over 0.20 kg protein per kg", derived},
          {"tissue.sinks.denaturation_start", s.denaturation_start, "°C", 45.0, 55.0,
           "first step of the proteins: alpha-actinin at 50 °C (Encyclopedia of Meat Sciences, abstract)",
           derived},
          {"tissue.sinks.denaturation_end", s.denaturation_end, "°C", 82.0, 90.0,
           findlay + "actin 82 to 83 °C and its tail", derived},
      });
  const Exudation &e = tissue.exudation;
  table.insert(table.end(), {
                                {"tissue.exudation.path", e.path, "m", 1e-4, 2e-3,
                                 "judgement: of the size of a muscle fibre bundle", assumed},
                                {"tissue.exudation.bare_film", e.bare_film, "kg/m²", 0.01, 0.2,
                                 "judgement: a water film of 50 micrometres clings to a rough face", assumed},
                                {"tissue.exudation.run_off_time", e.run_off_time, "s", 5.0, 600.0,
                                 "judgement: drops leave within minutes", assumed},
                            });
  const Tenderness &t = tissue.tenderness;
  table.insert(
      table.end(),
      {
          {"tissue.tenderness.rate_90", t.rate_90, "1/s", 1.6e-4, 2.1e-4,
           "90 % conversion in 3 to 4 h at 90 °C; low confidence, no published rate was found",
           common_practice},
          {"tissue.tenderness.activation", t.activation, "J/mol", 8.8e4, 1.29e5,
           "trade equivalences 72 h at 60 °C, 12 h at 80 °C, 2 h at 95 °C; low confidence", common_practice},
          {"tissue.emissivity", tissue.emissivity, "-", 0.74, 0.97,
           "foods about 0.9 (food engineering text); a water film 0.95 to 0.96; beef quoted 0.74 to 0.78 "
           "second hand" +
               tuning,
           tuned},
          {"tissue.cooked_conductivity", tissue.cooked_conductivity, "-", 0.65, 1.0,
           "conductivity falls as proteins denature (Baghe-Khandan & Okos, J. Food Sci. 46 (1981) 1302, "
           "abstract; "
           "how far is not in it); rolls of 110 mm cool in water as with 0.8" +
               tuning,
           tuned},
      });
}

} // namespace

void add_tissue(std::vector<Parameter> &table) {
  add_composition(table);
  add_water(table);
  add_heat(table);
}

} // namespace cook::rows
