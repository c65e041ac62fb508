/// @file
/// Block-tridiagonal systems of two lines of cells side by side, level by level: each cell couples to the
/// cells before and after it on its own line and to its partner at the same level.
#pragma once

#include <cstddef>
#include <type_traits>
#include <vector>

#include "engine/linear/block_tridiagonal.hpp"
#include "engine/linear/both_ends.hpp"
#include "engine/linear/quad_blocks.hpp"
#include "engine/linear/quad_columns.hpp"

namespace cook::engine {

/// Factorises once, solves many times, as BlockTridiagonal does, with both cells of a level as one 4 x 4
/// block. Cell i = 2 level + line; its partner is i ^ 1.
template <class Real> class PairedTridiagonal {
  using Quad = std::conditional_t<std::is_same_v<Real, double>, QuadColumns, QuadBlocks<Real>>;

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
        inverse(left_of(middle, shift, lower, top) - Quad::times(&upper[2 * middle], bottom));
    for (std::size_t k = 1; k <= middle; ++k) {
      rows_[k].taken = Quad::times(&lower[2 * k], rows_[k - 1].pivot);
    }
    for (std::size_t k = middle + 1; k < last; ++k) {
      rows_[k].taken = Quad::times(&upper[2 * k], rows_[k + 1].pivot);
    }
    if (middle < last) {
      taken_below_ = Quad::times(&upper[2 * middle], rows_[middle + 1].pivot);
    }
  }

  /// Solves in place; `x` holds the four unknowns of each level in turn.
  template <class Vector> void solve(Vector &x) const { solve_from_both_ends<typename Quad::Four>(rows_, taken_below_, x); }

private:
  struct Eliminated {
    Quad taken;  ///< what the level takes from the right side of the one before
    Quad pivot;  ///< inverse
    Quad onward; ///< inverse pivot x coupling to the level after, towards the middle
  };
  using Blocks = std::vector<Block<Real>>;

  /// @param before what the level before hands onward
  [[nodiscard, gnu::always_inline]] Quad left_of(std::size_t level, Real shift, const Blocks &back,
                                                 const Quad &before) const {
    return Quad::shifted(&diagonal[2 * level], &partner[2 * level], shift) -
           Quad::times(&back[2 * level], before);
  }

  [[gnu::always_inline]] Quad eliminate(std::size_t level, Real shift, const Blocks &back, const Quad &before,
                                        const Blocks &next) {
    Eliminated &row = rows_[level];
    row.pivot = inverse(left_of(level, shift, back, before));
    row.onward = Quad::times(row.pivot, &next[2 * level]);
    return row.onward;
  }

  std::vector<Eliminated> rows_;
  Quad taken_below_; ///< what the middle level takes from the level below it
};

} // namespace cook::engine
