/// @file
/// Block-tridiagonal systems of two lines of cells side by side, level by level: each cell couples to the
/// cells before and after it on its own line and to its partner at the same level.
#pragma once

#include <cstddef>
#include <type_traits>
#include <vector>

#include "engine/linear/block_tridiagonal.hpp"
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
  }

  /// Solves in place; `x` holds the four unknowns of each level in turn. From both ends to the middle and
  /// back: two chains of operations that do not wait for each other (both_ends.hpp). On the way there a
  /// level's right side is multiplied with its inverse pivot at once: of each level few numbers are kept, and
  /// read.
  template <class Vector> [[gnu::always_inline]] void solve(Vector &x) const {
    using Four = typename Quad::Four;
    const std::size_t levels = rows_.size();
    const std::size_t middle = levels / 2;
    const std::size_t last = levels - 1;
    Four above{};
    Four below{};
    const auto reduce = [&](std::size_t k, const Four &right) __attribute__((always_inline)) {
      return Four::put(x, k, Four::plus(Four{}, rows_[k].pivot, right));
    };
    for (std::size_t k = 0; k < middle; ++k) {
      above = reduce(k, k == 0 ? Four::at(x, k) : Four::plus(Four::at(x, k), &lower[2 * k], above));
      const std::size_t j = last - k;
      if (j > middle) {
        below = reduce(j, k == 0 ? Four::at(x, j) : Four::plus(Four::at(x, j), &upper[2 * j], below));
      }
    }
    Four right = Four::at(x, middle);
    if (middle > 0) {
      right = Four::plus(right, &lower[2 * middle], above);
    }
    if (middle < last) {
      right = Four::plus(right, &upper[2 * middle], below);
    }
    above = below = reduce(middle, right);
    for (std::size_t k = 1; k <= middle; ++k) {
      const std::size_t i = middle - k;
      above = Four::put(x, i, Four::plus(Four::at(x, i), rows_[i].onward, above));
      const std::size_t j = middle + k;
      if (j < levels) {
        below = Four::put(x, j, Four::plus(Four::at(x, j), rows_[j].onward, below));
      }
    }
  }

private:
  struct Eliminated {
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
};

} // namespace cook::engine
