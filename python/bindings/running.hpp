/// @file
/// Long work with the interpreter free for other threads, stopped by Ctrl-C.
#pragma once

#include <optional>
#include <utility>

#include "cook/errors.hpp"
#include "cook/simulate.hpp"

#include "coerce.hpp"

namespace cook::python {

/// Runs `work`, whose simulations take `options`.
/// NOTE: the engine asks now and then from inside the released section. A signal handler may raise anything;
/// the error is kept and raised again once the engine has stopped.
template <class Work> auto interruptible(Options &options, Work work) {
  std::optional<py::error_already_set> raised;
  options.interrupted = [&raised] {
    const py::gil_scoped_acquire held;
    if (PyErr_CheckSignals() == 0) {
      return false;
    }
    raised.emplace();
    return true;
  };
  try {
    const py::gil_scoped_release released;
    return work();
  } catch (const Interrupted &) {
    if (!raised) {
      throw;
    }
    throw py::error_already_set(std::move(*raised));
  }
}

} // namespace cook::python
