/// @file
/// A C++ struct as a Python class: declared once, field by field; the constructor with keywords, attributes,
/// text form, comparison, copying and pickling follow from that list.
#pragma once

#include <functional>
#include <memory>
#include <optional>
#include <string>
#include <type_traits>
#include <utility>
#include <vector>

#include "records/record_field.hpp"

namespace cook::python {

/// Raised when a change to the fields makes pickles of older releases unreadable.
inline constexpr int pickle_version = 1;

// What Python calls has one of these types, whatever the struct: pybind11 then makes one wrapper a type, not
// one a struct, which is most of what the bindings take to compile.
using Reads = std::function<py::object(const py::object &)>;
using Sets = std::function<void(const py::object &, const py::object &)>;
using Pairs = std::function<py::object(const py::object &, const py::object &)>;
using Changes = std::function<py::object(const py::object &, const py::kwargs &)>;
using States = std::function<py::tuple(const py::object &)>;

template <class C> class Record {
public:
  /// @param field how messages call an object of this class, such as "stage"
  Record(py::module_ &m, const char *name, std::string field, std::string doc)
      : cls(m, name), fields_(std::make_shared<std::vector<Field<C>>>()), field_(std::move(field)),
        doc_(std::move(doc)) {}

  py::class_<C, std::conditional_t<may_be_linked<C>, Held<C>, std::unique_ptr<C>>> cls;

  Record &add(Field<C> field) {
    fields_->push_back(std::move(field));
    return *this;
  }

  /// A number with a unit; `kind` is a key of libcook.units.KINDS.
  Record &quantity(const char *name, double C::*member, const char *kind, const char *doc) {
    return simple(name, member, doc,
                  [kind](py::handle v, const std::string &f) { return read_quantity(v, kind, f); });
  }
  /// A plain number.
  Record &number(const char *name, double C::*member, const char *doc) {
    return simple(name, member, doc, read_number);
  }
  Record &count(const char *name, int C::*member, const char *doc) {
    return simple(name, member, doc, read_count);
  }
  Record &flag(const char *name, bool C::*member, const char *doc) {
    return simple(name, member, doc, read_flag);
  }
  Record &text(const char *name, std::string C::*member, const char *doc) {
    return simple(name, member, doc, read_text);
  }
  /// A quantity or None.
  Record &maybe(const char *name, std::optional<double> C::*member, const char *kind, const char *doc) {
    return simple(name, member, doc, [kind](py::handle v, const std::string &f) {
      return v.is_none() ? std::optional<double>{} : std::optional<double>{read_quantity(v, kind, f)};
    });
  }
  /// An enumeration, whose values are written as words, in the order of the enumerators.
  template <class E>
  Record &choice(const char *name, E C::*member, std::vector<std::string> words, const char *doc) {
    const std::string field = field_ + "." + name;
    return add(
        {name,
         [member, words](C &c, py::handle) { return py::cast(words[static_cast<std::size_t>(c.*member)]); },
         [member, words, field](C &c, py::handle v) {
           const std::string word = read_choice(v, py::tuple(py::cast(words)), field);
           for (std::size_t i = 0; i < words.size(); ++i) {
             if (words[i] == word) {
               c.*member = static_cast<E>(i);
             }
           }
         },
         doc});
  }
  /// A nested struct, handed out as a reference: `plan.meat.start = 5` changes the plan. With `reader`, a
  /// function of libcook._coerce, other ways of writing it are taken too.
  template <class T>
  Record &nested(const char *name, T C::*member, const char *doc, const char *reader = nullptr) {
    return add({name, getter_of(name, member),
                [member, take = taker<T>(name, reader)](C &c, py::handle v) { c.*member = take(v); }, doc});
  }
  /// A nested struct or None, handed out as a link: see linked.hpp.
  template <class T>
  Record &nested(const char *name, std::optional<T> C::*member, const char *doc,
                 const char *reader = nullptr) {
    return add({.name = name,
                .get = getter_of(name, member),
                .set =
                    [member, take = taker<T>(name, reader)](C &c, py::handle v) {
                      c.*member = v.is_none() ? std::optional<T>{} : std::optional<T>{take(v)};
                    },
                .doc = doc,
                .goes_away = true});
  }

  /// A struct or None, handed out as a copy: change it by giving a new one.
  template <class T>
  Record &copied(const char *name, std::optional<T> C::*member, const char *doc,
                 const char *reader = nullptr) {
    return add({name, [member](C &c, py::handle) -> py::object { return py::cast(c.*member); },
                [member, take = taker<T>(name, reader)](C &c, py::handle v) {
                  c.*member = v.is_none() ? std::optional<T>{} : std::optional<T>{take(v)};
                },
                doc});
  }

  /// Makes the class. `check` runs on what the constructor and replace() have made; `form`, a function of
  /// libcook._coerce that takes the object, writes it where the short form does not do.
  void finish(std::function<void(const C &)> check = {}, const char *form = "short_form_of") {
    const auto fields = fields_;
    const auto fill = [fields](C &c, const py::args &positional, const py::kwargs &named) {
      py::list names;
      for (const auto &field : *fields) {
        names.append(field.name);
      }
      const py::str what = py::type::of<C>().attr("__name__");
      const py::dict given = coerce("fields", what, names, positional, named);
      for (const auto &field : *fields) {
        if (given.contains(field.name.c_str())) {
          field.set(c, given[field.name.c_str()]);
        }
      }
    };
    cls.def(py::init([fill, check](const py::args &positional, const py::kwargs &named) {
      C c{};
      fill(c, positional, named);
      if (check) {
        check(c);
      }
      return c;
    }));
    std::string doc = doc_ + "\n\nParameters\n----------\n";
    for (auto &field : *fields) {
      field.doc += row_of_default(field_ + "." + field.name);
      doc += field.doc.find('\n') == std::string::npos ? field.name + "\n    " + field.doc + "\n" : field.doc;
      const Reads get = [get = field.get](const py::object &self) { return get(self.cast<C &>(), self); };
      if (field.fixed) {
        cls.def_property_readonly(field.name.c_str(), get, field.doc.c_str());
      } else {
        cls.def_property(field.name.c_str(), get, Sets([field](const py::object &self, const py::object &v) {
                           set_field(field, self, v);
                         }),
                         field.doc.c_str());
      }
    }
    cls.attr("__doc__") = doc;
    cls.def("replace", Changes([fill, check](const py::object &self, const py::kwargs &changes) {
              C copy = self.cast<const C &>();
              fill(copy, py::args(), changes);
              if (check) {
                check(copy);
              }
              return py::cast(std::move(copy));
            }),
            "Return a copy with some fields changed.");
    cls.def("__copy__", Reads([](const py::object &self) { return py::cast(self.cast<const C &>()); }));
    cls.def("__deepcopy__", Pairs([](const py::object &self, const py::object &) {
              return py::cast(self.cast<const C &>());
            }),
            py::arg("memo"));
    cls.def(py::pickle(States([fields](const py::object &self) {
                         py::dict state;
                         for (const auto &field : *fields) {
                           state[field.name.c_str()] = field.get(self.cast<C &>(), self);
                         }
                         return py::make_tuple(pickle_version, state);
                       }),
                       [fill](const py::tuple &state) {
                         C c{};
                         fill(c, py::args(), py::kwargs(coerce("state", state, pickle_version)));
                         return c;
                       }));
    cls.def("__eq__", Pairs([fields](const py::object &self, const py::object &other) -> py::object {
              if (!py::isinstance<C>(other)) {
                return py::reinterpret_borrow<py::object>(Py_NotImplemented);
              }
              for (const auto &field : *fields) {
                if (!field.get(self.cast<C &>(), self).equal(field.get(other.cast<C &>(), other))) {
                  return py::bool_(false);
                }
              }
              return py::bool_(true);
            }));
    py::list names;
    for (const auto &field : *fields) {
      names.append(field.name);
    }
    cls.attr("_fields") = py::tuple(names);
    cls.def("__repr__", Reads([form](const py::object &self) { return coerce(form, self); }));
  }

private:
  template <class T, class Read> Record &simple(const char *name, T C::*member, const char *doc, Read read) {
    return add(
        {name, [member](C &c, py::handle) { return py::cast(c.*member); },
         [member, read, field = field_ + "." + name](C &c, py::handle v) { c.*member = read(v, field); },
         doc});
  }

  template <class T> std::function<T(py::handle)> taker(const char *name, const char *reader) {
    return [reader, field = field_ + "." + name](py::handle v) -> T {
      if (py::isinstance<T>(v)) {
        return v.cast<T>();
      }
      const py::object value = reader ? coerce(reader, v, field) : py::reinterpret_borrow<py::object>(v);
      if (!py::isinstance<T>(value)) {
        refuse_type(value, py::type::of<T>().attr("__name__").template cast<std::string>(), field);
      }
      return value.cast<T>();
    };
  }

  std::shared_ptr<std::vector<Field<C>>> fields_;
  std::string field_;
  std::string doc_;
};

} // namespace cook::python
