#include "cook/errors.hpp"

#include "cook/outcome.hpp"

#include "coerce.hpp"
#include "failures.hpp"
#include "module.hpp"

namespace cook::python {

namespace {

/// Raises a class of libcook.errors; `extra` is the keyword argument that it takes beside the message.
void raise(const char *name, const char *message, const char *extra, const py::object &value) {
  const py::object cls = py::module_::import("libcook.errors").attr(name);
  py::dict named;
  named[extra] = value;
  const py::object error = cls(message, **named);
  PyErr_SetObject(cls.ptr(), error.ptr());
}

py::object shared(const SolverFailure &failure) {
  // NOTE: Python has no const; the class of outcomes has no way to change one.
  return py::cast(std::const_pointer_cast<Outcome>(failure.outcome()));
}

} // namespace

py::object as_python_error(const std::exception_ptr &failure) {
  try {
    py::cpp_function([failure] { std::rethrow_exception(failure); })();
  } catch (const py::error_already_set &error) {
    return error.value();
  }
  throw py::type_error("a failure that is none"); // never: the function above throws
}

void bind_errors(py::module_ &m) {
  m.def("format_degrees", &format_degrees, py::arg("celsius"), "Both scales as messages print them.");
  py::register_local_exception_translator([](std::exception_ptr pointer) {
    try {
      std::rethrow_exception(std::move(pointer));
    } catch (const InvalidInput &error) {
      raise("InvalidInput", error.what(), "field", py::str(error.field()));
    } catch (const Unreachable &error) {
      raise("Unreachable", error.what(), "outcome", shared(error));
    } catch (const SolverFailure &error) {
      raise("SolverFailure", error.what(), "outcome", shared(error));
    }
  });
}

} // namespace cook::python
