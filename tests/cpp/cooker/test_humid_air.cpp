// Humid air against steam tables, ASHRAE psychrometrics and published transport properties.
#include "cook/cooker/humid_air.hpp"
#include "cook/errors.hpp"

#include <doctest/doctest.h>

#include <array>
#include <cmath>
#include <limits>
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

// IAPWS SR1-86(1992), Wagner & Pruss, J. Phys. Chem. Ref. Data 22:783 (1993): the saturation line of water,
// written out here as an independent reference. T in K.
struct Iapws {
  static double theta(double t) { return 1.0 - t / 647.096; }
  static double pressure(double t) {
    const double x = theta(t);
    return 22.064e6 * std::exp(647.096 / t *
                               (-7.85951783 * x + 1.84408259 * std::pow(x, 1.5) -
                                11.7866497 * std::pow(x, 3) + 22.6807411 * std::pow(x, 3.5) -
                                15.9618719 * std::pow(x, 4) + 1.80122502 * std::pow(x, 7.5)));
  }
  static double vapour(double t) {
    const double x = std::pow(theta(t), 1.0 / 6.0);
    return 322.0 * std::exp(-2.03150240 * std::pow(x, 2) - 2.68302940 * std::pow(x, 4) -
                            5.38626492 * std::pow(x, 8) - 17.2991605 * std::pow(x, 18) -
                            44.7586581 * std::pow(x, 37) - 63.9201063 * std::pow(x, 71));
  }
  static double liquid(double t) {
    const double x = std::cbrt(theta(t));
    return 322.0 *
           (1.0 + 1.99274064 * x + 1.09965342 * std::pow(x, 2) - 0.510839303 * std::pow(x, 5) -
            1.75493479 * std::pow(x, 16) - 45.5170352 * std::pow(x, 43) - 6.74694450e5 * std::pow(x, 110));
  }
  static double latent_heat(double t) { // Clapeyron
    const double slope = (pressure(t + 0.01) - pressure(t - 0.01)) / 0.02;
    return t * slope * (1.0 / vapour(t) - 1.0 / liquid(t));
  }
};

} // namespace

TEST_CASE("saturation pressure: ASHRAE 2017 table 3 and IAPWS") {
  // ASHRAE Handbook - Fundamentals 2017, ch. 1, table 3, as published in PsychroLib's
  // tests (test_psychrolib_si.py) with the same tolerance, 3e-4.
  constexpr std::array<std::array<double, 2>, 5> table{
      {{5.0, 872.6}, {25.0, 3169.7}, {50.0, 12351.3}, {100.0, 101418.0}, {150.0, 476101.4}}};
  for (const auto &row : table) {
    const double t = row[0];
    const double p = row[1];
    CAPTURE(t);
    CHECK(relative_error(saturation_pressure(t), p) < 3e-4);
  }
  // IAPWS-IF97 verification value for region 4: p_s(300 K) = 3536.58941 Pa; that the reference used here is
  // right.
  CHECK(relative_error(Iapws::pressure(300.0), 3536.58941) < 2e-4);
  for (const double t : steps(0.01, 150.0, 5.0)) {
    CAPTURE(t);
    CHECK(relative_error(saturation_pressure(t), Iapws::pressure(kelvin(t))) < 2.5e-4);
  }
}

TEST_CASE("saturation pressure runs on smoothly over supercooled water and beyond the range") {
  // Goff-Gratch over supercooled water at -20 °C, World Meteorological Organization: 125.4 Pa (from memory).
  CHECK(relative_error(saturation_pressure(-20.0), 125.4) < 5e-3);
  double before = 0.0;
  for (const double t : steps(-150.0, 600.0, 1.0)) {
    const double p = saturation_pressure(t);
    CHECK(std::isfinite(p));
    CHECK(p > before);
    before = p;
  }
}

TEST_CASE("saturation slope is the derivative") {
  for (const double t : steps(-20.0, 200.0, 11.0)) {
    const double difference = (saturation_pressure(t + 1e-3) - saturation_pressure(t - 1e-3)) / 2e-3;
    CHECK(relative_error(saturation_pressure_slope(t), difference) < 1e-7);
  }
}

