/// @file
/// A 4 x 4 block as four 2 x 2 blocks, of any scalar: what PairedTridiagonal computes with in packs.
#pragma once

#include "engine/linear/block_tridiagonal.hpp"

namespace cook::engine {

/// The first letter is the row's line, the second the column's: (m)iddle, (r)im.
template <class Real> struct QuadBlocks {
  using B = Block<Real>;
  B mm{}, mr{}, rm{}, rr{};

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
    /// What a level takes from another, by what couples them.
    [[gnu::always_inline]] static Four plus(const Four &x, const B *coupling, const Four &y) {
      const B &m = coupling[0];
      const B &r = coupling[1];
      return {(x.a + m.a * y.a) + m.b * y.b, (x.b + m.c * y.a) + m.d * y.b, (x.c + r.a * y.c) + r.b * y.d,
              (x.d + r.c * y.c) + r.d * y.d};
    }
    [[gnu::always_inline]] static Four plus(const Four &x, const QuadBlocks &m, const Four &y) {
      return {((x.a + m.mm.a * y.a) + m.mm.b * y.b) + (m.mr.a * y.c + m.mr.b * y.d),
              ((x.b + m.mm.c * y.a) + m.mm.d * y.b) + (m.mr.c * y.c + m.mr.d * y.d),
              ((x.c + m.rm.a * y.a) + m.rm.b * y.b) + (m.rr.a * y.c + m.rr.b * y.d),
              ((x.d + m.rm.c * y.a) + m.rm.d * y.b) + (m.rr.c * y.c + m.rr.d * y.d)};
    }
  };

  /// shift * I - A, where A has these diagonal blocks and these of a cell acting on its partner.
  [[gnu::always_inline]] static QuadBlocks shifted(const B *diagonal, const B *partner, Real shift) {
    const auto on = [shift](const B &x) { return B{shift - x.a, -x.b, -x.c, shift - x.d}; };
    return {on(diagonal[0]), minus(partner[1]), minus(partner[0]), on(diagonal[1])};
  }
  /// What couples a level to another acts line by line: coupling[0] on the middle, coupling[1] on the rim.
  [[gnu::always_inline]] static QuadBlocks times(const B *coupling, const QuadBlocks &x) {
    const B &m = coupling[0];
    const B &r = coupling[1];
    return {m * x.mm, m * x.mr, r * x.rm, r * x.rr};
  }
  [[gnu::always_inline]] static QuadBlocks times(const QuadBlocks &x, const B *coupling) {
    const B &m = coupling[0];
    const B &r = coupling[1];
    return {x.mm * m, x.mr * r, x.rm * m, x.rr * r};
  }
  [[gnu::always_inline]] friend QuadBlocks operator-(const QuadBlocks &x, const QuadBlocks &y) {
    return {x.mm - y.mm, x.mr - y.mr, x.rm - y.rm, x.rr - y.rr};
  }

  /// By blocks, the middle's first: its diagonal block dominates like those of a single line.
  [[gnu::always_inline]] friend QuadBlocks inverse(const QuadBlocks &x) {
    const B m = engine::inverse(x.mm);
    const B right = m * x.mr;                         // M^-1 B
    const B left = x.rm * m;                          // C M^-1
    const B r = engine::inverse(x.rr - x.rm * right); // (R - C M^-1 B)^-1
    const B below = minus(r * left);
    return {m - right * below, minus(right * r), below, r};
  }

private:
  [[gnu::always_inline]] static B minus(const B &x) { return {-x.a, -x.b, -x.c, -x.d}; }
};

} // namespace cook::engine
