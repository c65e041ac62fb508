/// @file
/// One entry each, and nothing else names it. After a new one `python python/bindings/generate.py` writes the
/// schema anew.
#include "cooker/known_wraps.hpp"

namespace cook {

namespace {

using enum Provenance;

constexpr Sure bare{0.0, 0.0, derived, "nothing lies between"};
constexpr std::string_view wet_or_air = "0 where juice wets it, 0.07 for 2 mm of dry air";

KnownCovering nothing() { return {{0.0, bare}, {0.0, bare}}; }

/// Aluminium foil of 16 to 18 micrometres, round a tight parcel; on meat it gets greasy and dull.
KnownCovering foil() {
  return {{1e5,
           {1e4, 1e8, assumed,
            "judgement: folds and joints leak; the sheet itself 8e7 s/m (converter's transmission test)"}},
          {0.011, {0.0, 0.07, tuned, wet_or_air}},
          {{0.18,
            {0.04, 0.35, tuned,
             "aluminium foil 0.04 to 0.09 clean (Infrared Handbook, Wolfe & Zissis), more where greasy and "
             "smoked"}}},
          {{5.0, {1.0, 20.0, assumed, "judgement: a tight parcel keeps all of its juice"}}}};
}

/// Uncoated kraft paper of 0.12 mm; soaks up a little juice, the rest drips through.
KnownCovering paper() {
  return {
      {2300.0,
       {100.0, 3300.0, tuned,
        "no figure for butcher paper was found: between building kraft (conductance 1e-4 to 2.4e-4 m/s, a "
        "lower bound) and diffusion through the pores of an uncoated sheet (1.3e-3 m/s); range 3e-4 to 1e-2 "
        "m/s"}},
      {0.003, {0.001, 0.05, assumed, "sheet 1e-3 plus trapped air"}},
      {{0.93, {0.70, 0.95, published, "instrument makers' tables: white paper 0.93, range 0.70 to 0.95"}}},
      {{0.3, {0.05, 1.0, assumed, "judgement: soaks up a few times its own 60 to 70 g/m²"}}}};
}

/// Of metal, open above: no vapour below, and the juice stays; oxidised steel or aluminium outside.
KnownCovering pan() {
  return {{1e7, {1e6, 1e9, assumed, "judgement: sheet metal is tight"}},
          {0.005, {0.0, 0.05, assumed, "judgement: contact through juice and a little air"}},
          {{0.5,
            {0.07, 0.9, assumed, "judgement, between clean and oxidised metal (instrument makers' tables)"}}},
          {{20.0, {5.0, 50.0, assumed, "judgement: 20 mm of juice, the depth of a pan"}}}};
}

KnownCovering board() {
  return {{1e4, {1e3, 1e8, assumed, "judgement: plate or board below"}},
          {0.05, {0.01, 0.2, assumed, "judgement: a wooden board"}}};
}

/// Loose foil above, with air under it that exchanges with the room.
KnownCovering tent() {
  return {{2e3, {5e2, 1e5, assumed, "judgement: air under a loose sheet exchanges with the room"}},
          {0.10, {0.03, 0.3, assumed, "judgement: about 10 mm of air, partly moving"}},
          {{0.07,
            {0.04, 0.10, published,
             "Infrared Handbook (Wolfe & Zissis): aluminium foil 0.04 to 0.09, sheet as received 0.09"}}}};
}

/// Foil, then two folded towels and the air between them.
KnownCovering towels() {
  return {
      {1e5, {1e4, 1e8, assumed, "judgement: the foil inside"}},
      {0.24,
       {0.08, 0.5, tuned, "two folded cotton towels of 10 mm at 0.06 W/mK (handbook scale, from memory)"}},
      {{0.9, {0.7, 0.95, assumed, "judgement: as other textiles and paper"}}},
      {{5.0, {1.0, 20.0, assumed, "judgement: the foil inside keeps it"}}}};
}

} // namespace

const std::vector<KnownWrap> &known_wraps() {
  static const std::vector<KnownWrap> table{
      {"none", nothing(), nothing()},  {"butcher paper", paper(), paper()}, {"foil", foil(), foil()},
      {"pan", pan(), nothing(), true}, {"foil tent", board(), tent()},      {"towels", towels(), towels()},
  };
  return table;
}

Covering KnownCovering::covering() const {
  const auto value = [](const std::optional<SureNumber> &number) {
    return number ? std::optional(number->value) : std::nullopt;
  };
  return {.vapour_resistance = vapour_resistance.value,
          .heat_resistance = heat_resistance.value,
          .emissivity = value(emissivity),
          .juice_capacity = value(juice_capacity)};
}

} // namespace cook
