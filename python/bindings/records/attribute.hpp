/// @file
/// The attributes of a Python class, by the types of the members.
#pragma once

#include <functional>
#include <optional>
#include <string>
#include <string_view>
#include <type_traits>
#include <vector>

#include "cook/plan/words.hpp"

#include "records/record_field.hpp"

namespace cook::python {

/// How a field is read that can be written in more ways than its type says.
struct ReadBy {
  std::string_view field;
  const char *function;         ///< of libcook._coerce: takes what came and the field's name
  const char *takes;            ///< types that it takes, as the stub has them
  const char *called = nullptr; ///< the name that it is given, where that is not the usual one
};

/// Makes attributes of C's fields.
template <class C> class AttributeMaker {
public:
  /// @param of how messages call an object of this class, such as "stage"
  explicit AttributeMaker(std::string of) : field_(std::move(of)) {}

  template <class T> Attribute<C> attribute(const cook::Field<C, T> &one, const ReadBy &reader) const {
    const std::string name(one.called.empty() ? one.name : one.called);
    std::string doc = words_and_unit(one);
    Attribute<C> made = attribute_of(name, one.member, one, reader);
    if constexpr (std::is_enum_v<T>) {
      doc += " (" + listed(words(T{})) + ")";
    }
    made.doc = sentence(doc) + (made.gives.ends_with("None") ? " May be None." : "");
    made.told = one;
    return made;
  }

private:
  // By type of the member.

  Attribute<C> attribute_of(const std::string &name, double C::*member, const Told &told,
                            const ReadBy &) const {
    return told.kind.written ? simple(name, member, "float", "Quantity",
                                      [kind = told.kind.name.data()](py::handle v, const std::string &f) {
                                        return read_quantity(v, kind, f);
                                      })
                             : simple(name, member, "float", "float", read_number);
  }
  Attribute<C> attribute_of(const std::string &name, std::optional<double> C::*member, const Told &told,
                            const ReadBy &) const {
    const bool clock = told.kind == kind::clock;
    return simple(name, member, "float | None",
                  clock ? "float | str | dt.time | dt.datetime | None" : "Quantity | None",
                  [kind = told.kind.name.data()](py::handle v, const std::string &f) {
                    return v.is_none() ? std::optional<double>{}
                                       : std::optional<double>{read_quantity(v, kind, f)};
                  });
  }
  Attribute<C> attribute_of(const std::string &name, int C::*member, const Told &, const ReadBy &) const {
    return simple(name, member, "int", "int", read_count);
  }
  Attribute<C> attribute_of(const std::string &name, bool C::*member, const Told &, const ReadBy &) const {
    return simple(name, member, "bool", "bool", read_flag);
  }
  Attribute<C> attribute_of(const std::string &name, std::string C::*member, const Told &,
                            const ReadBy &) const {
    return simple(name, member, "str", "str", read_text);
  }
  Attribute<C> attribute_of(const std::string &name, Signal C::*member, const Told &told,
                            const ReadBy &) const {
    return simple(name, member, "Signal", "Any",
                  [kind = told.kind.name.data()](py::handle v, const std::string &f) {
                    return read_signal(v, kind, f);
                  });
  }
  Attribute<C> attribute_of(const std::string &name, std::optional<Signal> C::*member, const Told &told,
                            const ReadBy &) const {
    return simple(name, member, "Signal | None", "Any",
                  [kind = told.kind.name.data()](py::handle v, const std::string &f) {
                    return v.is_none() ? std::optional<Signal>{}
                                       : std::optional<Signal>{read_signal(v, kind, f)};
                  });
  }
  /// An enumeration, whose values are written as words.
  template <class E>
  requires std::is_enum_v<E> Attribute<C> attribute_of(const std::string &name, E C::*member, const Told &,
                                                       const ReadBy &)
  const {
    return {.name = name,
            .get = [member](C &c, py::handle) -> py::object {
              return py::str(std::string(words(E{}).at(static_cast<std::size_t>(c.*member))));
            },
            .set = [member, field = field_ + "." + name](
                       C &c, py::handle v) { c.*member = static_cast<E>(read_word(v, words(E{}), field)); },
            .gives = "str",
            .takes = "str"};
  }
  /// A list, handed out as a tuple of copies.
  template <class T>
  Attribute<C> attribute_of(const std::string &name, std::vector<T> C::*member, const Told &,
                            const ReadBy &reader) const {
    return {.name = name,
            .get = [member](C &c, py::handle) -> py::object { return py::tuple(py::cast(c.*member)); },
            .set =
                [member, function = reader.function,
                 field = reader.called ? reader.called : field_ + "." + name](C &c, py::handle v) {
                  c.*member = coerce(function, v, field).template cast<std::vector<T>>();
                },
            .gives = "tuple[" + type_of<T>() + ", ...]",
            .takes = reader.takes};
  }
  /// A nested struct, handed out as a reference: `plan.meat.start = 5` changes the plan.
  template <class T>
  requires Listed<T> Attribute<C> attribute_of(const std::string &name, T C::*member, const Told &,
                                               const ReadBy &reader)
  const {
    return {
        .name = name,
        .get = getter_of(name, member),
        .set = [member, take = taker<T>(name, reader.function)](C &c, py::handle v) { c.*member = take(v); },
        .gives = type_of<T>(),
        .takes = reader.takes ? reader.takes : type_of<T>()};
  }
  /// A nested struct or None, handed out as a link (linked.hpp) or, where that may not be, as a copy.
  template <class T>
  requires Listed<T> Attribute<C> attribute_of(const std::string &name, std::optional<T> C::*member,
                                               const Told &, const ReadBy &reader)
  const {
    return {.name = name,
            .get = getter_of(name, member),
            .set =
                [member, take = taker<T>(name, reader.function)](C &c, py::handle v) {
                  c.*member = v.is_none() ? std::optional<T>{} : std::optional<T>{take(v)};
                },
            .gives = type_of<T>() + " | None",
            .takes = (reader.takes ? reader.takes : type_of<T>()) + " | None",
            .goes_away = may_be_linked<T>};
  }

  template <class T, class Read>
  Attribute<C> simple(const std::string &name, T C::*member, const char *gives, const char *takes,
                      Read read) const {
    return {.name = name,
            .get = [member](C &c, py::handle) -> py::object { return py::cast(c.*member); },
            .set = [member, read, field = field_ + "." + name](C &c,
                                                               py::handle v) { c.*member = read(v, field); },
            .gives = gives,
            .takes = takes};
  }

  template <class T> std::function<T(py::handle)> taker(const std::string &name, const char *reader) const {
    return [reader, field = field_ + "." + name](py::handle v) -> T {
      if (py::isinstance<T>(v)) {
        return v.cast<T>();
      }
      const py::object value = reader ? coerce(reader, v, field) : py::reinterpret_borrow<py::object>(v);
      if (!py::isinstance<T>(value)) {
        refuse_type(value, type_of<T>(), field);
      }
      return value.cast<T>();
    };
  }

  template <class T> static std::string type_of() {
    if constexpr (std::is_same_v<T, double>) {
      return "float";
    } else {
      return std::string(about<T>.python);
    }
  }

  std::string field_;
};

} // namespace cook::python
