/// @file
/// The enumerators as words, in JSON, Python and messages; in the order of the enumerators.
#pragma once

#include <array>
#include <cstddef>
#include <string_view>

#include "cook/plan/outcome.hpp"
#include "cook/plan/plan.hpp"

namespace cook {

constexpr auto words(ShapeKind /*of*/) { return std::array<std::string_view, 2>{"slab", "cylinder"}; }
constexpr auto words(Build /*of*/) { return std::array<std::string_view, 2>{"even", "flat and point"}; }
constexpr auto words(FatSide /*of*/) { return std::array<std::string_view, 3>{"none", "down", "up"}; }
constexpr auto words(Convection /*of*/) {
  return std::array<std::string_view, 3>{"given", "natural", "forced"};
}
constexpr auto words(EndKind /*of*/) {
  std::array<std::string_view, known_ends.size()> list{};
  for (std::size_t i = 0; i < list.size(); ++i) {
    list.at(i) = known_ends.at(i).word;
  }
  return list;
}
constexpr auto words(FacePath /*of*/) {
  return std::array<std::string_view, face_paths>{
      "convection", "radiation", "latent", "vapour_sensible", "evaporated", "run_off_sensible", "run_off"};
}
// The last word of each list is that of the last enumerator.
static_assert(words(ShapeKind{}).size() == static_cast<std::size_t>(ShapeKind::cylinder) + 1);
static_assert(words(Build{}).size() == static_cast<std::size_t>(Build::flat_and_point) + 1);
static_assert(words(FatSide{}).size() == static_cast<std::size_t>(FatSide::up) + 1);
static_assert(words(Convection{}).size() == static_cast<std::size_t>(Convection::forced) + 1);

} // namespace cook
