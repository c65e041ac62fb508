#include "cook/plan/probe.hpp"

#include <cmath>
#include <numbers>

#include "cook/errors.hpp"

namespace cook {

void Probe::validate(const std::string &field) const {
  if (name.empty()) {
    throw InvalidInput(field + ".name", "empty; a probe's trace needs a name");
  }
  if (x) {
    check::within(field + ".x", *x, 0.0, 3.0, "m", "millimetres are written as '120 mm'");
  }
  if (z) {
    check::within(field + ".z", *z, 0.0, 1.0, "m", "millimetres are written as '30 mm'");
  }
  check::within(field + ".tip", tip, 0.0, 0.1, "m", "length of the sensor; 5 mm is 0.005");
  check::within(field + ".stem", stem, 0.0, 0.5, "", "share of the difference between air and meat");
}

double stem_error(double immersion, double diameter, double wall, double conductivity, double contact) {
  check::within("immersion", immersion, 0.0, 1.0, "m");
  check::within("diameter", diameter, 1e-4, 0.05, "m");
  check::within("wall", wall, 0.0, 0.5 * diameter, "m");
  check::positive("conductivity", conductivity, "W/mK");
  check::positive("contact", contact, "W/m²K");
  const double inner = wall > 0.0 ? diameter - 2.0 * wall : 0.0;
  const double area = 0.25 * std::numbers::pi * (diameter * diameter - inner * inner);
  const double m = std::sqrt(contact * std::numbers::pi * diameter / (conductivity * area));
  return 1.0 / std::cosh(m * immersion);
}

} // namespace cook
