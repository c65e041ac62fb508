#include "engine/stage_setup.hpp"

#include <cmath>

#include "cook/film_coefficient.hpp"
#include "cook/humid_air.hpp"

namespace cook::engine {

namespace {

constexpr double nominal_surface = 65.0; // °C

void set_film(FaceSetting<double> &face, const Film &film, const Shape &shape, bool looks_up,
              double film_temperature, double air) {
  switch (film.kind) {
  case Convection::given:
    face.h_given = film.value;
    return;
  case Convection::forced:
    face.h_given = forced_plate(film.value, film.length, film_temperature);
    return;
  case Convection::natural:
    break;
  }
  if (shape.kind == ShapeKind::cylinder) {
    const double gap = std::fmax(std::fabs(air - nominal_surface), 10.0);
    const double rayleigh = air_rayleigh(film_temperature, gap, shape.thickness);
    const double nusselt = nusselt_horizontal_cylinder(rayleigh, air_prandtl(film_temperature));
    const double h = nusselt * air_conductivity(film_temperature) / shape.thickness;
    face.natural_cold = face.natural_hot = h / std::pow(gap, 0.25);
    return;
  }
  // Cold meat in hot air: the air under it sinks away and is renewed, the air on it lies still; reversed in
  // the rest.
  const double lively = natural_plate_coefficient(film_temperature, film.length, true);
  const double stable = natural_plate_coefficient(film_temperature, film.length, false);
  face.natural_cold = looks_up ? stable : lively;
  face.natural_hot = looks_up ? lively : stable;
}

} // namespace

std::array<FaceSetting<double>, 4> face_settings(const Meat &meat, const Stage &stage,
                                                 const Physics &physics) {
  const Surroundings &s = stage.surroundings;
  const Tissue &tissue = meat.tissue;
  const double air = s.box ? s.box->start : s.air.mean();
  const double film_temperature = 0.5 * (air + nominal_surface);
  std::array<FaceSetting<double>, 4> faces;
  for (std::size_t f = 0; f < 4; ++f) {
    const bool top = f % 2 == 1;
    const bool end = f >= 2;
    FaceSetting<double> &face = faces[f];
    const Covering &side = top ? stage.wrap.top : stage.wrap.bottom;
    const Covering &cover = end && stage.wrap.ends ? *stage.wrap.ends : side;
    // The ends stand upright, beside the air that the top sees: always renewed, never stable.
    set_film(face, top || end ? s.top : s.bottom, meat.shape, top, film_temperature, air);
    if (end) {
      face.natural_cold = face.natural_hot = std::fmax(face.natural_cold, face.natural_hot);
    }
    face.lewis_factor = lewis_factor(film_temperature, s.pressure);
    const double emissivity = cover.emissivity.value_or(tissue.emissivity);
    face.radiation = physics.radiation ? emissivity * s.view * stefan_boltzmann : 0.0;
    face.radiant_offset = top ? s.radiant_top : s.radiant_bottom;
    face.heat_resistance = cover.heat_resistance;
    face.vapour_resistance = cover.vapour_resistance;
    if (!end && meat.fat_cap.side == (top ? FatSide::up : FatSide::down)) { // the ends are cut open
      face.heat_resistance += meat.fat_cap.heat_resistance();
      face.vapour_resistance += meat.fat_cap.vapour_resistance();
    }
    face.resists_heat = face.heat_resistance > 0.0;
    face.pressure = s.pressure;
    face.film_capacity = cover.juice_capacity.value_or(tissue.exudation.bare_film);
    face.run_off_rate = 1.0 / tissue.exudation.run_off_time;
    face.exudation_path = tissue.exudation.path;
    face.evaporates = physics.evaporation ? 1.0 : 0.0;
    face.exudes = physics.squeezing ? 1.0 : 0.0;
    face.monolayer = tissue.sorption.monolayer;
    face.gab_c = tissue.sorption.c;
    face.gab_k = tissue.sorption.k;
  }
  return faces;
}

} // namespace cook::engine