TEST_CASE("saturation temperature: IAPWS-IF97 verification value") {
  // IAPWS R7-97: T_s(0.1 MPa) = 372.755919 K, T_s(1 MPa) = 453.035632 K. 0.02 % in pressure is 0.005 K at 1
  // bar; the formula is 0.02 K off at 10 bar.
  CHECK(std::abs(saturation_temperature(0.1e6) - (372.755919 - kelvin_offset)) < 0.006);
  CHECK(std::abs(saturation_temperature(1.0e6) - (453.035632 - kelvin_offset)) < 0.03);
  for (const double t : steps(-19.0, 200.0, 7.0)) {
    CHECK(std::abs(saturation_temperature(saturation_pressure(t)) - t) < 1e-9);
  }
}

TEST_CASE("latent heat: steam table") {
  // IAPWS saturation densities and Clapeyron; steam-table values [J/kg] at 0.01, 50, 100, 150 °C stand beside
  // it.
  constexpr std::array<std::array<double, 2>, 4> table{
      {{0.01, 2500.9e3}, {50.0, 2382.0e3}, {100.0, 2256.5e3}, {150.0, 2113.8e3}}}; // from memory, +-0.1
  for (const auto &row : table) {
    const double t = row[0];
    const double h = row[1];
    CAPTURE(t);
    CHECK(relative_error(latent_heat(t), h) < 5e-4);
  }
  for (const double t : steps(0.02, 200.0, 2.5)) {
    CAPTURE(t);
    CHECK(relative_error(latent_heat(t), Iapws::latent_heat(kelvin(t))) < 4.5e-4);
  }
}

TEST_CASE("vapour density at saturation: ideal gas is low by the stated amount") {
  // IAPWS: 0.13043 kg/m3 at 60 °C, 0.59810 at 100 °C.
  CHECK(vapour_density(saturation_pressure(60.0), 60.0) / 0.13043 - 1.0 ==
        doctest::Approx(-0.0055).epsilon(5e-4));
  CHECK(vapour_density(saturation_pressure(100.0), 100.0) / 0.59810 - 1.0 ==
        doctest::Approx(-0.0154).epsilon(5e-4));
}

TEST_CASE("humidity conversions") {
  // ASHRAE 2017, ch. 1, table 2: saturated humidity ratio at 1 atm. The table includes the enhancement factor
  // of real air (0.4 % at 25 °C, 0.6 % at 50 °C), the ideal-gas relation does not; near 85 °C it is amplified
  // by 1 / (1 - p_v / p).
  CHECK(relative_error(humidity_ratio(saturation_pressure(25.0)), 0.020173) < 6e-3);
  CHECK(relative_error(humidity_ratio(saturation_pressure(50.0)), 0.086863) < 8e-3);
  CHECK(relative_error(humidity_ratio(saturation_pressure(85.0)), 0.838105) < 1.5e-2);
  for (const double w : steps(0.0, 0.6, 0.05)) {
    CHECK(std::abs(humidity_ratio(vapour_pressure_from_humidity_ratio(w, 95.0e3), 95.0e3) - w) < 1e-14);
  }
  CHECK(relative_error(relative_humidity(40.0, vapour_pressure_from_relative_humidity(40.0, 0.3)), 0.3) <
        1e-14);
  // Relative humidity at 121.1 °C and w = 0.05: 3.67 % (hand evaluation with the IAPWS saturation pressure).
  CHECK(std::abs(relative_humidity(121.0, vapour_pressure_from_humidity_ratio(0.05)) - 0.0367) < 1e-4);
}

TEST_CASE("dew point") {
  // Hand evaluation of the saturation formula at 1 atm: w = 0.01 -> 14.0, 0.05 -> 40.4, 0.10 -> 52.6 °C.
  CHECK(std::abs(dew_point(vapour_pressure_from_humidity_ratio(0.01)) - 14.0) < 0.06);
  CHECK(std::abs(dew_point(vapour_pressure_from_humidity_ratio(0.05)) - 40.4) < 0.06);
  CHECK(std::abs(dew_point(vapour_pressure_from_humidity_ratio(0.10)) - 52.6) < 0.06);
}

