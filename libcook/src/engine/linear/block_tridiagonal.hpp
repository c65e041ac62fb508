/// @file
/// Block-tridiagonal systems with 2 x 2 blocks: the Jacobian of a line of cells with two unknowns each.
#pragma once

#include <cstddef>
#include <vector>

#include "engine/arithmetic/scalar.hpp"
#include "engine/linear/both_ends.hpp"

namespace cook::engine {

/// A 2 x 2 block, row-major.
template <class Real> struct Block { Real a{}, b{}, c{}, d{}; };

template <class Real> Block<Real> operator*(const Block<Real> &x, const Block<Real> &y) {
  return {x.a * y.a + x.b * y.c, x.a * y.b + x.b * y.d, x.c * y.a + x.d * y.c, x.c * y.b + x.d * y.d};
}

template <class Real> Block<Real> operator*(const Block<Real> &x, const Real &y) {
  return {x.a * y, x.b * y, x.c * y, x.d * y};
}

/// The inverse times the determinant.
template <class Real> Block<Real> adjugate(const Block<Real> &x) { return {x.d, -x.b, -x.c, x.a}; }

template <class Real> Real determinant(const Block<Real> &x) { return x.a * x.d - x.b * x.c; }

template <class Real> Block<Real> inverse(const Block<Real> &x) {
  const Real scale = 1.0 / determinant(x);
  return {x.d * scale, -(x.b * scale), -(x.c * scale), x.a * scale};
}

template <class Real> Block<Real> operator-(const Block<Real> &x, const Block<Real> &y) {
  return {x.a - y.a, x.b - y.b, x.c - y.c, x.d - y.d};
}

/// Factorises once, solves many times. Elimination runs from both ends to the middle row (both_ends.hpp).
///
/// No pivoting between blocks: the matrices are I/(gamma h) - J of a diffusion problem, whose diagonal blocks
/// dominate for any step that error control accepts; a step where they do not gives a non-finite result,
/// which the step control rejects.
template <class Real> class BlockTridiagonal {
public:
  explicit BlockTridiagonal(std::size_t n = 0) : lower(n), diagonal(n), upper(n), rows_(n) {}

  std::vector<Block<Real>> lower;    ///< row i, column i - 1
  std::vector<Block<Real>> diagonal; ///< row i, column i
  std::vector<Block<Real>> upper;    ///< row i, column i + 1

  [[nodiscard]] std::size_t size() const { return diagonal.size(); }

  /// Factorises shift * I - A where A is what the three arrays hold.
  void factorise_shifted(Real shift) {
    const std::size_t n = size();
    const std::size_t middle = n / 2;
    const std::size_t last = n - 1;
    // Lower and upper enter with a minus sign, which cancels in their products.
    Onward top{};    // of the row above
    Onward bottom{}; // of the row below
    for (std::size_t k = 0; k < middle; ++k) {
      top = eliminate(k, shift, lower[k], top, upper[k]);
      const std::size_t j = last - k;
      if (j > middle) {
        bottom = eliminate(j, shift, upper[j], bottom, lower[j]);
      }
    }
    const Block<Real> pivot = shifted(diagonal[middle], shift) - (lower[middle] * top.factor) * top.scale -
                              (upper[middle] * bottom.factor) * bottom.scale;
    rows_[middle].pivot = by_columns(inverse(pivot));
    for (std::size_t k = 1; k <= middle; ++k) {
      rows_[k].taken = by_columns(lower[k] * by_rows(rows_[k - 1].pivot));
    }
    for (std::size_t k = middle + 1; k < last; ++k) {
      rows_[k].taken = by_columns(upper[k] * by_rows(rows_[k + 1].pivot));
    }
    if (middle < last) {
      taken_below_ = by_columns(upper[middle] * by_rows(rows_[middle + 1].pivot));
    }
  }

  /// Solves in place; `x` holds the two unknowns of each cell in turn.
  template <class Vector> void solve(Vector &x) const { solve_from_both_ends<Pair>(rows_, taken_below_, x); }

private:
  /// A block by columns, so that both unknowns go through the same operations side by side.
  struct Columns {
    Real a{}, c{}, b{}, d{};
  };
  /// The unknowns of a row.
  struct Pair {
    Real p{}, q{};

    template <class Vector> static Pair at(const Vector &x, std::size_t i) {
      return {x[2 * i], x[2 * i + 1]};
    }
    template <class Vector> static Pair put(Vector &x, std::size_t i, const Pair &value) {
      x[2 * i] = value.p;
      x[2 * i + 1] = value.q;
      return value;
    }
    static Pair plus(const Pair &x, const Columns &m, const Pair &y) {
      return {(x.p + m.a * y.p) + m.b * y.q, (x.q + m.c * y.p) + m.d * y.q};
    }
  };
  struct Eliminated {
    Columns taken;  ///< what the row takes from the right side of the one before
    Columns pivot;  ///< inverse
    Columns onward; ///< inverse pivot x coupling to the row after, towards the middle
  };

  static Columns by_columns(const Block<Real> &x) { return {x.a, x.c, x.b, x.d}; }
  static Block<Real> by_rows(const Columns &x) { return {x.a, x.b, x.c, x.d}; }
  static Block<Real> shifted(const Block<Real> &x, Real shift) {
    return {shift - x.a, -x.b, -x.c, shift - x.d};
  }

  /// A row's onward factor (inverse pivot x coupling to the row after), as a block and a number to multiply
  /// it with: the number comes out of a division, and the next row can go on with the block in the meantime.
  struct Onward {
    Block<Real> factor;
    Real scale{};
  };

  /// @param back coupling to the row before
  /// @param next coupling to the row after
  Onward eliminate(std::size_t i, Real shift, const Block<Real> &back, const Onward &before,
                   const Block<Real> &next) {
    const Block<Real> pivot = shifted(diagonal[i], shift) - (back * before.factor) * before.scale;
    const Onward onward{adjugate(pivot) * next, 1.0 / determinant(pivot)};
    rows_[i].pivot = by_columns(adjugate(pivot) * onward.scale);
    rows_[i].onward = by_columns(onward.factor * onward.scale);
    return onward;
  }

  std::vector<Eliminated> rows_;
  Columns taken_below_; ///< what the middle row takes from the row below it
};

} // namespace cook::engine
