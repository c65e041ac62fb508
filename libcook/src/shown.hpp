/// @file
/// Text from outside, made fit for a message: the one place that shortens and cleans it. `in_quotes`, which
/// puts it in quotes, is in cook/errors.hpp.
#pragma once

#include <cstddef>
#include <string>
#include <string_view>

namespace cook {

/// Text as a message shows it: cut at 200 characters with a mark, control characters and invalid bytes
/// replaced.
std::string shown(std::string_view text);

/// True if the bytes are well-formed UTF-8 (RFC 3629).
bool is_utf8(std::string_view text);

/// Length of the UTF-8 sequence that starts the text, 0 if it is not well-formed.
std::size_t utf8_length(std::string_view text);

} // namespace cook
