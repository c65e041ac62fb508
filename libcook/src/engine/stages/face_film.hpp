/// @file
/// The film coefficient of a face: the one place where a film's description meets a piece's size and the air.
#pragma once

#include "cook/cooker/surroundings.hpp"
#include "cook/meat/shape.hpp"

namespace cook::engine {

/// Surface temperature that films are worked out for [°C]: of meat in a pit, for most of the cook.
inline constexpr double nominal_surface = 65.0;

/// Which way a face looks: the bottom down, the top up, ends and sides sideways.
enum class Look { down, up, sideways };

/// h = given + natural |air - face|^(1/4) [W m⁻² K⁻¹].
struct FaceFilm {
  double given = 0.0;        ///< [W m⁻² K⁻¹]
  double natural_cold = 0.0; ///< while the face is colder than the air [W m⁻² K^(-5/4)]
  double natural_hot = 0.0;  ///< while it is hotter

  /// At a difference between air and face [K]: [W m⁻² K⁻¹].
  [[nodiscard]] double over(double gap) const;
};

/// Air temperature that the films of a stage are worked out for [°C]: the mean of all that is given of it, of
/// a box what it is when the meat goes in. When the stage begins does not matter.
[[nodiscard]] double film_air(const Surroundings &s);
/// Temperature that the properties of air are taken at [°C]: between film_air() and nominal_surface.
[[nodiscard]] double film_temperature(const Surroundings &s);

/// The film of a face; whoever needs one asks here. Properties of air are taken at film_temperature(): they
/// change the coefficient by about 1 % per 10 K. The ends stand in the air that the top sees. In a stream,
/// natural convection goes on beside the forced one: the cubes of both add up (Churchill, AIChE J. 23 (1977)
/// 10: an exponent of 3 for most geometries), so that moving air never heats more slowly than still air.
[[nodiscard]] FaceFilm film_at(const Surroundings &s, const Shape &shape, Look face);

/// The one number that a film is called by [W m⁻² K⁻¹]: with the face at nominal_surface in film_air(), or
/// 10 K from it where they are closer, for still air with no difference carries no heat at all.
[[nodiscard]] double nominal_film(const Surroundings &s, const Shape &shape, Look face);

} // namespace cook::engine
