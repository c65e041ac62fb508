#include "cook/cooker/wrap.hpp"

#include "cook/cooker/cooker_fields.hpp"
#include "cook/errors.hpp"
#include "cooker/known_wraps.hpp"
#include "fields/check.hpp"

namespace cook {

void Wrap::validate(const std::string &field) const { check::members(field + ".", *this); }

const std::vector<std::string> &wrap_names() {
  static const std::vector<std::string> names = [] {
    std::vector<std::string> list;
    for (const KnownWrap &one : known_wraps()) {
      list.emplace_back(one.name);
    }
    return list;
  }();
  return names;
}

Wrap wrap(const std::string &name) {
  for (const KnownWrap &one : known_wraps()) {
    if (one.name == name) {
      Wrap made{.name = name, .bottom = one.bottom.covering(), .top = one.top.covering()};
      if (one.ends_as_bottom) {
        made.ends = made.bottom;
      }
      return made;
    }
  }
  std::string known;
  std::string meant;
  for (const std::string &candidate : wrap_names()) {
    known += (known.empty() ? "" : ", ") + candidate;
    if (meant.empty() && name.size() > 2 && candidate.find(name) != std::string::npos) {
      meant = "; did you mean '" + candidate + "'?";
    }
  }
  throw InvalidInput("wrap", in_quotes(name) + " is not a known wrap; known: " + known + meant);
}

} // namespace cook
