/// @file
/// Block-tridiagonal systems of two lines of cells side by side, level by level: each cell couples to the
/// cells before and after it on its own line and to its partner at the same level.
#pragma once

#include <cstddef>
#include <vector>

#include "engine/linear/block_tridiagonal.hpp"
#include "engine/linear/both_ends.hpp"

namespace cook::engine {

/// Factorises once, solves many times, as BlockTridiagonal does, with both cells of a level as one 4 x 4
/// block of four 2 x 2 blocks. Cell i = 2 level + line; its partner is i ^ 1.
template <class Real> class PairedTridiagonal {
public:
  explicit PairedTridiagonal(std::size_t n = 0) : lower(n), diagonal(n), upper(n), partner(n), rows_(n / 2) {}

  std::vector<Block<Real>> lower;    ///< row i, column i - 2
  std::vector<Block<Real>> diagonal; ///< row i, column i
  std::vector<Block<Real>> upper;    ///< row i, column i + 2
  std::vector<Block<Real>> partner;  ///< row i ^ 1, column i: how cell i acts on its partner

  [[nodiscard]] std::size_t size() const { return diagonal.size(); }

  /// Factorises shift * I - A where A is what the arrays hold.
  [[gnu::always_inline]] void factorise_shifted(Real shift) {
    const std::size_t levels = size() / 2;
    const std::size_t middle = levels / 2;
    const std::size_t last = levels - 1;
    Quad top{};
    Quad bottom{};
    // Lower and upper enter with a minus sign, which cancels in their products.
    for (std::size_t k = 0; k < middle; ++k) {
      top = eliminate(k, shift, lower, top, upper);
      const std::size_t j = last - k;
      if (j > middle) {
        bottom = eliminate(j, shift, upper, bottom, lower);
      }
    }
    rows_[middle].pivot =
        inverse(less(less(shifted(middle, shift), lower, middle, top), upper, middle, bottom));
    for (std::size_t k = 1; k <= middle; ++k) {
      rows_[k].taken = times(lower, k, rows_[k - 1].pivot);
    }
    for (std::size_t k = middle + 1; k < last; ++k) {
      rows_[k].taken = times(upper, k, rows_[k + 1].pivot);
    }
    if (middle < last) {
      taken_below_ = times(upper, middle, rows_[middle + 1].pivot);
    }
  }

  /// Solves in place; `x` holds the four unknowns of each level in turn.
  template <class Vector> void solve(Vector &x) const { solve_from_both_ends<Four>(rows_, taken_below_, x); }

private:
  /// A 4 x 4 block; the first letter is the row's line, the second the column's: (m)iddle, (r)im.
  struct Quad {
    Block<Real> mm{}, mr{}, rm{}, rr{};
  };
  /// The unknowns of a level.
  struct Four {
    Real a{}, b{}, c{}, d{};

    template <class Vector> static Four at(const Vector &x, std::size_t level) {
      return {x[4 * level], x[4 * level + 1], x[4 * level + 2], x[4 * level + 3]};
    }
    template <class Vector> static Four put(Vector &x, std::size_t level, const Four &value) {
      x[4 * level] = value.a;
      x[4 * level + 1] = value.b;
      x[4 * level + 2] = value.c;
      x[4 * level + 3] = value.d;
      return value;
    }
    [[gnu::always_inline]] static Four plus(const Four &x, const Quad &m, const Four &y) {
      return {((x.a + m.mm.a * y.a) + m.mm.b * y.b) + (m.mr.a * y.c + m.mr.b * y.d),
              ((x.b + m.mm.c * y.a) + m.mm.d * y.b) + (m.mr.c * y.c + m.mr.d * y.d),
              ((x.c + m.rm.a * y.a) + m.rm.b * y.b) + (m.rr.a * y.c + m.rr.b * y.d),
              ((x.d + m.rm.c * y.a) + m.rm.d * y.b) + (m.rr.c * y.c + m.rr.d * y.d)};
    }
  };
  struct Eliminated {
    Quad taken;  ///< what the level takes from the right side of the one before
    Quad pivot;  ///< inverse
    Quad onward; ///< inverse pivot x coupling to the level after, towards the middle
  };
  using Blocks = std::vector<Block<Real>>;

  static Block<Real> minus(const Block<Real> &x) { return {-x.a, -x.b, -x.c, -x.d}; }

  [[nodiscard, gnu::always_inline]] Quad shifted(std::size_t level, Real shift) const {
    const auto on = [shift](const Block<Real> &x) {
      return Block<Real>{shift - x.a, -x.b, -x.c, shift - x.d};
    };
    const std::size_t m = 2 * level;
    return {on(diagonal[m]), minus(partner[m + 1]), minus(partner[m]), on(diagonal[m + 1])};
  }

  /// What couples a level to another acts line by line.
  [[gnu::always_inline]] static Quad times(const Blocks &coupling, std::size_t level, const Quad &x) {
    const Block<Real> &m = coupling[2 * level];
    const Block<Real> &r = coupling[2 * level + 1];
    return {m * x.mm, m * x.mr, r * x.rm, r * x.rr};
  }
  [[gnu::always_inline]] static Quad less(const Quad &x, const Blocks &coupling, std::size_t level,
                                          const Quad &y) {
    const Quad z = times(coupling, level, y);
    return {x.mm - z.mm, x.mr - z.mr, x.rm - z.rm, x.rr - z.rr};
  }

  /// By blocks, the middle's first: its diagonal block dominates like those of a single line.
  [[gnu::always_inline]] static Quad inverse(const Quad &x) {
    const Block<Real> m = engine::inverse(x.mm);
    const Block<Real> right = m * x.mr;                         // M^-1 B
    const Block<Real> left = x.rm * m;                          // C M^-1
    const Block<Real> r = engine::inverse(x.rr - x.rm * right); // (R - C M^-1 B)^-1
    const Block<Real> rm = minus(r * left);
    return {m - right * rm, minus(right * r), rm, r};
  }

  [[gnu::always_inline]] Quad eliminate(std::size_t level, Real shift, const Blocks &back, const Quad &before,
                                        const Blocks &next) {
    Eliminated &row = rows_[level];
    row.pivot = inverse(less(shifted(level, shift), back, level, before));
    const Block<Real> &m = next[2 * level];
    const Block<Real> &r = next[2 * level + 1];
    row.onward = {row.pivot.mm * m, row.pivot.mr * r, row.pivot.rm * m, row.pivot.rr * r};
    return row.onward;
  }

  std::vector<Eliminated> rows_;
  Quad taken_below_; ///< what the middle level takes from the level below it
};

} // namespace cook::engine
