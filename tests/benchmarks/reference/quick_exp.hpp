/// @file
/// exp for every lane of a pack at once: no table and no branch, so that it becomes vector instructions.
///
/// exp(x) = 2^k exp(r) with r = x - k ln 2, |r| <= ln 2 / 2, and exp(r) by its Taylor polynomial of degree
/// 9, whose remainder is below (ln 2 / 2)^10 / 10! = 7e-12, 1e-11 of the smallest exp(r). ln 2 is subtracted
/// in two parts, the first short enough for k times it to be exact (the reduction of W. J. Cody and W. Waite,
/// Software Manual for the Elementary Functions, 1980).
#pragma once

#include <cmath>
#include <cstddef>
#include <cstdint>
#include <utility>

#include "benchmarks/reference/neighbours.hpp"
#include "engine/arithmetic/pack.hpp"

namespace cook::reference {

/// The largest relative error of quick_exp() of packs, for arguments between -700 and 700.
inline constexpr double quick_exp_error = 1e-11;

/// Additions and multiplications in it: the reduction, the polynomial of degree 9, and the scaling.
inline constexpr long quick_exp_operations = 7 + 2 * 9 + 1;

/// 1 / n!
template <std::size_t n> inline constexpr double inverse_factorial = inverse_factorial<n - 1> / n;
template <> inline constexpr double inverse_factorial<0> = 1.0;

inline double quick_exp(double x) { return std::exp(x); }

/// 1 + r + r²/2! + ..., by Horner's rule. The coefficients are spelt out one by one for the compiler: from a
/// loop, GCC 12 puts them into the lanes singly.
template <class Real, std::size_t... Power>
Real taylor_exp(const Real &r, std::index_sequence<Power...> /*powers*/) {
  constexpr std::size_t degree = sizeof...(Power) - 1;
  Real sum(0.0);
  ((sum = sum * r + Real(inverse_factorial<degree - Power>)), ...);
  return sum;
}

/// 2^k of the whole numbers k in the lowest bits of a vector of numbers.
template <class Vector> Vector power_of_two(const Vector &rounded) {
  typedef std::uint64_t Bits __attribute__((vector_size(sizeof(Vector))));
  constexpr std::uint64_t exponent_of_one = 1023;
  return reinterpret_cast<Vector>((reinterpret_cast<Bits>(rounded) + exponent_of_one) << 52);
}
inline engine::Pack power_of_two(const engine::Pack &rounded) {
  return {power_of_two(rounded.low), power_of_two(rounded.high)};
}
inline Neighbours power_of_two(const Neighbours &rounded) { return Neighbours(power_of_two(rounded.vector)); }

/// Of packs and neighbours. Arguments beyond +-700 are taken as +-700.
template <class Real> Real quick_exp(const Real &argument) {
  constexpr double per_ln2 = 1.44269504088896340736;
  constexpr double ln2_first = 0x1.62e42fep-1; // 28 bits of ln 2
  constexpr double ln2_rest = 0x1.f473de6af278fp-30;
  // Added to a small number, it leaves that number rounded to an integer in the lowest bits.
  constexpr double rounder = 0x1.8p52;
  const Real x = min(max(argument, Real(-700.0)), Real(700.0));
  const Real rounded = x * per_ln2 + rounder;
  const Real k = rounded - rounder;
  const Real r = (x - k * ln2_first) - k * ln2_rest;
  return taylor_exp(r, std::make_index_sequence<10>{}) * power_of_two(rounded);
}

} // namespace cook::reference
