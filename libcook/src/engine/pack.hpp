/// @file
/// Several cooks side by side as one scalar: what scalar.hpp asks for, a lane for each cook.
///
/// Lanes are the compilers' vector type: the same code becomes two, four or eight lanes an instruction, as
/// the function it is inlined into allows (vector_clones.hpp). A lane computes what a double would, but for
/// fused multiply-adds, where the processor has them.
#pragma once

#include <cmath>
#include <cstddef>
#include <cstdint>

namespace cook::engine {

/// Cooks in a pack: one instruction's worth for the widest vectors, two or four for narrower ones.
inline constexpr std::size_t pack_lanes = 8;

/// A truth value for each lane. Aligned by hand: without, the alignment would be that of the vectors of the
/// baseline processor, which is less than the wider versions count on.
struct alignas(8 * pack_lanes) PackMask {
  typedef std::int64_t Bits __attribute__((vector_size(8 * pack_lanes))); ///< all ones or all zeros
  Bits bits;

  [[nodiscard]] bool operator[](std::size_t lane) const { return bits[lane] != 0; }
  void set(std::size_t lane, bool value) { bits[lane] = value ? -1 : 0; }

  friend PackMask operator&&(const PackMask &a, const PackMask &b) { return {a.bits & b.bits}; }
  friend PackMask operator||(const PackMask &a, const PackMask &b) { return {a.bits | b.bits}; }
  friend PackMask operator!(const PackMask &a) { return {~a.bits}; }
  friend bool any(const PackMask &m) { return bytes(m) != 0; }
  friend bool all(const PackMask &m) { return bytes(m) == -1; }

private:
  /// A byte of a whole number for each lane.
  static std::int64_t bytes(const PackMask &m) {
    typedef signed char Bytes __attribute__((vector_size(pack_lanes)));
    static_assert(sizeof(Bytes) == sizeof(std::int64_t));
    const Bytes narrow = __builtin_convertvector(m.bits, Bytes);
    std::int64_t number;
    __builtin_memcpy(&number, &narrow, sizeof number);
    return number;
  }
};

struct alignas(8 * pack_lanes) Pack {
  static constexpr std::size_t lanes = pack_lanes;
  typedef double Lanes __attribute__((vector_size(8 * pack_lanes)));
  using Mask = PackMask;
  Lanes lane; ///< like a double: not set unless it is

  Pack() = default;
  Pack(double all) : lane(all - Lanes{}) {} // NOLINT: a number is that many equal numbers
  explicit Pack(const Lanes &from) : lane(from) {}

  [[nodiscard]] double operator[](std::size_t i) const { return lane[i]; }
  void set(std::size_t i, double value) { lane[i] = value; }

  friend Pack operator+(const Pack &a, const Pack &b) { return Pack(a.lane + b.lane); }
  friend Pack operator-(const Pack &a, const Pack &b) { return Pack(a.lane - b.lane); }
  friend Pack operator*(const Pack &a, const Pack &b) { return Pack(a.lane * b.lane); }
  friend Pack operator/(const Pack &a, const Pack &b) { return Pack(a.lane / b.lane); }
  friend Pack operator-(const Pack &a) { return Pack(-a.lane); }
  Pack &operator+=(const Pack &b) { return *this = *this + b; }
  Pack &operator-=(const Pack &b) { return *this = *this - b; }
  Pack &operator*=(const Pack &b) { return *this = *this * b; }
  friend Mask operator<(const Pack &a, const Pack &b) { return {a.lane < b.lane}; }
  friend Mask operator>(const Pack &a, const Pack &b) { return {a.lane > b.lane}; }
  friend Mask operator<=(const Pack &a, const Pack &b) { return {a.lane <= b.lane}; }
  friend Mask operator>=(const Pack &a, const Pack &b) { return {a.lane >= b.lane}; }
  friend Mask operator==(const Pack &a, const Pack &b) { return {a.lane == b.lane}; }
  friend Mask operator!=(const Pack &a, const Pack &b) { return {a.lane != b.lane}; }
  friend Pack select(const Mask &m, const Pack &a, const Pack &b) { return Pack(m.bits ? a.lane : b.lane); }
  friend Pack min(const Pack &a, const Pack &b) { return Pack(a.lane < b.lane ? a.lane : b.lane); }
  friend Pack max(const Pack &a, const Pack &b) { return Pack(a.lane > b.lane ? a.lane : b.lane); }
  friend Mask is_finite(const Pack &a) { return a - a == Pack(0.0); }
  friend Pack abs(const Pack &a) { return max(a, -a); }
  friend Pack sqrt(const Pack &a) {
    return each(a, [](double x) { return std::sqrt(x); });
  }
  /// Of positive normal numbers, within 1e-15 of the value or of one, whichever is larger: x = 2^e m with m
  /// around 1, ln m = 2 artanh((m - 1) / (m + 1)) by its series. Not a number for those that are not finite.
  friend Pack log(const Pack &a) {
    typedef std::int64_t Bits __attribute__((vector_size(8 * pack_lanes)));
    constexpr std::int64_t half = 0x3fe6a09e667f3bcd; // sqrt(1/2)
    Bits bits;
    __builtin_memcpy(&bits, &a.lane, sizeof bits);
    const Bits above = (bits - half) >> 52; // e, with m from sqrt(1/2) to sqrt(2)
    const Bits mantissa = bits - (above << 52);
    Lanes m;
    __builtin_memcpy(&m, &mantissa, sizeof m);
    const Lanes s = (m - 1.0) / (m + 1.0);
    const Lanes q = s * s;
    Lanes series = q * (1.0 / 21.0) + 1.0 / 19.0;
    for (const double odd : {17.0, 15.0, 13.0, 11.0, 9.0, 7.0, 5.0, 3.0}) {
      series = series * q + 1.0 / odd;
    }
    constexpr double ln2_high = 0x1.62e42fefa3800p-1; // ends in zeros: exact times e
    constexpr double ln2_low = 0x1.ef35793c76730p-45;
    const Lanes e = __builtin_convertvector(above, Lanes);
    const Lanes by_m = 2.0 * s + 2.0 * s * (q * series);
    return Pack(e * ln2_high + (by_m + e * ln2_low) + (a.lane - a.lane));
  }
  friend Pack exp(const Pack &a) {
    return each(a, [](double x) { return std::exp(x); });
  }
  friend Pack sin(const Pack &a) {
    return each(a, [](double x) { return std::sin(x); });
  }

private:
  template <class F> static Pack each(const Pack &a, F f) {
    Pack out;
    for (std::size_t i = 0; i < pack_lanes; ++i) {
      out.lane[i] = f(a.lane[i]);
    }
    return out;
  }
};

} // namespace cook::engine
