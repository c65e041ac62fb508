/// @file
/// Several cooks side by side as one scalar: what scalar.hpp asks for, a lane for each cook.
///
/// Lanes are two of the compilers' vectors of four: the same code becomes four or two lanes an instruction,
/// as the function it is inlined into allows (vector_clones.hpp). One vector of eight is no faster where the
/// processor has such, and four times slower where it has not: GCC 12 then compares and chooses lane by lane.
/// A lane computes what a double would, but for fused multiply-adds, where the processor has them.
#pragma once

#include <cmath>
#include <cstddef>
#include <cstdint>
#include <initializer_list>

namespace cook::engine {

inline constexpr std::size_t half_lanes = 4;
/// Cooks in a pack: as many as keep the processor busy while results are on their way.
inline constexpr std::size_t pack_lanes = 2 * half_lanes;

/// A truth value for each lane. Aligned by hand: without, the alignment would be that of the vectors of the
/// baseline processor, which is less than the wider versions count on.
struct alignas(8 * pack_lanes) PackMask {
  using Half = std::int64_t __attribute__((vector_size(8 * half_lanes))); ///< all ones or all zeros
  Half low, high;

  [[nodiscard]] bool operator[](std::size_t lane) const {
    return (lane < half_lanes ? low[lane] : high[lane - half_lanes]) != 0;
  }
  void set(std::size_t lane, bool value) {
    if (lane < half_lanes) {
      low[lane] = value ? -1 : 0;
    } else {
      high[lane - half_lanes] = value ? -1 : 0;
    }
  }

  friend PackMask operator&&(const PackMask &a, const PackMask &b) {
    return {a.low & b.low, a.high & b.high};
  }
  friend PackMask operator||(const PackMask &a, const PackMask &b) {
    return {a.low | b.low, a.high | b.high};
  }
  friend PackMask operator!(const PackMask &a) { return {~a.low, ~a.high}; }
  friend bool any(const PackMask &m) {
    const Half four = m.low | m.high;
    const Quarter two = first(four) | last(four);
    return (two[0] | two[1]) != 0;
  }
  friend bool all(const PackMask &m) {
    const Half four = m.low & m.high;
    const Quarter two = first(four) & last(four);
    return (two[0] & two[1]) != 0;
  }

private:
  using Quarter = std::int64_t __attribute__((vector_size(4 * half_lanes)));
  static Quarter first(const Half &h) { return __builtin_shufflevector(h, h, 0, 1); }
  static Quarter last(const Half &h) { return __builtin_shufflevector(h, h, 2, 3); }
};

struct alignas(8 * pack_lanes) Pack {
  static constexpr std::size_t lanes = pack_lanes;
  using Half = double __attribute__((vector_size(8 * half_lanes)));
  using Mask = PackMask;
  Half low, high; ///< like a double: not set unless it is

  Pack() = default;
  Pack(double all) : low(all - Half{}), high(low) {} // NOLINT: a number is that many equal numbers
  Pack(const Half &first, const Half &last) : low(first), high(last) {}

  [[nodiscard]] double operator[](std::size_t i) const {
    return i < half_lanes ? low[i] : high[i - half_lanes];
  }
  void set(std::size_t i, double value) {
    if (i < half_lanes) {
      low[i] = value;
    } else {
      high[i - half_lanes] = value;
    }
  }

  friend Pack operator+(const Pack &a, const Pack &b) { return {a.low + b.low, a.high + b.high}; }
  friend Pack operator-(const Pack &a, const Pack &b) { return {a.low - b.low, a.high - b.high}; }
  friend Pack operator*(const Pack &a, const Pack &b) { return {a.low * b.low, a.high * b.high}; }
  friend Pack operator/(const Pack &a, const Pack &b) { return {a.low / b.low, a.high / b.high}; }
  friend Pack operator-(const Pack &a) { return {-a.low, -a.high}; }
  Pack &operator+=(const Pack &b) { return *this = *this + b; }
  Pack &operator-=(const Pack &b) { return *this = *this - b; }
  Pack &operator*=(const Pack &b) { return *this = *this * b; }
  friend Mask operator<(const Pack &a, const Pack &b) { return {a.low < b.low, a.high < b.high}; }
  friend Mask operator>(const Pack &a, const Pack &b) { return {a.low > b.low, a.high > b.high}; }
  friend Mask operator<=(const Pack &a, const Pack &b) { return {a.low <= b.low, a.high <= b.high}; }
  friend Mask operator>=(const Pack &a, const Pack &b) { return {a.low >= b.low, a.high >= b.high}; }
  friend Mask operator==(const Pack &a, const Pack &b) { return {a.low == b.low, a.high == b.high}; }
  friend Mask operator!=(const Pack &a, const Pack &b) { return {a.low != b.low, a.high != b.high}; }
  friend Pack select(const Mask &m, const Pack &a, const Pack &b) {
    return {m.low ? a.low : b.low, m.high ? a.high : b.high};
  }
  friend Pack min(const Pack &a, const Pack &b) {
    return {a.low < b.low ? a.low : b.low, a.high < b.high ? a.high : b.high};
  }
  friend Pack max(const Pack &a, const Pack &b) {
    return {a.low > b.low ? a.low : b.low, a.high > b.high ? a.high : b.high};
  }
  friend Mask is_finite(const Pack &a) { return a - a == Pack(0.0); }
  friend Pack abs(const Pack &a) { return max(a, -a); }
  friend Pack sqrt(const Pack &a) {
    return each(a, [](double x) { return std::sqrt(x); });
  }
  friend Pack log(const Pack &a) { return {log_of(a.low), log_of(a.high)}; }
  friend Pack exp(const Pack &a) {
    return each(a, [](double x) { return std::exp(x); });
  }
  friend Pack sin(const Pack &a) {
    return each(a, [](double x) { return std::sin(x); });
  }

private:
  /// Of positive normal numbers, within 1e-15 of the value or of one, whichever is larger: x = 2^e m with m
  /// around 1, ln m = 2 artanh((m - 1) / (m + 1)) by its series. Not a number for those that are not finite.
  static Half log_of(const Half &a) {
    using Bits = PackMask::Half;
    constexpr std::int64_t half = 0x3fe6a09e667f3bcd; // sqrt(1/2)
    Bits bits;
    __builtin_memcpy(&bits, &a, sizeof bits);
    const Bits above = (bits - half) >> 52; // e, with m from sqrt(1/2) to sqrt(2)
    const Bits mantissa = bits - (above << 52);
    Half m;
    __builtin_memcpy(&m, &mantissa, sizeof m);
    const Half s = (m - 1.0) / (m + 1.0);
    const Half q = s * s;
    Half series = q * (1.0 / 21.0) + 1.0 / 19.0;
    for (const double odd : {17.0, 15.0, 13.0, 11.0, 9.0, 7.0, 5.0, 3.0}) {
      series = series * q + 1.0 / odd;
    }
    constexpr double ln2_high = 0x1.62e42fefa3800p-1; // ends in zeros: exact times e
    constexpr double ln2_low = 0x1.ef35793c76730p-45;
    const Half e = __builtin_convertvector(above, Half);
    const Half by_m = 2.0 * s + 2.0 * s * (q * series);
    return e * ln2_high + (by_m + e * ln2_low) + (a - a);
  }
  template <class F> static Pack each(const Pack &a, F f) {
    Pack out;
    for (std::size_t i = 0; i < half_lanes; ++i) {
      out.low[i] = f(a.low[i]);
      out.high[i] = f(a.high[i]);
    }
    return out;
  }
};

} // namespace cook::engine
