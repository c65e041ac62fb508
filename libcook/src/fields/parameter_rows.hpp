/// @file
/// The parts that the parameter table is put together from.
#pragma once

#include <array>
#include <initializer_list>
#include <string>
#include <string_view>
#include <type_traits>
#include <vector>

#include "cook/fields/field.hpp"
#include "cook/fields/parameters.hpp"

namespace cook {
struct Composition;
} // namespace cook

namespace cook::rows {

/// Closes the source of a number that was estimated together with others from measured cooks.
inline const std::string tuning = "; value: from the joint tuning on measured cooks, cooling, rests and "
                                  "losses (validation/population.py)";

/// Adds the row of a field.
/// @param at the name up to the field: "tissue.holding."  @param tuned what closes the source of a tuned
/// number
void add(std::vector<Parameter> &table, const std::string &at, const Told &told, double value,
         const Sure &sure, const std::string &tuned = tuning);

/// Adds the rows of those members of a struct whose list says how sure their default is.
template <class S>
void add_defaults(std::vector<Parameter> &table, const std::string &at, const S &s,
                  const std::string &tuned = tuning) {
  for_each_field<S>([&]<class T>(const Field<S, T> &one) {
    if constexpr (std::is_same_v<T, double>) {
      add(table, at, one, s.*(one.member), one.sure, tuned);
    } else if constexpr (requires { (s.*(one.member)).without_ripple(0.0); }) {
      add(table, at, one, (s.*(one.member)).without_ripple(0.0), one.sure, tuned);
    }
  });
}

/// What is known of one member of a struct that is not a default: a cut, a wrap, a fuel.
template <class S> struct Known {
  double S::*member;
  Sure sure;
};

/// Adds rows of members of a struct; name, value and unit are the list's and the struct's.
template <class S>
void add_known(std::vector<Parameter> &table, const std::string &at, const S &s,
               std::initializer_list<Known<S>> known) {
  for (const Known<S> &one : known) {
    add(table, at, told_of(one.member), s.*(one.member), one.sure);
  }
}

/// Low and high of a tissue's composition, in the order water, protein, fat, ash.
using CompositionRanges = std::array<std::array<double, 2>, 4>;
/// Adds the rows of a tissue's composition.
void add_composition(std::vector<Parameter> &table, const std::string &at, const Composition &c,
                     std::string_view source, Provenance kind, const CompositionRanges &r);

void add_tissue(std::vector<Parameter> &table);       ///< tissue and its sub-structs
void add_piece(std::vector<Parameter> &table);        ///< shapes, fat cap, other meats, rendered fat
void add_section(std::vector<Parameter> &table);      ///< cross-section: seam, default shape and tissues
void add_surroundings(std::vector<Parameter> &table); ///< cookers, counter, box, spritz, lid
void add_wraps(std::vector<Parameter> &table);        ///< coverings
void add_engine(std::vector<Parameter> &table);   ///< constants inside the engine: film, boiling, memory, lid
void add_kinetics(std::vector<Parameter> &table); ///< rates read off the temperature history
void add_readings(std::vector<Parameter> &table); ///< limits of safety rules, what counts as a stall
void add_fuels(std::vector<Parameter> &table);    ///< what fuels are made of
void add_pit_air(std::vector<Parameter> &table);  ///< chambers, their air, the water pan
void add_free(std::vector<Parameter> &table);     ///< what is believed of a number before a fit
void add_fit(std::vector<Parameter> &table);      ///< model error, pit outlook, limits of words

} // namespace cook::rows
