/// @file
/// Free-threaded builds of Python: what touches objects takes turns, as the interpreter's lock has it in
/// other builds.
#pragma once

#include <pybind11/pybind11.h>

namespace cook::python {

#ifdef Py_GIL_DISABLED

/// While one lives, no other thread has one. Given up by itself while its thread waits or is `Released`, as
/// the interpreter's lock would be.
class Turn {
public:
  Turn();
  Turn(const Turn &) = delete;
  Turn &operator=(const Turn &) = delete;
  ~Turn();

private:
  PyCriticalSection section_;
};

/// Has every function and property of the module run in its turn. Simulations run beside each other all the
/// same.
void take_turns(const pybind11::module_ &m);

#else

class Turn {
public:
  Turn() {} // NOLINT: not trivial, so that a Turn which only lives is no unused variable
  Turn(const Turn &) = delete;
  Turn &operator=(const Turn &) = delete;
  ~Turn() {} // NOLINT: as above
};

inline void take_turns(const pybind11::module_ &) {}

#endif

} // namespace cook::python
