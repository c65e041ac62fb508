#include "meat/thickness_profile.hpp"

#include <algorithm>
#include <cmath>
#include <utility>

namespace cook::engine {

namespace {

/// The quintic on 0..1 with values, slopes and curvatures at both ends.
std::array<double, 6> quintic(double y0, double y1, double m0, double m1, double c0, double c1) {
  const double rise = y1 - y0;
  return {y0,
          m0,
          0.5 * c0,
          10.0 * rise - 6.0 * m0 - 4.0 * m1 - 1.5 * c0 + 0.5 * c1,
          -15.0 * rise + 8.0 * m0 + 7.0 * m1 + 1.5 * c0 - c1,
          6.0 * rise - 3.0 * m0 - 3.0 * m1 - 0.5 * c0 + 0.5 * c1};
}

double slope_of(const std::array<double, 6> &p, double t) {
  return p[1] + t * (2.0 * p[2] + t * (3.0 * p[3] + t * (4.0 * p[4] + t * 5.0 * p[5])));
}

/// From 0 to t.
double integral_of(const std::array<double, 6> &p, double t) {
  return t *
         (p[0] + t * (p[1] / 2.0 + t * (p[2] / 3.0 + t * (p[3] / 4.0 + t * (p[4] / 5.0 + t * p[5] / 6.0)))));
}

bool monotone(const std::array<double, 6> &p, double rise) {
  const double least = -1e-12 * std::fabs(p[0]);
  const double sign = rise < 0.0 ? -1.0 : 1.0;
  constexpr int samples = 64;
  for (int i = 0; i <= samples; ++i) {
    const double slope = slope_of(p, static_cast<double>(i) / samples);
    if (rise == 0.0 ? std::fabs(slope) > -least : sign * slope < least) {
      return false;
    }
  }
  return true;
}

/// Slope limited to the sign of a secant and twice its size.
double limited(double slope, double secant) {
  return secant < 0.0 ? std::clamp(slope, 2.0 * secant, 0.0) : std::clamp(slope, 0.0, 2.0 * secant);
}

} // namespace

ThicknessProfile::ThicknessProfile(std::vector<double> at, std::vector<double> height) : at_(std::move(at)) {
  const std::size_t pieces = at_.size() - 1;
  std::vector<double> width(pieces);
  std::vector<double> secant(pieces);
  for (std::size_t i = 0; i < pieces; ++i) {
    width[i] = at_[i + 1] - at_[i];
    secant[i] = (height[i + 1] - height[i]) / width[i];
  }
  std::vector<double> slope(pieces + 1, secant[0]);
  std::vector<double> curvature(pieces + 1, 0.0);
  for (std::size_t i = 1; i < pieces; ++i) {
    curvature[i] = 2.0 * (secant[i] - secant[i - 1]) / (width[i - 1] + width[i]);
    const double parabola = secant[i - 1] + 0.5 * width[i - 1] * curvature[i];
    slope[i] = secant[i - 1] * secant[i] <= 0.0 ? 0.0 : limited(limited(parabola, secant[i - 1]), secant[i]);
  }
  if (pieces > 1) {
    curvature.front() = curvature[1];
    curvature.back() = curvature[pieces - 1];
    slope.front() = limited(secant.front() - 0.5 * width.front() * curvature.front(), secant.front());
    slope.back() = limited(secant.back() + 0.5 * width.back() * curvature.back(), secant.back());
  }

  piece_.resize(pieces);
  for (bool again = true; again;) {
    again = false;
    for (std::size_t i = 0; i < pieces; ++i) {
      const double w = width[i];
      piece_[i] = quintic(height[i], height[i + 1], slope[i] * w, slope[i + 1] * w, curvature[i] * w * w,
                          curvature[i + 1] * w * w);
      if ((curvature[i] != 0.0 || curvature[i + 1] != 0.0) && !monotone(piece_[i], secant[i])) {
        constexpr double flat = 1e-3; // a curvature below 1/km is none
        for (double *c : {&curvature[i], &curvature[i + 1]}) {
          *c = std::fabs(*c) > flat ? 0.5 * *c : 0.0;
        }
        again = true;
      }
    }
  }
  area_.assign(1, 0.0);
  for (std::size_t i = 0; i < pieces; ++i) {
    const Piece &p = piece_[i]; // all of it: area_to() needs the sums that are being made here
    area_.push_back(area_.back() +
                    width[i] * (p[0] + p[1] / 2.0 + p[2] / 3.0 + p[3] / 4.0 + p[4] / 5.0 + p[5] / 6.0));
  }
}

std::size_t ThicknessProfile::piece_at(double x) const {
  const auto above = std::upper_bound(at_.begin() + 1, at_.end() - 1, x);
  return static_cast<std::size_t>(above - at_.begin()) - 1;
}

ThicknessProfile::Value ThicknessProfile::operator()(double x) const {
  const double inside = std::clamp(x, at_.front(), at_.back());
  const std::size_t i = piece_at(inside);
  const Piece &p = piece_[i];
  const double width = at_[i + 1] - at_[i];
  const double t = (inside - at_[i]) / width;
  const double height = p[0] + t * (p[1] + t * (p[2] + t * (p[3] + t * (p[4] + t * p[5]))));
  const double slope = slope_of(p, t) / width;
  return {height + slope * (x - inside), slope};
}

double ThicknessProfile::area_to(double x) const {
  const double inside = std::clamp(x, at_.front(), at_.back());
  const std::size_t i = piece_at(inside);
  const double width = at_[i + 1] - at_[i];
  const Value end = (*this)(inside);
  const double beyond = x - inside;
  return area_[i] + width * integral_of(piece_[i], (inside - at_[i]) / width) +
         beyond * (end.height + 0.5 * end.slope * beyond);
}

} // namespace cook::engine
