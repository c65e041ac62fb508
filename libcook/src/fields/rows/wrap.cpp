/// @file
/// Table rows of the wraps: ranges and sources by wrap and side, values from wrap().
#include <optional>

#include "cook/cooker/wrap.hpp"
#include "fields/parameter_rows.hpp"

namespace cook::rows {

namespace {

using enum Provenance;

/// What is known about one number of a covering.
struct Known {
  double low = 0.0;
  double high = 0.0;
  const char *source = "";
  Provenance kind = assumed; ///< of a tuned one, how it was tuned is added to the source
};

/// What is known about one covering; the last two only matter where the covering sets them.
struct KnownCovering {
  Known vapour;
  Known heat;
  Known emissivity;
  Known juice;
};

constexpr const char *bare = "nothing lies between";
constexpr const char *handbook_foil =
    "Infrared Handbook (Wolfe & Zissis): aluminium foil 0.04 to 0.09, sheet as received 0.09";
constexpr const char *gap = "0 where juice wets it, 0.07 for 2 mm of dry air";

constexpr Known bare_number{0.0, 0.0, bare, derived};

constexpr KnownCovering no_covering{bare_number, bare_number, {}, {}};
constexpr KnownCovering foil{
    {1e4, 1e8, "judgement: folds and joints leak; the sheet itself 8e7 s/m (converter's transmission test)",
     assumed},
    {0.0, 0.07, gap, tuned},
    {0.04, 0.35,
     "aluminium foil 0.04 to 0.09 clean (Infrared Handbook, Wolfe & Zissis), more where greasy and smoked",
     tuned},
    {1.0, 20.0, "judgement: a tight parcel keeps all of its juice", assumed}};
constexpr KnownCovering paper{
    {100.0, 3300.0,
     "no figure for butcher paper was found: between building kraft (conductance 1e-4 to 2.4e-4 m/s, a lower "
     "bound) and diffusion through the pores of an uncoated sheet (1.3e-3 m/s); range 3e-4 to 1e-2 m/s",
     tuned},
    {0.001, 0.05, "sheet 1e-3 plus trapped air", assumed},
    {0.70, 0.95, "instrument makers' tables: white paper 0.93, range 0.70 to 0.95", published},
    {0.05, 1.0, "judgement: soaks up a few times its own 60 to 70 g/m²", assumed}};
constexpr KnownCovering pan{
    {1e6, 1e9, "judgement: sheet metal is tight", assumed},
    {0.0, 0.05, "judgement: contact through juice and a little air", assumed},
    {0.07, 0.9, "judgement, between clean and oxidised metal (instrument makers' tables)", assumed},
    {5.0, 50.0, "judgement: 20 mm of juice, the depth of a pan", assumed}};
constexpr KnownCovering tent_bottom{{1e3, 1e8, "judgement: plate or board below", assumed},
                                    {0.01, 0.2, "judgement: a wooden board", assumed},
                                    {},
                                    {}};
constexpr KnownCovering tent_top{
    {5e2, 1e5, "judgement: air under a loose sheet exchanges with the room", assumed},
    {0.03, 0.3, "judgement: about 10 mm of air, partly moving", assumed},
    {0.04, 0.10, handbook_foil, published},
    {}};
constexpr KnownCovering towels{
    {1e4, 1e8, "judgement: the foil inside", assumed},
    {0.08, 0.5, "two folded cotton towels of 10 mm at 0.06 W/mK (handbook scale, from memory)", tuned},
    {0.7, 0.95, "judgement: as other textiles and paper", assumed},
    {1.0, 20.0, "judgement: the foil inside keeps it", assumed}};

void add_number(std::vector<Parameter> &table, const std::string &name, double value, const char *unit,
                const Known &known) {
  const std::string source = known.kind == tuned ? known.source + tuning : std::string(known.source);
  table.push_back({name, value, unit, known.low, known.high, source, known.kind});
}

void add_covering(std::vector<Parameter> &table, const std::string &at, const Covering &covering,
                  const KnownCovering &known) {
  add_number(table, at + ".vapour_resistance", covering.vapour_resistance, "s/m", known.vapour);
  add_number(table, at + ".heat_resistance", covering.heat_resistance, "m²K/W", known.heat);
  if (covering.emissivity) {
    add_number(table, at + ".emissivity", *covering.emissivity, "-", known.emissivity);
  }
  if (covering.juice_capacity) {
    add_number(table, at + ".juice_capacity", *covering.juice_capacity, "kg/m²", known.juice);
  }
}

} // namespace

void add_wraps(std::vector<Parameter> &table) {
  const auto add = [&](const std::string &name, const KnownCovering &bottom, const KnownCovering &top) {
    const Wrap named = wrap(name);
    add_covering(table, "wrap." + name + ".bottom", named.bottom, bottom);
    add_covering(table, "wrap." + name + ".top", named.top, top);
  };
  add("none", no_covering, no_covering);
  add("butcher paper", paper, paper);
  add("foil", foil, foil);
  add("pan", pan, no_covering);
  add("foil tent", tent_bottom, tent_top);
  add("towels", towels, towels);
}

} // namespace cook::rows
