/// @file
/// A stabilised explicit method of second order: as many stages as the step needs to be stable, with a reach
/// that grows with their square. For problems that are stiff by diffusion on a uniform grid, and no more.
///
/// Source: B. P. Sommeijer, L. F. Shampine, J. G. Verwer, "RKC: an explicit solver for parabolic PDEs",
/// J. Comput. Appl. Math. 88 (1997) 315. Chebyshev polynomials T_j with damping eps = 2/13:
///
///     w0 = 1 + eps / s², w1 = T_s'(w0) / T_s''(w0), b_j = T_j''(w0) / T_j'(w0)², b_0 = b_1 = b_2
///     Y_1 = y + m_1 h F_0
///     Y_j = (1 - mu_j - nu_j) y + mu_j Y_(j-1) + nu_j Y_(j-2) + m_j h (F_(j-1) - a_(j-1) F_0)
///     mu_j = 2 w0 b_j / b_(j-1), nu_j = -b_j / b_(j-2), m_j = 2 w1 b_j / b_(j-1), a_j = 1 - b_j T_j(w0)
///     error = 0.8 (y - y_new) + 0.4 h (F_0 + F_new)
///
/// stable for h times the spectral radius up to 0.65 (s² - 1).
#pragma once

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <vector>

namespace cook::reference {

/// Autonomous problems y' = f(y); `rates(y, f)` fills f.
class Rkc {
public:
  using Vector = std::vector<double>;

  explicit Rkc(std::size_t size) : before_(size), stage_(size), rates_(size), direction_(size) {}

  long evaluations = 0;

  static std::size_t stages(double step, double radius) {
    return std::max<std::size_t>(2, 1 + static_cast<std::size_t>(std::sqrt(1.54 * step * radius + 1.0)));
  }

  /// A step from y, where the rates are f: fills the end of it and the rates there.
  template <class Rates>
  void step(Rates &&rates, const Vector &y, const Vector &f, double h, std::size_t s, Vector &y_new,
            Vector &f_new) {
    const double count = static_cast<double>(s);
    const double w0 = 1.0 + 2.0 / (13.0 * count * count);
    const double w1 = stretch(w0, s);
    const std::size_t n = y.size();
    // T_j, T_j' and T_j'' at w0, of the last two stages.
    double t1 = w0, t0 = 1.0, d1 = 1.0, d0 = 0.0, c1 = 0.0, c0 = 0.0;
    double b1 = 1.0 / (4.0 * w0 * w0);
    double b0 = b1;
    const double m1 = w1 * b1 * h;
    before_ = y;
    for (std::size_t i = 0; i < n; ++i) {
      stage_[i] = y[i] + m1 * f[i];
    }
    for (std::size_t j = 2; j <= s; ++j) {
      rates(stage_, rates_);
      const double t = 2.0 * w0 * t1 - t0;
      const double d = 2.0 * w0 * d1 - d0 + 2.0 * t1;
      const double c = 2.0 * w0 * c1 - c0 + 4.0 * d1;
      const double b = c / (d * d);
      const double mu = 2.0 * w0 * b / b1;
      const double nu = -b / b0;
      const double m = 2.0 * w1 * b / b1 * h;
      const double a = 1.0 - b1 * t1;
      const double own = 1.0 - mu - nu;
      // The new stage takes the place of the one before the last.
      combine({own, mu, nu, m, a}, y, f, stage_, rates_, before_);
      before_.swap(stage_);
      t0 = t1, t1 = t, d0 = d1, d1 = d, c0 = c1, c1 = c, b0 = b1, b1 = b;
    }
    y_new.swap(stage_);
    rates(y_new, f_new);
    evaluations += static_cast<long>(s);
  }

  static double error(double y, double y_new, double f, double f_new, double h) {
    return 0.8 * (y - y_new) + 0.4 * h * (f + f_new);
  }

  /// Spectral radius of the Jacobian at y, by the power method on differences of rates, from above.
  template <class Rates> double radius(Rates &&rates, const Vector &y, const Vector &f) {
    constexpr int most_rounds = 50;
    constexpr double safety = 1.1;
    if (!aimed_) {
      for (std::size_t i = 0; i < y.size(); ++i) { // every frequency in it
        direction_[i] = (i % 2 == 0 ? 1.0 : -1.0) * (1.0 + 0.1 * static_cast<double>(i % 7));
      }
      aimed_ = true;
    }
    double radius = 0.0;
    for (int round = 0; round < most_rounds; ++round) {
      const double scale = 1e-6 * norm(y) / norm(direction_);
      for (std::size_t i = 0; i < y.size(); ++i) {
        stage_[i] = y[i] + scale * direction_[i];
      }
      rates(stage_, rates_);
      ++evaluations;
      for (std::size_t i = 0; i < y.size(); ++i) {
        rates_[i] = (rates_[i] - f[i]) / scale;
      }
      const double found = norm(rates_) / norm(direction_);
      direction_ = rates_;
      const bool settled = std::fabs(found - radius) < 0.01 * found;
      radius = found;
      if (settled && round > 0) {
        break;
      }
    }
    return safety * radius;
  }

private:
  struct Weights {
    double own, mu, nu, m, a;
  };
  /// before = own y + mu stage + nu before + m (rates - a f)
  static void combine(const Weights &w, const Vector &y, const Vector &f, const Vector &stage,
                      const Vector &rates, Vector &before);
  static double norm(const Vector &x);

  /// w1 = T_s'(w0) / T_s''(w0)
  static double stretch(double w0, std::size_t s) {
    double t1 = w0, t0 = 1.0, d1 = 1.0, d0 = 0.0, c1 = 0.0, c0 = 0.0;
    for (std::size_t j = 2; j <= s; ++j) {
      const double t = 2.0 * w0 * t1 - t0;
      const double d = 2.0 * w0 * d1 - d0 + 2.0 * t1;
      const double c = 2.0 * w0 * c1 - c0 + 4.0 * d1;
      t0 = t1, t1 = t, d0 = d1, d1 = d, c0 = c1, c1 = c;
    }
    return d1 / c1;
  }

  Vector before_, stage_, rates_, direction_;
  bool aimed_ = false;
};

} // namespace cook::reference
