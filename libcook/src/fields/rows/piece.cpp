/// @file
/// Table rows of the pieces: size, fat cap, other meats, rendered fat.
#include "cook/meat/shape.hpp"
#include "cook/readings/readings.hpp"
#include "fields/parameter_rows.hpp"

namespace cook::rows {

namespace {

using enum Provenance;

void add_pork(std::vector<Parameter> &table) {
  const Meat pork = pork_shoulder();
  const Composition &c = pork.tissue.composition;
  const std::string usda = "USDA Standard Reference, pork shoulder (butt), lean and fat, raw: from memory";
  const std::string at = "pork_shoulder.tissue.composition.";
  table.insert(table.end(), {
                                {at + "water", c.water, "kg/kg", 0.58, 0.74, usda, from_memory},
                                {at + "protein", c.protein, "kg/kg", 0.15, 0.20, usda, from_memory},
                                {at + "fat", c.fat, "kg/kg", 0.06, 0.25, usda, from_memory},
                                {at + "carbohydrate", c.carbohydrate, "kg/kg", 0.0, 0.01, usda, from_memory},
                                {at + "ash", c.ash, "kg/kg", 0.007, 0.012, usda, from_memory},
                                {"pork_shoulder.width", *pork.shape.width / pork.shape.thickness, "-", 1.2,
                                 2.5, "width over thickness", common_practice},
                                {"pork_shoulder.start", pork.start, "°C", 0.0, 25.0,
                                 "out of the refrigerator", common_practice},
                            });
}

} // namespace

void add_piece(std::vector<Parameter> &table) {
  const Shape shape;
  const FatCap cap;
  const Meat whole = brisket();
  table.insert(
      table.end(),
      {
          {"shape.thickness", shape.thickness, "m", 0.045, 0.13,
           "whole trimmed brisket, mean over flat (about 50 mm) and point (up to 130 mm); measure yours",
           common_practice},
          {"shape.extent", shape.extent, "m²", 0.03, 0.16,
           "whole brisket: 0.30 to 0.51 m long, up to 0.30 m wide", common_practice},
          {"brisket.thickness", whole.shape.thickness, "m", 0.045, 0.13,
           "at 6 kg; goes with the cube root of the mass, as for pieces of one shape", common_practice},
          {"brisket.start", whole.start, "°C", 0.0, 25.0, "out of the refrigerator", common_practice},
          {"meat.start", Meat{}.start, "°C", 0.0, 25.0, "out of the refrigerator", common_practice},
          {"fat_cap.thickness", cap.thickness, "m", 0.0, 0.013, "trimmed to about 1/4 inch", common_practice},
          {"fat_cap.vapour_resistivity", cap.vapour_resistivity, "s/m²", 1e4, 1e5,
           "fat-covered meat evaporates down to half as much as lean (Lovett, Int. J. Refrigeration 1 (1978) "
           "225, abstract)",
           derived},
      });
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
