/// @file
/// The numbers that may be fitted, and their rows in the table of defaults.
#include <algorithm>

#include "cook/errors.hpp"
#include "cook/fit/free_parameter.hpp"
#include "fields/parameter_rows.hpp"
#include "fit/belief/belief.hpp"
#include "json/path.hpp"

namespace cook {

namespace {

const std::string of_cooks = "measured cooks, see validation/POPULATION.md";
const std::string of_range = "judgement: two standard deviations cover the range in the table of defaults";

std::vector<FreeKind> make_kinds() {
  using enum Scope;
  using enum Scale;
  return {
      {"thickness", "m", meat, logarithmic, fit::believed_spread("thickness"), 0.015, 0.25,
       "thickness of the lean part where the probe is", of_cooks + ": what pieces of one mass differ by"},
      {"film_coefficient", "W/(m²·K)", cooker, logarithmic, fit::believed_spread("film_coefficient"), 1.0,
       60.0,
       "heat transfer from the air of the cooker to the meat, mean of both faces of the first heated stage",
       of_cooks + ": draught and place"},
      {"vapour_pressure", "Pa", cooker, logarithmic, fit::believed_spread("vapour_pressure"), 800.0, 40000.0,
       "water vapour in the air of the cooker", of_cooks + ": cookers of one kind"},
      {"air_flow", "kg/s", cooker, logarithmic, 0.5, 5e-5, 0.1, "dry air through the cooker", of_range},
      {"pit_offset", "K", cooker, linear, fit::believed_spread("pit_offset"), -30.0, 30.0,
       "how much hotter the air at the meat is than the pit reading",
       of_cooks + ": a pit probe hangs some hand's breadth from the meat"},
      {"radiant_bottom", "K", cooker, linear, 10.0, -40.0, 150.0, "what the bottom sees, above the air",
       "judgement: coals behind a deflector or not"},
      {"wrap_resistance", "s/m", cooker, logarithmic, fit::believed_spread("wrap_resistance"), 101.0, 1.99e4,
       "resistance of a wrap that breathes to vapour", of_cooks + "; papers of several makes (judgement)"},
      {"sensor_offset", "K", cooker, linear, 1.0, -8.0, 8.0, "how much the meat thermometer reads too high",
       "common practice, no source: consumer thermometers are sold as good to 1 K"},
      {"start", "°C", meat, linear, 3.0, -1.0, 30.0, "temperature of the meat at the start",
       "judgement: refrigerators differ, and the meat stands out for a while"},
      {"probe_distance", "m", meat, logarithmic, 0.7, 0.0002, 0.05,
       "distance of the probe's tip from the middle of the thickness",
       "judgement: with the median, a tip that is placed by hand to about 5 mm"},
      {"expressed_mobility", "m²/s", meat, logarithmic, fit::believed_spread("expressed_mobility"), 2e-9,
       5e-7, "mobility of squeezed juice at 60 °C", of_cooks + "; the grain of single pieces (judgement)"},
      {"held_mobility", "m²/s", meat, logarithmic, fit::believed_spread("held_mobility"), 3e-11, 5e-9,
       "mobility of held water at 60 °C", of_cooks + "; the grain of single pieces (judgement)"},
      {"final_share", "-", meat, linear, fit::believed_spread("final_share"), 0.3, 0.8,
       "share of the raw water that cooked meat still holds", of_cooks + ": pieces of one cut"},
      {"emissivity", "-", meat, linear, fit::believed_spread("emissivity"), 0.5, 1.0,
       "of the meat's faces in the thermal infrared", of_cooks},
      {"fat_cap", "m", meat, logarithmic, 0.3, 0.0005, 0.03, "thickness of the fat cap",
       "judgement: trimmed by eye"},
  };
}

} // namespace

const std::vector<FreeKind> &free_kinds() {
  static const std::vector<FreeKind> kinds = make_kinds();
  return kinds;
}

const FreeKind &free_kind(const std::string &name, const std::string &field) {
  const auto &kinds = free_kinds();
  const auto found =
      std::find_if(kinds.begin(), kinds.end(), [&](const FreeKind &k) { return k.name == name; });
  if (found != kinds.end()) {
    return *found;
  }
  std::vector<std::string> names;
  names.reserve(kinds.size());
  for (const FreeKind &kind : kinds) {
    names.push_back(kind.name);
  }
  throw InvalidInput(field,
                     in_quotes(name) + " is no number that can be fitted; " + json::suggestion(name, names));
}

namespace rows {

void add_free(std::vector<Parameter> &table) {
  for (const FreeKind &kind : free_kinds()) {
    const bool practice = kind.source.starts_with("common practice");
    table.push_back({"free." + kind.name + ".spread", kind.spread,
                     kind.scale == Scale::logarithmic ? "-" : kind.unit, 0.2 * kind.spread, 3.0 * kind.spread,
                     kind.source, practice ? Provenance::common_practice : Provenance::assumed});
  }
}

} // namespace rows

} // namespace cook
