/// @file
/// Long calls: the interpreter is free for other threads meanwhile, and a signal such as Ctrl-C ends them.
#pragma once

#include <functional>
#include <memory>
#include <optional>
#include <utility>

#include <pybind11/pybind11.h>

#include "cook/errors.hpp"
#include "cook/outcome.hpp"

namespace cook::python {

namespace py = pybind11;

/// Calls `work(interrupted)` without the interpreter's lock. `interrupted` goes into the options of the call;
/// it returns true once a signal handler has raised, and that error is raised here, with the outcome so far.
/// NOTE: `work` touches no Python object, and works on copies: another thread may change the caller's
/// meanwhile.
template <class Work> auto interruptible(Work work) {
  std::optional<py::error_already_set> raised;
  // NOTE: the engine asks now and then from inside the released section. A signal handler may raise anything;
  // the error is kept and raised again once the engine has closed its books.
  const std::function<bool()> interrupted = [&raised] {
    const py::gil_scoped_acquire held;
    if (PyErr_CheckSignals() == 0) {
      return false;
    }
    raised.emplace();
    return true;
  };
  try {
    const py::gil_scoped_release released;
    return work(interrupted);
  } catch (const Interrupted &stop) {
    if (!raised) {
      throw;
    }
    py::object error = raised->value();
    error.attr("outcome") = py::cast(std::const_pointer_cast<Outcome>(stop.outcome()));
    throw py::error_already_set(std::move(*raised));
  }
}

} // namespace cook::python
