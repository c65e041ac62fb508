/// @file
/// Dense output of Ros3: a second-order continuous extension that is a combination of the stages.
///
/// y(t + theta h) = y + sum m_i(theta) k_i with m_i quadratic in theta. Being a combination of the stages, it
/// keeps every linear invariant (the ledgers close between steps as well), and unlike a cubic through the
/// rates at both ends it does not overshoot in stiff components. In terms of the method's weights b(theta) in
/// the usual (untransformed) form, with beta the row sums of B = (alpha_ij + gamma_ij), it is fixed by
///
///     sum b_i = theta,   sum b_i beta_i = theta^2 / 2,   1 - b^T B^-1 1 = (1 - theta)^2
///
/// order one, order two (Hairer & Wanner, Solving ODEs II, ch. IV.7), and the stability function at infinity
/// between the steps, chosen here to fall monotonically to the method's 0. At theta = 1 the three equations
/// are those of the method.
#pragma once

#include <array>
#include <cstddef>

namespace cook::engine {

using Matrix3 = std::array<std::array<double, 3>, 3>;

/// Solves a 3 x 3 system by Cramer's rule.
constexpr std::array<double, 3> solve3(const Matrix3 &m, const std::array<double, 3> &right) {
  const auto det = [](const Matrix3 &a) {
    return a[0][0] * (a[1][1] * a[2][2] - a[1][2] * a[2][1]) -
           a[0][1] * (a[1][0] * a[2][2] - a[1][2] * a[2][0]) +
           a[0][2] * (a[1][0] * a[2][1] - a[1][1] * a[2][0]);
  };
  std::array<double, 3> x{};
  for (std::size_t c = 0; c < 3; ++c) {
    Matrix3 replaced = m;
    for (std::size_t r = 0; r < 3; ++r) {
      replaced[r][c] = right[r];
    }
    x[c] = det(replaced) / det(m);
  }
  return x;
}

/// The method in its usual form, recovered from the transformed coefficients.
struct Ros3Usual {
  Matrix3 gamma_inverse; ///< inverse of Gamma = (gamma_ij): diag(1/gamma) - C
  Matrix3 b;             ///< B = (alpha_ij + gamma_ij)
  std::array<double, 3> alpha;
  std::array<double, 3> beta; ///< row sums of B
};

constexpr Ros3Usual ros3_usual() {
  using T = Ros3Tableau;
  Ros3Usual u{};
  u.gamma_inverse = {
      {{1.0 / T::gamma, 0.0, 0.0}, {-T::c21, 1.0 / T::gamma, 0.0}, {-T::c31, -T::c32, 1.0 / T::gamma}}};
  const Matrix3 a{{{0.0, 0.0, 0.0}, {T::a21, 0.0, 0.0}, {T::a31, 0.0, 0.0}}};
  Matrix3 gamma{};
  for (std::size_t c = 0; c < 3; ++c) {
    std::array<double, 3> unit{};
    unit[c] = 1.0;
    const auto column = solve3(u.gamma_inverse, unit);
    for (std::size_t r = 0; r < 3; ++r) {
      gamma[r][c] = column[r];
    }
  }
  for (std::size_t r = 0; r < 3; ++r) {
    for (std::size_t c = 0; c < 3; ++c) {
      double sum = 0.0; // (alpha_ij) = (a_ij) Gamma
      for (std::size_t k = 0; k < 3; ++k) {
        sum += a[r][k] * gamma[k][c];
      }
      u.alpha[r] += sum;
      u.b[r][c] = sum + gamma[r][c];
      u.beta[r] += u.b[r][c];
    }
  }
  return u;
}

/// m_i(theta) = linear_i theta + square_i theta^2.
struct Ros3Dense {
  std::array<double, 3> linear;
  std::array<double, 3> square;

  [[nodiscard]] constexpr std::array<double, 3> weights(double theta) const {
    std::array<double, 3> m{};
    for (std::size_t i = 0; i < 3; ++i) {
      m[i] = (linear[i] + square[i] * theta) * theta;
    }
    return m;
  }
};

constexpr Ros3Dense make_ros3_dense() {
  const Ros3Usual u = ros3_usual();
  const auto stiff = solve3(u.b, {1.0, 1.0, 1.0});
  const Matrix3 conditions{{{1.0, 1.0, 1.0}, u.beta, stiff}};
  const auto b_linear = solve3(conditions, {1.0, 0.0, 2.0});
  const auto b_square = solve3(conditions, {0.0, 0.5, -1.0});
  Ros3Dense dense{};
  for (std::size_t i = 0; i < 3; ++i) { // m = Gamma^-T b
    for (std::size_t k = 0; k < 3; ++k) {
      dense.linear[i] += u.gamma_inverse[k][i] * b_linear[k];
      dense.square[i] += u.gamma_inverse[k][i] * b_square[k];
    }
  }
  return dense;
}

inline constexpr Ros3Dense ros3_dense = make_ros3_dense();

/// out = y + sum m_i k_i.
void blend_stages(std::size_t size, const std::array<double, 3> &m, const double *y,
                  const std::array<const double *, 3> &k, double *out);

template <class Real> void Ros3<Real>::interpolate(const Vector &y, double theta, Vector &out) const {
  const auto m = ros3_dense.weights(theta);
  blend_stages(y.size(), m, y.data(), {k1_.data(), k2_.data(), k3_.data()}, out.data());
}

} // namespace cook::engine
