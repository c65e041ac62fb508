/// @file
/// Long calls: the interpreter is free for other threads meanwhile; a signal such as Ctrl-C ends them, and so
/// does the interpreter's end.
#pragma once

#include <chrono>
#include <functional>
#include <memory>
#include <optional>
#include <utility>

#include <pybind11/pybind11.h>

#include "cook/errors.hpp"
#include "cook/plan/outcome.hpp"

#include "calls/ending.hpp"

namespace cook::python {

/// What a signal handler, or a callback, has raised during a long call. Kept until the call has closed its
/// books, then raised.
class Raised {
public:
  /// Whether the call should stop. From one thread, the calling one, without the interpreter's lock; as often
  /// as one likes.
  bool stop() {
    if (error_ || ending()) {
      return true;
    }
    // Asking costs the lock, which another thread may hold for some milliseconds.
    constexpr std::chrono::milliseconds apart{40};
    const auto now = std::chrono::steady_clock::now();
    if (now - asked_ < apart) {
      return false;
    }
    asked_ = now;
    const py::gil_scoped_acquire held;
    if (PyErr_CheckSignals() == 0) {
      return false;
    }
    error_.emplace();
    return true;
  }

  /// With the lock: raises what was kept, if anything was. @param outcome computed so far
  void raise(const std::shared_ptr<const Outcome> &outcome = nullptr) {
    if (!error_) {
      return;
    }
    if (outcome && !outcome->time.empty()) {
      const py::object error = error_->value();
      // NOTE: Python has no const; the class of outcomes has no way to change one.
      error.attr("outcome") = py::cast(std::const_pointer_cast<Outcome>(outcome));
    }
    throw py::error_already_set(std::move(*error_));
  }

private:
  std::optional<py::error_already_set> error_;
  std::chrono::steady_clock::time_point asked_ = std::chrono::steady_clock::now();
};

/// Calls `work(interrupted)` without the interpreter's lock. `interrupted` goes into the options of the call:
/// true once a signal handler has raised, whose error is raised here, with the outcome so far.
/// NOTE: `work` touches no Python object, and works on copies: another thread may change the caller's
/// meanwhile.
template <class Work> auto long_call(Work work) {
  Raised raised;
  const std::function<bool()> interrupted = [&raised] { return raised.stop(); };
  try {
    auto made = [&] {
      const Released released;
      return work(interrupted);
    }();
    raised.raise();
    return made;
  } catch (const SolverFailure &stop) {
    raised.raise(stop.outcome());
    throw;
  } catch (const Error &) {
    raised.raise();
    throw;
  }
}

} // namespace cook::python
