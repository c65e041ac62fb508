/// The inversion of enthalpy: whatever way it takes, the temperature is the same.
#include <doctest/doctest.h>

#include <cmath>
#include <random>

#include "engine/cells/temperature.hpp"

using namespace cook;
using namespace cook::engine;

namespace {

double enthalpy(const PropertyTable &table, double t, double water, const Memory<double> &memory) {
  Row<double> row;
  table.lookup(t, row);
  const double kept = memory_share(memory, t).value;
  const double denat = row.value[col_denat_h] + (memory.denat_floor - row.value[col_denat_h]) * kept;
  return row.value[col_dry_h] + water * row.value[col_water_h] + denat;
}

Memory<double> memory_of(const PropertyTable &table, double peak) {
  Row<double> row;
  table.lookup(peak, row);
  return {peak, row.value[col_held], row.value[col_denat_h]};
}

} // namespace

TEST_CASE("temperature comes back from its enthalpy, from any guess") {
  const PropertyTable table(brisket_tissue(), Physics{});
  std::mt19937 random(7);                                       // NOLINT: the same numbers every time
  std::uniform_real_distribution<double> celsius(-15.0, 300.0); // beyond both ends of the table, too
  std::uniform_real_distribution<double> off(-1.0, 1.0);
  std::uniform_real_distribution<double> wet(0.0, 900.0);
  for (const double error : {0.0, 1e-4, 0.01, 0.1, 1.0, 40.0}) {
    for (int i = 0; i < 400; ++i) {
      const double t = celsius(random);
      const double water = wet(random);
      // Never warmer than now; within the take-over of the memory; well below the peak.
      for (const double below_peak : {-1e3, 1.5, 30.0}) {
        const Memory<double> memory = memory_of(table, t + below_peak);
        const double target = enthalpy(table, t, water, memory);
        const double guess = t + error * off(random);
        const auto found = find_temperature(table, target, water, memory, guess);
        CAPTURE(t);
        CAPTURE(guess);
        CAPTURE(below_peak);
        CHECK(std::fabs(found.t - t) < 1e-9);
        CHECK(std::fabs(bisect_temperature(table, target, water, memory) - t) < 1e-9);
        CHECK(found.kept.value == doctest::Approx(memory_share(memory, t).value).epsilon(1e-8));
        Row<double> there, again;
        look_up<0, columns>(table, found, there);
        table.lookup(t, again);
        for (std::size_t c = 0; c < columns; ++c) {
          CHECK(there.value[c] == doctest::Approx(again.value[c]).epsilon(1e-9));
        }
      }
    }
  }
}
