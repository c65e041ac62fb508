/// @file
/// The interpreter's end, and the threads that are in C++ then.
///
/// A thread that asks for the interpreter's lock once the interpreter has ended is killed by it, and with it,
/// being in C++, the process. So the end is awaited: what is under way is stopped, and a thread that would go
/// back to Python is held where it is, without the lock, until the process is gone.
#pragma once

#include <pybind11/pybind11.h>

namespace cook::python {

namespace py = pybind11;

/// Whether the interpreter is ending, so that what this thread does should stop. From any thread, with the
/// lock or without; false in the thread that ends it.
bool ending();

/// While one lives, this thread does without the interpreter's lock, and the interpreter's end waits for it.
class Released {
public:
  Released();
  Released(const Released &) = delete;
  Released &operator=(const Released &) = delete;
  /// Takes the lock again. Never returns where the interpreter is ending.
  ~Released();

private:
  PyThreadState *state_;
};

/// While one lives, C++ has called Python, which the interpreter's end waits for. Needs the lock; never
/// begins where the interpreter is ending.
class CallingPython {
public:
  CallingPython();
  CallingPython(const CallingPython &) = delete;
  CallingPython &operator=(const CallingPython &) = delete;
  ~CallingPython();
};

/// The same on a thread of C++'s own, which another thread waits for that is `Released`: it always begins,
/// and takes the lock itself.
class CallingFromWorker {
public:
  CallingFromWorker();
  CallingFromWorker(const CallingFromWorker &) = delete;
  CallingFromWorker &operator=(const CallingFromWorker &) = delete;
  ~CallingFromWorker();

private:
  py::gil_scoped_acquire held_;
};

/// Has the interpreter call what this file needs at its end, and after a fork.
void watch_for_the_end();

} // namespace cook::python
