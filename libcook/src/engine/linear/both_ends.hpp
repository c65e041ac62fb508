/// @file
/// Solving with a factorised block-tridiagonal matrix from both ends to the middle, and back.
#pragma once

#include <cstddef>

namespace cook::engine {

/// Two chains of operations that do not wait for each other, where one from end to end spends its time
/// waiting for itself. The neighbours' unknowns stay in registers: through memory, each row would wait for
/// the one before.
///
/// @tparam Unknowns of a row, zero by default, with at(x, row), put(x, row, unknowns), which gives them back,
/// and plus(unknowns, block, unknowns): the first plus the block times the last
/// @param rows each with `pivot`, its inverse; `taken`, what it takes from the right side of the row before;
/// `onward`, inverse pivot times coupling to the row after, towards the middle
/// @param taken_below what the middle row takes from the row below it
/// @param x right side, then the solution
template <class Unknowns, class Rows, class Taken, class Vector>
[[gnu::always_inline]] inline void solve_from_both_ends(const Rows &rows, const Taken &taken_below,
                                                        Vector &x) {
  const auto at = [&x](std::size_t k) { return Unknowns::at(x, k); };
  const auto put = [&x](std::size_t k, const Unknowns &value) { return Unknowns::put(x, k, value); };
  const auto plus = [](const Unknowns &a, const Taken &block, const Unknowns &b) {
    return Unknowns::plus(a, block, b);
  };
  const std::size_t n = rows.size();
  const std::size_t middle = n / 2;
  const std::size_t last = n - 1;
  Unknowns above{};
  Unknowns below{};
  if (middle > 0) {
    above = at(0);
  }
  if (last > middle) {
    below = at(last);
  }
  for (std::size_t k = 1; k < middle; ++k) {
    above = put(k, plus(at(k), rows[k].taken, above));
    const std::size_t j = last - k;
    if (j > middle) {
      below = put(j, plus(at(j), rows[j].taken, below));
    }
  }
  const Unknowns right = plus(plus(at(middle), rows[middle].taken, above), taken_below, below);
  above = below = put(middle, plus(Unknowns{}, rows[middle].pivot, right));
  for (std::size_t k = 1; k <= middle; ++k) {
    const std::size_t i = middle - k;
    above = put(i, plus(plus(Unknowns{}, rows[i].pivot, at(i)), rows[i].onward, above));
    const std::size_t j = middle + k;
    if (j < n) {
      below = put(j, plus(plus(Unknowns{}, rows[j].pivot, at(j)), rows[j].onward, below));
    }
  }
}

} // namespace cook::engine
