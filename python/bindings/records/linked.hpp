/// @file
/// Structs that may go away while Python still names them: those inside optionals, and what lies in these.
///
/// `pan = pit.pit_air.pan` names a struct inside an optional inside an optional. Python gets an object of its
/// own with a link to that place: it reads and writes there as long as there is something, and keeps what it
/// last saw once the optional holds another value, or none. No address is kept from one use to the next.
#pragma once

#include <functional>
#include <memory>
#include <string>
#include <utility>

#include <pybind11/pybind11.h>

#include "cook/cooker/pit_air.hpp"
#include "cook/plan/plan.hpp"

namespace cook::python {

namespace py = pybind11;

/// Whether objects of this class may be links. True for what a `Record` holds in an optional, and for the
/// structs in it; a struct in an optional that is not named here is handed out as a copy.
template <class T> inline constexpr bool may_be_linked = false;
template <> inline constexpr bool may_be_linked<Box> = true;
template <> inline constexpr bool may_be_linked<PitAir> = true;
template <> inline constexpr bool may_be_linked<WaterPan> = true;
template <> inline constexpr bool may_be_linked<Film> = true;
template <> inline constexpr bool may_be_linked<Spritz> = true;
template <> inline constexpr bool may_be_linked<FixedThermal> = true;
template <> inline constexpr bool may_be_linked<Covering> = true;

/// A link as its owner's field knows it.
class Link {
public:
  Link() = default;
  Link(const Link &) = delete;
  Link &operator=(const Link &) = delete;
  virtual ~Link() = default;
  /// Keeps what is there now, and looks no more.
  virtual void let_go() = 0;
};

/// All links there are, by who owns the place and which of its fields it is.
void remember_link(const void *owner, const std::string &field, Link *link);
void forget_link(const void *owner, const std::string &field, Link *link);
/// Before a field gets another value: what was handed out of it keeps the old one.
void let_go_of(py::handle owner, const std::string &field);

/// What an object of a class that may be linked owns: its struct, and where to look for a newer one.
template <class T> class Held {
public:
  explicit Held(T *own) : own_(own) {}

  [[nodiscard]] T *get() const { return own_.get(); }
  [[nodiscard]] bool linked() const { return place_ != nullptr; }

  /// @param live finds the struct in its owner; null: it is not there any more
  void link(const py::object &owner, std::string field, std::function<T *()> live) {
    place_ = std::make_unique<Place>(*own_, owner, std::move(field), std::move(live));
  }

  /// The struct to read or write now; also takes a copy of it.
  [[nodiscard]] T *now() {
    T *there = place_ ? place_->now() : nullptr;
    return there ? there : own_.get();
  }

private:
  class Place : public Link {
  public:
    Place(T &own, py::object owner, std::string field, std::function<T *()> live)
        : own_(&own), owner_(std::move(owner)), field_(std::move(field)), live_(std::move(live)) {
      remember_link(owner_.ptr(), field_, this);
    }
    ~Place() override { forget_link(owner_.ptr(), field_, this); }
    void let_go() override {
      now();
      live_ = nullptr;
    }
    T *now() {
      T *there = live_ ? live_() : nullptr;
      if (there) {
        *own_ = *there;
      }
      return there;
    }

  private:
    T *own_;
    py::object owner_; ///< kept alive
    std::string field_;
    std::function<T *()> live_;
  };

  std::unique_ptr<T> own_;
  std::unique_ptr<Place> place_;
};

/// What the object holds; null where it only refers to a struct in its owner, which cannot go away.
template <class T> Held<T> *held_by(py::handle object) {
  auto *instance = reinterpret_cast<py::detail::instance *>(object.ptr());
  auto found = instance->get_value_and_holder(py::detail::get_type_info(typeid(T)));
  return found.holder_constructed() ? &found.template holder<Held<T>>() : nullptr;
}

/// A new object that stands for `value`, found by `live` in a field of `owner`.
template <class T>
py::object make_link(const T &value, py::handle owner, const std::string &field, std::function<T *()> live) {
  py::object made = py::cast(value, py::return_value_policy::copy);
  held_by<T>(made)->link(py::reinterpret_borrow<py::object>(owner), field, std::move(live));
  return made;
}

} // namespace cook::python

PYBIND11_DECLARE_HOLDER_TYPE(T, cook::python::Held<T>)

namespace pybind11::detail {

/// Every way from Python to such a struct, an attribute or an argument, leads to where it is now.
template <class T>
class type_caster<T, std::enable_if_t<cook::python::may_be_linked<T>>> : public type_caster_base<T> {
public:
  bool load(handle source, bool convert) {
    if (!type_caster_base<T>::load(source, convert)) {
      return false;
    }
    if (this->value) { // null for None
      if (auto *held = cook::python::held_by<T>(source)) {
        this->value = held->now();
      }
    }
    return true;
  }
};

} // namespace pybind11::detail
