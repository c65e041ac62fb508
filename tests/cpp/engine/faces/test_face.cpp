/// What crosses a face: its limits, its agreement with the humid-air functions, its derivatives.
#include <doctest/doctest.h>

#include <cmath>
#include <functional>
#include <string>
#include <vector>

#include "cook/cooker/evaporation.hpp"
#include "cook/cooker/humid_air.hpp"
#include "cook/meat/tissue.hpp"
#include "engine/faces/face.hpp"

using namespace cook;
using namespace cook::engine;

namespace {

/// A bare face in still air as a plain struct, so that each case changes what it is about.
FaceSetting<double> bare() {
  FaceSetting<double> s;
  s.h_given = 6.0;
  s.lewis_factor = lewis_factor(90.0);
  s.radiation = 0.9 * stefan_boltzmann;
  return s;
}

/// Wet raw tissue at a temperature, neither squeezing nor thirsty.
FaceTissue<double> tissue_at(double t, double x = 3.0) {
  FaceTissue<double> tissue{};
  tissue.t = t;
  tissue.x = x;
  tissue.expressed = {2e-5, 4e-7};
  tissue.soaking = 1e-6;
  tissue.soaking_t = 2e-8;
  tissue.soaking_x = 3e-7;
  tissue.saturation = {saturation_pressure(t), saturation_pressure_slope(t)};
  return tissue;
}

constexpr double film = 0.05;

Slope<double> h_at(const FaceSetting<double> &s, double gap) {
  return film_coefficient(s.h_given, s.natural_cold, s.natural_hot, gap);
}

double wetted(double m) { return m / (m + film_reference); }

} // namespace

TEST_CASE("nothing crosses when everything is in equilibrium") {
  for (const double t : {5.0, 60.0, 95.0}) {
    for (const double resistance : {0.0, 0.02}) {
      FaceSetting<double> s = bare();
      s.h_given = 0.0;
      s.natural_cold = 2.0;
      s.natural_hot = 3.0;
      s.heat_resistance = resistance;
      s.resists_heat = resistance > 0.0;
      s.liquid_capacity = 0.2;
      // A film without dry patches: all but a fraction of the face at activity one, the rest saturated
      // tissue.
      const FaceTissue<double> tissue = tissue_at(t, 100.0);
      const auto q = face_flux(s, {t, saturation_pressure(t)}, tissue, film);
      CHECK(std::fabs(q.convection.value) < 1e-9);
      CHECK(std::fabs(q.radiation.value) < 1e-9);
      CHECK(std::fabs(q.vapour.value) < 1e-15);
      CHECK(std::fabs(q.from_liquid.value) < 1e-15);
      CHECK(q.seep.value == 0.0);
      CHECK(q.run_off.value == 0.0);
    }
  }
}

TEST_CASE("heat flows as Newton's and Stefan's laws say, and a resistance takes its share") {
  FaceSetting<double> s = bare();
  s.radiant_offset = 20.0;
  auto q = face_flux(s, {120.0, 8000.0}, tissue_at(60.0), film);
  CHECK(q.convection.value == doctest::Approx(6.0 * 60.0).epsilon(1e-12));
  CHECK(q.radiation.value ==
        doctest::Approx(0.9 * stefan_boltzmann * (std::pow(kelvin(140.0), 4) - std::pow(kelvin(60.0), 4)))
            .epsilon(1e-12));
  // Behind a resistance R the outside sits at T + R q, where the same laws hold.
  s.heat_resistance = 0.05;
  s.resists_heat = true;
  q = face_flux(s, {120.0, 8000.0}, tissue_at(60.0), film);
  const double outside = 60.0 + 0.05 * (q.convection.value + q.radiation.value);
  CHECK(outside > 75.0);
  CHECK(q.convection.value == doctest::Approx(6.0 * (120.0 - outside)).epsilon(1e-9));
  CHECK(q.radiation.value ==
        doctest::Approx(0.9 * stefan_boltzmann * (std::pow(kelvin(140.0), 4) - std::pow(kelvin(outside), 4)))
            .epsilon(1e-9));
  // Felt without end, no heat comes through.
  s.heat_resistance = 1e6;
  q = face_flux(s, {120.0, 8000.0}, tissue_at(60.0), film);
  CHECK(std::fabs(q.convection.value + q.radiation.value) < 1e-3);
}

