/// @file
/// Owners of SUNDIALS' objects.
#pragma once

#include <memory>
#include <stdexcept>
#include <string>

#include <cvode/cvode.h>
#include <nvector/nvector_serial.h>
#include <sundials/sundials_linearsolver.h>
#include <sundials/sundials_matrix.h>

namespace cook::contenders {

class Context {
public:
  Context() {
    if (SUNContext_Create(nullptr, &context_) != 0) {
      throw std::runtime_error("SUNDIALS: no context could be made");
    }
  }
  ~Context() { SUNContext_Free(&context_); }
  Context(const Context &) = delete;
  Context &operator=(const Context &) = delete;
  Context(Context &&) = delete;
  Context &operator=(Context &&) = delete;
  [[nodiscard]] SUNContext get() const { return context_; }

private:
  SUNContext context_ = nullptr;
};

struct Free {
  void operator()(N_Vector v) const { N_VDestroy(v); }
  void operator()(SUNMatrix m) const { SUNMatDestroy(m); }
  void operator()(SUNLinearSolver s) const { SUNLinSolFree(s); }
};
struct FreeIntegrator {
  void operator()(void *memory) const { CVodeFree(&memory); }
};

using VectorHandle = std::unique_ptr<_generic_N_Vector, Free>;
using MatrixHandle = std::unique_ptr<_generic_SUNMatrix, Free>;
using SolverHandle = std::unique_ptr<_generic_SUNLinearSolver, Free>;
using IntegratorHandle = std::unique_ptr<void, FreeIntegrator>;

/// Throws for the negative codes, which are errors.
inline int checked(int code, const char *what) {
  if (code < 0) {
    throw std::runtime_error(std::string("CVODE: ") + what + " returned " + std::to_string(code));
  }
  return code;
}

} // namespace cook::contenders
