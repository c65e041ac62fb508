#include "benchmarks/reference/rkc.hpp"

#include "engine/arithmetic/vector_clones.hpp"

namespace cook::reference {

COOK_PACK_CLONES
void Rkc::combine(const Weights &w, const Vector &y, const Vector &f, const Vector &stage,
                  const Vector &rates, Vector &before) {
  const std::size_t n = y.size();
  COOK_INDEPENDENT
  for (std::size_t i = 0; i < n; ++i) {
    before[i] = w.own * y[i] + w.mu * stage[i] + w.nu * before[i] + w.m * (rates[i] - w.a * f[i]);
  }
}

double Rkc::norm(const Vector &x) {
  double sum = 0.0;
  for (const double v : x) {
    sum += v * v;
  }
  return std::sqrt(sum);
}

} // namespace cook::reference
