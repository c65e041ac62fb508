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
  Bits bits{};

  [[nodiscard]] bool operator[](std::size_t lane) const { return bits[lane] != 0; }
  void set(std::size_t lane, bool value) { bits[lane] = value ? -1 : 0; }

  friend PackMask operator&&(const PackMask &a, const PackMask &b) { return {a.bits & b.bits}; }
  friend PackMask operator||(const PackMask &a, const PackMask &b) { return {a.bits | b.bits}; }
  friend PackMask operator!(const PackMask &a) { return {~a.bits}; }
  friend bool any(const PackMask &m) {
    std::int64_t some = 0;
    for (std::size_t i = 0; i < pack_lanes; ++i) {
      some |= m.bits[i];
    }
    return some != 0;
  }
  friend bool all(const PackMask &m) {
    std::int64_t every = -1;
    for (std::size_t i = 0; i < pack_lanes; ++i) {
      every &= m.bits[i];
    }
    return every != 0;
  }
};

struct alignas(8 * pack_lanes) Pack {
  static constexpr std::size_t lanes = pack_lanes;
  typedef double Lanes __attribute__((vector_size(8 * pack_lanes)));
  using Mask = PackMask;
  Lanes lane{};

  Pack() = default;
  Pack(double all) : lane(all - Lanes{}) {} // NOLINT: a number is that many equal numbers
  explicit Pack(Lanes from) : lane(from) {}

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
  friend Pack abs(const Pack &a) { return max(a, -a); }
  friend Pack sqrt(const Pack &a) {
    return each(a, [](double x) { return std::sqrt(x); });
  }
  friend Pack log(const Pack &a) {
    return each(a, [](double x) { return std::log(x); });
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
