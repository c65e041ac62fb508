/// @file
/// Text to a document; what is no JSON is refused here, and validate.cpp tells where the rest is.
#include "json/text.hpp"

#include <algorithm>
#include <cctype>
#include <set>
#include <string>
#include <vector>

#include "cook/errors.hpp"
#include "json/path.hpp"

namespace cook::json {

namespace {

constexpr std::size_t deepest = 64; // a plan needs nine levels

bool is_space(char c) { return c == ' ' || c == '\t' || c == '\n' || c == '\r'; }

bool is_word(char c) {
  return std::isalnum(static_cast<unsigned char>(c)) != 0 || c == '_' || c == '.' || c == '+' || c == '-';
}

/// Characters (not bytes) of a piece of text; an invalid byte counts as one.
std::size_t characters(std::string_view text) {
  std::size_t count = 0;
  for (; !text.empty(); ++count) {
    text.remove_prefix(std::max<std::size_t>(utf8_length(text), 1));
  }
  return count;
}

/// The place of a syntax error: it explains it in the words of someone who edits plans by hand.
class Place {
public:
  /// @param in_string the place lies inside a text in quotes
  Place(std::string_view text, std::size_t at, bool in_string)
      : text_(text), at_(std::min(at, text.size())), in_string_(in_string) {
    if (at_ == text_.size()) {
      // The text ends too early: point behind its last visible character instead of into an empty line.
      while (at_ > 0 && is_space(text_[at_ - 1])) {
        --at_;
      }
      ended_ = true;
      return;
    }
    if (!in_string_ && is_word(text_[at_])) {
      while (at_ > 0 && is_word(text_[at_ - 1])) {
        --at_;
      }
    }
  }

  [[nodiscard]] std::string describe() const {
    const std::string_view before = text_.substr(0, at_);
    const std::size_t newline = before.rfind('\n');
    const std::size_t begin = newline == std::string_view::npos ? 0 : newline + 1;
    const std::size_t end = std::min(text_.find('\n', at_), text_.size());
    const auto line = 1 + std::count(before.begin(), before.end(), '\n');
    return "line " + std::to_string(line) + ", column " +
           std::to_string(1 + characters(before.substr(begin))) + ": " + reason() +
           (ended_ && at_ == 0 ? "" : excerpt(begin, end));
  }

private:
  [[nodiscard]] std::string reason() const {
    if (ended_) {
      return at_ == 0 ? "empty" : "the text ends here; a bracket, a brace or a quote is still open";
    }
    if (in_string_) {
      return string_reason();
    }
    std::size_t stop = at_;
    while (stop < text_.size() && is_word(text_[stop])) {
      ++stop;
    }
    const std::string_view word = text_.substr(at_, stop - at_);
    std::string letters;
    for (const char c : word) {
      if (std::isalpha(static_cast<unsigned char>(c)) != 0) {
        letters += static_cast<char>(std::tolower(static_cast<unsigned char>(c)));
      }
    }
    if (letters == "nan" || letters == "inf" || letters == "infinity") {
      return in_quotes(word) + "; a finite number is needed";
    }
    if (letters == "true" || letters == "false" || letters == "null" || letters == "none") {
      return in_quotes(word) + "; JSON writes true, false and null, in lower case";
    }
    if (!word.empty() && std::isalpha(static_cast<unsigned char>(word[0])) != 0) {
      return in_quotes(word) +
             " came unexpectedly; text and keys go in double quotes: is one missing, or one too many?";
    }
    if (!word.empty()) {
      return in_quotes(word) +
             " came unexpectedly; is a comma missing before it, or is it not a JSON number (digits "
             "before and after the point, no leading zeros, no plus sign)?";
    }
    return symbol_reason();
  }

  [[nodiscard]] std::string string_reason() const {
    if (text_[at_] == '\n' || text_[at_] == '\r') {
      return "a quote is still open at the end of the line";
    }
    if (!is_utf8(text_.substr(0, at_ + 1))) {
      return "the text is not UTF-8; save the file as UTF-8";
    }
    return "'" + shown(text_.substr(at_, 1)) +
           R"(' cannot stand here in a text; JSON writes a backslash as \\ and a tab as \t)";
  }

  [[nodiscard]] std::string symbol_reason() const {
    std::size_t last = at_;
    while (last > 0 && is_space(text_[last - 1])) {
      --last;
    }
    const char previous = last > 0 ? text_[last - 1] : '\0';
    switch (text_[at_]) {
    case '\'':
      return "text and keys go in double quotes, not single ones";
    case '/':
    case '#':
      return "JSON has no comments";
    case '}':
    case ']':
      if (previous == ',') {
        return "a comma stands before the closing bracket; take it out";
      }
      break;
    case '"':
    case '{':
    case '[':
      if (previous != ',' && previous != ':' && previous != '[' && previous != '{') {
        return "is a comma missing before this?";
      }
      break;
    default:
      break;
    }
    return in_quotes(text_.substr(at_, std::max<std::size_t>(utf8_length(text_.substr(at_)), 1))) +
           " came unexpectedly";
  }

