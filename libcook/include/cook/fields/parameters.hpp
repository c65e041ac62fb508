/// @file
/// The table of every default of the library: value, unit, range, where it comes from and how sure we are.
///
/// It only shows them. To change a default: its struct (cook/meat, cooker, plan, fit), of a cooker or a wrap
/// its entry in known_cookers.cpp or known_wraps.cpp; what is said of it: the *_fields.hpp beside the struct.
#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace cook {

/// How a default came about, from firm to soft.
enum class Provenance {
  published,       ///< stated in the source
  derived,         ///< arithmetic on published values
  from_memory,     ///< the source's value as remembered, not read again
  common_practice, ///< what the trade does; no source
  tuned,           ///< chosen so that published cooks come out, inside its range
  assumed          ///< a judgement
};
/// The kind in words, for instance "common practice, no source".
[[nodiscard]] std::string_view describe(Provenance kind);

/// One default.
struct Parameter {
  std::string name; ///< as in the structs, for instance "tissue.mobility.expressed"
  double value = 0.0;
  std::string unit; ///< SI and °C; "-" for a pure number
  double low = 0.0; ///< of the range that is physically reasonable or published
  double high = 0.0;
  std::string source; ///< in words
  Provenance kind = Provenance::assumed;
};

/// All defaults, in a fixed order. The values are read from default-constructed objects and from the named
/// cookers and wraps, so the table cannot disagree with what a simulation uses. Left out are the published
/// correlations (their coefficients stand with their functions), the solver's settings (Options) and the
/// shape of a lid opening.
[[nodiscard]] const std::vector<Parameter> &parameters();
/// One default by name. @throws InvalidInput when there is none, with the names that come closest.
[[nodiscard]] const Parameter &parameter(const std::string &name);

} // namespace cook