TEST_CASE("wet bulb: ASHRAE example, 40 °C dry bulb and 20 °C wet bulb at 1 atm") {
  // ASHRAE Handbook - Fundamentals 2017, ch. 1, example 1 (read from the psychrometric chart): W = 0.0065,
  // dew point 7 °C, RH 14 %, h = 56.7 kJ/kg, v = 0.896 m3/kg. The tolerances are the chart's reading
  // accuracy.
  double low = 0.0;
  double high = 4000.0;
  for (int i = 0; i < 50; ++i) {
    const double middle = 0.5 * (low + high);
    (wet_bulb(40.0, middle) < 20.0 ? low : high) = middle;
  }
  const double p_v = low;
  const double w = humidity_ratio(p_v);
  CHECK(std::abs(w - 0.0065) < 1.2e-4);
  CHECK(std::abs(dew_point(p_v) - 7.0) < 0.5);
  CHECK(std::abs(relative_humidity(40.0, p_v) - 0.14) < 0.005);
  CHECK(std::abs(humid_air_enthalpy(40.0, w) - 56.7e3) < 0.2e3);
  CHECK(std::abs((1.0 + w) / humid_air_density(40.0, p_v) - 0.896) < 0.0015);
  // Same chapter, table 2: dry air at 25 °C, h = 25.148 kJ/kg and v = 0.8443 m3/kg.
  CHECK(relative_error(humid_air_enthalpy(25.0, 0.0), 25148.0) < 2e-4);
  CHECK(relative_error(1.0 / air_density(25.0), 0.8443) < 5e-4);
}

TEST_CASE("wet bulb: published value at 95461 Pa") {
  // PsychroLib, test_psychrolib_si.py: t = 30 °C, t_wb = 25 °C, 95461 Pa: W =
  // 0.0192281274. The tolerance is its own, 3e-4 in W, which is 0.006 K in the wet bulb.
  const double p = 95461.0;
  const double p_v = vapour_pressure_from_humidity_ratio(0.0192281274, p);
  CHECK(std::abs(wet_bulb(30.0, p_v, p) - 25.0) < 0.006);
}

TEST_CASE("wet bulb: in the range of pits") {
  // ASHRAE adiabatic-saturation balance solved separately; rows dry bulb, columns humidity ratio. Rounded to
  // 0.01 K; different molar mass ratios (0.6219 to 0.622) move it by up to 0.01 K.
  constexpr std::array<double, 4> humidity{0.0, 0.02, 0.05, 0.15};
  constexpr std::array<double, 4> dry_bulb{93.3, 107.2, 121.1, 148.9};
  constexpr std::array<std::array<double, 4>, 4> expected{{{29.49, 38.12, 46.65, 61.60},
                                                           {32.24, 40.07, 48.02, 62.33},
                                                           {34.69, 41.86, 49.31, 63.02},
                                                           {38.90, 45.04, 51.67, 64.33}}};
  for (std::size_t i = 0; i < dry_bulb.size(); ++i) {
    for (std::size_t j = 0; j < humidity.size(); ++j) {
      CAPTURE(dry_bulb[i]);
      CAPTURE(humidity[j]);
      CHECK(std::abs(wet_bulb(dry_bulb[i], vapour_pressure_from_humidity_ratio(humidity[j])) -
                     expected[i][j]) < 0.015);
    }
  }
}

TEST_CASE("wet bulb: limits") {
  // Saturated air is its own wet bulb; dew point <= wet bulb <= dry bulb; more vapour, warmer wet bulb.
  for (double t : {0.0, 20.0, 60.0, 90.0}) {
    CHECK(std::abs(wet_bulb(t, saturation_pressure(t)) - t) < 1e-6);
  }
  double before = -100.0;
  for (const double p_v : steps(200.0, 0.95 * standard_atmosphere, 2000.0)) {
    const double t = wet_bulb(150.0, p_v);
    CHECK(t > before);
    CHECK(t > dew_point(p_v));
    CHECK(t < 150.0);
    before = t;
  }
  // Above 200 °C, where the saturation formula ends, it goes on rising with the air temperature.
  CHECK(wet_bulb(260.0, 4000.0) > wet_bulb(201.0, 4000.0));
  CHECK(wet_bulb(201.0, 4000.0) > wet_bulb(199.0, 4000.0));
}

