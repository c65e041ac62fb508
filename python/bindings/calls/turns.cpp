#include "calls/turns.hpp"

#ifdef Py_GIL_DISABLED

#include <unordered_map>

namespace cook::python {

namespace py = pybind11;
using py::detail::function_call;
using py::detail::function_record;

namespace {

/// What the turns are about. NOTE: never destroyed: calls may come until the process is gone.
PyObject *token() {
  static PyObject *one = PyList_New(0);
  return one;
}

using Implementation = py::handle (*)(function_call &);

/// Written while the module is made, and only read from then on.
std::unordered_map<const function_record *, Implementation> &implementations() {
  static auto *all = new std::unordered_map<const function_record *, Implementation>;
  return *all;
}

/// Reading the arguments counts too: it copies what is given by value.
py::handle in_turn(function_call &call) {
  const Turn turn;
  return implementations().at(&call.func)(call);
}

void guard(py::handle function) {
  function = py::detail::get_function(function);
  if (!function || !PyCFunction_Check(function.ptr())) {
    return;
  }
  PyObject *self = PyCFunction_GET_SELF(function.ptr());
  if (!self || !py::detail::is_function_record_PyObject(self)) {
    return;
  }
  for (auto *record = py::detail::function_record_ptr_from_PyObject(self); record; record = record->next) {
    if (record->impl != in_turn) {
      implementations().emplace(record, record->impl);
      record->impl = in_turn;
    }
  }
}

void guard_all(const py::dict &things) {
  for (const auto &[name, thing] : things) {
    guard(thing);
    for (const char *part : {"fget", "fset", "__func__"}) {
      if (!py::isinstance<py::type>(thing) && py::hasattr(thing, part)) {
        guard(thing.attr(part));
      }
    }
  }
}

} // namespace

Turn::Turn() { PyCriticalSection_Begin(&section_, token()); }
Turn::~Turn() { PyCriticalSection_End(&section_); }

void take_turns(const py::module_ &m) {
  const auto things = m.attr("__dict__").cast<py::dict>();
  guard_all(things);
  for (const auto &[name, thing] : things) {
    if (py::isinstance<py::type>(thing)) {
      guard_all(py::dict(thing.attr("__dict__")));
    }
  }
}

} // namespace cook::python

#endif
