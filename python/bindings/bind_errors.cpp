#include "cook/errors.hpp"

#include "cook/plan/outcome.hpp"

#include "calls/ending.hpp"
#include "calls/failures.hpp"
#include "module.hpp"

namespace cook::python {

namespace {

/// An object of a class of libcook.errors; `extra` is the keyword argument that it takes beside the message.
py::object make(const char *name, const char *message, const char *extra, const py::object &value) {
  const CallingPython calling;
  py::dict named;
  named[extra] = value;
  return py::module_::import("libcook.errors").attr(name)(message, **named);
}

/// What was computed, or None where nothing was.
py::object shared(const SolverFailure &failure) {
  if (!failure.outcome() || failure.outcome()->time.empty()) {
    return py::none();
  }
  // NOTE: Python has no const; the class of outcomes has no way to change one.
  return py::cast(std::const_pointer_cast<Outcome>(failure.outcome()));
}

/// The object of one of the library's exceptions; rethrows all others.
py::object object_of(const std::exception_ptr &failure) {
  try {
    std::rethrow_exception(failure);
  } catch (const InvalidInput &error) {
    return make("InvalidInput", error.what(), "field", py::str(error.field()));
  } catch (const Unreachable &error) {
    return make("Unreachable", error.what(), "outcome", shared(error));
  } catch (const SolverFailure &error) {
    return make("SolverFailure", error.what(), "outcome", shared(error));
  }
}

py::error_already_set error_of(const py::object &error) {
  PyErr_SetObject(py::type::of(error).ptr(), error.ptr());
  return {};
}

} // namespace

py::object as_python_error(const std::exception_ptr &failure) {
  try {
    return object_of(failure);
  } catch (const py::error_already_set &) { // a signal's
    throw;
  } catch (const std::exception &error) {
    return py::reinterpret_borrow<py::object>(PyExc_RuntimeError)(error.what());
  }
}

py::error_already_set as_python_exception(const std::exception_ptr &failure) {
  try {
    try {
      std::rethrow_exception(failure);
    } catch (py::error_already_set &) {
      throw;
    } catch (...) {
      return error_of(as_python_error(failure));
    }
  } catch (py::error_already_set &error) {
    return std::move(error);
  }
}

void bind_errors(py::module_ &m) {
  m.def("format_degrees", &format_degrees, py::arg("celsius"), "Both scales as messages print them.");
  m.def("format_duration", &format_duration, py::arg("seconds"), "As \"7 h 40 min\".");
  py::register_local_exception_translator([](std::exception_ptr failure) {
    const py::object error = object_of(failure);
    PyErr_SetObject(py::type::of(error).ptr(), error.ptr());
  });
}

} // namespace cook::python
