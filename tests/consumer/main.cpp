// Uses the installed library from outside: the dew point of saturated air is its temperature.
#include "cook/cooker/humid_air.hpp"

#include <cmath>
#include <cstdio>

int main() {
  const double temperature = 60.0; // °C
  const double dew_point = cook::dew_point(cook::saturation_pressure(temperature));
  std::printf("dew point of saturated air at %.1f degC: %.9f degC\n", temperature, dew_point);
  return std::abs(dew_point - temperature) < 1e-6 ? 0 : 1;
}
