/// The Rosenbrock method from its numbers alone: order conditions, stability, dense output, observed order.
#include <doctest/doctest.h>

#include <cmath>
#include <complex>
#include <vector>

#include "engine/time/ros3.hpp"
#include "engine/time/ros3_dense.hpp"

using namespace cook::engine;

namespace {

std::array<double, 3> usual_weights(const std::array<double, 3> &m) {
  // b = Gamma^T m, that is Gamma^-T b = m.
  const Ros3Usual u = ros3_usual();
  Matrix3 transposed{};
  for (std::size_t r = 0; r < 3; ++r) {
    for (std::size_t c = 0; c < 3; ++c) {
      transposed[r][c] = u.gamma_inverse[c][r];
    }
  }
  return solve3(transposed, m);
}

double dot(const std::array<double, 3> &a, const std::array<double, 3> &b) {
  return a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
}

/// y' = -sin(t) y^2 + y/10 as a one-unknown system with exact Jacobian and time derivative.
struct Scalar {
  double j = 0.0, shift = 0.0;
  std::vector<double> ft{0.0};
  static double f(double t, double y) { return -std::sin(t) * y * y + 0.1 * y; }
  void rhs(double t, const std::vector<double> &y, std::vector<double> &out) const { out[0] = f(t, y[0]); }
  void linearise(double t, const std::vector<double> &y, std::vector<double> &out) {
    out[0] = f(t, y[0]);
    j = -2.0 * std::sin(t) * y[0] + 0.1;
    ft[0] = -std::cos(t) * y[0] * y[0];
  }
  [[nodiscard]] bool varies() const { return true; }
  [[nodiscard]] const std::vector<double> &time_rates() const { return ft; }
  void factorise(double s) { shift = s; }
  void solve(std::vector<double> &x) const { x[0] /= shift - j; }
};

struct Run {
  double end;
  double halfway; ///< from dense output in the step that holds t = 1.05
};

Run integrate(int steps) {
  Scalar system;
  Ros3<double> stepper(1);
  std::vector<double> y{1.0}, f{0.0}, next{0.0}, error{0.0};
  const double h = 2.0 / steps;
  Run run{0.0, 0.0};
  for (int i = 0; i < steps; ++i) {
    const double t = i * h;
    system.linearise(t, y, f);
    stepper.step(system, t, y, f, h, next, error);
    const double probe = 1.05;
    if (t <= probe && probe < t + h) {
      std::vector<double> inside{0.0};
      stepper.interpolate(y, (probe - t) / h, inside);
      run.halfway = inside[0];
    }
    y = next;
  }
  run.end = y[0];
  return run;
}

} // namespace

TEST_CASE("the published coefficients satisfy the conditions of order three") {
  const Ros3Usual u = ros3_usual();
  const auto b = usual_weights({Ros3Tableau::m1, Ros3Tableau::m2, Ros3Tableau::m3});
  CHECK(b[0] + b[1] + b[2] == doctest::Approx(1.0).epsilon(1e-13));
  CHECK(dot(b, u.beta) == doctest::Approx(1.0 / 2.0).epsilon(1e-13));
  CHECK(dot(b, {u.alpha[0] * u.alpha[0], u.alpha[1] * u.alpha[1], u.alpha[2] * u.alpha[2]}) ==
        doctest::Approx(1.0 / 3.0).epsilon(1e-13));
  double third = 0.0;
  for (std::size_t i = 0; i < 3; ++i) {
    third += b[i] * dot(u.b[i], u.beta);
  }
  CHECK(third == doctest::Approx(1.0 / 6.0).epsilon(1e-13));
  CHECK(u.alpha[1] == doctest::Approx(Ros3Tableau::alpha2).epsilon(1e-13));
}

TEST_CASE("it is L-stable: |R| <= 1 in the left half plane and R(infinity) = 0") {
  const Ros3Usual u = ros3_usual();
  const auto b = usual_weights({Ros3Tableau::m1, Ros3Tableau::m2, Ros3Tableau::m3});
  // R(z) = 1 + z b^T (I - z B)^-1 1; B is lower triangular.
  const auto stability = [&](std::complex<double> z) {
    std::array<std::complex<double>, 3> x{};
    for (std::size_t i = 0; i < 3; ++i) {
      std::complex<double> right = 1.0;
      for (std::size_t j = 0; j < i; ++j) {
        right += z * u.b[i][j] * x[j];
      }
      x[i] = right / (1.0 - z * u.b[i][i]);
    }
    return 1.0 + z * (b[0] * x[0] + b[1] * x[1] + b[2] * x[2]);
  };
  for (const double y :
       {0.0, 0.1, 0.5, 1.0, 2.0, 5.0, 10.0, 100.0, 1e4}) { // maximum principle: the axis suffices
    CHECK(std::abs(stability({0.0, y})) <= 1.0 + 1e-12);
  }
  CHECK(std::abs(stability({-1e9, 0.0})) < 1e-8);
}

TEST_CASE("dense output joins the steps and falls monotonically in stiff components") {
  const auto end = ros3_dense.weights(1.0);
  CHECK(end[0] == doctest::Approx(Ros3Tableau::m1).epsilon(1e-12));
  CHECK(end[1] == doctest::Approx(Ros3Tableau::m2).epsilon(1e-12));
  CHECK(end[2] == doctest::Approx(Ros3Tableau::m3).epsilon(1e-12));
  const Ros3Usual u = ros3_usual();
  const auto stiff = solve3(u.b, {1.0, 1.0, 1.0});
  for (const double theta : {0.1, 0.35, 0.5, 0.9}) {
    const auto b = usual_weights(ros3_dense.weights(theta));
    CHECK(b[0] + b[1] + b[2] == doctest::Approx(theta).epsilon(1e-12));
    CHECK(dot(b, u.beta) == doctest::Approx(0.5 * theta * theta).epsilon(1e-12));
    CHECK(1.0 - dot(b, stiff) == doctest::Approx((1.0 - theta) * (1.0 - theta)).epsilon(1e-10));
  }
}

TEST_CASE("observed order: three at the steps, better than two between them") {
  const Run exact = integrate(20000);
  const Run coarse = integrate(20);
  const Run fine = integrate(40);
  const double order = std::log2(std::fabs(coarse.end - exact.end) / std::fabs(fine.end - exact.end));
  CHECK(order > 2.8);
  CHECK(order < 3.3);
  CHECK(std::fabs(integrate(40).halfway - exact.halfway) < 1e-4);
  CHECK(std::fabs(integrate(320).halfway - exact.halfway) < 1e-6);
}
