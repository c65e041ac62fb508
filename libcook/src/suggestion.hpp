/// @file
/// What was probably meant by a word that is not known.
#pragma once

#include <span>
#include <string>
#include <string_view>

namespace cook {

/// "did you mean 'x'?" for the known word nearest in edit distance, or the list of known words if none is
/// near.
std::string suggestion(std::string_view word, std::span<const std::string> known);

} // namespace cook
