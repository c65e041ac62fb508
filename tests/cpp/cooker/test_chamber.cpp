// Cookers as chambers: wind, draught, the generic kinds and the vapour pressures they come to.
#include "cook/cooker/chamber.hpp"
#include "cook/cooker/humid_air.hpp"
#include "cook/cooker/surroundings.hpp"
#include "cook/errors.hpp"
#include "cook/fields/parameters.hpp"

#include <doctest/doctest.h>

#include <array>
#include <cmath>
#include <string>

using namespace cook;

TEST_CASE("film in wind: the table of EN ISO 6946") {
  // ISO 6946:2007, table A.2 (as transcribed in public code): external surface resistance, m2K/W, by wind
  // speed. Two decimals; emissivity 0.9 at 0 °C.
  constexpr std::array<std::array<double, 2>, 7> table{
      {{1.0, 0.08}, {2.0, 0.06}, {3.0, 0.05}, {4.0, 0.04}, {5.0, 0.04}, {7.0, 0.03}, {10.0, 0.02}}};
  for (const auto &row : table) {
    CAPTURE(row[0]);
    const double resistance = 1.0 / (wind_film_coefficient(row[0]) + radiative_film_coefficient(0.9, 0.0));
    CHECK(std::round(100.0 * resistance) / 100.0 == doctest::Approx(row[1]));
  }
  // The same annex, table A.1 (from memory): a black body radiates 4.6, 5.1 and 5.7 W/m2K at 0, 10 and 20 °C.
  CHECK(radiative_film_coefficient(1.0, 0.0) == doctest::Approx(4.6).epsilon(0.01));
  CHECK(radiative_film_coefficient(1.0, 10.0) == doctest::Approx(5.1).epsilon(0.01));
  CHECK(radiative_film_coefficient(1.0, 20.0) == doctest::Approx(5.7).epsilon(0.01));
}

TEST_CASE("wind takes more from a sheet than from an insulated wall") {
  for (const double resistance : {0.0, 0.03, 0.6}) {
    CHECK(wind_loss_factor(resistance, 110.0, 20.0, 0.0) == 1.0);
    double before = 1.0;
    for (const double wind : {1.0, 2.0, 5.0, 10.0}) {
      const double factor = wind_loss_factor(resistance, 110.0, 20.0, wind);
      CHECK(factor > before);
      before = factor;
    }
  }
  CHECK(wind_loss_factor(0.0, 110.0, 20.0, 5.0) > 1.25);
  CHECK(wind_loss_factor(0.6, 110.0, 20.0, 5.0) < 1.10);
  // The limit of a hurricane is the wall without its outer film.
  CHECK(wall_transmittance(0.6, 110.0, 20.0, 20.0) < 1.0 / (1.0 / inner_wall_film + 0.6));
  CHECK_THROWS_AS((void)wind_film_coefficient(35.0), InvalidInput);
  CHECK_THROWS_AS((void)wind_film_coefficient(-1.0), InvalidInput);
}

TEST_CASE("draught: the stack formula of ASHRAE") {
  // ASHRAE Handbook - Fundamentals, ch. 16 (from memory): Q = C A sqrt(2 g H (T_i - T_o) / T_i) about the
  // neutral level, half-way between two openings of one size. Volume flow of the warm air; it takes the
  // densities as alike, which at 90 K costs some per cent.
  constexpr double area = 2e-3;
  constexpr double height = 0.6;
  for (const double inside : {25.0, 60.0, 110.0}) {
    CAPTURE(inside);
    const double volume_flow =
        opening_discharge * area *
        std::sqrt(2.0 * standard_gravity * 0.5 * height * (inside - 20.0) / kelvin(inside));
    const double mass_flow = stack_flow(area, height, inside, 20.0);
    CHECK(mass_flow / air_density(20.0) <= volume_flow);
    CHECK(mass_flow / air_density(inside) >= volume_flow);
  }
  CHECK(stack_flow(area, height, 20.0, 20.0) == 0.0);
  CHECK(stack_flow(area, height, 10.0, 20.0) == 0.0);
}

TEST_CASE("the kinds come near the vapour pressures that cookers are given by default") {
  // With one piece that evaporates 0.2 kg/h, as in a stall; within a third.
  constexpr double meat = 0.2 / 3600.0;
  for (const std::string &kind : chamber_kinds()) {
    CAPTURE(kind);
    const PitAir air = pit_air(kind, 110.0);
    CHECK_NOTHROW(air.validate());
    const double fixed = kind == "oven" ? oven(Signal(110.0)).vapour_pressure.at(0.0)
                                        : pit(kind, Signal(110.0)).vapour_pressure.at(0.0);
    CHECK(steady_vapour_pressure(air, meat) == doctest::Approx(fixed).epsilon(0.34));
  }
  const auto humid = [&](const char *kind) { return steady_vapour_pressure(pit_air(kind, 110.0), meat); };
  CHECK(humid("ceramic") > 1.5 * humid("kettle"));
  CHECK(humid("cabinet") > 1.5 * humid("drum"));
  CHECK(humid("kettle") > 1.2 * humid("offset"));
  CHECK(humid("drum") > 1.2 * humid("pellet"));
  // Baik et al., J. Food Sci. 64 (1999) 688 (abstract): 0.027 to 0.043 kg/kg in baking ovens.
  const double w = humidity_ratio(humid("oven"));
  CHECK(w > 0.027);
  CHECK(w < 0.043);
}

