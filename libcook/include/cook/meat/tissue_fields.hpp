/// @file
/// The fields of the meat as a material.
#pragma once

#include "cook/fields/field.hpp"
#include "cook/meat/tissue.hpp"

namespace cook {

namespace source {

inline constexpr std::string_view holding =
    "van der Sman, AIChE J. 53 (2007) 2986, fit of beef water-holding data, from memory, read on a "
    "raw-mass basis: ";
inline constexpr std::string_view sorption =
    "form: Trujillo, Yeow & Pham, J. Food Eng. 60 (2003) 357 and Ahmat et al., Meat Sci. 96 (2014) 1417; "
    "constants not read, tied to raw brisket at water activity 0.99 and below 0.9 only under 0.7 kg/kg";
inline constexpr std::string_view melting =
    "tallow: steps near 25 and 43 °C (Liu et al., Int. J. Food Eng. 17 (2021) 945, abstract), melting point "
    "40 to 50 °C (food chemistry textbook, second hand)";
inline constexpr std::string_view findlay = "Findlay & Stanley, J. Food Sci. 49 (1984) 1513 (abstract): ";

} // namespace source

template <>
inline constexpr About about<Composition>{"Composition", "composition",
                                          "mass fractions of the raw tissue; they sum to 1"};
template <>
inline constexpr auto fields_of<Composition> = std::tuple{
    field("water", &Composition::water, kind::mass_fraction, range::fraction, "mass fraction of water"),
    field("protein", &Composition::protein, kind::mass_fraction, range::fraction, "mass fraction of protein"),
    field("fat", &Composition::fat, kind::mass_fraction, range::fraction, "mass fraction of fat"),
    field("carbohydrate", &Composition::carbohydrate, kind::mass_fraction, range::fraction,
          "mass fraction of carbohydrate"),
    field("ash", &Composition::ash, kind::mass_fraction, range::fraction, "mass fraction of ash"),
};

template <>
inline constexpr About about<WaterHolding>{
    "WaterHolding", "holding",
    "share of the raw water that the proteins still hold at a temperature: 1 - (1 - final_share) / (1 + "
    "exp(-(T - midpoint) / width)), after van der Sman, AIChE J. 53 (2007) 2986, read on a raw-mass basis; "
    "20 to 100 °C"};
template <>
inline constexpr auto fields_of<WaterHolding> = std::tuple{
    field("final_share", &WaterHolding::final_share, kind::share, range::within(0.05, 1.0),
          "share of the raw water still held when fully cooked",
          {0.45, 0.65, Provenance::tuned, source::holding,
           "0.745 - 0.345 over 0.745. USDA braised brisket rows keep 54 to 61 % of the raw water"}),
    field(
        "midpoint", &WaterHolding::midpoint, kind::temperature, range::within(30.0, 100.0),
        "temperature of half the release",
        {60.0, 76.0, Provenance::tuned, source::holding, "52 + 4 ln 30 = 65.6; other fits of meat 60 to 75"}),
    field("width", &WaterHolding::width, kind::difference, range::within(0.5, 30.0), "width of the sigmoid",
          {2.0, 12.0, Provenance::tuned, source::holding,
           "1 / 0.25 = 4; a piece of several muscles is broader"}),
};

template <>
inline constexpr About about<WaterMobility>{
    "WaterMobility", "mobility",
    "how fast water moves through tissue: what the proteins squeeze out, and what they hold"};
template <>
inline constexpr auto fields_of<WaterMobility> = std::tuple{
    field("expressed", &WaterMobility::expressed, kind::diffusivity, range::within(1e-12, 1e-5),
          "mobility of expressed juice at 60 °C",
          {8e-10, 1e-7, Provenance::tuned,
           "permeability of cooked beefburgers 6.8e-18 to 1.9e-16 m² (J. Food Eng. 2006, abstract) times "
           "modulus over viscosity is 8e-10 to 2.2e-8; above that, up to 1e-7, rests on the wider channels "
           "of whole muscle, which is assumed"}),
    field("held", &WaterMobility::held, kind::diffusivity, range::within(1e-13, 1e-7),
          "mobility of held water at 60 °C",
          {2e-10, 1.2e-9, Provenance::tuned,
           "air drying of beef, 40 to 60 °C: 4e-11 to 1.2e-9, most of it 4.6e-10 to 1.2e-9 (Ismail & Kocabay "
           "2018, Mewa et al. 2018; abstracts)"}),
    field("held_activation", &WaterMobility::held_activation, kind::molar_energy, range::within(0.0, 2e5),
          "activation energy of the held mobility",
          {2.8e4, 5.9e4, Provenance::published,
           "Ismail & Kocabay, Heat Transf. Res. 49(14) (2018) 1353, air drying of beef (abstract); other "
           "meats and methods 28 to 59 kJ/mol"}),
    field("dry_below", &WaterMobility::dry_below, kind::water_content, range::within(0.02, 2.0),
          "water content, of dry solids, below which the held mobility falls steeply",
          {0.1, 0.6, Provenance::assumed,
           "judgement: diffusivity falls once only bound water is left; the isotherm bends at about 0.3"}),
    field("dry_floor", &WaterMobility::dry_floor, kind::share, range::within(1e-4, 1.0),
          "share of the held mobility left in bone-dry crust",
          {0.001, 0.2, Provenance::assumed, "judgement: crust still passes some vapour"}),
    field("switch_width", &WaterMobility::switch_width, kind::water_content, range::within(1e-3, 1.0),
          "width, in water content, of the smooth onset of expression above held water",
          {0.005, 0.2, Provenance::assumed,
           "judgement: narrow against the expressible water, wide enough for the solver"}),
};

template <>
inline constexpr About about<Sorption>{
    "Sorption", "sorption",
    "Guggenheim-Anderson-de Boer sorption isotherm: water activity against water content"};
template <>
inline constexpr auto fields_of<Sorption> = std::tuple{
    field("monolayer", &Sorption::monolayer, kind::water_content, range::within(0.01, 0.5),
          "water content X_m of the monolayer, of dry solids",
          {0.07, 0.09, Provenance::assumed, source::sorption}),
    field("c", &Sorption::c, kind::number, range::within(1.01, 1e3), "energy constant C",
          {8.0, 15.0, Provenance::assumed, source::sorption}),
    field("k", &Sorption::k, kind::number, range::within(0.5, 0.999), "multilayer constant K",
          {0.98, 0.99, Provenance::assumed, source::sorption}),
};

template <>
inline constexpr About about<HeatSinks>{
    "HeatSinks", "sinks",
    "heat taken up by melting fat and denaturing protein, spread over temperature ranges"};
template <>
inline constexpr auto fields_of<HeatSinks> = std::tuple{
    field("fat_latent", &HeatSinks::fat_latent, kind::specific_energy, range::within(0.0, 4e5),
          "latent heat of melting, per fat",
          {0.8e5, 1.8e5, Provenance::from_memory,
           "130 to 180 kJ/kg for fully solid tallow, from memory; part of it is liquid at 10 °C already"}),
    field("fat_melt_start", &HeatSinks::fat_melt_start, kind::temperature, range::any, "start of melting",
          {10.0, 30.0, Provenance::derived, source::melting}),
    field("fat_melt_end", &HeatSinks::fat_melt_end, kind::temperature, range::any, "end of melting",
          {43.0, 56.0, Provenance::derived, source::melting}),
    field("denaturation", &HeatSinks::denaturation, kind::specific_energy, range::within(0.0, 2e5),
          "total denaturation enthalpy, per protein",
          {1.5e4, 2.0e4, Provenance::derived, source::findlay,
           "3.0 to 3.9 J per g of muscle; 3.4 over 0.20 kg protein per kg"}),
    field("denaturation_start", &HeatSinks::denaturation_start, kind::temperature, range::any,
          "start of denaturation",
          {45.0, 55.0, Provenance::derived,
           "first step of the proteins: alpha-actinin at 50 °C (Encyclopedia of Meat Sciences, abstract)"}),
    field("denaturation_end", &HeatSinks::denaturation_end, kind::temperature, range::any,
          "end of denaturation",
          {82.0, 90.0, Provenance::derived, source::findlay, "actin 82 to 83 °C and its tail"}),
};

template <>
inline constexpr About about<Exudation>{"Exudation", "exudation",
                                        "what happens to juice that reaches a face"};
template <>
inline constexpr auto fields_of<Exudation> = std::tuple{
    field("path", &Exudation::path, kind::length, range::within(1e-5, 1e-2),
          "length over which juice leaves the surface tissue",
          {1e-4, 2e-3, Provenance::assumed, "judgement: of the size of a muscle fibre bundle"}),
    field(
        "bare_film", &Exudation::bare_film, kind::areal_mass, range::within(0.0, 10.0),
        "liquid that a bare face holds before it runs off",
        {0.01, 0.2, Provenance::assumed, "judgement: a water film of 50 micrometres clings to a rough face"}),
    field("run_off_time", &Exudation::run_off_time, kind::duration, range::within(1.0, 1e5),
          "time constant of running off",
          {5.0, 600.0, Provenance::assumed, "judgement: drops leave within minutes"}),
};

template <>
inline constexpr About about<Tenderness>{
    "Tenderness", "tenderness",
    "collagen turning to gelatin, first order in time and Arrhenius in temperature"};
template <>
inline constexpr auto fields_of<Tenderness> = std::tuple{
    field("rate_90", &Tenderness::rate_90, kind::rate, range::within(0.0, 1.0), "rate at 90 °C",
          {1.6e-4, 2.1e-4, Provenance::common_practice,
           "90 % conversion in 3 to 4 h at 90 °C; low confidence, no published rate was found"}),
    field("activation", &Tenderness::activation, kind::molar_energy, range::within(0.0, 1e6),
          "activation energy",
          {8.8e4, 1.29e5, Provenance::common_practice,
           "trade equivalences 72 h at 60 °C, 12 h at 80 °C, 2 h at 95 °C; low confidence"}),
};

template <>
inline constexpr About about<FixedThermal>{
    "FixedThermal", "fixed",
    "constant thermal properties, for checks against textbook solutions and materials other than meat; water "
    "then carries no heat of its own"};
template <>
inline constexpr auto fields_of<FixedThermal> = std::tuple{
    field("conductivity", &FixedThermal::conductivity, kind::conductivity, range::within(1e-3, 1e3),
          "thermal conductivity"),
    field("heat_capacity", &FixedThermal::heat_capacity, kind::volumetric_heat_capacity,
          range::within(1e2, 1e8), "heat capacity per volume"),
};

template <>
inline constexpr About about<Tissue>{"Tissue", "tissue", "meat as a material: the numbers of the model"};
template <>
inline constexpr auto fields_of<Tissue> = std::tuple{
    field("name", &Tissue::name, "what it is called"),
    field("composition", &Tissue::composition, "what it is made of"),
    field("holding", &Tissue::holding, "water that the proteins hold"),
    field("mobility", &Tissue::mobility, "how fast water moves"),
    field("sorption", &Tissue::sorption, "water activity"),
    field("sinks", &Tissue::sinks, "melting and denaturation"),
    field("exudation", &Tissue::exudation, "juice at a face"),
    field("tenderness", &Tissue::tenderness, "collagen kinetics"),
    field("fixed", &Tissue::fixed, "constant thermal properties in place of those from the composition"),
    field("emissivity", &Tissue::emissivity, kind::share, range::within(0.0, 1.0),
          "of a bare or fat face in the thermal infrared",
          {0.74, 0.97, Provenance::tuned,
           "foods about 0.9 (food engineering text); a water film 0.95 to 0.96; beef quoted 0.74 to 0.78 "
           "second hand"}),
    field("cooked_conductivity", &Tissue::cooked_conductivity, kind::share, range::within(0.3, 1.5),
          "conductivity of cooked tissue over that of raw tissue of the same composition",
          {0.65, 1.0, Provenance::tuned,
           "conductivity falls as proteins denature (Baghe-Khandan & Okos, J. Food Sci. 46 (1981) 1302, "
           "abstract; how far is not in it); rolls of 110 mm cool in water as with 0.8"}),
};

} // namespace cook