TEST_CASE("still air: the coefficient of a cold face, of a hot face, and the quarter power") {
  FaceSetting<double> s;
  s.natural_cold = 2.0;
  s.natural_hot = 3.0;
  CHECK(h_at(s, 81.0).value == doctest::Approx(2.0 * 3.0).epsilon(1e-5));
  CHECK(h_at(s, -16.0).value == doctest::Approx(3.0 * 2.0).epsilon(1e-4));
  for (int i = -300; i < 300; ++i) { // through the crossing without a jump
    const double gap = 0.01 * i;
    CHECK(std::fabs(h_at(s, gap + 0.01).value - h_at(s, gap).value) < 0.12);
    CHECK(h_at(s, gap).value > 0.0);
  }
}

TEST_CASE("evaporation from a wet face is that of the public function, Stefan flow included") {
  const FaceSetting<double> s = bare();
  for (const double t :
       {20.0, 50.0, 70.0, 90.0, 94.0}) { // up to 80 % of the pressure: below either boiling corner
    for (const double vapour : {0.0, 3000.0, 20000.0}) {
      constexpr double air = 110.0;
      const double expected =
          evaporation_flux(6.0 * s.lewis_factor, 0.5 * (t + air), saturation_pressure(t), vapour);
      // Saturated tissue beside the film evaporates like the film.
      const auto q = face_flux(s, {air, vapour}, tissue_at(t, 100.0), film);
      CHECK(q.vapour.value == doctest::Approx(expected).epsilon(1e-10));
    }
  }
  // Without a film, what the activity of the tissue leaves.
  Sorption sorption;
  const double x = 0.3;
  const double expected = evaporation_flux(6.0 * s.lewis_factor, 85.0,
                                           sorption.water_activity(x) * saturation_pressure(60.0), 4000.0);
  const auto q = face_flux(s, {110.0, 4000.0}, tissue_at(60.0, x), 0.0);
  CHECK(q.vapour.value == doctest::Approx(expected).epsilon(1e-10));
  CHECK(q.from_liquid.value == 0.0);
}

TEST_CASE("the film gives its wetted share, the tissue the rest; what condenses joins the film") {
  const FaceSetting<double> s = bare();
  const FaceTissue<double> dry = tissue_at(60.0, 0.3);
  const FaceAir<double> air{110.0, 4000.0};
  const auto from_liquid = face_flux(s, air, tissue_at(60.0, 100.0), film).vapour.value;
  const auto from_tissue = face_flux(s, air, dry, 0.0).vapour.value;
  const auto both = face_flux(s, air, dry, film);
  CHECK(both.from_liquid.value == doctest::Approx(wetted(film) * from_liquid).epsilon(1e-12));
  CHECK(both.vapour.value - both.from_liquid.value ==
        doctest::Approx((1.0 - wetted(film)) * from_tissue).epsilon(1e-10));
  const auto cold = face_flux(s, {110.0, 20000.0}, tissue_at(10.0), 0.0);
  CHECK(cold.vapour.value < 0.0);
  CHECK(cold.from_liquid.value == cold.vapour.value);
}

TEST_CASE("a tight wrap stops evaporation, a breathing one lets through what its resistance leaves") {
  FaceSetting<double> s = bare();
  const FaceAir<double> air{110.0, 4000.0};
  const double open = face_flux(s, air, tissue_at(70.0), film).vapour.value;
  CHECK(open > 1e-4);
  s.vapour_resistance = 1e12;
  CHECK(std::fabs(face_flux(s, air, tissue_at(70.0), film).vapour.value) < 1e-9 * open);
  const double h_m = 6.0 * s.lewis_factor;
  s.vapour_resistance = 3.0 / h_m; // three times that of the air: a quarter is left
  CHECK(face_flux(s, air, tissue_at(70.0), film).vapour.value == doctest::Approx(0.25 * open).epsilon(1e-12));
  s.evaporates = 0.0;
  CHECK(face_flux(s, air, tissue_at(70.0), film).vapour.value == 0.0);
}

