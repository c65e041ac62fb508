/// @file
/// Changes a JSON text so that it often stays one: blind changes of bytes rarely get past the parser.
#pragma once

#include <cstdint>
#include <string>

namespace cook::fuzz {

/// One change: another number, two values swapped, a piece repeated or left out, or a byte.
/// The same text and seed give the same result everywhere.
[[nodiscard]] std::string mutate(std::string text, std::uint32_t seed);

} // namespace cook::fuzz
