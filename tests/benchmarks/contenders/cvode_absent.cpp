/// @file
/// In place of cvode.cpp where SUNDIALS is not installed.
#include <stdexcept>

#include "benchmarks/contenders/cvode.hpp"

namespace cook::contenders {

namespace {

[[noreturn]] reference::Trace absent() {
  throw std::runtime_error("built without SUNDIALS (Debian: libsundials-dev)");
}

} // namespace

bool has_cvode() { return false; }

reference::Trace cvode_slab(const reference::Recipe & /*recipe*/, std::size_t /*intervals*/,
                            double /*tolerance*/) {
  return absent();
}

reference::Trace cvode_full_model(Equations & /*equations*/, double /*end*/, double /*tolerance*/) {
  return absent();
}

} // namespace cook::contenders
