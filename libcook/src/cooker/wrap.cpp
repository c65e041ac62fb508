#include "cook/cooker/wrap.hpp"

#include "cook/cooker/cooker_fields.hpp"
#include "cook/errors.hpp"
#include "fields/check.hpp"

namespace cook {

namespace {

/// Aluminium foil 16-18 micrometres: joints leak: 1e5 s/m, assumed. Clean it has an emissivity of 0.04-0.09
/// (Infrared Handbook, Wolfe & Zissis); on meat it gets greasy and dull. Heat: a trapped layer of a third of
/// a millimetre of air and steam. Emissivity and layer are from the joint tuning
/// (validation/population.py).
Covering foil() {
  return {.vapour_resistance = 1e5, .heat_resistance = 0.011, .emissivity = 0.18, .juice_capacity = 5.0};
}

/// Uncoated kraft ("butcher") paper 0.12 mm. Vapour: no published figure for butcher paper was found; 2300
/// s/m is from the joint tuning (validation/population.py), between building kraft (1e-4 to 2.4e-4
/// m/s, a lower bound) and diffusion through the pores of an uncoated sheet (1.3e-3 m/s). Heat: the sheet
/// (1.2e-3 m²K/W) and imperfect contact. Emissivity of white paper 0.93. Soaks up a little juice, the rest
/// drips through.
Covering paper() {
  return {.vapour_resistance = 2300.0, .heat_resistance = 0.003, .emissivity = 0.93, .juice_capacity = 0.3};
}

} // namespace

void Wrap::validate(const std::string &field) const { check::members(field + ".", *this); }

const std::vector<std::string> &wrap_names() {
  static const std::vector<std::string> names{"none", "butcher paper", "foil", "pan", "foil tent", "towels"};
  return names;
}

Wrap wrap(const std::string &name) {
  if (name == "none") {
    return {};
  }
  if (name == "butcher paper") {
    return {.name = name, .bottom = paper(), .top = paper()};
  }
  if (name == "foil") {
    return {.name = name, .bottom = foil(), .top = foil()};
  }
  if (name == "pan") {
    // Metal pan, open above: no vapour below, juice stays; oxidised steel or aluminium outside.
    const Covering metal{
        .vapour_resistance = 1e7, .heat_resistance = 0.005, .emissivity = 0.5, .juice_capacity = 20.0};
    return {.name = name, .bottom = metal, .top = {}, .ends = metal};
  }
  if (name == "foil tent") {
    // Loose foil above, ~10 mm of air under it that exchanges with the room; plate or board below.
    return {.name = name,
            .bottom = {.vapour_resistance = 1e4, .heat_resistance = 0.05},
            .top = {.vapour_resistance = 2e3, .heat_resistance = 0.10, .emissivity = 0.07}};
  }
  if (name == "towels") {
    // Foil, then two folded cotton towels of 10 mm at 0.06 W/mK (handbook scale for cotton batting, from
    // memory) and the air between them; from the joint tuning (validation/population.py).
    const Covering layer{
        .vapour_resistance = 1e5, .heat_resistance = 0.24, .emissivity = 0.9, .juice_capacity = 5.0};
    return {.name = name, .bottom = layer, .top = layer};
  }
  std::string known;
  std::string meant;
  for (const std::string &candidate : wrap_names()) {
    known += (known.empty() ? "" : ", ") + candidate;
    if (meant.empty() && name.size() > 2 && candidate.find(name) != std::string::npos) {
      meant = "; did you mean '" + candidate + "'?";
    }
  }
  throw InvalidInput("wrap", in_quotes(name) + " is not a known wrap; known: " + known + meant);
}

} // namespace cook
