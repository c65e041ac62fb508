#include "cook/free_parameter.hpp"

#include <algorithm>
#include <cmath>

#include "cook/cut.hpp"
#include "cook/errors.hpp"
#include "engine/face_film.hpp"

namespace cook {

namespace {

constexpr double hot_air = 60.0;       // °C: air that heats meat
constexpr double fat_needed = 1e-9;    // m
constexpr double wrapped_from = 100.0; // s/m: a covering that matters beside a film's 1 / h_m of 100 to 200
constexpr double impervious = 2e4;     // s/m: from here on only leaks are left, and a log cannot tell

/// Mean film coefficient of a stage's two faces, when it begins.
double film_of(const Meat &meat, const Surroundings &s) {
  const double air = s.air.at(0.0);
  return 0.5 * (engine::face_film(s.bottom, meat.shape, engine::Look::down, air).nominal(air) +
                engine::face_film(s.top, meat.shape, engine::Look::up, air).nominal(air));
}

double resistance(const Stage &stage) {
  return std::max(stage.wrap.bottom.vapour_resistance, stage.wrap.top.vapour_resistance);
}

/// Whether a stage's wrap breathes: what a log can teach of a wrap. Foil only leaks.
bool resists(const Stage &stage) {
  return resistance(stage) > wrapped_from && resistance(stage) < impervious;
}

template <class Has> const Stage *first(const Plan &plan, Has has) {
  const auto found = std::find_if(plan.stages.begin(), plan.stages.end(), has);
  return found == plan.stages.end() ? nullptr : &*found;
}

const Stage &need(const Stage *stage, const std::string &field, const std::string &name,
                  const std::string &lacking) {
  if (!stage) {
    throw InvalidInput(field, in_quotes(name) + " cannot be fitted: " + lacking);
  }
  return *stage;
}

/// Whether a plan has what a number of its stages belongs to.
bool has(const Plan &plan, const std::string &name) {
  if (name == "wrap_resistance") {
    return first(plan, resists) != nullptr;
  }
  const auto breathes = [](const Stage &s) { return s.surroundings.pit_air.has_value(); };
  if (name == "air_flow") {
    return first(plan, breathes) != nullptr;
  }
  const Stage *heated = first(plan, heats);
  return heated && !(name == "vapour_pressure" && heated->surroundings.pit_air);
}

/// Height of the probe's tip above the middle, as the first stage has it [m].
double offset_of(const Plan &plan) {
  const double middle = 0.5 * plan.meat.shape.thickness;
  const auto &probe = plan.stages.front().probe;
  return probe && probe->z ? *probe->z - middle : 0.0;
}

/// The piece was weighed: its mass stays.
void set_thickness(Meat &meat, double value) { meat = resized(meat, meat.mass(), value); }

void place_probe(Plan &plan, double offset) {
  const double thickness = plan.meat.shape.thickness;
  constexpr double closest = 0.03; // share of the thickness: a tip stays inside the meat
  for (Stage &stage : plan.stages) {
    Probe probe = stage.probe.value_or(Probe{});
    probe.z = std::clamp(0.5 * thickness + offset, closest * thickness, (1.0 - closest) * thickness);
    stage.probe = probe;
  }
}

void shift(Signal &signal, double by) {
  for (double &v : signal.value) {
    v += by;
  }
}

void scale(Signal &signal, double by) {
  for (double &v : signal.value) {
    v *= by;
  }
  signal.ripple_amplitude *= by;
}

} // namespace

bool heats(const Stage &stage) {
  return !stage.surroundings.box && stage.surroundings.air.maximum() > hot_air;
}

std::size_t done_stage(const Plan &plan) {
  std::size_t found = plan.stages.size() - 1;
  bool waits = false;
  bool heated = false;
  for (std::size_t i = 0; i < plan.stages.size(); ++i) {
    const auto &ends = plan.stages[i].until;
    const bool warms = std::any_of(ends.begin(), ends.end(), [](const End &e) {
      return e.kind == EndKind::core || e.kind == EndKind::tender;
    });
    if (warms) {
      found = i;
      waits = true;
    } else if (!waits && heats(plan.stages[i])) {
      found = i;
      heated = true;
    }
  }
  return waits || heated ? found : plan.stages.size() - 1;
}

double value_in(const Plan &plan, const std::string &name, const std::string &field) {
  (void)free_kind(name, field);
  const auto heated = [&] { return first(plan, heats); };
  const std::string no_heat = "no stage of the plan heats";
  const Tissue &tissue = plan.meat.tissue;
  if (name == "thickness") {
    return plan.meat.shape.thickness;
  }
  if (name == "film_coefficient") {
    return film_of(plan.meat, need(heated(), field, name, no_heat).surroundings);
  }
  if (name == "vapour_pressure") {
    const Stage &stage = need(heated(), field, name, no_heat);
    if (stage.surroundings.pit_air) {
      throw InvalidInput(field, in_quotes(name) +
                                    " cannot be fitted: the cooker has a vapour balance, which sets it; "
                                    "fit 'air_flow' instead");
    }
    return stage.surroundings.vapour_pressure.at(0.0);
  }
  if (name == "air_flow") {
    const auto breathes = [](const Stage &s) { return s.surroundings.pit_air.has_value(); };
    return need(first(plan, breathes), field, name,
                "no stage has a vapour balance (pit_air); fit 'vapour_pressure' instead")
        .surroundings.pit_air->air_flow;
  }
  if (name == "radiant_bottom") {
    return need(heated(), field, name, no_heat).surroundings.radiant_bottom;
  }
  if (name == "wrap_resistance") {
    const Stage &stage =
        need(first(plan, resists), field, name, "no stage of the plan has a wrap that breathes");
    return resistance(stage);
  }
  if (name == "fat_cap") {
    const FatCap &cap = plan.meat.fat_cap;
    if (cap.side == FatSide::none || cap.thickness < fat_needed) {
      throw InvalidInput(field, in_quotes(name) + " cannot be fitted: the meat has no fat cap");
    }
    return cap.thickness;
  }
  if (name == "pit_offset" || name == "sensor_offset") {
    return 0.0;
  }
  if (name == "start") {
    return plan.meat.start;
  }
  if (name == "probe_distance") {
    return std::max(std::fabs(offset_of(plan)), usual_probe_distance);
  }
  if (name == "expressed_mobility") {
    return tissue.mobility.expressed;
  }
  if (name == "held_mobility") {
    return tissue.mobility.held;
  }
  return name == "final_share" ? tissue.holding.final_share : tissue.emissivity;
}

void set_value(Plan &plan, const std::string &name, double value) {
  Tissue &tissue = plan.meat.tissue;
  if (name == "thickness") {
    // A probe stays where it is relative to the middle.
    const double offset = offset_of(plan);
    set_thickness(plan.meat, value);
    if (offset != 0.0) {
      place_probe(plan, offset);
    }
  } else if (name == "probe_distance") {
    // Both sides of the middle read much the same; the side is the plan's.
    place_probe(plan, offset_of(plan) < 0.0 ? -value : value);
  } else if (name == "start") {
    plan.meat.start = value;
  } else if (name == "expressed_mobility") {
    tissue.mobility.expressed = value;
  } else if (name == "held_mobility") {
    tissue.mobility.held = value;
  } else if (name == "final_share") {
    tissue.holding.final_share = value;
  } else if (name == "emissivity") {
    tissue.emissivity = value;
  } else if (name == "fat_cap") {
    plan.meat.fat_cap.thickness = value;
  } else if (name != "sensor_offset") {
    const bool offset = name == "pit_offset";
    if (!has(plan, name)) {
      return;
    }
    const double before = offset ? 0.0 : value_in(plan, name);
    for (Stage &stage : plan.stages) {
      Surroundings &s = stage.surroundings;
      if (name == "wrap_resistance" && resists(stage)) {
        stage.wrap.bottom.vapour_resistance *= value / before;
        stage.wrap.top.vapour_resistance *= value / before;
      } else if (name == "air_flow" && s.pit_air) {
        s.pit_air->air_flow *= value / before;
      } else if (!heats(stage)) {
        continue;
      } else if (name == "film_coefficient") {
        s.bottom.factor *= value / before;
        s.top.factor *= value / before;
      } else if (name == "vapour_pressure" && !s.pit_air) {
        scale(s.vapour_pressure, value / before);
      } else if (name == "radiant_bottom") {
        s.radiant_bottom += value - before;
      } else if (offset) {
        shift(s.air, value);
        if (s.air_below) {
          shift(*s.air_below, value);
        }
      }
    }
  }
}

std::vector<FreeParameter> usual_free(const Plan &plan) {
  std::vector<FreeParameter> free;
  const auto add = [&](const char *name) { free.push_back({.name = name}); };
  for (const char *name : {"thickness", "start", "probe_distance", "expressed_mobility", "held_mobility"}) {
    add(name);
  }
  if (first(plan, heats)) {
    add("film_coefficient");
    add("pit_offset");
    add(first(plan, heats)->surroundings.pit_air ? "air_flow" : "vapour_pressure");
  }
  if (first(plan, [](const Stage &s) { return heats(s) && resists(s); })) {
    add("wrap_resistance");
  }
  return free;
}

} // namespace cook
