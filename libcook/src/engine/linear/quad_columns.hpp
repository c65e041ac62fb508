/// @file
/// A 4 x 4 block by columns, each a vector of four: what QuadBlocks computes, four numbers an instruction.
/// For one cook; in a pack the cooks are the lanes.
#pragma once

#include <array>
#include <cstring>

#include "engine/arithmetic/pack.hpp"
#include "engine/linear/block_tridiagonal.hpp"

namespace cook::engine {

/// Unknowns of a level in turn: eta and X of the middle, then of the rim. Aligned by hand, as Pack is.
struct alignas(sizeof(Pack::Half)) QuadColumns {
  using B = Block<double>;
  using Half = Pack::Half;
  Half one{}, two{}, three{}, four{};

  /// The unknowns of a level.
  struct alignas(sizeof(Half)) Four {
    Half all{};

    template <class Vector> static Four at(const Vector &x, std::size_t level) {
      Four y;
      std::memcpy(&y.all, &x[4 * level], sizeof y.all);
      return y;
    }
    template <class Vector> static Four put(Vector &x, std::size_t level, const Four &value) {
      std::memcpy(&x[4 * level], &value.all, sizeof value.all);
      return value;
    }
    [[gnu::always_inline]] static Four plus(const Four &x, const B *coupling, const Four &y) {
      const Half m = load(coupling[0]);
      const Half r = load(coupling[1]);
      return {(x.all + evens(m, r) * __builtin_shufflevector(y.all, y.all, 0, 0, 2, 2)) +
              odds(m, r) * __builtin_shufflevector(y.all, y.all, 1, 1, 3, 3)};
    }
    [[gnu::always_inline]] static Four plus(const Four &x, const QuadColumns &m, const Four &y) {
      return {((x.all + m.one * each<0>(y.all)) + m.two * each<1>(y.all)) +
              (m.three * each<2>(y.all) + m.four * each<3>(y.all))};
    }
  };

  [[gnu::always_inline]] static QuadColumns shifted(const B *diagonal, const B *partner, double shift) {
    const Half m = load(diagonal[0]);
    const Half r = load(diagonal[1]);
    const Half onto_rim = load(partner[0]);
    const Half onto_middle = load(partner[1]);
    return {Half{shift, 0.0, 0.0, 0.0} - evens(m, onto_rim), Half{0.0, shift, 0.0, 0.0} - odds(m, onto_rim),
            Half{0.0, 0.0, shift, 0.0} - evens(onto_middle, r),
            Half{0.0, 0.0, 0.0, shift} - odds(onto_middle, r)};
  }
  [[gnu::always_inline]] static QuadColumns times(const B *coupling, const QuadColumns &x) {
    const Half m = load(coupling[0]);
    const Half r = load(coupling[1]);
    const Half first = evens(m, r);
    const Half second = odds(m, r);
    const auto column = [&](const Half &c) __attribute__((always_inline)) {
      return first * __builtin_shufflevector(c, c, 0, 0, 2, 2) +
             second * __builtin_shufflevector(c, c, 1, 1, 3, 3);
    };
    return {column(x.one), column(x.two), column(x.three), column(x.four)};
  }
  [[gnu::always_inline]] static QuadColumns times(const QuadColumns &x, const B *coupling) {
    const B &m = coupling[0];
    const B &r = coupling[1];
    return {x.one * m.a + x.two * m.c, x.one * m.b + x.two * m.d, x.three * r.a + x.four * r.c,
            x.three * r.b + x.four * r.d};
  }
  [[gnu::always_inline]] friend QuadColumns operator-(const QuadColumns &x, const QuadColumns &y) {
    return {x.one - y.one, x.two - y.two, x.three - y.three, x.four - y.four};
  }

  [[gnu::always_inline]] friend QuadColumns inverse(const QuadColumns &x) {
    const Two mm = top(x.one, x.two);
    const Two mr = top(x.three, x.four);
    const Two rm = bottom(x.one, x.two);
    const Two rr = bottom(x.three, x.four);
    // Both divisions run beside the products, which go on with the adjugates: the levels wait for each other.
    const Two m = adjugate(mm);
    const double per_m = 1.0 / determinant(mm);
    const Two right = product(m, mr);
    const Two left = product(rm, m);
    const Two rest = {rr.all - product(rm, right).all * per_m};
    const Two r = adjugate(rest);
    const double per_r = 1.0 / determinant(rest);
    const double per_both = per_m * per_r;
    const Two below = product(r, left);
    const Half above = m.all * per_m + product(right, below).all * (per_m * per_both);
    const Half under = -(below.all * per_both);
    const Half beside = -(product(right, r).all * per_both);
    const Half last = r.all * per_r;
    return {low(above, under), high(above, under), low(beside, last), high(beside, last)};
  }

private:
  /// A 2 x 2 block by columns.
  struct alignas(sizeof(Half)) Two {
    Half all{}; ///< a, c, b, d
  };

  template <int lane> [[gnu::always_inline]] static Half each(const Half &x) {
    return __builtin_shufflevector(x, x, lane, lane, lane, lane);
  }
  /// Of two blocks by rows one above the other: their first columns, and their second.
  [[gnu::always_inline]] static Half evens(const Half &x, const Half &y) {
    return __builtin_shufflevector(x, y, 0, 2, 4, 6);
  }
  [[gnu::always_inline]] static Half odds(const Half &x, const Half &y) {
    return __builtin_shufflevector(x, y, 1, 3, 5, 7);
  }
  [[gnu::always_inline]] static Half low(const Half &x, const Half &y) {
    return __builtin_shufflevector(x, y, 0, 1, 4, 5);
  }
  [[gnu::always_inline]] static Half high(const Half &x, const Half &y) {
    return __builtin_shufflevector(x, y, 2, 3, 6, 7);
  }
  /// Of two columns their upper halves side by side, or their lower ones.
  [[gnu::always_inline]] static Two top(const Half &x, const Half &y) { return {low(x, y)}; }
  [[gnu::always_inline]] static Two bottom(const Half &x, const Half &y) { return {high(x, y)}; }
  [[gnu::always_inline]] static Half load(const B &x) {
    Half h;
    std::memcpy(&h, &x, sizeof h);
    return h;
  }
  [[gnu::always_inline]] static Two product(const Two &x, const Two &y) {
    return {__builtin_shufflevector(x.all, x.all, 0, 1, 0, 1) *
                __builtin_shufflevector(y.all, y.all, 0, 0, 2, 2) +
            __builtin_shufflevector(x.all, x.all, 2, 3, 2, 3) *
                __builtin_shufflevector(y.all, y.all, 1, 1, 3, 3)};
  }
  [[gnu::always_inline]] static double determinant(const Two &x) {
    return x.all[0] * x.all[3] - x.all[2] * x.all[1];
  }
  /// The inverse times the determinant.
  [[gnu::always_inline]] static Two adjugate(const Two &x) {
    return {__builtin_shufflevector(x.all, x.all, 3, 1, 2, 0) * Half{1.0, -1.0, -1.0, 1.0}};
  }
};

} // namespace cook::engine
