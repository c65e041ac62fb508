/// @file
/// One field of a struct as Python reads and sets it.
#pragma once

#include <array>
#include <functional>
#include <optional>
#include <string>
#include <string_view>
#include <utility>

#include "cook/fields/field.hpp"
#include "cook/fields/parameters.hpp"

#include "calls/coerce.hpp"
#include "records/linked.hpp"

namespace cook::python {

/// What a docstring says of where a field's default comes from: its row in the table of defaults, by the
/// shortest name that ends with `field`; nothing where there is none.
inline std::string row_of_default(const std::string &field) {
  const std::string *found = nullptr;
  for (const Parameter &p : parameters()) {
    if ((p.name == field || p.name.ends_with("." + field)) && (!found || p.name.size() < found->size())) {
      found = &p.name;
    }
  }
  return found ? " Default's source and range: ``libcook.parameter(\"" + *found + "\")``." : std::string();
}

/// What a class tells of one of its fields, for the stub and for who asks what a number is measured in.
struct FieldTold {
  std::string gives; ///< type of what is handed out
  std::string takes; ///< type of what the constructor and the attribute take
  bool fixed;        ///< can be given to the constructor but not set afterwards
  Told told;
};

/// A sentence of words that begin small and end without a stop.
inline std::string sentence(std::string words) {
  words[0] = words[0] >= 'a' && words[0] <= 'z' ? static_cast<char>(words[0] - 'a' + 'A') : words[0];
  return words + ".";
}

/// The words of an enumeration in quotes: "none", "down" or "up".
template <std::size_t n> std::string listed(const std::array<std::string_view, n> &words) {
  std::string text;
  for (std::size_t i = 0; i < n; ++i) {
    text += (i == 0 ? "\"" : i + 1 == n ? " or \"" : ", \"") + std::string(words[i]) + "\"";
  }
  return text;
}

/// One field of C as an attribute. `get` gets the owner too: nested structs are handed out as references that
/// keep it alive.
template <class C> struct Attribute {
  std::string name;
  std::function<py::object(C &, py::handle)> get;
  std::function<void(C &, py::handle)> set;
  std::string gives; ///< type of what is handed out, as the stub has it
  std::string takes; ///< type of what it may be set to
  std::string doc{};
  Told told{};
  bool fixed = false;     ///< can be given to the constructor but not set afterwards
  bool goes_away = false; ///< what was handed out may be there no more once it is set
};

/// Sets a field of an object of Python's.
template <class C>
void set_field(const Attribute<C> &field, const py::object &self, const py::object &value) {
  // NOTE: reading a value may run code of the user's, which may take away what C is in. So what may go away
  // is looked up again afterwards.
  if (!may_be_linked<C> && !field.goes_away) {
    field.set(self.cast<C &>(), value);
    return;
  }
  C changed = self.cast<C &>();
  field.set(changed, value);
  if (field.goes_away) {
    let_go_of(self, field.name);
  }
  self.cast<C &>() = std::move(changed);
  (void)self.cast<C &>(); // a link keeps what it has just written
}

/// A struct of C that is always there. A reference to it, unless C itself may go away.
template <class C, class T>
std::function<py::object(C &, py::handle)> getter_of(const std::string &name, T C::*member) {
  if constexpr (may_be_linked<C>) {
    static_assert(may_be_linked<T>, "what lies in a struct that may go away may do so too");
    return [name, member](C &c, py::handle owner) -> py::object {
      const auto *held = held_by<C>(owner);
      if (!held || !held->linked()) {
        return py::cast(&(c.*member), py::return_value_policy::reference_internal, owner);
      }
      return make_link<T>(c.*member, owner, name, [owner, member] { return &(owner.cast<C &>().*member); });
    };
  } else {
    return [member](C &c, py::handle owner) {
      return py::cast(&(c.*member), py::return_value_policy::reference_internal, owner);
    };
  }
}

/// A struct of C or None: a link to it, or a copy, to be changed by giving a new one.
template <class C, class T>
std::function<py::object(C &, py::handle)> getter_of(const std::string &name, std::optional<T> C::*member) {
  if constexpr (!may_be_linked<T>) {
    return [member](C &c, py::handle) -> py::object { return py::cast(c.*member); };
  } else {
    return [name, member](C &c, py::handle owner) -> py::object {
      const auto &value = c.*member;
      return value ? make_link<T>(*value, owner, name,
                                  [owner, member]() -> T * {
                                    auto &now = owner.cast<C &>().*member;
                                    return now ? &*now : nullptr;
                                  })
                   : py::none();
    };
  }
}

} // namespace cook::python
