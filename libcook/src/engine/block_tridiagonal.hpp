/// @file
/// Block-tridiagonal systems with 2 x 2 blocks: the Jacobian of a line of cells with two unknowns each.
#pragma once

#include <cstddef>
#include <vector>

#include "engine/scalar.hpp"

namespace cook::engine {

/// A 2 x 2 block, row-major.
template <class Real> struct Block { Real a{}, b{}, c{}, d{}; };

template <class Real> Block<Real> operator*(const Block<Real> &x, const Block<Real> &y) {
  return {x.a * y.a + x.b * y.c, x.a * y.b + x.b * y.d, x.c * y.a + x.d * y.c, x.c * y.b + x.d * y.d};
}

template <class Real> Block<Real> inverse(const Block<Real> &x) {
  const Real scale = 1.0 / (x.a * x.d - x.b * x.c);
  return {x.d * scale, -(x.b * scale), -(x.c * scale), x.a * scale};
}

/// Factorises once, solves many times. No pivoting between blocks: the matrices are I/(gamma h) - J of a
/// diffusion problem, whose diagonal blocks dominate for any step that error control accepts; a step where
/// they do not gives a non-finite result, which the step control rejects.
template <class Real> class BlockTridiagonal {
public:
  explicit BlockTridiagonal(std::size_t n = 0)
      : lower(n), diagonal(n), upper(n), inverse_(n), multiplier_(n) {}

  std::vector<Block<Real>> lower;    ///< row i, column i - 1
  std::vector<Block<Real>> diagonal; ///< row i, column i
  std::vector<Block<Real>> upper;    ///< row i, column i + 1

  [[nodiscard]] std::size_t size() const { return diagonal.size(); }

  /// Factorises shift * I - A where A is what the three arrays hold.
  void factorise_shifted(Real shift) {
    const std::size_t n = size();
    Block<Real> pivot = shifted(diagonal[0], shift);
    inverse_[0] = inverse(pivot);
    for (std::size_t i = 1; i < n; ++i) {
      // Rows of (shift I - A): lower and upper enter with a minus sign, which cancels in the product.
      const Block<Real> m = lower[i] * inverse_[i - 1];
      const Block<Real> fill = m * upper[i - 1];
      pivot = shifted(diagonal[i], shift);
      pivot = {pivot.a - fill.a, pivot.b - fill.b, pivot.c - fill.c, pivot.d - fill.d};
      multiplier_[i] = m;
      inverse_[i] = inverse(pivot);
    }
  }

  /// Solves in place; `x` holds the two unknowns of each cell in turn.
  template <class Vector> void solve(Vector &x) const {
    const std::size_t n = size();
    for (std::size_t i = 1; i < n; ++i) {
      const Block<Real> &m = multiplier_[i];
      const Real p = x[2 * i - 2];
      const Real q = x[2 * i - 1];
      x[2 * i] = x[2 * i] + m.a * p + m.b * q;
      x[2 * i + 1] = x[2 * i + 1] + m.c * p + m.d * q;
    }
    for (std::size_t i = n; i-- > 0;) {
      Real p = x[2 * i];
      Real q = x[2 * i + 1];
      if (i + 1 < n) {
        const Block<Real> &u = upper[i];
        p = p + u.a * x[2 * i + 2] + u.b * x[2 * i + 3];
        q = q + u.c * x[2 * i + 2] + u.d * x[2 * i + 3];
      }
      const Block<Real> &v = inverse_[i];
      x[2 * i] = v.a * p + v.b * q;
      x[2 * i + 1] = v.c * p + v.d * q;
    }
  }

private:
  static Block<Real> shifted(const Block<Real> &x, Real shift) {
    return {shift - x.a, -x.b, -x.c, shift - x.d};
  }

  std::vector<Block<Real>> inverse_;    ///< of the pivots
  std::vector<Block<Real>> multiplier_; ///< lower x inverse pivot of the row above (signs: see factorise)
};

} // namespace cook::engine
