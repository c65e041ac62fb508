/// @file
/// A third-order L-stable Rosenbrock method: one linearisation and one factorisation a step, three solves, no
/// Newton.
///
/// Coefficients: Sandu, Verwer, Blom, Spee, Carmichael, Potra, "Benchmarking stiff ODE solvers for
/// atmospheric chemistry problems II: Rosenbrock solvers", Atmospheric Environment 31 (1997) 3459 (method
/// ROS3). A test verifies the order conditions and L-stability from the numbers below.
///
///     (1/(gamma h) I - J) k_i = f(t + alpha_i h, y + sum a_ij k_j) + sum (c_ij / h) k_j + gamma_i h f_t
///     y_new = y + sum m_i k_i,   error = sum e_i k_i  (difference to an embedded second-order solution)
#pragma once

#include <array>
#include <cstddef>
#include <vector>

#include "engine/arithmetic/scalar.hpp"

namespace cook::engine {

/// The numbers of the method.
struct Ros3Tableau {
  static constexpr double gamma = 0.43586652150845899941601945119356;
  static constexpr double a21 = 1.0;
  static constexpr double a31 = 1.0; ///< third stage is evaluated where the second is: two evaluations a step
  static constexpr double c21 = -1.0156171083877702091975600115545;
  static constexpr double c31 = 4.0759956452537699824805835358067;
  static constexpr double c32 = 9.2076794298330791242156818474003;
  static constexpr double m1 = 1.0;
  static constexpr double m2 = 6.1697947043828245592553615689730;
  static constexpr double m3 = -0.4277225654321857332623837380651;
  static constexpr double e1 = 0.5;
  static constexpr double e2 = -2.9079558716805469821718236208017;
  static constexpr double e3 = 0.2235406989781156962736090927619;
  static constexpr double alpha2 = 0.43586652150845899941601945119356;
  static constexpr double gamma1 = 0.43586652150845899941601945119356;
  static constexpr double gamma2 = 0.24291996454816804366592249683314;
  static constexpr double gamma3 = 2.1851380027664058511513169485832;
};

/// One step, on any system with linearise, time_rates, varies, factorise, solve and rhs (see LineSystem).
template <class Real> class Ros3 {
public:
  using Vector = std::vector<Real>;
  using Tableau = Ros3Tableau;

  explicit Ros3(std::size_t size = 0) : k1_(size), k2_(size), k3_(size), stage_(size), f2_(size) {}

  void resize(std::size_t size) {
    for (Vector *v : {&k1_, &k2_, &k3_, &stage_, &f2_}) {
      v->resize(size);
    }
  }

  /// A step of length h from (t, y), where the system has been linearised with rates f.
  /// Fills y_new and the error estimate. The system's latest evaluation is left at the second stage.
  template <class System>
  [[gnu::always_inline]] inline void step(System &system, Real t, const Vector &y, const Vector &f, Real h,
                                          Vector &y_new, Vector &error) {
    const std::size_t n = y.size();
    const Real per_h = 1.0 / h;
    system.factorise(per_h * (1.0 / Tableau::gamma));
    const bool varies = system.varies();
    for (std::size_t i = 0; i < n; ++i) {
      k1_[i] = f[i];
    }
    add_time_rates(system, varies, h * Tableau::gamma1, k1_);
    system.solve(k1_);
    for (std::size_t i = 0; i < n; ++i) {
      stage_[i] = y[i] + Tableau::a21 * k1_[i];
    }
    system.rhs(t + Tableau::alpha2 * h, stage_, f2_);
    for (std::size_t i = 0; i < n; ++i) {
      k2_[i] = f2_[i] + (Tableau::c21 * per_h) * k1_[i];
    }
    add_time_rates(system, varies, h * Tableau::gamma2, k2_);
    system.solve(k2_);
    for (std::size_t i = 0; i < n; ++i) {
      k3_[i] = f2_[i] + per_h * (Tableau::c31 * k1_[i] + Tableau::c32 * k2_[i]);
    }
    add_time_rates(system, varies, h * Tableau::gamma3, k3_);
    system.solve(k3_);
    for (std::size_t i = 0; i < n; ++i) {
      y_new[i] = y[i] + Tableau::m1 * k1_[i] + Tableau::m2 * k2_[i] + Tableau::m3 * k3_[i];
      error[i] = Tableau::e1 * k1_[i] + Tableau::e2 * k2_[i] + Tableau::e3 * k3_[i];
    }
  }

  /// The last step's solution at a share `theta` of its length, from the state `y` it started at (dense
  /// output). Of one cook: lanes are read one by one.
  void interpolate(const Vector &y, double theta, Vector &out) const;

  /// Stages of the last step, first to third; a lane's are copied from those of its pack.
  [[nodiscard]] std::array<const Vector *, 3> stages() const { return {&k1_, &k2_, &k3_}; }
  [[nodiscard]] std::array<Vector *, 3> stages() { return {&k1_, &k2_, &k3_}; }

private:
  template <class System>
  [[gnu::always_inline]] static void add_time_rates(const System &system, bool varies, Real factor,
                                                    Vector &k) {
    if (varies) {
      const auto &rates = system.time_rates();
      for (std::size_t i = 0; i < k.size(); ++i) {
        k[i] = k[i] + factor * rates[i];
      }
    }
  }

  Vector k1_, k2_, k3_, stage_, f2_;
};

} // namespace cook::engine

#include "engine/time/ros3_dense.hpp"
