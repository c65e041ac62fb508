#include "cook/fit/free_parameter.hpp"

#include <algorithm>
#include <cmath>

#include "cook/errors.hpp"
#include "cook/meat/cut.hpp"
#include "engine/stages/face_film.hpp"
#include "fit/belief/free_value.hpp"

namespace cook {

namespace {

constexpr double hot_air = 60.0;       // °C: air that heats meat
constexpr double fat_needed = 1e-9;    // m
constexpr double wrapped_from = 100.0; // s/m: a covering that matters beside a film's 1 / h_m of 100 to 200
constexpr double impervious = 2e4;     // s/m: from here on only leaks are left, and a log cannot tell

constexpr double on_the_middle = 1e-9; // m: rounding

/// Mean film coefficient of a stage's two faces.
double film_of(const Meat &meat, const Surroundings &s) {
  return 0.5 * (engine::nominal_film(s, meat.shape, engine::Look::down) +
                engine::nominal_film(s, meat.shape, engine::Look::up));
}

double resistance(const Stage &stage) {
  return std::max(stage.wrap.bottom.vapour_resistance, stage.wrap.top.vapour_resistance);
}

/// Whether a stage's wrap breathes: what a log can teach of a wrap. Foil only leaks.
bool resists(const Stage &stage) {
  return resistance(stage) > wrapped_from && resistance(stage) < impervious;
}

bool breathes(const Stage &stage) { return stage.surroundings.pit_air.has_value(); }

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

bool has_cap(const Meat &meat) {
  return meat.fat_cap.side != FatSide::none && meat.fat_cap.thickness >= fat_needed;
}

/// Whether a plan has what a number belongs to.
bool has(const Plan &plan, const std::string &name) {
  if (name == "wrap_resistance") {
    return first(plan, resists) != nullptr;
  }
  if (name == "air_flow") {
    return first(plan, breathes) != nullptr;
  }
  if (name == "fat_cap") {
    return has_cap(plan.meat);
  }
  if (name == "film_coefficient" || name == "vapour_pressure" || name == "radiant_bottom" ||
      name == "pit_offset") {
    const Stage *heated = first(plan, heats);
    return heated && !(name == "vapour_pressure" && heated->surroundings.pit_air);
  }
  return true;
}

/// Height of a probe's tip above the middle [m]; where none is given, it is there.
double offset_of(const std::optional<Probe> &probe, double thickness) {
  return probe && probe->z ? *probe->z - 0.5 * thickness : 0.0;
}

/// Height of a tip above the bottom [m], kept inside the meat.
double inside(double offset, double thickness) {
  constexpr double closest = 0.03; // share of the thickness
  return std::clamp(0.5 * thickness + offset, closest * thickness, (1.0 - closest) * thickness);
}

/// The piece was weighed: its mass stays, whatever is learned of its thickness, its fat cap or how cold (so
/// how dense) the fat is. What is given back as it was changes nothing.
void set_weighed(Meat &meat, double &number, double value) {
  if (number == value) {
    return;
  }
  const double mass = meat.mass();
  number = value;
  meat = resized(meat, mass, meat.shape.thickness);
}

/// The piece was weighed: its mass stays.
void set_thickness(Plan &plan, double value) {
  const Shape before = plan.meat.shape;
  plan.meat = resized(plan.meat, plan.meat.mass(), value);
  const double up = value / before.thickness;
  const double along =
      before.kind == ShapeKind::slab ? std::sqrt(plan.meat.shape.extent / before.extent) : 1.0;
  const auto stretch = [&](Probe &probe) {
    if (probe.x) {
      probe.x = *probe.x * along;
    }
    if (probe.z) {
      probe.z = *probe.z * up;
    }
  };
  for (Stage &stage : plan.stages) {
    if (stage.probe) {
      const double offset = offset_of(stage.probe, before.thickness);
      const bool placed = stage.probe->z.has_value();
      stretch(*stage.probe);
      if (placed) {
        stage.probe->z = inside(offset, value);
      }
    }
  }
  for (Probe &probe : plan.probes) {
    stretch(probe);
  }
}

/// Both sides of the middle read much the same; the side is the plan's. A later stage that has its probe
/// elsewhere keeps it there, and one that names none goes on with the one before.
void set_probe_distance(Plan &plan, double value) {
  const double thickness = plan.meat.shape.thickness;
  const double before = offset_of(plan.stages.front().probe, thickness);
  const double z = inside(before < 0.0 ? -value : value, thickness);
  for (std::size_t i = 0; i < plan.stages.size(); ++i) {
    std::optional<Probe> &probe = plan.stages[i].probe;
    if (i == 0 || (probe && offset_of(probe, thickness) == before)) {
      probe = probe.value_or(Probe{});
      probe->z = z;
    }
  }
}

/// What a number of a stage becomes when the one that it goes with goes from `before` to `value`. From
/// nothing there is no ratio to keep.
double scaled(double old, double value, double before) {
  return before != 0.0 ? old * (value / before) : old + value;
}

void scale(Signal &signal, double value, double before) {
  for (double &v : signal.value) {
    v = scaled(v, value, before);
  }
  signal.ripple_amplitude *= before != 0.0 ? value / before : 1.0;
}

void scale_wrap(Wrap &wrap, double value, double before) {
  wrap.bottom.vapour_resistance *= value / before;
  wrap.top.vapour_resistance *= value / before;
  if (wrap.ends && wrap.ends->vapour_resistance < impervious) {
    wrap.ends->vapour_resistance *= value / before;
  }
}

void scale_films(Surroundings &s, const Shape &shape, double value, double before) {
  for (const engine::Look face : {engine::Look::down, engine::Look::up}) {
    Film &film = face == engine::Look::down ? s.bottom : s.top;
    if (before != 0.0) {
      film.factor *= value / before;
    } else if (engine::nominal_film(s, shape, face) == 0.0) {
      film = {.kind = Convection::given, .value = value};
    }
  }
}

void shift(Signal &signal, double by) {
  for (double &v : signal.value) {
    v += by;
  }
}

/// The numbers that belong to stages; those without what the number is about stay as they are.
void write_to_stages(Plan &plan, const std::string &name, double value, double before) {
  for (Stage &stage : plan.stages) {
    Surroundings &s = stage.surroundings;
    if (name == "wrap_resistance") {
      if (resists(stage)) {
        scale_wrap(stage.wrap, value, before);
      }
    } else if (name == "air_flow") {
      if (s.pit_air) {
        s.pit_air->air_flow = scaled(s.pit_air->air_flow, value, before);
      }
    } else if (!heats(stage)) {
      continue;
    } else if (name == "film_coefficient") {
      scale_films(s, plan.meat.shape, value, before);
    } else if (name == "vapour_pressure" && !s.pit_air) {
      scale(s.vapour_pressure, value, before);
    } else if (name == "radiant_bottom") {
      s.radiant_bottom += value - before;
    } else if (name == "pit_offset") {
      shift(s.air, value);
      if (s.air_below) {
        shift(*s.air_below, value);
      }
    }
  }
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
    if (!has_cap(plan.meat)) {
      throw InvalidInput(field, in_quotes(name) + " cannot be fitted: the meat has no fat cap");
    }
    return plan.meat.fat_cap.thickness;
  }
  if (name == "pit_offset" || name == "sensor_offset") {
    return 0.0;
  }
  if (name == "start") {
    return plan.meat.start;
  }
  if (name == "probe_distance") {
    const double distance = std::fabs(offset_of(plan.stages.front().probe, plan.meat.shape.thickness));
    return distance > on_the_middle ? distance : usual_probe_distance;
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
  const std::optional<double> before = value_if_any(plan, name);
  if (before && value != *before) {
    write_value(plan, name, value, *before);
  }
}

std::optional<double> value_if_any(const Plan &plan, const std::string &name) {
  return has(plan, name) ? std::optional(value_in(plan, name)) : std::nullopt;
}

void write_value(Plan &plan, const std::string &name, double value, double before) {
  Tissue &tissue = plan.meat.tissue;
  const std::optional<Probe> &probe = plan.stages.front().probe;
  const bool open = std::fabs(offset_of(probe, plan.meat.shape.thickness)) <= on_the_middle;
  if (name == "probe_distance" && (value != before || open)) {
    set_probe_distance(plan, value);
  } else if (value == before) {
    return; // a ratio of one and a shift by nothing, but for rounding
  } else if (name == "thickness") {
    set_thickness(plan, value);
  } else if (name == "start") {
    set_weighed(plan.meat, plan.meat.start, value);
  } else if (name == "expressed_mobility") {
    tissue.mobility.expressed = value;
  } else if (name == "held_mobility") {
    tissue.mobility.held = value;
  } else if (name == "final_share") {
    tissue.holding.final_share = value;
  } else if (name == "emissivity") {
    tissue.emissivity = value;
  } else if (name == "fat_cap") {
    set_weighed(plan.meat, plan.meat.fat_cap.thickness, value);
  } else {
    write_to_stages(plan, name, value, before);
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
