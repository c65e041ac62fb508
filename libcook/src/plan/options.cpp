#include "cook/plan/options_fields.hpp"

#include <string>

#include "cook/errors.hpp"
#include "fields/check.hpp"

namespace cook {

void Options::validate() const {
  check::members("options.", *this);
  if (nodes % 2 == 0) {
    throw InvalidInput("options.nodes",
                       std::to_string(nodes) + "; must be odd, so that a node lies at the core");
  }
  if (rows % 2 == 0) {
    throw InvalidInput("options.rows",
                       std::to_string(rows) + "; must be odd, so that a row lies half-way up");
  }
}

} // namespace cook
