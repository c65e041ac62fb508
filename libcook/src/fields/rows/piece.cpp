/// @file
/// Table rows of the pieces: size, fat cap, other meats, rendered fat.
/// Values stand in the structs (include/cook), ranges and sources of their members in the *_fields.hpp beside
/// them; here is what is no member of a struct.
#include "cook/meat/piece_fields.hpp"
#include "cook/readings/readings.hpp"
#include "fields/parameter_rows.hpp"

namespace cook::rows {

namespace {

using enum Provenance;

void add_pork(std::vector<Parameter> &table) {
  const Meat pork = pork_shoulder();
  add_composition(table, "pork_shoulder.tissue.composition.", pork.tissue.composition,
                  "USDA Standard Reference, pork shoulder (butt), lean and fat, raw: from memory",
                  from_memory, {{{0.58, 0.74}, {0.15, 0.20}, {0.06, 0.25}, {0.007, 0.012}}});
  table.push_back({"pork_shoulder.width", *pork.shape.width / pork.shape.thickness, "-", 1.2, 2.5,
                   "width over thickness", common_practice});
  add(table, "pork_shoulder.", told_of(&Meat::start), pork.start, told_of(&Meat::start).sure);
}

} // namespace

void add_piece(std::vector<Parameter> &table) {
  const Meat whole = brisket();
  add_defaults(table, "shape.", Shape{});
  add_known(table, "brisket.", whole.shape,
            {{&Shape::thickness,
              {0.045, 0.13, common_practice,
               "at 6 kg; goes with the cube root of the mass, as for pieces of one shape"}}});
  add(table, "brisket.", told_of(&Meat::start), whole.start, told_of(&Meat::start).sure);
  add_defaults(table, "meat.", Meat{});
  add_defaults(table, "fat_cap.", FatCap{});
  add_pork(table);
  table.insert(table.end(), {
                                {"loss.rendered_share_cooked", rendered_share_cooked, "-", 0.05, 0.5,
                                 "USDA table of cooking yields, brisket flat half, 1/8\" trim, braised: "
                                 "-10.2 of 22.15 %; whole and point half come to "
                                 "0.05 from their composition rows",
                                 derived},
                                {"loss.rendering_start", rendering_start, "°C", 40.0, 60.0,
                                 "judgement: above the melting range of tallow", assumed},
                                {"loss.rendering_end", rendering_end, "°C", 80.0, 100.0,
                                 "judgement: the end of a braise", assumed},
                                {"loss.cap_fat_share", cap_fat_share, "kg/kg", 0.6, 0.85,
                                 "USDA Standard Reference 13019, separable fat, raw", published},
                            });
}

} // namespace cook::rows
