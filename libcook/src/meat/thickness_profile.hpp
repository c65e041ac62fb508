/// @file
/// A smooth curve through measured thicknesses.
#pragma once

#include <array>
#include <cstddef>
#include <vector>

namespace cook::engine {

/// Monotone piecewise quintic through points, with continuous slope and curvature; straight beyond the ends.
///
/// Each piece is the quintic that has given slopes and curvatures at its ends. Slopes are those of the
/// parabola through a point and its neighbours, zero at an extremum and limited to twice the smaller secant;
/// with zero curvature at the points that is enough for monotone pieces. Curvatures are those of the same
/// parabolas, halved until the pieces on both sides are monotone. Points on a straight line, and two points,
/// give that line.
class ThicknessProfile {
public:
  struct Value {
    double height = 0.0; ///< [m]
    double slope = 0.0;  ///< [-]
  };

  /// @param at increasing [m], two or more  @param height as many [m]
  ThicknessProfile(std::vector<double> at, std::vector<double> height);
  [[nodiscard]] Value operator()(double x) const;
  /// Integral of the height from the first point to x [m²].
  [[nodiscard]] double area_to(double x) const;
  [[nodiscard]] double length() const { return at_.back() - at_.front(); }

private:
  using Piece = std::array<double, 6>; ///< coefficients of the powers of (x - start) / width
  [[nodiscard]] std::size_t piece_at(double x) const;

  std::vector<double> at_;
  std::vector<Piece> piece_;
  std::vector<double> area_; ///< up to each point
};

} // namespace cook::engine