TEST_CASE("air properties at film temperature") {
  // Incropera & DeWitt, Fundamentals of Heat and Mass Transfer, table A.4 (from memory): T [K], rho, cp, mu,
  // k, Pr. Tolerances cover the table's own spread against other standard sources (k differs by 1 to 2 %).
  constexpr std::array<std::array<double, 6>, 4> table{{{300.0, 1.1614, 1007.0, 184.6e-7, 26.3e-3, 0.707},
                                                        {350.0, 0.9950, 1009.0, 208.2e-7, 30.0e-3, 0.700},
                                                        {400.0, 0.8711, 1014.0, 230.1e-7, 33.8e-3, 0.690},
                                                        {450.0, 0.7740, 1021.0, 250.7e-7, 37.3e-3, 0.686}}};
  for (const auto &row : table) {
    const double t_kelvin = row[0];
    const double rho = row[1];
    const double cp = row[2];
    const double mu = row[3];
    const double k = row[4];
    const double pr = row[5];
    const double t = celsius_from_kelvin(t_kelvin);
    CAPTURE(t_kelvin);
    CHECK(relative_error(air_density(t, 1.0e5), rho) < 1.5e-3); // the printed densities are those of 1 bar
    CHECK(relative_error(air_specific_heat(t), cp) < 2e-3);
    CHECK(relative_error(air_viscosity(t), mu) < 1e-2);
    CHECK(relative_error(air_conductivity(t), k) < 1.2e-2);
    CHECK(relative_error(air_prandtl(t), pr) < 1.5e-2);
  }
  // U.S. Standard Atmosphere 1976, sea level (15 °C): mu = 1.7894e-5 Pa s, k = 2.5326e-2 W/(m K), rho
  // = 1.2250 kg/m3.
  CHECK(relative_error(air_viscosity(15.0), 1.7894e-5) < 5e-5);
  CHECK(relative_error(air_conductivity(15.0), 2.5326e-2) < 5e-5);
  CHECK(relative_error(air_density(15.0), 1.2250) < 1e-4);
}

TEST_CASE("humid air is lighter and holds more heat than dry air") {
  CHECK(humid_air_density(60.0, 0.0) == doctest::Approx(air_density(60.0)).epsilon(1e-12));
  CHECK(humid_air_density(60.0, 12.0e3) < air_density(60.0));
  CHECK(humid_air_specific_heat(60.0, 0.0) == doctest::Approx(air_specific_heat(60.0)).epsilon(1e-12));
  // Mass fraction of vapour 0.0766 at w = 0.083: 1007.8 + 0.0766 (1860 - 1007.8) = 1073 J/(kg K).
  const double w = humidity_ratio(12.0e3);
  const double share = w / (1.0 + w);
  CHECK(relative_error(humid_air_specific_heat(60.0, 12.0e3),
                       air_specific_heat(60.0) + share * (1860.0 - air_specific_heat(60.0))) < 1e-12);
}

TEST_CASE("bad input names the field") {
  const auto field_of = [](auto &&call) -> std::string {
    try {
      static_cast<void>(call());
    } catch (const InvalidInput &error) {
      return error.field();
    }
    return "nothing thrown";
  };
  const double nan = std::numeric_limits<double>::quiet_NaN();
  CHECK(field_of([] { return dew_point(0.0); }) == "vapour_pressure");
  CHECK(field_of([] { return saturation_temperature(-1.0); }) == "pressure");
  CHECK(field_of([] { return wet_bulb(350.0, 1000.0); }) == "temperature");
  CHECK(field_of([] { return wet_bulb(20.0, 3000.0); }) == "vapour_pressure");   // above saturation
  CHECK(field_of([] { return wet_bulb(20.0, 1000.0, 1013.25); }) == "pressure"); // hPa typed as Pa
  CHECK(field_of([&] { return wet_bulb(nan, 1000.0); }) == "temperature");
}
