/// @file
/// Four by four numbers turned in registers: by way of memory a wide load would wait for the narrow stores
/// before it.
#pragma once

#include <array>

#include "engine/arithmetic/pack.hpp"

namespace cook::engine {

/// Rows become columns.
inline std::array<Pack::Half, 4> transposed(const Pack::Half &a, const Pack::Half &b, const Pack::Half &c,
                                            const Pack::Half &d) {
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

} // namespace cook::engine
