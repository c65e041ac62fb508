#include "cook/cooker/surroundings.hpp"

#include <algorithm>
#include <cmath>
#include <iterator>

#include "cook/cooker/cooker_fields.hpp"
#include "cook/cooker/humid_air.hpp"
#include "cook/errors.hpp"
#include "cooker/known_cookers.hpp"
#include "engine/faces/radiation.hpp"
#include "fields/check.hpp"

namespace cook {

namespace {

/// Of a fan oven, at the meat [m s⁻¹]: makes effective coefficients of 20 to 35 W/m²K with radiation on
/// pieces of 0.4 to 0.07 m, inside those published for such ovens (Baik et al., J. Food Sci. 64 (1999) 688:
/// 20 to 48).
constexpr double fan_speed = 1.5;

constexpr double coldest_air = saturation_range_low; // °C: below it the saturation formula means nothing
constexpr double hottest_pit = 230.0;                // °C, about 445 °F
constexpr double hottest_oven = 260.0;               // °C, about 500 °F

bool is_pit(const std::string &kind) {
  return kind == "pit" || std::find(pit_kinds().begin(), pit_kinds().end(), kind) != pit_kinds().end();
}

void check_film(const std::string &field, const Film &film) {
  if (film.kind == Convection::given) {
    check::within(field + ".value", film.value, 0.0, 1e8, kind::film_coefficient.unit);
  } else if (film.kind == Convection::forced) {
    check::within(field + ".value", film.value, 0.0, 20.0, kind::velocity.unit);
  }
  if (film.kind != Convection::given) {
    if (film.length != 0.0) { // else that of the piece
      check::member(field + ".", film, &Film::length);
    }
  }
  check::member(field + ".", film, &Film::factor);
}

/// Refuses what glows so that meat chars, and what is colder than any sky: there the model ends, and its
/// solver soon after.
void check_glow(const std::string &field, const Surroundings &s) {
  constexpr double hottest_glow = 400.0; // °C
  constexpr double coldest_sky = -70.0;  // °C; a clear night sky is 10 to 40 K colder than the air
  constexpr double box_at_most = 100.0;  // °C: it is warmed by meat
  const auto fourth = [](double celsius) { return engine::fourth_power(kelvin(celsius)).value; };
  // Of what fills only part of the view, as much as from a uniform glow or sky:
  const auto seen = [&](double air, double offset) {
    const double given = fourth(air) + s.view * (fourth(air + offset) - fourth(air));
    return celsius_from_kelvin(std::sqrt(std::sqrt(given)));
  };
  for (const bool top : {false, true}) {
    const Signal &signal = !top && s.air_below ? *s.air_below : s.air;
    const double hottest = s.box ? std::fmax(box_at_most, s.box->start) : signal.maximum();
    const double coldest = s.box ? std::fmin(signal.minimum(), s.box->start) : signal.minimum();
    const double offset = top ? s.radiant_top : s.radiant_bottom;
    const std::string radiates = field + (top ? ".radiant_top" : ".radiant_bottom");
    if (seen(coldest, offset) < coldest_sky) {
      throw InvalidInput(radiates, "the meat would see " + format_degrees(coldest + offset) +
                                       "; accepted: down to " + format_degrees(coldest_sky) +
                                       ": not even the sky at night is as cold");
    }
    if (seen(hottest, offset) > hottest_glow) {
      throw InvalidInput(
          radiates, "beyond air of " + format_degrees(hottest) + " the meat would see " +
                        format_degrees(hottest + offset) + "; accepted: up to " +
                        format_degrees(hottest_glow) +
                        ": beyond it meat chars, which this model does not know; for embers in a part of "
                        "what it sees, give 'view'");
    }
  }
}

/// Times at which lines that cross may part most: the points of both signals between two times, and those.
std::vector<double> corners(const Signal &a, const Signal &b, double from, double to) {
  std::vector<double> times{from, to};
  for (const Signal *signal : {&a, &b}) {
    std::copy_if(signal->time.begin(), signal->time.end(), std::back_inserter(times),
                 [&](double t) { return t > from && t < to; });
  }
  return times;
}

/// Refuses vapour that the air cannot hold at any time; where it can at some, it is saturated at others.
void check_vapour(const std::string &field, const Surroundings &s) {
  constexpr double rounding = 1.0 + 1e-9;
  const Signal &air = s.air;
  const Signal &vapour = s.vapour_pressure;
  if (s.box || vapour.minimum() <= rounding * saturation_pressure(air.minimum())) {
    return;
  }
  constexpr double ever = 1e300; // s
  for (const double time : corners(air, vapour, -ever, ever)) {
    const double least = vapour.without_ripple(time) - vapour.ripple_amplitude;
    const double warmest = air.without_ripple(time) + air.ripple_amplitude;
    if (least <= rounding * saturation_pressure(warmest)) {
      return;
    }
  }
  const double warmest = air.maximum();
  throw InvalidInput(field + ".vapour_pressure",
                     format_number(vapour.minimum()) + " Pa of vapour cannot be in air of " +
                         format_degrees(warmest) + ", which holds " +
                         format_number(std::round(saturation_pressure(warmest))) +
                         " Pa at most: the rest turns to fog and dew; give less, or hotter air");
}

Film still_air() { return {}; }

/// What a cooker's air holds by default: no more than saturation where it never gets warm.
Signal vented(double vapour, const std::string &field, const Signal &air) {
  air.validate(field);
  return {std::fmin(vapour, saturation_pressure(air.maximum()))};
}

Film moving_air(double speed) { return {.kind = Convection::forced, .value = speed}; }

} // namespace

bool looks_like_fahrenheit(const Surroundings &s) {
  constexpr double low_and_slow_ends = 180.0; // °C; in °F, all numbers of low and slow are above it
  const double hottest = s.air.maximum();
  return is_pit(s.kind) && hottest > low_and_slow_ends && hottest == std::round(hottest);
}

Supersaturation supersaturation(const Surroundings &s, double from, double to) {
  Supersaturation worst;
  const Signal &air = s.air;
  const Signal &vapour = s.vapour_pressure;
  if (s.box || s.pit_air || vapour.maximum() <= saturation_pressure(air.minimum())) {
    return worst;
  }
  constexpr double rounding = 1e-9;
  for (const double time : corners(air, vapour, from, to)) {
    const double coldest = air.without_ripple(time) - air.ripple_amplitude;
    const double given = vapour.without_ripple(time) + vapour.ripple_amplitude;
    const double excess = given - saturation_pressure(coldest);
    if (excess > std::fmax(worst.excess, rounding * given)) {
      worst = {excess, coldest, given};
    }
  }
  return worst;
}

void Surroundings::validate(const std::string &field) const {
  air.validate(field + ".air");
  // A pit for meat: a number above its range is most likely °F. Ovens go higher.
  for (const double value : {air.minimum(), air.maximum()}) {
    check::celsius(field + ".air", value, coldest_air, is_pit(kind) ? hottest_pit : hottest_oven);
  }
  if (air_below) {
    air_below->validate(field + ".air_below");
    check::celsius(field + ".air_below", air_below->minimum(), coldest_air, hottest_oven);
    check::celsius(field + ".air_below", air_below->maximum(), coldest_air, hottest_oven);
    if (box) {
      throw InvalidInput(field + ".air_below", "a box has one air temperature; leave air_below out");
    }
  }
  check::members(field + ".", *this);
  check_glow(field, *this);
  check_film(field + ".bottom", bottom);
  check_film(field + ".top", top);
  vapour_pressure.validate(field + ".vapour_pressure");
  check::not_negative(field + ".vapour_pressure", vapour_pressure.minimum(), "Pa");
  check::within(field + ".vapour_pressure", vapour_pressure.maximum(), 0.0, 0.9 * pressure, "Pa",
                "pressures are in Pa: 8 kPa is 8000");
  check_vapour(field, *this);
  if (pit_air) {
    pit_air->validate(field + ".pit_air");
    check::within(field + ".pit_air.inlet_vapour_pressure", pit_air->inlet_vapour_pressure, 0.0,
                  std::round(saturation_pressure(hottest_outside)), "Pa",
                  "air from outside holds no more: at 30 °C 4200 Pa");
    if (box) {
      throw InvalidInput(field + ".pit_air", "an insulated box does not breathe; leave one of the two out");
    }
  }
}

const std::vector<std::string> &pit_kinds() {
  static const std::vector<std::string> names = [] {
    std::vector<std::string> list;
    for (const KnownCooker &known : known_cookers()) {
      if (known.pit) {
        list.emplace_back(known.name);
      }
    }
    return list;
  }();
  return names;
}

Surroundings pit(const std::string &kind, Signal air) {
  const KnownCooker &known = known_cooker(kind, false);
  Surroundings s;
  s.kind = kind;
  s.air = std::move(air);
  s.vapour_pressure = vented(known.vapour_pressure, "pit.air", s.air);
  s.bottom = s.top = known.air_speed > 0.0 ? moving_air(known.air_speed) : still_air();
  s.radiant_bottom = known.coals;
  s.validate("pit");
  return s;
}

Surroundings oven(Signal air, bool fan) {
  Surroundings s;
  s.kind = fan ? "fan oven" : "oven";
  s.air = std::move(air);
  // Vented kitchen oven, w about 0.025: within the published 0.027-0.043 kg/kg of Baik 1999.
  s.vapour_pressure = vented(known_cooker("oven", true).vapour_pressure, "oven.air", s.air);
  s.bottom = s.top = fan ? moving_air(fan_speed) : still_air();
  s.validate("oven");
  return s;
}

Surroundings holding_oven(double air, double humidity) {
  check::celsius("holding_oven.air", air, coldest_air, hottest_oven);
  check::within("holding_oven.humidity", humidity, 0.0, 1.0, "", "40 % is 0.4");
  Surroundings s = oven(Signal(air), true);
  s.kind = holding_oven_kind;
  s.vapour_pressure = Signal(humidity * saturation_pressure(air));
  s.validate("holding_oven");
  return s;
}

Surroundings counter(double room) {
  check::celsius("counter.room", room, -20.0, 50.0);
  Surroundings s;
  s.kind = "counter";
  s.air = Signal(room);
  s.ambient = room;
  s.vapour_pressure = Signal(0.5 * saturation_pressure(room));
  s.bottom = s.top = still_air();
  return s;
}

Surroundings insulated_box(double room, Box box) {
  Surroundings s = counter(room);
  s.kind = "insulated box";
  s.box = box;
  // The air in the box is close to saturation at the liner's temperature; wrapped meat hardly evaporates into
  // it.
  s.vapour_pressure = Signal(0.5 * saturation_pressure(50.0));
  s.validate("insulated_box");
  return s;
}

} // namespace cook
