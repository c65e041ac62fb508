/// @file
/// A C++ struct as a Python class: the constructor with keywords, attributes, text form, comparison, copying
/// and pickling follow from the list of its fields (cook/fields/field.hpp).
#pragma once

#include <algorithm>
#include <functional>
#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <type_traits>
#include <utility>
#include <vector>

#include "records/attribute.hpp"

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

/// A class with the fields of C's list, in that order.
template <class C> class Record {
public:
  explicit Record(py::module_ &m, const std::vector<ReadBy> &readers = {})
      : cls(m, std::string(about<C>.python).c_str()), fields_(std::make_shared<std::vector<Attribute<C>>>()),
        field_(about<C>.name), types_(m.attr("FIELDS")) {
    const AttributeMaker<C> maker(field_);
    for_each_field<C>([&](const auto &one) {
      ReadBy reader{};
      for (const ReadBy &each : readers) {
        reader = each.field == one.name ? each : reader;
      }
      fields_->push_back(maker.attribute(one, reader));
    });
  }

  py::class_<C, std::conditional_t<may_be_linked<C>, Held<C>, std::unique_ptr<C>>> cls;

  /// A field, to be handed out or set otherwise than its type says.
  Attribute<C> &of(std::string_view name) {
    return *std::find_if(fields_->begin(), fields_->end(), [&](const auto &f) { return f.name == name; });
  }
  /// Puts a field before another one: the order of the constructor's arguments.
  Record &before(std::string_view name, std::string_view other) {
    const Attribute<C> moved = of(name);
    fields_->erase(fields_->begin() + (&of(name) - fields_->data()));
    fields_->insert(fields_->begin() + (&of(other) - fields_->data()), moved);
    return *this;
  }
  /// Objects of this class do not change once made.
  Record &fixed() {
    for (Attribute<C> &field : *fields_) {
      field.fixed = true;
    }
    return *this;
  }

  /// Makes the class. `check` runs on what the constructor and replace() have made; `form`, a function of
  /// libcook.words.forms that takes the object, writes it where the short form does not do.
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
    std::string doc = sentence(std::string(about<C>.words)) + "\n\nParameters\n----------\n";
    py::dict types;
    for (auto &field : *fields) {
      types[field.name.c_str()] = FieldTold{field.gives, field.takes, field.fixed, field.told};
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
              C copy = of(self);
              fill(copy, py::args(), changes);
              if (check) {
                check(copy);
              }
              return py::cast(std::move(copy));
            }),
            "Return a copy with some fields changed.");
    cls.def("__copy__", Reads([](const py::object &self) { return copy_of(self); }));
    cls.def("__deepcopy__", Pairs([](const py::object &self, const py::object &) { return copy_of(self); }),
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
    types_[cls.attr("__name__")] = types;
    cls.def("__repr__", Reads(written_by("forms", form)));
  }

private:
  /// What a method was called on, which is of another class where it was called by its class.
  static const C &of(const py::object &self) {
    if (!py::isinstance<C>(self)) {
      throw py::type_error("a " + std::string(about<C>.python) + " is needed");
    }
    return self.cast<const C &>();
  }
  // NOTE: of a C that Python holds already, py::cast() of a reference gives that very object.
  static py::object copy_of(const py::object &self) {
    C copy = of(self);
    return py::cast(std::move(copy));
  }
  std::shared_ptr<std::vector<Attribute<C>>> fields_;
  std::string field_;
  py::dict types_;
};

} // namespace cook::python