TEST_CASE("the flue gas itself is what the balance says, within the fuel's share") {
  for (const std::string &kind : chamber_kinds()) {
    CAPTURE(kind);
    const Combustion fire = firing(chamber(kind), 110.0);
    const double balance = steady_vapour_pressure(pit_air(kind, 110.0), 0.0);
    CHECK(balance == doctest::Approx(vapour_pressure_from_humidity_ratio(fire.humidity_ratio)).epsilon(0.03));
  }
}

TEST_CASE("colder, windier and hotter: more fuel and more air") {
  const Chamber drum = chamber("drum");
  const double mild = firing(drum, 110.0).fuel_rate;
  CHECK(firing(drum, 110.0, 0.0).fuel_rate > 1.15 * mild);
  CHECK(firing(drum, 110.0, 20.0, 0.5, 5.0).fuel_rate > 1.2 * mild);
  CHECK(firing(drum, 135.0).fuel_rate > 1.2 * mild);
  CHECK(pit_air(drum, 110.0, 20.0, 0.5, 5.0).air_flow > 1.2 * pit_air(drum, 110.0).air_flow);
  // Winter air is dry: less vapour comes in.
  CHECK(pit_air(drum, 110.0, 0.0).inlet_vapour_pressure < 0.3 * pit_air(drum, 110.0).inlet_vapour_pressure);
  // An hour's fuel at 110 °C, common practice: some 0.1 to 0.3 kg of charcoal in a drum, a pound of wood or
  // more in an offset.
  CHECK(3600.0 * mild > 0.1);
  CHECK(3600.0 * mild < 0.3);
  CHECK(3600.0 * firing(chamber("offset"), 110.0).fuel_rate > 0.45);
}

TEST_CASE("the energy of a chamber closes") {
  const Chamber c = chamber("kettle");
  const Combustion fire = firing(c, 120.0, 10.0, 0.7, 3.0);
  const double carried_off = fire.dry_gas * (humid_air_enthalpy(120.0, fire.humidity_ratio) -
                                             humid_air_enthalpy(10.0, fire.humidity_ratio));
  CHECK(fire.fuel_rate * heating_value(fuel("charcoal")) ==
        doctest::Approx(wall_loss(c, 120.0, 10.0, 3.0) + c.food_heat + carried_off).epsilon(1e-12));
}

TEST_CASE("words of the trade name a cooker") {
  CHECK(cooker_called("electric smoker") == "cabinet");
  CHECK(cooker_called("Gas") == "cabinet");
  CHECK(cooker_called("egg-shaped") == "ceramic");
  CHECK(cooker_called("a barrel, on its side") == "drum");
  CHECK(cooker_called("charcoal grill") == "kettle");
  CHECK(cooker_called("stick burner") == "offset");
  CHECK(cooker_called("pellets") == "pellet");
  CHECK(cooker_called("kitchen").empty());
  CHECK(cooker_called("").empty());
  CHECK(cooker_called(std::string(100000, 'x')).empty());
}

TEST_CASE("bad chambers are refused by name") {
  CHECK_THROWS_WITH_AS(
      (void)pit_air("barrel", 110.0),
      "kind: 'barrel' is not a known cooker; known: ceramic, drum, kettle, cabinet, offset, pellet, "
      "oven; did you mean 'drum'?",
      InvalidInput);
  CHECK_THROWS_AS((void)pit_air("drum", 25.0), InvalidInput);
  CHECK_THROWS_AS((void)pit_air("drum", 350.0), InvalidInput);
  CHECK_THROWS_WITH_AS((void)pit_air("drum", 110.0, 20.0, 50.0),
                       "ambient_humidity: 50; accepted: 0 to 1; a relative humidity in per cent? 50 % is 0.5",
                       InvalidInput);
  CHECK_THROWS_AS((void)pit_air("drum", 110.0, 20.0, 0.5, std::nan("")), InvalidInput);
  CHECK_THROWS_AS((void)pit_air("drum", std::nan("")), InvalidInput);
  Chamber c = chamber("drum");
  c.fuel = "coal";
  CHECK_THROWS_AS(c.validate(), InvalidInput);
  c = chamber("drum");
  c.air_ratio = 80.0;
  CHECK_THROWS_AS((void)pit_air(c, 150.0), InvalidInput);
  c = chamber("drum");
  c.volume = 200.0;
  CHECK_THROWS_AS(c.validate(), InvalidInput);
}

TEST_CASE("every number of a chamber is in the table, and its range can be used") {
  for (const std::string &kind : chamber_kinds()) {
    CAPTURE(kind);
    const std::string at = "chamber." + kind + ".";
    struct Member {
      const char *name;
      double Chamber::*value;
    };
    const Chamber c = chamber(kind);
    const bool electric = c.fuel == "electric";
    for (const Member &m : {Member{"volume", &Chamber::volume}, Member{"wall_area", &Chamber::wall_area},
                            Member{"wall_resistance", &Chamber::wall_resistance},
                            Member{electric ? "vent_area" : "air_ratio",
                                   electric ? &Chamber::vent_area : &Chamber::air_ratio}}) {
      const Parameter &p = parameter(at + m.name);
      CHECK(p.value == c.*m.value);
      for (const double end : {p.low, p.high}) {
        Chamber changed = c;
        changed.*m.value = end;
        CHECK_NOTHROW((void)pit_air(changed, 110.0));
      }
    }
  }
}
