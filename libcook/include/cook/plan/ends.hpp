/// @file
/// What can end a stage: the kinds of end condition, one entry each. How a run sees that one is reached is in
/// src/engine/stages/watch.cpp (`excess`, `describe`; a quantity that nothing watches yet goes into
/// `Watched`). After a new one `python python/bindings/generate.py` writes the schema anew; a function of its
/// own in Python goes into ends.py.
#pragma once

#include <array>
#include <cstddef>
#include <string_view>

#include "cook/fields/field.hpp"
#include "cook/fields/kind.hpp"

namespace cook {

/// What can end a stage.
enum class EndKind {
  core,    ///< the core warms to `value` [°C]
  cooled,  ///< the core cools to `value` [°C]
  elapsed, ///< the stage has lasted `value` [s]
  clock,   ///< the time of day is `value` [s after midnight]; needs Plan::clock_start
  bark,    ///< bark of the bare face over the core: its index (Browning, kinetics.hpp) reaches `value` [-]
  tender   ///< collagen converted at the core reaches `value` [share, 0 to 1]
};

/// One end condition.
struct End {
  EndKind kind = EndKind::core;
  double value = 0.0;
  /// Looked at only every so often, from the start of the stage on ("probe it every half hour") [s]; 0:
  /// always.
  double every = 0.0;
};

/// What is told of a kind of end condition.
struct KnownEnd {
  /// What tells that it is there.
  enum class Sign {
    clock, ///< known beforehand
    core,  ///< a thermometer in the core, so a log too
    hidden ///< no thermometer
  };
  std::string_view word;  ///< in JSON, Python and messages
  Kind value;             ///< what End::value is
  Range accepted;         ///< of it; what hangs on the stage and its plan is in plan.cpp
  std::string_view words; ///< when it is reached, by a value
  std::string_view axis;  ///< what the value is called on an axis
  Sign sign = Sign::hidden;
  bool warming = true; ///< the meat decides when, as it cooks
  bool done = true;    ///< the meat may be done by it
};

/// All kinds, in the order of EndKind.
inline constexpr std::array known_ends{
    KnownEnd{"core", kind::temperature, range::any, "the core warms to this", "core temperature that ends it",
             KnownEnd::Sign::core},
    KnownEnd{"cooled", kind::temperature, range::celsius(-20.0, 150.0), "the core cools to this",
             "core temperature, cooling, that ends it", KnownEnd::Sign::core, false, false},
    KnownEnd{"elapsed", kind::duration, range::positive, "the stage has lasted this long",
             "how long it lasts", KnownEnd::Sign::clock, false, false},
    KnownEnd{"clock", kind::clock, range::any, "it is this time of day; needs the plan's clock_start",
             "time of day that ends it, after midnight", KnownEnd::Sign::clock, false, false},
    KnownEnd{"bark", kind::share, range::within(0.05, 20.0, "index of the bark; it is set at 1"),
             "index of the bark of the bare face; it is set at 1", "index of the bark that ends it",
             KnownEnd::Sign::hidden, true, false},
    KnownEnd{"tender", kind::share,
             range::within(0.001, 0.999, "share of the collagen; percent are written as 0.8"),
             "collagen converted at the core reaches this share",
             "share of collagen converted at the core that ends it"},
};
// The last entry is that of the last enumerator.
static_assert(known_ends.size() == static_cast<std::size_t>(EndKind::tender) + 1);

/// The entry of a kind.
[[nodiscard]] constexpr const KnownEnd &known(EndKind kind) {
  return known_ends.at(static_cast<std::size_t>(kind));
}

} // namespace cook