TEST_CASE("boiling: the flux stays finite, rises with temperature, and takes more heat than can come") {
  FaceSetting<double> s = bare();
  for (const double resistance : {0.0, 1e5}) {
    s.vapour_resistance = resistance;
    double last = -1.0;
    for (int i = 0; i < 320; ++i) {
      const double t = 80.0 + 0.25 * i;
      const auto q = face_flux(s, {260.0, 0.0}, tissue_at(t), film);
      REQUIRE(std::isfinite(q.vapour.value));
      REQUIRE(std::isfinite(q.vapour.t));
      CHECK(q.vapour.value >= last);
      last = q.vapour.value;
    }
    // A wet face some kelvin above 100 °C would lose more than the hottest pit brings, so it is held near
    // boiling.
    const auto hot = face_flux(s, {260.0, 0.0}, tissue_at(106.0), film);
    CHECK(hot.vapour.value * latent_heat(106.0) > hot.convection.value + hot.radiation.value);
  }
}

TEST_CASE("juice: squeezed out in proportion, soaked up by dry tissue, run off above what the face holds") {
  const FaceSetting<double> s = bare();
  FaceTissue<double> tissue = tissue_at(70.0);
  tissue.phi = 0.4;
  tissue.juice = {0.38, 1.0};
  auto q = face_flux(s, {110.0, 4000.0}, tissue, 0.02);
  CHECK(q.seep.value == doctest::Approx(2e-5 * 0.38 / s.exudation_path).epsilon(1e-12));
  CHECK(q.run_off.value == 0.0);
  CHECK(face_flux(s, {110.0, 4000.0}, tissue, 0.25).run_off.value ==
        doctest::Approx((0.25 - s.liquid_capacity - 0.005) / 60.0).epsilon(1e-9));
  tissue.phi = -0.4;
  tissue.juice = {0.0, 0.0};
  q = face_flux(s, {110.0, 4000.0}, tissue, 0.02);
  CHECK(q.seep.value < 0.0);
  CHECK(face_flux(s, {110.0, 4000.0}, tissue, 0.0).seep.value == 0.0); // nothing there to soak up
  FaceSetting<double> sealed = s;
  sealed.exudes = 0.0;
  CHECK(face_flux(sealed, {110.0, 4000.0}, tissue, 0.02).seep.value == 0.0);
}

TEST_CASE("an overdrawn film comes back to zero") {
  const FaceSetting<double> s = bare();
  const auto rate = [&](double m) { // of a film on tissue that neither squeezes nor soaks
    const auto q = face_flux(s, {110.0, 4000.0}, tissue_at(60.0, 0.3), m);
    return q.seep.value - q.from_liquid.value - q.run_off.value;
  };
  CHECK(rate(1e-4) < 0.0);
  CHECK(rate(0.0) == 0.0);
  CHECK(rate(-1e-4) > 0.0);
  CHECK(rate(-1e-4) == doctest::Approx(-rate(1e-4)).epsilon(0.02)); // straight through zero
}

TEST_CASE(
    "the isotherm solved for the activity is that of tissue.hpp, saturated above, straight through zero") {
  const Sorption sorption;
  for (const double a : {0.05, 0.3, 0.7, 0.9, 0.99}) {
    const double x = sorption.water_content(a);
    CHECK(water_activity(x, sorption.monolayer, sorption.c, sorption.k).value ==
          doctest::Approx(a).epsilon(1e-10));
  }
  CHECK(water_activity(100.0, sorption.monolayer, sorption.c, sorption.k).value == 1.0);
  CHECK(water_activity(0.0, sorption.monolayer, sorption.c, sorption.k).value == 0.0);
  CHECK(water_activity(-1e-3, sorption.monolayer, sorption.c, sorption.k).value < 0.0);
}

TEST_CASE("the outside of a quilt is no hotter and no colder than what it lies between") {
  for (const double resistance : {0.003, 0.17, 1.0, 10.0}) {
    for (const double h : {0.0, 1e-6, 8.0, 1000.0}) {
      for (const double glow : {-50.0, 0.0, 95.0, 300.0}) {
        for (const double t : {-5.0, 4.0, 80.0, 120.0}) {
          FaceSetting<double> quilt = bare();
          quilt.h_given = h;
          quilt.heat_resistance = resistance;
          quilt.resists_heat = true;
          quilt.radiant_offset = glow;
          const double air = 100.0;
          const auto q = face_flux(quilt, FaceAir<double>{air, 2000.0}, tissue_at(t), 0.0);
          const double heat = q.convection.value + q.radiation.value;
          INFO("resistance ", resistance, ", film ", h, ", glow ", glow, ", meat at ", t, ": ", heat);
          const double outside = t + heat * resistance;
          CHECK(outside < std::max({air, air + glow, t}) + 1e-6);
          CHECK(outside > std::min({air, air + glow, t}) - 1e-6);
        }
      }
    }
  }
}

