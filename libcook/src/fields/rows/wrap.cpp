/// @file
/// Table rows of the wraps: ranges and sources by wrap and side, values from wrap().
#include "cook/cooker/cooker_fields.hpp"
#include "fields/parameter_rows.hpp"

namespace cook::rows {

namespace {

using enum Provenance;

/// What is known about one covering; the last two only matter where the covering sets them.
struct KnownCovering {
  Sure vapour;
  Sure heat;
  Sure emissivity;
  Sure juice;
};

constexpr std::string_view bare = "nothing lies between";
constexpr std::string_view handbook_foil =
    "Infrared Handbook (Wolfe & Zissis): aluminium foil 0.04 to 0.09, sheet as received 0.09";
constexpr std::string_view gap = "0 where juice wets it, 0.07 for 2 mm of dry air";

constexpr Sure bare_number{0.0, 0.0, derived, bare};

constexpr KnownCovering no_covering{bare_number, bare_number, {}, {}};
constexpr KnownCovering foil{
    {1e4, 1e8, assumed,
     "judgement: folds and joints leak; the sheet itself 8e7 s/m (converter's transmission test)"},
    {0.0, 0.07, tuned, gap},
    {0.04, 0.35, tuned,
     "aluminium foil 0.04 to 0.09 clean (Infrared Handbook, Wolfe & Zissis), more where greasy and smoked"},
    {1.0, 20.0, assumed, "judgement: a tight parcel keeps all of its juice"}};
constexpr KnownCovering paper{
    {100.0, 3300.0, tuned,
     "no figure for butcher paper was found: between building kraft (conductance 1e-4 to 2.4e-4 m/s, a lower "
     "bound) and diffusion through the pores of an uncoated sheet (1.3e-3 m/s); range 3e-4 to 1e-2 m/s"},
    {0.001, 0.05, assumed, "sheet 1e-3 plus trapped air"},
    {0.70, 0.95, published, "instrument makers' tables: white paper 0.93, range 0.70 to 0.95"},
    {0.05, 1.0, assumed, "judgement: soaks up a few times its own 60 to 70 g/m²"}};
constexpr KnownCovering pan{
    {1e6, 1e9, assumed, "judgement: sheet metal is tight"},
    {0.0, 0.05, assumed, "judgement: contact through juice and a little air"},
    {0.07, 0.9, assumed, "judgement, between clean and oxidised metal (instrument makers' tables)"},
    {5.0, 50.0, assumed, "judgement: 20 mm of juice, the depth of a pan"}};
constexpr KnownCovering tent_bottom{{1e3, 1e8, assumed, "judgement: plate or board below"},
                                    {0.01, 0.2, assumed, "judgement: a wooden board"},
                                    {},
                                    {}};
constexpr KnownCovering tent_top{
    {5e2, 1e5, assumed, "judgement: air under a loose sheet exchanges with the room"},
    {0.03, 0.3, assumed, "judgement: about 10 mm of air, partly moving"},
    {0.04, 0.10, published, handbook_foil},
    {}};
constexpr KnownCovering towels{
    {1e4, 1e8, assumed, "judgement: the foil inside"},
    {0.08, 0.5, tuned, "two folded cotton towels of 10 mm at 0.06 W/mK (handbook scale, from memory)"},
    {0.7, 0.95, assumed, "judgement: as other textiles and paper"},
    {1.0, 20.0, assumed, "judgement: the foil inside keeps it"}};

void add_covering(std::vector<Parameter> &table, const std::string &at, const Covering &covering,
                  const KnownCovering &known) {
  add_known(table, at, covering,
            {{&Covering::vapour_resistance, known.vapour}, {&Covering::heat_resistance, known.heat}});
  if (covering.emissivity) {
    add(table, at, told_of(&Covering::emissivity), *covering.emissivity, known.emissivity);
  }
  if (covering.juice_capacity) {
    add(table, at, told_of(&Covering::juice_capacity), *covering.juice_capacity, known.juice);
  }
}

} // namespace

void add_wraps(std::vector<Parameter> &table) {
  const auto add = [&](const std::string &name, const KnownCovering &bottom, const KnownCovering &top) {
    const Wrap named = wrap(name);
    add_covering(table, "wrap." + name + ".bottom.", named.bottom, bottom);
    add_covering(table, "wrap." + name + ".top.", named.top, top);
  };
  add("none", no_covering, no_covering);
  add("butcher paper", paper, paper);
  add("foil", foil, foil);
  add("pan", pan, no_covering);
  add("foil tent", tent_bottom, tent_top);
  add("towels", towels, towels);
}

} // namespace cook::rows