  /// The line (or the part of a long one around the place) and a caret under the place.
  [[nodiscard]] std::string excerpt(std::size_t begin, std::size_t end) const {
    constexpr std::size_t before = 60;
    constexpr std::size_t after = 40;
    const auto inside_character = [&](std::size_t i) {
      return i < text_.size() && (static_cast<unsigned char>(text_[i]) & 0xC0U) == 0x80U;
    };
    std::size_t from = begin;
    if (at_ - begin > before) {
      for (from = at_ - before; inside_character(from) && from < at_; ++from) {
      }
    }
    std::size_t to = end;
    if (to - std::min(at_, to) > after) {
      for (to = at_ + after; inside_character(to) && to < end; ++to) {
      }
    }
    const auto clean = [](std::string_view part) {
      std::string result; // in pieces, because shown() shortens
      while (!part.empty()) {
        const std::size_t length = std::max<std::size_t>(utf8_length(part), 1);
        result += part[0] == '\t' ? " " : shown(part.substr(0, length));
        part.remove_prefix(length);
      }
      return result;
    };
    std::string line = clean(text_.substr(from, to - from));
    if (!line.empty() && to > from && text_[to - 1] == '\r') {
      line.pop_back();
    }
    return "\n    " + line + "\n    " + std::string(characters(text_.substr(from, at_ - from)), ' ') + "^";
  }

  std::string_view text_;
  std::size_t at_;
  bool in_string_;
  bool ended_ = false;
};

/// Receives the parser's events and builds the tree.
class Builder {
public:
  Builder(std::string_view text, std::string_view root) : text_(text), root_(root) {}

  bool null() { return put(nullptr) != nullptr; }
  bool boolean(bool value) { return put(value) != nullptr; }
  bool number_integer(Json::number_integer_t value) { return put(value) != nullptr; }
  bool number_unsigned(Json::number_unsigned_t value) { return put(value) != nullptr; }
  bool number_float(Json::number_float_t value, const std::string & /*text*/) {
    return put(value) != nullptr;
  }
  bool string(std::string &value) { return put(std::move(value)) != nullptr; }
  bool binary(Json::binary_t & /*value*/) { return false; } // JSON text has none
  bool start_object(std::size_t /*size*/) { return open(Json::object()); }
  bool start_array(std::size_t /*size*/) { return open(Json::array()); }
  bool end_object() { return close(); }
  bool end_array() { return close(); }

  bool key(std::string &value) {
    Level &level = open_.back();
    level.key = value;
    if (!level.seen.insert(value).second) {
      throw InvalidInput(path(), "the key is given twice; one of the two would be lost");
    }
    return true;
  }

  bool parse_error(std::size_t position, const std::string &token, const nlohmann::detail::exception &error) {
    constexpr int number_overflow = 406;
    if (error.id == number_overflow) {
      throw InvalidInput(path(), shown(token) + "; a finite number is needed");
    }
    // The position counts the characters read; the last of them is the one that did not fit. Of a text in
    // quotes that is the closing quote, and the token is the text: point to where it opens.
    std::size_t at = position > 0 ? position - 1 : 0;
    if (at < text_.size() && text_[at] == '"' && token.starts_with('"') && token.size() <= at + 1 &&
        text_.substr(at + 1 - token.size(), token.size()) == token) {
      at -= token.size() - 1;
    }
    const bool in_string = std::string_view(error.what()).find("invalid string") != std::string_view::npos;
    throw InvalidInput(root_, Place(text_, at, in_string).describe());
  }

  [[nodiscard]] Json take() { return std::move(tree_); }

private:
  struct Level {
    Json *node; // stays put: a container only grows while none of its children is open
    std::string key;
    std::set<std::string, std::less<>> seen;
  };

  Json *put(Json value) {
    if (open_.empty()) {
      tree_ = std::move(value);
      return &tree_;
    }
    Level &level = open_.back();
    if (level.node->is_array()) {
      level.node->push_back(std::move(value));
      return &level.node->back();
    }
    return &((*level.node)[level.key] = std::move(value));
  }

  bool open(Json container) {
    if (open_.size() >= deepest) {
      throw InvalidInput(root_, "brackets nested more than " + std::to_string(deepest) + " deep");
    }
    open_.push_back({put(std::move(container)), {}, {}});
    return true;
  }

  bool close() {
    open_.pop_back();
    return true;
  }

  [[nodiscard]] std::string path() const {
    std::string result;
    for (const Level &level : open_) {
      if (!level.node->is_array()) {
        append_key(result, level.key);
      } else {
        // While a child is open it is in the list already.
        append_index(result, level.node->size() - (&level == &open_.back() ? 0 : 1));
      }
    }
    return result.empty() ? root_ : result;
  }

  std::string_view text_;
  std::string root_;
  Json tree_;
  std::vector<Level> open_;
};

} // namespace

Json parse(std::string_view text, std::string_view root) {
  constexpr std::string_view byte_order_mark = "\xEF\xBB\xBF";
  if (text.starts_with(byte_order_mark)) {
    text.remove_prefix(byte_order_mark.size());
  }
  Builder builder(text, root);
  Json::sax_parse(text.begin(), text.end(), &builder);
  return builder.take();
}

} // namespace cook::json
