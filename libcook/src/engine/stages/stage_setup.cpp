#include "engine/stages/stage_setup.hpp"

#include <cmath>

#include "cook/cooker/evaporation.hpp"
#include "engine/stages/face_film.hpp"

namespace cook::engine {

namespace {

/// Resistance of two parts side by side under a common outer conductance.
double beside(double one, double other, double share_of_other, double outer) {
  const double both = (1.0 - share_of_other) / (1.0 / outer + one) + share_of_other / (1.0 / outer + other);
  return 1.0 / both - 1.0 / outer;
}

/// A face of which a share is upright, the rest flat.
FaceSetting<double> mixed(const FaceSetting<double> &flat, const FaceSetting<double> &upright, double share) {
  // Outer conductances that the resistances are weighed under: of still air and radiation near 120 °C.
  constexpr double heat = 15.0; // W m⁻² K⁻¹
  constexpr double still = 6.0; // W m⁻² K⁻¹, the convective part
  const auto mean = [share](double one, double other) { return one + share * (other - one); };
  FaceSetting<double> face = flat;
  face.h_given = mean(flat.h_given, upright.h_given);
  face.natural_cold = mean(flat.natural_cold, upright.natural_cold);
  face.natural_hot = mean(flat.natural_hot, upright.natural_hot);
  face.radiation = mean(flat.radiation, upright.radiation);
  face.liquid_capacity = mean(flat.liquid_capacity, upright.liquid_capacity);
  if (flat.heat_resistance != upright.heat_resistance) {
    face.heat_resistance = beside(flat.heat_resistance, upright.heat_resistance, share, heat);
  }
  if (flat.vapour_resistance != upright.vapour_resistance) {
    face.vapour_resistance =
        beside(flat.vapour_resistance, upright.vapour_resistance, share, still * flat.lewis_factor);
  }
  face.resists_heat = face.heat_resistance > 0.0;
  return face;
}

} // namespace

std::array<FaceSetting<double>, 4> face_settings(const Meat &meat, const Stage &stage, const Physics &physics,
                                                 double upright) {
  const Surroundings &s = stage.surroundings;
  const Tissue &tissue = meat.tissue;
  std::array<FaceSetting<double>, 4> faces;
  for (std::size_t f = 0; f < 4; ++f) {
    const bool top = f % 2 == 1;
    const bool end = f >= 2;
    FaceSetting<double> &face = faces[f];
    const Covering &side = top ? stage.wrap.top : stage.wrap.bottom;
    const Covering &cover = end && stage.wrap.ends ? *stage.wrap.ends : side;
    // The ends stand upright, beside the air that the top sees.
    const Look look = end ? Look::sideways : top ? Look::up : Look::down;
    const FaceFilm film = film_at(s, meat.shape, look);
    face.h_given = film.given;
    face.natural_cold = film.natural_cold;
    face.natural_hot = film.natural_hot;
    face.lewis_factor = lewis_factor(film_temperature(s), s.pressure);
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
    face.liquid_capacity = cover.juice_capacity.value_or(tissue.exudation.bare_film);
    face.run_off_rate = 1.0 / tissue.exudation.run_off_time;
    face.exudation_path = tissue.exudation.path;
    face.evaporates = physics.evaporation ? 1.0 : 0.0;
    face.exudes = physics.squeezing ? 1.0 : 0.0;
    face.monolayer = tissue.sorption.monolayer;
    face.gab_c = tissue.sorption.c;
    face.gab_k = tissue.sorption.k;
  }
  if (upright < 1.0) {
    faces[2] = mixed(faces[0], faces[2], upright);
    faces[3] = mixed(faces[1], faces[3], upright);
  }
  return faces;
}

} // namespace cook::engine
