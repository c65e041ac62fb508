/// @file
/// Matrices turned: four by four in registers, where by way of memory a wide load would wait for the narrow
/// stores before it, and of any size in memory.
#pragma once

#include <array>
#include <cstddef>
#include <cstring>

#include "engine/arithmetic/pack.hpp"

namespace cook::engine {

/// Rows become columns.
[[gnu::always_inline]] inline std::array<Pack::Half, 4> transposed(const Pack::Half &a, const Pack::Half &b,
                                                                   const Pack::Half &c, const Pack::Half &d) {
  using Half = Pack::Half;
  static_assert(half_lanes == 4);
  const Half even_ab = __builtin_shufflevector(a, b, 0, 4, 2, 6);
  const Half odd_ab = __builtin_shufflevector(a, b, 1, 5, 3, 7);
  const Half even_cd = __builtin_shufflevector(c, d, 0, 4, 2, 6);
  const Half odd_cd = __builtin_shufflevector(c, d, 1, 5, 3, 7);
  return {__builtin_shufflevector(even_ab, even_cd, 0, 1, 4, 5),
          __builtin_shufflevector(odd_ab, odd_cd, 0, 1, 4, 5),
          __builtin_shufflevector(even_ab, even_cd, 2, 3, 6, 7),
          __builtin_shufflevector(odd_ab, odd_cd, 2, 3, 6, 7)};
}

/// Eight numbers, by of(lane).
template <class Of> [[gnu::always_inline]] inline Pack gathered(const Of &of) {
  using Half = Pack::Half;
  return {Half{of(0), of(1), of(2), of(3)}, Half{of(4), of(5), of(6), of(7)}};
}

/// Four packs as four numbers side by side, in the first `count` of eight places.
/// @param at of a lane, where its four go
template <class At>
[[gnu::always_inline]] inline void store_fours(std::size_t count, const At &at, const Pack &a, const Pack &b,
                                               const Pack &c, const Pack &d) {
  const auto low = transposed(a.low, b.low, c.low, d.low);
  const auto high = transposed(a.high, b.high, c.high, d.high);
  for (std::size_t lane = 0; lane < half_lanes; ++lane) {
    if (lane < count) {
      std::memcpy(at(lane), &low[lane], sizeof low[lane]);
    }
    if (lane + half_lanes < count) {
      std::memcpy(at(lane + half_lanes), &high[lane], sizeof high[lane]);
    }
  }
}

/// Columns of a matrix become rows. Four rows at a time, so that what is written lies side by side.
inline void transpose(const double *in, std::size_t rows, std::size_t columns, double *__restrict__ out) {
  std::size_t r = 0;
  for (; r + 4 <= rows; r += 4) {
    const double *a = in + r * columns;
    const double *b = a + columns;
    const double *c = b + columns;
    const double *d = c + columns;
    for (std::size_t k = 0; k < columns; ++k) {
      double *to = out + k * rows + r;
      to[0] = a[k];
      to[1] = b[k];
      to[2] = c[k];
      to[3] = d[k];
    }
  }
  for (; r < rows; ++r) {
    for (std::size_t k = 0; k < columns; ++k) {
      out[k * rows + r] = in[r * columns + k];
    }
  }
}

} // namespace cook::engine
