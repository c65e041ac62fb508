/// @file
/// The numbers that may be fitted, one entry each: what is believed of it beforehand, how it is read from a
/// plan and written into one.
#include <algorithm>
#include <cmath>

#include "cook/fields/kind.hpp"
#include "cook/fit/free_parameter.hpp"
#include "cook/meat/cut.hpp"
#include "engine/stages/face_film.hpp"
#include "fit/belief/belief.hpp"
#include "fit/belief/free_value.hpp"

namespace cook {

namespace {

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

bool has_cap(const Meat &meat) {
  return meat.fat_cap.side != FatSide::none && meat.fat_cap.thickness >= fat_needed;
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

// Why a plan has no such number; empty where it has.

std::string_view always(const Plan & /*plan*/) { return {}; }

std::string_view heated(const Plan &plan) { return first(plan, heats) ? "" : "no stage of the plan heats"; }

std::string_view given_vapour(const Plan &plan) {
  const Stage *stage = first(plan, heats);
  return stage && stage->surroundings.pit_air
             ? "the cooker has a vapour balance, which sets it; fit 'air_flow' instead"
             : heated(plan);
}

std::string_view balanced(const Plan &plan) {
  return first(plan, breathes) ? ""
                               : "no stage has a vapour balance (pit_air); fit 'vapour_pressure' instead";
}

std::string_view wrapped(const Plan &plan) {
  return first(plan, resists) ? "" : "no stage of the plan has a wrap that breathes";
}

std::string_view capped(const Plan &plan) { return has_cap(plan.meat) ? "" : "the meat has no fat cap"; }

// What a number does to the stages that have what it is about.

template <class Write> void for_heated(Plan &plan, Write write) {
  for (Stage &stage : plan.stages) {
    if (heats(stage)) {
      write(stage.surroundings);
    }
  }
}

void write_wraps(Plan &plan, double value, double before) {
  for (Stage &stage : plan.stages) {
    if (resists(stage)) {
      scale_wrap(stage.wrap, value, before);
    }
  }
}

void write_air_flow(Plan &plan, double value, double before) {
  for (Stage &stage : plan.stages) {
    if (auto &air = stage.surroundings.pit_air) {
      air->air_flow = scaled(air->air_flow, value, before);
    }
  }
}

void write_vapour(Plan &plan, double value, double before) {
  for_heated(plan, [&](Surroundings &s) {
    if (!s.pit_air) {
      scale(s.vapour_pressure, value, before);
    }
  });
}

void shift_pit(Plan &plan, double value, double /*before*/) {
  for_heated(plan, [&](Surroundings &s) {
    shift(s.air, value);
    if (s.air_below) {
      shift(*s.air_below, value);
    }
  });
}

double probe_distance(const Plan &plan) {
  const double distance = std::fabs(offset_of(plan.stages.front().probe, plan.meat.shape.thickness));
  return distance > on_the_middle ? distance : usual_probe_distance;
}

/// Also where the value is what was read: a place that the plan left open is then written down.
void write_probe_distance(Plan &plan, double value, double before) {
  const std::optional<Probe> &probe = plan.stages.front().probe;
  if (value != before || std::fabs(offset_of(probe, plan.meat.shape.thickness)) <= on_the_middle) {
    set_probe_distance(plan, value);
  }
}

const std::string of_cooks = "measured cooks, see validation/POPULATION.md";
const std::string of_range = "judgement: two standard deviations cover the range in the table of defaults";

std::vector<FreeKind> make_kinds() {
  using enum Scope;
  using enum Scale;
  const auto spread = [](const char *name) { return fit::believed_spread(name); };
  const auto unit = [](const Kind &kind) { return std::string(kind.unit); };
  return {
      {"thickness", unit(kind::length), meat, logarithmic, spread("thickness"), 0.015, 0.25,
       "thickness of the lean part where the probe is", of_cooks + ": what pieces of one mass differ by",
       always, [](const Plan &p) { return p.meat.shape.thickness; },
       [](Plan &p, double value, double) { set_thickness(p, value); }},
      {"film_coefficient", unit(kind::film_coefficient), cooker, logarithmic, spread("film_coefficient"), 1.0,
       60.0,
       "heat transfer from the air of the cooker to the meat, mean of both faces of the first heated stage",
       of_cooks + ": draught and place", heated,
       [](const Plan &p) { return film_of(p.meat, first(p, heats)->surroundings); },
       [](Plan &p, double value, double before) {
         for_heated(p, [&](Surroundings &s) { scale_films(s, p.meat.shape, value, before); });
       }},
      {"vapour_pressure", unit(kind::pressure), cooker, logarithmic, spread("vapour_pressure"), 800.0,
       40000.0, "water vapour in the air of the cooker", of_cooks + ": cookers of one kind", given_vapour,
       [](const Plan &p) { return first(p, heats)->surroundings.vapour_pressure.at(0.0); }, write_vapour},
      {"air_flow", unit(kind::mass_flow), cooker, logarithmic, 0.5, 5e-5, 0.1, "dry air through the cooker",
       of_range, balanced, [](const Plan &p) { return first(p, breathes)->surroundings.pit_air->air_flow; },
       write_air_flow},
      {"pit_offset", unit(kind::difference), cooker, linear, spread("pit_offset"), -30.0, 30.0,
       "how much hotter the air at the meat is than the pit reading",
       of_cooks + ": a pit probe hangs some hand's breadth from the meat", heated, nullptr, shift_pit},
      {"radiant_bottom", unit(kind::difference), cooker, linear, 10.0, -40.0, 150.0,
       "what the bottom sees, above the air", "judgement: coals behind a deflector or not", heated,
       [](const Plan &p) { return first(p, heats)->surroundings.radiant_bottom; },
       [](Plan &p, double value, double before) {
         for_heated(p, [&](Surroundings &s) { s.radiant_bottom += value - before; });
       }},
      {"wrap_resistance", unit(kind::vapour_resistance), cooker, logarithmic, spread("wrap_resistance"),
       101.0, 1.99e4, "resistance of a wrap that breathes to vapour",
       of_cooks + "; papers of several makes (judgement)", wrapped,
       [](const Plan &p) { return resistance(*first(p, resists)); }, write_wraps},
      {"sensor_offset", unit(kind::difference), cooker, linear, 1.0, -8.0, 8.0,
       "how much the meat thermometer reads too high",
       "common practice, no source: consumer thermometers are sold as good to 1 K", always, nullptr, nullptr},
      {"start", unit(kind::temperature), meat, linear, 3.0, -1.0, 30.0,
       "temperature of the meat at the start",
       "judgement: refrigerators differ, and the meat stands out for a while", always,
       [](const Plan &p) { return p.meat.start; },
       [](Plan &p, double value, double) { set_weighed(p.meat, p.meat.start, value); }},
      {"probe_distance", unit(kind::length), meat, logarithmic, 0.7, 0.0002, 0.05,
       "distance of the probe's tip from the middle of the thickness",
       "judgement: with the median, a tip that is placed by hand to about 5 mm", always, probe_distance,
       write_probe_distance, true},
      {"expressed_mobility", unit(kind::diffusivity), meat, logarithmic, spread("expressed_mobility"), 2e-9,
       5e-7, "mobility of squeezed juice at 60 °C", of_cooks + "; the grain of single pieces (judgement)",
       always, [](const Plan &p) { return p.meat.tissue.mobility.expressed; },
       [](Plan &p, double value, double) { p.meat.tissue.mobility.expressed = value; }},
      {"held_mobility", unit(kind::diffusivity), meat, logarithmic, spread("held_mobility"), 3e-11, 5e-9,
       "mobility of held water at 60 °C", of_cooks + "; the grain of single pieces (judgement)", always,
       [](const Plan &p) { return p.meat.tissue.mobility.held; },
       [](Plan &p, double value, double) { p.meat.tissue.mobility.held = value; }},
      {"final_share", unit(kind::share), meat, linear, spread("final_share"), 0.3, 0.8,
       "share of the raw water that cooked meat still holds", of_cooks + ": pieces of one cut", always,
       [](const Plan &p) { return p.meat.tissue.holding.final_share; },
       [](Plan &p, double value, double) { p.meat.tissue.holding.final_share = value; }},
      {"emissivity", unit(kind::share), meat, linear, spread("emissivity"), 0.5, 1.0,
       "of the meat's faces in the thermal infrared", of_cooks, always,
       [](const Plan &p) { return p.meat.tissue.emissivity; },
       [](Plan &p, double value, double) { p.meat.tissue.emissivity = value; }},
      {"fat_cap", unit(kind::length), meat, logarithmic, 0.3, 0.0005, 0.03, "thickness of the fat cap",
       "judgement: trimmed by eye", capped, [](const Plan &p) { return p.meat.fat_cap.thickness; },
       [](Plan &p, double value, double) { set_weighed(p.meat, p.meat.fat_cap.thickness, value); }},
  };
}

} // namespace

const std::vector<FreeKind> &free_kinds() {
  static const std::vector<FreeKind> kinds = make_kinds();
  return kinds;
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
