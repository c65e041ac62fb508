/// @file
/// exp for every lane of a pack at once: no table and no branch, so that it becomes vector instructions.
///
/// exp(x) = 2^k exp(r) with r = x - k ln 2, |r| <= ln 2 / 2, and exp(r) by its Taylor polynomial of degree
/// 11, whose remainder is below (ln 2 / 2)^12 / 12! = 7e-15. ln 2 is subtracted in two parts, the first short
/// enough for k times it to be exact (the reduction of W. J. Cody and W. Waite, Software Manual for the
/// Elementary Functions, 1980).
#pragma once

#include <bit>
#include <cmath>
#include <cstddef>
#include <cstdint>

#include "engine/pack.hpp"

namespace cook::reference {

/// The largest relative error of quick_exp(Pack), for arguments between -700 and 700.
inline constexpr double quick_exp_error = 1e-14;

inline double quick_exp(double x) { return std::exp(x); }

/// Arguments beyond +-700 are taken as +-700.
inline engine::Pack quick_exp(const engine::Pack &argument) {
  using engine::Pack;
  using Bits = std::uint64_t __attribute__((vector_size(8 * engine::pack_lanes)));
  constexpr double per_ln2 = 1.44269504088896340736;
  constexpr double ln2_first = 0x1.62e42fep-1; // 28 bits of ln 2
  constexpr double ln2_rest = 0x1.f473de6af278fp-30;
  // Added to a small number, it leaves that number rounded to an integer in the lowest bits.
  constexpr double rounder = 0x1.8p52;
  const Pack x = min(max(argument, Pack(-700.0)), Pack(700.0));
  const Pack rounded = x * per_ln2 + rounder;
  const Pack k = rounded - rounder;
  const Pack r = (x - k * ln2_first) - k * ln2_rest;
  constexpr double f11 = 39916800.0; // 11!
  Pack sum = 1.0 / f11;
  double coefficient = 1.0 / f11;
#pragma GCC unroll 11
  for (int degree = 11; degree > 0; --degree) {
    coefficient *= degree;
    sum = sum * r + coefficient;
  }
  constexpr std::uint64_t exponent_of_one = 1023;
  const Bits scale = ((reinterpret_cast<Bits>(rounded.lane) + exponent_of_one) << 52);
  return sum * Pack(reinterpret_cast<Pack::Lanes>(scale));
}

} // namespace cook::reference
