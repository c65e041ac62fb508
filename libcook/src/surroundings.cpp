#include "cook/surroundings.hpp"

#include <algorithm>
#include <array>

#include "cook/errors.hpp"
#include "cook/humid_air.hpp"

namespace cook {

namespace {

/// What a kind of cooker is like. Common practice, no source: which cooker breathes more and which radiates
/// from below.
struct Kind {
  const char *name;
  double vapour_pressure; ///< [Pa]
  double air_speed;       ///< [m s⁻¹]; 0: still air
  double coals;           ///< what the bottom sees, above air temperature [K]
};

constexpr std::array kinds{
    Kind{"ceramic", 12000.0, 0.0, 0.0}, Kind{"drum", 8000.0, 0.0, 0.0},   Kind{"kettle", 8000.0, 0.0, 10.0},
    Kind{"cabinet", 10000.0, 0.0, 0.0}, Kind{"offset", 6000.0, 0.5, 0.0}, Kind{"pellet", 5000.0, 0.5, 0.0},
};

constexpr double coldest_air = saturation_range_low; // °C: below it the saturation formula means nothing
constexpr double hottest_pit = 180.0;                // °C, about 355 °F
constexpr double hottest_oven = 260.0;               // °C, about 500 °F

void check_film(const std::string &field, const Film &film) {
  if (film.kind == Convection::given) {
    check::within(field + ".value", film.value, 0.0, 1e8, "W/m²K");
  } else if (film.kind == Convection::forced) {
    check::within(field + ".value", film.value, 0.0, 20.0, "m/s");
  }
  if (film.kind != Convection::given) {
    check::within(field + ".length", film.length, 0.005, 5.0, "m");
  }
}

Film still_air() { return {}; }

Film moving_air(double speed) {
  constexpr double along = 0.3; // length of a brisket in the stream [m]
  return {.kind = Convection::forced, .value = speed, .length = along};
}

} // namespace

void Surroundings::validate(const std::string &field) const {
  air.validate(field + ".air");
  // A pit for low-and-slow cooking: a number above its range is most likely °F. Ovens go higher.
  const bool is_pit = kind == "pit" || std::any_of(kinds.begin(), kinds.end(),
                                                   [this](const Kind &k) { return kind == k.name; });
  for (const double value : {air.minimum(), air.maximum()}) {
    check::celsius(field + ".air", value, coldest_air, is_pit ? hottest_pit : hottest_oven);
  }
  if (air_below) {
    air_below->validate(field + ".air_below");
    check::celsius(field + ".air_below", air_below->minimum(), coldest_air, hottest_oven);
    check::celsius(field + ".air_below", air_below->maximum(), coldest_air, hottest_oven);
    if (box) {
      throw InvalidInput(field + ".air_below", "a box has one air temperature; leave air_below out");
    }
  }
  check::within(field + ".radiant_bottom", radiant_bottom, -200.0, 500.0, "K");
  check::within(field + ".radiant_top", radiant_top, -200.0, 500.0, "K");
  check::within(field + ".view", view, 0.0, 1.0, "");
  check_film(field + ".bottom", bottom);
  check_film(field + ".top", top);
  check::within(field + ".pressure", pressure, 5e4, 1.1e5, "Pa");
  vapour_pressure.validate(field + ".vapour_pressure");
  check::not_negative(field + ".vapour_pressure", vapour_pressure.minimum(), "Pa");
  check::within(field + ".vapour_pressure", vapour_pressure.maximum(), 0.0, 0.9 * pressure, "Pa",
                "pressures are in Pa: 8 kPa is 8000");
  check::celsius(field + ".ambient", ambient, -40.0, 60.0);
  if (box) {
    check::positive(field + ".box.heat_capacity", box->heat_capacity, "J/K");
    check::not_negative(field + ".box.loss", box->loss, "W/K");
    check::celsius(field + ".box.start", box->start, -20.0, 120.0);
  }
  if (pit_air) {
    pit_air->validate(field + ".pit_air");
    if (box) {
      throw InvalidInput(field + ".pit_air", "an insulated box does not breathe; leave one of the two out");
    }
  }
}

const std::vector<std::string> &pit_kinds() {
  static const std::vector<std::string> names = [] {
    std::vector<std::string> list;
    list.reserve(kinds.size());
    for (const Kind &kind : kinds) {
      list.emplace_back(kind.name);
    }
    return list;
  }();
  return names;
}

Surroundings pit(const std::string &kind, Signal air) {
  const auto *found =
      std::find_if(kinds.begin(), kinds.end(), [&](const Kind &candidate) { return kind == candidate.name; });
  if (found == kinds.end()) {
    std::string known;
    for (const std::string &name : pit_kinds()) {
      known += (known.empty() ? "" : ", ") + name;
    }
    throw InvalidInput("kind", "'" + kind + "' is not a known cooker; known: " + known);
  }
  Surroundings s;
  s.kind = kind;
  s.air = std::move(air);
  s.vapour_pressure = Signal(found->vapour_pressure);
  s.bottom = s.top = found->air_speed > 0.0 ? moving_air(found->air_speed) : still_air();
  s.radiant_bottom = found->coals;
  s.validate("pit");
  return s;
}

Surroundings oven(Signal air, bool fan) {
  Surroundings s;
  s.kind = fan ? "fan oven" : "oven";
  s.air = std::move(air);
  s.vapour_pressure = Signal(
      4000.0); // vented kitchen oven, w about 0.025: within the published 0.027-0.043 kg/kg of Baik 1999
  s.bottom = s.top = fan ? moving_air(0.4) : still_air();
  s.validate("oven");
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
