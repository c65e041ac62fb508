#include "cook/plan/options.hpp"

#include <string>

#include "cook/errors.hpp"

namespace cook {

void Options::validate() const {
  check::within("options.nodes", nodes, 9, 2001, "");
  if (nodes % 2 == 0) {
    throw InvalidInput("options.nodes",
                       std::to_string(nodes) + "; must be odd, so that a node lies at the core");
  }
  if (face_spacing) {
    check::within("options.face_spacing", *face_spacing, 1e-6, 0.05, "m");
  }
  check::within("options.columns", columns, 11, 801, "");
  check::within("options.rows", rows, 9, 401, "");
  if (rows % 2 == 0) {
    throw InvalidInput("options.rows",
                       std::to_string(rows) + "; must be odd, so that a row lies half-way up");
  }
  check::within("options.end_spacing", end_spacing, 1e-5, 0.05, "m");
  check::within("options.sweeps", sweeps, 1, 20, "");
  check::within("options.temperature_tolerance", temperature_tolerance, 1e-9, 5.0, "K");
  check::within("options.water_tolerance", water_tolerance, 1e-10, 0.5, "kg/kg");
  check::within("options.output_every", output_every, 0.1, 86400.0, "s");
  check::within("options.max_steps", max_steps, 1, 1e9, "");
}

} // namespace cook
