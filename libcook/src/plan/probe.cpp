#include "cook/plan/probe.hpp"

#include <cmath>
#include <numbers>

#include "cook/errors.hpp"
#include "cook/plan/plan_fields.hpp"
#include "fields/check.hpp"

namespace cook {

void Probe::validate(const std::string &field) const {
  if (name.empty()) {
    throw InvalidInput(field + ".name", "empty; a probe's trace needs a name");
  }
  check::members(field + ".", *this);
}

double stem_error(double immersion, double diameter, double wall, double conductivity, double contact) {
  check::within("immersion", immersion, 0.0, 1.0, "m");
  check::within("diameter", diameter, 1e-4, 0.05, "m");
  check::within("wall", wall, 0.0, 0.5 * diameter, "m");
  check::positive("conductivity", conductivity, kind::conductivity.unit);
  check::positive("contact", contact, kind::film_coefficient.unit);
  const double inner = wall > 0.0 ? diameter - 2.0 * wall : 0.0;
  const double area = 0.25 * std::numbers::pi * (diameter * diameter - inner * inner);
  const double m = std::sqrt(contact * std::numbers::pi * diameter / (conductivity * area));
  return 1.0 / std::cosh(m * immersion);
}

} // namespace cook
