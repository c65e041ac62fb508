/// @file
/// What a fuzz target promises: a broken promise stops the process, which every fuzzer takes for a crash.
#pragma once

#include <cstdlib>
#include <iostream>
#include <string_view>

namespace cook::fuzz {

inline void require(bool kept, std::string_view promise, std::string_view more = {}) {
  if (!kept) {
    std::cerr << "broken promise: " << promise << (more.empty() ? "" : ": ") << more << '\n';
    std::abort();
  }
}

} // namespace cook::fuzz
