/// @file
/// The film coefficient of a face: the one place where a film's description meets a piece's size.
#pragma once

#include "cook/film.hpp"
#include "cook/shape.hpp"

namespace cook::engine {

/// Surface temperature that films are worked out for [°C]: of meat in a pit, for most of the cook.
inline constexpr double nominal_surface = 65.0;

/// Which way a face looks.
enum class Look { down, up, sideways };

/// h = given + natural |air - face|^(1/4) [W m⁻² K⁻¹].
struct FaceFilm {
  double given = 0.0;        ///< [W m⁻² K⁻¹]
  double natural_cold = 0.0; ///< while the face is colder than the air [W m⁻² K^(-5/4)]
  double natural_hot = 0.0;  ///< while it is hotter

  /// At an air temperature [°C], with the face at nominal_surface [W m⁻² K⁻¹].
  [[nodiscard]] double nominal(double air) const;
};

/// Properties of air are taken at the mean of the air's temperature and nominal_surface: they change the
/// coefficient by about 1 % per 10 K. In a stream, natural convection goes on beside the forced one: the
/// cubes of both add up (Churchill, AIChE J. 23 (1977) 10: an exponent of 3 for most geometries), so that
/// moving air never heats more slowly than still air.
/// @param air temperature [°C]
[[nodiscard]] FaceFilm face_film(const Film &film, const Shape &shape, Look look, double air);

} // namespace cook::engine
