/// @file
/// Table rows of the meat as a material.
/// Values stand in the structs (include/cook), ranges and sources of their members in the *_fields.hpp beside
/// them; here is what is no member of a struct.
#include "cook/meat/tissue_fields.hpp"
#include "fields/parameter_rows.hpp"

namespace cook::rows {

void add_composition(std::vector<Parameter> &table, const std::string &at, const Composition &c,
                     std::string_view source, Provenance kind, const CompositionRanges &r) {
  add_known(table, at, c,
            {{&Composition::water, {r[0][0], r[0][1], kind, source}},
             {&Composition::protein, {r[1][0], r[1][1], kind, source}},
             {&Composition::fat, {r[2][0], r[2][1], kind, source}},
             {&Composition::carbohydrate, {0.0, 0.01, kind, source}},
             {&Composition::ash, {r[3][0], r[3][1], kind, source}}});
}

void add_tissue(std::vector<Parameter> &table) {
  const Tissue t = brisket_tissue();
  add_composition(
      table, "tissue.composition.", t.composition,
      "USDA Standard Reference 13904, beef brisket, flat half, boneless, lean and fat, trimmed to 0\", "
      "raw; range: brisket cuts in the same tables, lean only to 1/8\" trim",
      Provenance::published, {{{0.55, 0.76}, {0.16, 0.23}, {0.03, 0.28}, {0.007, 0.012}}});
  add_defaults(table, "tissue.holding.", t.holding);
  add_defaults(table, "tissue.mobility.", t.mobility);
  add_defaults(table, "tissue.sorption.", t.sorption);
  add_defaults(table, "tissue.sinks.", t.sinks);
  add_defaults(table, "tissue.exudation.", t.exudation);
  add_defaults(table, "tissue.tenderness.", t.tenderness);
  add_defaults(table, "tissue.", t);
}

} // namespace cook::rows
