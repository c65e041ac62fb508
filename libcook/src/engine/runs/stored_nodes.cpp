#include "engine/runs/stored_nodes.hpp"

#include <cstring>

#include "engine/arithmetic/pack.hpp"
#include "engine/arithmetic/vector_clones.hpp"

namespace cook::engine {

namespace {

using Half = Pack::Half;

[[gnu::always_inline]] inline Half load(const double *from) {
  Half four;
  std::memcpy(&four, from, sizeof four);
  return four;
}
[[gnu::always_inline]] inline void store(const Half &four, double *to) {
  if (to) {
    std::memcpy(to, &four, sizeof four);
  }
}

} // namespace

COOK_VECTOR_CLONES
void take_base(std::size_t nodes, const double *t, const double *eta, const double *x, const double *y,
               double *__restrict__ base) {
  COOK_INDEPENDENT
  for (std::size_t i = 0; i < nodes; ++i) {
    base[i] = t[i] - eta[i] * y[2 * i] - x[i] * y[2 * i + 1];
  }
}

COOK_VECTOR_CLONES
void blend_tangents(std::size_t nodes, double share, const Tangents &early, const Tangents &late,
                    const double *y, double *__restrict__ t) {
  const double before = 1.0 - share;
  const double *a = early.base;
  const double *a_eta = early.eta;
  const double *a_x = early.x;
  const double *b = late.base;
  const double *b_eta = late.eta;
  const double *b_x = late.x;
  COOK_INDEPENDENT
  for (std::size_t i = 0; i < nodes; ++i) {
    t[i] = before * (a[i] + a_eta[i] * y[2 * i] + a_x[i] * y[2 * i + 1]) +
           share * (b[i] + b_eta[i] * y[2 * i] + b_x[i] * y[2 * i + 1]);
  }
}

COOK_VECTOR_CLONES
OverNodes store_nodes(std::size_t nodes, std::size_t lines, const double *t, const double *y,
                      const double *share, double *heat_to, double *water_to) {
  // Eight nodes a round, those of each line stored side by side.
  constexpr std::size_t round = 2 * half_lanes;
  const std::size_t other = lines == 2 ? nodes / 2 : half_lanes; // from a first node's place to a second's
  const std::size_t step = lines == 2 ? half_lanes : round;
  Half water{};
  Half heat{};
  Half low = Half{} + t[0];
  std::size_t i = 0;
  std::size_t at = 0;
  for (; i + round <= nodes; i += round, at += step) {
    const Half t0 = load(t + i);
    const Half t1 = load(t + i + half_lanes);
    const Half y0 = load(y + 2 * i);
    const Half y1 = load(y + 2 * i + half_lanes);
    const Half y2 = load(y + 2 * i + 2 * half_lanes);
    const Half y3 = load(y + 2 * i + 3 * half_lanes);
    const Half x0 = __builtin_shufflevector(y0, y1, 1, 3, 5, 7);
    const Half x1 = __builtin_shufflevector(y2, y3, 1, 3, 5, 7);
    const Half s0 = load(share + i);
    const Half s1 = load(share + i + half_lanes);
    water += s0 * x0 + s1 * x1;
    heat += s0 * t0 + s1 * t1;
    low = t0 < low ? t0 : low;
    low = t1 < low ? t1 : low;
    if (!heat_to) {
      continue;
    }
    if (lines == 2) {
      store(__builtin_shufflevector(t0, t1, 0, 2, 4, 6), heat_to + at);
      store(__builtin_shufflevector(t0, t1, 1, 3, 5, 7), heat_to + at + other);
      store(__builtin_shufflevector(x0, x1, 0, 2, 4, 6), water_to + at);
      store(__builtin_shufflevector(x0, x1, 1, 3, 5, 7), water_to + at + other);
    } else {
      store(t0, heat_to + at);
      store(t1, heat_to + at + other);
      store(x0, water_to + at);
      store(x1, water_to + at + other);
    }
  }
  OverNodes over{(water[0] + water[1]) + (water[2] + water[3]), (heat[0] + heat[1]) + (heat[2] + heat[3]),
                 low[0]};
  for (const double lane : {low[1], low[2], low[3]}) {
    over.coldest = lane < over.coldest ? lane : over.coldest;
  }
  for (; i < nodes; ++i) {
    const double x = y[2 * i + 1];
    over.water += share[i] * x;
    over.temperature += share[i] * t[i];
    over.coldest = t[i] < over.coldest ? t[i] : over.coldest;
    if (heat_to) {
      const std::size_t place = lines == 2 ? i / 2 + i % 2 * (nodes / 2) : i;
      heat_to[place] = t[i];
      water_to[place] = x;
    }
  }
  return over;
}

} // namespace cook::engine
