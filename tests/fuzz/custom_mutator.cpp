/// @file
/// Lets libFuzzer change JSON as JSON half of the time.
#include <algorithm>
#include <cstddef>
#include <cstdint>
#include <cstring>
#include <string>

#include "mutate.hpp"

extern "C" std::size_t LLVMFuzzerMutate(std::uint8_t *data, std::size_t size, std::size_t capacity);

extern "C" std::size_t LLVMFuzzerCustomMutator(std::uint8_t *data, std::size_t size, std::size_t capacity,
                                               unsigned int seed) {
  if (seed % 4 == 0) {
    return LLVMFuzzerMutate(data, size, capacity);
  }
  const std::string changed =
      cook::fuzz::mutate(std::string(reinterpret_cast<const char *>(data), size), seed);
  const std::size_t length = std::min(changed.size(), capacity);
  std::memcpy(data, changed.data(), length);
  return length;
}