TEST_CASE("every derivative of every flux matches a central difference") {
  struct Point {
    std::string name;
    FaceSetting<double> setting;
    double t, x, phi, m, air, vapour;
  };
  std::vector<Point> points;
  FaceSetting<double> still = bare();
  still.h_given = 0.0;
  still.natural_cold = 2.0;
  still.natural_hot = 3.0;
  FaceSetting<double> paper = still;
  paper.heat_resistance = 0.003;
  paper.vapour_resistance = 2000.0;
  paper.resists_heat = true;
  FaceSetting<double> towels = paper;
  towels.heat_resistance = 0.17;
  towels.radiant_offset = 30.0;
  for (const auto &[name, s] : {std::pair{"bare", bare()}, std::pair{"still", still},
                                std::pair{"paper", paper}, std::pair{"towels", towels}}) {
    points.push_back({name, s, 60.0, 0.5, 0.3, 0.03, 110.0, 6000.0});
    points.push_back({name, s, 70.0, 0.1, -0.5, 0.002, 121.0, 9000.0});
    points.push_back({name, s, 10.0, 3.0, -0.01, 0.07, 110.0, 20000.0}); // condensing, and a little run-off
    points.push_back({name, s, 101.0, 0.4, -0.8, 0.01, 135.0, 8000.0});  // boiling
    points.push_back({name, s, 75.0, 1.2, 0.015, 0.2, 21.0, 1200.0});    // resting
    points.push_back({name, s, 55.0, 0.8, -0.2, -1e-4, 110.0, 6000.0});  // overdrawn film
  }
  // Tissue as smooth functions of temperature and water, so that the chain through it is exercised.
  constexpr double phi_t = 0.02;
  const auto flux = [](const Point &p, double dt, double dx, double dm, double da) {
    FaceTissue<double> tissue = tissue_at(p.t + dt, p.x + dx);
    tissue.phi = p.phi + phi_t * dt + dx;
    tissue.phi_t = phi_t;
    const Slope<double> juice = smooth_plus(tissue.phi, 0.05);
    tissue.juice = juice;
    tissue.expressed.value += tissue.expressed.slope * dt;
    tissue.soaking += tissue.soaking_t * dt + tissue.soaking_x * dx;
    return face_flux(p.setting, {p.air + da, p.vapour}, tissue, p.m + dm);
  };
  const auto terms = [](const FaceFlux<double> &q) {
    return std::array{q.convection, q.radiation, q.vapour, q.from_liquid, q.seep, q.run_off};
  };
  double worst = 0.0;
  for (const Point &p : points) {
    const auto here = terms(flux(p, 0, 0, 0, 0));
    struct Way {
      const char *by;
      double dt, dx, dm, da;
      double FaceTerm<double>::*slope;
    };
    for (const Way &w :
         {Way{"t", 1e-4, 0, 0, 0, &FaceTerm<double>::t}, Way{"x", 0, 1e-6, 0, 0, &FaceTerm<double>::x},
          Way{"m", 0, 0, 1e-7, 0, &FaceTerm<double>::m}, Way{"air", 0, 0, 0, 1e-4, &FaceTerm<double>::a}}) {
      const auto plus = terms(flux(p, w.dt, w.dx, w.dm, w.da));
      const auto minus = terms(flux(p, -w.dt, -w.dx, -w.dm, -w.da));
      const double step = w.dt + w.dx + w.dm + w.da;
      for (std::size_t k = 0; k < here.size(); ++k) {
        const double difference = (plus[k].value - minus[k].value) / (2.0 * step);
        const double slope = here[k].*w.slope;
        const double rounding = 4e-14 * std::fmax(std::fabs(here[k].value), k < 2 ? 100.0 : 1e-3) / step;
        INFO(p.name, " at ", p.t, " °C: flux ", k, " by ", std::string(w.by));
        const double off = std::fabs(slope - difference);
        worst = std::fmax(worst, off / (std::fabs(slope) + rounding));
        CHECK(off < 2e-6 * std::fabs(slope) + rounding);
      }
    }
  }
  MESSAGE("largest relative difference of a slope ", worst);
}
