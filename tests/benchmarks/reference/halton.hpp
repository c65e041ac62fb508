/// @file
/// The Halton sequence: points that fill a box evenly, the same ones on every machine.
/// Source: J. H. Halton, Numerische Mathematik 2 (1960) 84: the digits of a count, mirrored at the point.
#pragma once

#include <cstddef>

namespace cook::reference {

/// Element `count` (from 1) of the sequence in a prime base, between 0 and 1.
constexpr double halton(std::size_t count, std::size_t base) {
  double value = 0.0;
  double weight = 1.0;
  for (; count > 0; count /= base) {
    weight /= static_cast<double>(base);
    value += weight * static_cast<double>(count % base);
  }
  return value;
}

} // namespace cook::reference
