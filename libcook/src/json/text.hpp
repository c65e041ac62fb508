// JSON text to a tree, strictly: no repeated keys, no infinite numbers, and errors that show the place.
#pragma once

#include <string_view>

#include <nlohmann/json.hpp>

namespace cook::json {

/// Keeps the order of the keys, for the reader of the file as for our messages.
using Json = nlohmann::ordered_json;

/// Parses a document.
/// @param root what the document is, as messages name it: "plan"
/// @throws InvalidInput
Json parse(std::string_view text, std::string_view root);

} // namespace cook::json
