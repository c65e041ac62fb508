// Rates against measured meat, published tables and regulator tables.
#include "cook/errors.hpp"
#include "cook/meat/kinetics.hpp"
#include "cook/units.hpp"

#include <doctest/doctest.h>

#include <array>
#include <cmath>
#include <string>
#include <vector>

using namespace cook;

namespace {
double relative_error(double value, double reference) { return std::abs(value / reference - 1.0); }

// Evenly spaced values from low up to high: integers count, so no step is lost to rounding.
std::vector<double> steps(double low, double high, double step) {
  std::vector<double> values;
  const int count = static_cast<int>((high - low) / step * (1.0 + 1e-12)) + 1;
  values.reserve(static_cast<std::size_t>(count));
  for (int i = 0; i < count; ++i) {
    values.push_back(low + i * step);
  }
  return values;
}

// Seconds at a constant °F for a reduction in log10, from the rate that a simulation integrates.
double hold(double fahrenheit, double logs) {
  return logs / lethality_rate(celsius_from_fahrenheit(fahrenheit));
}
} // namespace

TEST_CASE("Arrhenius law") {
  // Evaluated by hand: a rate at a reference is reproduced, and E_a is its logarithmic slope in 1 / T.
  const Arrhenius law = Arrhenius::from_reference(2.5e-4, 85.0, 1.2e5);
  CHECK(relative_error(law.rate(85.0), 2.5e-4) < 1e-13);
  const double slope = std::log(law.rate(70.0) / law.rate(90.0)) / (1.0 / kelvin(90.0) - 1.0 / kelvin(70.0));
  CHECK(relative_error(slope * gas_constant, 1.2e5) < 1e-11);
  CHECK(std::isfinite(law.rate(-300.0)));
  CHECK(std::isfinite(law.rate(5000.0)));
  CHECK(relative_error(fraction_converted(1e-3, 1e3), 1.0 - std::exp(-1.0)) < 1e-14);
  CHECK(relative_error(fraction_converted(1e-12, 1.0), 1e-12) < 1e-11);
  CHECK(fraction_converted(1.0, 1e6) == 1.0);
}

TEST_CASE("collagen denaturation") {
  // Evaluated separately from the published A and E_a; three digits.
  constexpr std::array<std::array<double, 2>, 7> table{{{50., 5.55e-5},
                                                        {55., 3.15e-4},
                                                        {58., 8.69e-4},
                                                        {60., 1.69e-3},
                                                        {65., 8.68e-3},
                                                        {70., 4.24e-2},
                                                        {80., 0.883}}};
  for (const auto &row : table) {
    const double t = row[0];
    const double k = row[1];
    CAPTURE(t);
    CHECK(relative_error(collagen_denaturation.rate(t), k) < 5e-3);
  }
  // Independent measurement, Machlik & Draudt (1963): the shear drop of semitendinosus is half completed in
  // 11 min at 58 °C. Different tissue and method than the fit, so 25 % is agreement.
  const double half_life = std::log(2.0) / collagen_denaturation.rate(58.0);
  CHECK(relative_error(half_life, seconds_from_minutes(11.0)) < 0.25);
}

TEST_CASE("myoglobin") {
  // Geileskey et al. (1998), evaluated separately, per minute.
  constexpr std::array<std::array<double, 2>, 6> table{
      {{55., 0.0055}, {60., 0.0271}, {63., 0.0691}, {65., 0.128}, {70., 0.574}, {75., 2.47}}};
  for (const auto &row : table) {
    const double t = row[0];
    const double k = row[1];
    CAPTURE(t);
    CHECK(relative_error(myoglobin_denaturation.rate(t) * seconds_per_minute, k) < 1e-2);
  }
  // The paper's text: 6.5 % denatured (rare) takes about a minute at 63 °C, 93 % more than 30 min at 60 °C.
  const auto minutes_to = [](double fraction, double t) {
    return -std::log1p(-fraction) / myoglobin_denaturation.rate(t) / seconds_per_minute;
  };
  CHECK(std::abs(minutes_to(0.065, 63.0) - 1.0) < 0.1);
  CHECK(minutes_to(0.93, 60.0) > 30.0);
}

TEST_CASE("slow collagen: ranks the trade's equivalences") {
  const Arrhenius slow = collagen_solubilisation();
  CHECK(relative_error(slow.rate(90.0), 1.8e-4) < 1e-12);
  // 90 % in 3 to 4 h at 90 °C, and 72 h at 60 °C, 12 h at 80 °C, 2 h at 95 °C counting as alike: common
  // practice, no source; hence a factor of 2 about their mean is all that is asked.
  const double hours_to_90_percent = std::log(10.0) / slow.rate(90.0) / seconds_per_hour;
  CHECK(hours_to_90_percent > 3.0);
  CHECK(hours_to_90_percent < 4.0);
  const double at_60 = 72.0 * slow.rate(60.0);
  const double at_80 = 12.0 * slow.rate(80.0);
  const double at_95 = 2.0 * slow.rate(95.0);
  const double mean = std::cbrt(at_60 * at_80 * at_95);
  for (double dose : {at_60, at_80, at_95}) {
    CHECK(dose / mean < 2.0);
    CHECK(dose / mean > 0.5);
  }
}

