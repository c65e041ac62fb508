#include "records/linked.hpp"

#include <map>
#include <utility>

#include "calls/turns.hpp"

namespace cook::python {

namespace {

using Key = std::pair<const void *, std::string>;

/// NOTE: never destroyed: objects of Python outlive the statics of this file.
std::multimap<Key, Link *> &links() {
  static auto *all = new std::multimap<Key, Link *>;
  return *all;
}

} // namespace

void remember_link(const void *owner, const std::string &field, Link *link) {
  const Turn turn;
  links().emplace(Key{owner, field}, link);
}

void forget_link(const void *owner, const std::string &field, Link *link) {
  const Turn turn;
  const auto [first, last] = links().equal_range({owner, field});
  for (auto at = first; at != last; ++at) {
    if (at->second == link) {
      links().erase(at);
      return;
    }
  }
}

void let_go_of(py::handle owner, const std::string &field) {
  const Turn turn;
  const auto [first, last] = links().equal_range({owner.ptr(), field});
  for (auto at = first; at != last; ++at) {
    at->second->let_go();
  }
}

} // namespace cook::python
