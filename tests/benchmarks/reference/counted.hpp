/// @file
/// A scalar that counts what is done to it: the arithmetic that a step of a method takes, whatever machine it
/// runs on.
#pragma once

#include <cmath>

#include "benchmarks/reference/quick_exp.hpp"

namespace cook::reference {

/// A double whose operations are counted; a comparison or a choice counts as nothing.
struct Counted {
  double value = 0.0;
  static inline long operations = 0;

  Counted() = default;
  Counted(double v) : value(v) {} // NOLINT: a number is a number

  static Counted after(long count, double value) {
    operations += count;
    return value;
  }
  friend Counted operator+(const Counted &a, const Counted &b) { return after(1, a.value + b.value); }
  friend Counted operator-(const Counted &a, const Counted &b) { return after(1, a.value - b.value); }
  friend Counted operator*(const Counted &a, const Counted &b) { return after(1, a.value * b.value); }
  friend Counted operator/(const Counted &a, const Counted &b) { return after(1, a.value / b.value); }
  friend Counted operator-(const Counted &a) { return -a.value; }
  friend Counted max(const Counted &a, const Counted &b) { return a.value > b.value ? a : b; }
};

inline Counted quick_exp(const Counted &x) { return Counted::after(quick_exp_operations, std::exp(x.value)); }

inline double lane_of(const Counted &x, std::size_t /*lane*/) { return x.value; }
inline void set_lane(Counted &x, std::size_t /*lane*/, double value) { x.value = value; }

} // namespace cook::reference
