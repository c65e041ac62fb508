#include "engine/stages/face_film.hpp"

#include <cmath>

#include "cook/cooker/film_coefficient.hpp"
#include "cook/cooker/humid_air.hpp"

namespace cook::engine {

namespace {

constexpr double usual_still = 0.06; // m, area over perimeter of a footprint of 0.3 m x 0.2 m
constexpr double usual_stream = 0.3; // m, along such a piece
constexpr double least_gap =
    10.0; // K: natural convection is named, and over a cylinder linearised, at least here

double still_length(const Film &film, const Shape &shape) {
  if (film.length > 0.0 || !shape.width) {
    return film.length > 0.0 ? film.length : usual_still;
  }
  return 0.5 * shape.extent / (*shape.width + shape.extent / *shape.width);
}

double stream_length(const Film &film, const Shape &shape) {
  if (film.length > 0.0 || !shape.width) {
    return film.length > 0.0 ? film.length : usual_stream;
  }
  return std::sqrt(shape.extent);
}

/// In still air.
FaceFilm still(const Film &film, const Shape &shape, Look look, double air, double film_temperature) {
  if (shape.kind == ShapeKind::cylinder) {
    const double gap = std::fmax(std::fabs(air - nominal_surface), least_gap);
    const double rayleigh = air_rayleigh(film_temperature, gap, shape.thickness);
    const double nusselt = nusselt_horizontal_cylinder(rayleigh, air_prandtl(film_temperature));
    const double h = nusselt * air_conductivity(film_temperature) / shape.thickness;
    const double b = h / std::pow(gap, 0.25);
    return {.natural_cold = b, .natural_hot = b};
  }
  // Cold meat in hot air: the air under it sinks away and is renewed, the air on it lies still; reversed in
  // the rest. Beside it the air is always renewed.
  const double length = still_length(film, shape);
  const double lively = natural_plate_coefficient(film_temperature, length, true);
  const double stable = natural_plate_coefficient(film_temperature, length, false);
  return {.natural_cold = look == Look::up ? stable : lively,
          .natural_hot = look == Look::down ? stable : lively};
}

} // namespace

double FaceFilm::over(double gap) const {
  return given + (gap > 0.0 ? natural_cold : natural_hot) * std::pow(std::fabs(gap), 0.25);
}

double film_air(const Surroundings &s) { return s.box ? s.box->start : s.air.mean(); }

double film_temperature(const Surroundings &s) { return 0.5 * (film_air(s) + nominal_surface); }

FaceFilm film_at(const Surroundings &s, const Shape &shape, Look look) {
  const Film &film = look == Look::down ? s.bottom : s.top;
  if (film.kind == Convection::given) {
    return {.given = film.value * film.factor};
  }
  const double air = film_air(s);
  const double properties_at = film_temperature(s);
  FaceFilm face = still(film, shape, look, air, properties_at);
  if (film.kind == Convection::forced) {
    const double stream = forced_plate(film.value, stream_length(film, shape), properties_at);
    const double beside = face.over(air - nominal_surface);
    face = {.given = std::cbrt(stream * stream * stream + beside * beside * beside)};
  }
  face.given *= film.factor;
  face.natural_cold *= film.factor;
  face.natural_hot *= film.factor;
  return face;
}

double nominal_film(const Surroundings &s, const Shape &shape, Look face) {
  const double gap = film_air(s) - nominal_surface;
  return film_at(s, shape, face).over(std::copysign(std::fmax(std::fabs(gap), least_gap), gap));
}

} // namespace cook::engine