TEST_CASE("lethality: USDA FSIS Appendix A, rows in minutes") {
  // Minimum minutes at °F for 6.5 log10 (cooked, roast and corned beef). The table rounds up to whole
  // minutes; two rows (133 and 136 °F) were rounded down by a tenth.
  constexpr std::array<std::array<double, 2>, 15> rows{{{130, 112},
                                                        {131, 89},
                                                        {132, 71},
                                                        {133, 56},
                                                        {134, 45},
                                                        {135, 36},
                                                        {136, 28},
                                                        {137, 23},
                                                        {138, 18},
                                                        {139, 15},
                                                        {140, 12},
                                                        {141, 9},
                                                        {142, 8},
                                                        {143, 6},
                                                        {144, 5}}};
  for (const auto &row : rows) {
    const double fahrenheit = row[0];
    const double minutes = row[1];
    CAPTURE(fahrenheit);
    const double fitted = minutes_from_seconds(hold(fahrenheit, 6.5));
    CHECK(fitted > minutes - 1.0);
    CHECK(fitted < minutes + 0.15);
  }
}

TEST_CASE("lethality: USDA FSIS Appendix A, rows in seconds") {
  // Columns: °F, seconds for 6.5 log10, seconds for 7 log10. The 6.5 column is met within a second. The 7
  // column is published with its own rounding: within a second plus one per cent.
  constexpr std::array<std::array<double, 3>, 12> rows{{{146, 169, 182},
                                                        {147, 134, 144},
                                                        {148, 107, 115},
                                                        {149, 85, 91},
                                                        {150, 67, 72},
                                                        {151, 54, 58},
                                                        {152, 43, 46},
                                                        {153, 34, 37},
                                                        {154, 27, 29},
                                                        {155, 22, 23},
                                                        {156, 17, 19},
                                                        {157, 14, 15}}};
  for (const auto &row : rows) {
    const double fahrenheit = row[0];
    const double six_and_a_half = row[1];
    const double seven = row[2];
    CAPTURE(fahrenheit);
    CHECK(std::abs(hold(fahrenheit, 6.5) - six_and_a_half) <= 1.0);
    CHECK(std::abs(hold(fahrenheit, 7.0) - seven) <= 1.0 + 0.01 * seven);
  }
}

TEST_CASE("lethality: outside the table the cautious side") {
  CHECK(lethality_rate(celsius_from_fahrenheit(130.0)) > 0.0);
  CHECK(lethality_rate(54.4) == 0.0);
  CHECK(lethality_rate(4.0) == 0.0);
  CHECK(lethality_rate(70.0) == lethality_rate(95.0));
  CHECK(std::isfinite(lethality_rate(1000.0)));
  // D at 60 °C: 1.72 min; ten times faster after 10 °F.
  CHECK(relative_error(decimal_reduction_time(60.0), 1.72 * 60.0) < 3e-3);
  CHECK(relative_error(decimal_reduction_time(60.0), 10.0 * decimal_reduction_time(60.0 + 10.0 / 1.8)) <
        1e-12);
}

TEST_CASE("browning index: a heuristic behaves as it says") {
  const Browning browning;
  // Fifty minutes dry at 80 °C set the bark by definition.
  CHECK(relative_error(browning.rate(80.0, 0.5) * 3000.0, 1.0) < 1e-13);
  // 100 kJ/mol is a factor of 2.3 per 10 K near 100 °C.
  CHECK(std::abs(browning.rate(105.0, 0.5) / browning.rate(95.0, 0.5) - 2.35) < 0.05);
  // Wet: a tenth. Never rising with water activity, no kink at either end.
  CHECK(relative_error(browning.rate(80.0, 1.0), 0.1 * browning.rate(80.0, 0.8)) < 1e-12);
  double before = browning.rate(80.0, 0.0);
  for (const double a_w : steps(0.01, 1.0, 0.01)) {
    const double rate = browning.rate(80.0, a_w);
    CHECK(rate <= before);
    CHECK(before - rate < 0.08 * browning.rate_dry);
    before = rate;
  }
  // No kink: a straight ramp would change by 0.0045 of the dry rate here.
  CHECK(browning.rate(80.0, 0.999) - browning.rate(80.0, 1.0) < 5e-4 * browning.rate_dry);
  CHECK(browning.rate(80.0, 0.8) - browning.rate(80.0, 0.801) < 5e-4 * browning.rate_dry);
  // A stalled wet surface at 65 °C browns 100 times slower than a dry one at 100 °C.
  CHECK(browning.rate(65.0, 1.0) < 0.01 * browning.rate(100.0, 0.5));
}

TEST_CASE("browning: bad members are named") {
  CHECK_NOTHROW(Browning{}.validate());
  const auto field_of = [](const Browning &browning) -> std::string {
    try {
      browning.validate();
    } catch (const InvalidInput &error) {
      return error.field();
    }
    return "nothing thrown";
  };
  CHECK(field_of({.rate_dry = 0.0}) == "browning.rate_dry");
  CHECK(field_of({.reference_temperature = 373.15}) == "browning.reference_temperature");
  CHECK(field_of({.activation_energy = -1.0}) == "browning.activation_energy");
  CHECK(field_of({.dry_activity = 1.0}) == "browning.dry_activity");
  CHECK(field_of({.wet_factor = 10.0}) == "browning.wet_factor");
}
