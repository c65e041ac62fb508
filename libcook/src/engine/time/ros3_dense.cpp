#include "engine/arithmetic/vector_clones.hpp"
#include "engine/time/ros3.hpp"

namespace cook::engine {

COOK_VECTOR_CLONES
void blend_stages(std::size_t size, const std::array<double, 3> &m, const double *y,
                  const std::array<const double *, 3> &k, double *__restrict__ out) {
  const double *first = k[0];
  const double *second = k[1];
  const double *third = k[2];
  const double m0 = m[0];
  const double m1 = m[1];
  const double m2 = m[2];
  COOK_INDEPENDENT
  for (std::size_t i = 0; i < size; ++i) {
    out[i] = y[i] + m0 * first[i] + m1 * second[i] + m2 * third[i];
  }
}

} // namespace cook::engine
