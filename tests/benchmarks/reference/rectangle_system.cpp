#include "benchmarks/reference/rectangle_system.hpp"

#include <algorithm>
#include <stdexcept>

#include "benchmarks/reference/lanes.hpp"
#include "engine/vector_clones.hpp"

namespace cook::reference {

using engine::Pack;
using engine::pack_lanes;

namespace {

std::size_t whole_packs(std::size_t n) { return (n + pack_lanes - 1) / pack_lanes * pack_lanes; }

COOK_PACK_CLONES
void mobilities(const double *t, const double *c, std::size_t n, double scale, double *d) {
  const Pack scales(scale);
  for_packs(n, [&](std::size_t i) { store(mobility(load(t + i), load(c + i), scales).value, d + i); });
}

COOK_PACK_CLONES
void face_flows(const double *t, const double *c, std::size_t n, const FaceConditions<Pack> &at, double *heat,
                double *water) {
  for (std::size_t first = 0; first < n; first += pack_lanes) {
    const FaceFlow<Pack> flow = face_flow(load(t + first), load(c + first), at);
    store(flow.heat, heat + first);
    store(flow.water, water + first);
  }
}

/// Between the nodes p and p + stride of a row.
inline void edge_row(const double *t, const double *c, const double *d, std::size_t stride, std::size_t count,
                     double by_heat, double by_water, double *heat, double *water) {
  for_packs(count, [&](std::size_t i) {
    const std::size_t j = i + stride;
    store(Pack(by_heat) * (load(t + j) - load(t + i)), heat + i);
    store(Pack(by_water) * (load(d + j) + load(d + i)) * (load(c + j) - load(c + i)), water + i);
  });
}

/// Rates of a row from what passes its edges along and across.
COOK_PACK_CLONES
void rate_row(const double *t, const double *c, const double *d, std::size_t nx, bool top, double weight,
              const std::array<double, 4> &by, double *heat, double *water, const double *heat_below,
              const double *water_below, double *heat_above, double *water_above, double *f_t, double *f_c) {
  edge_row(t, c, d, 1, nx - 1, by[0], by[1], heat + 1, water + 1);
  if (!top) {
    edge_row(t, c, d, nx, nx, by[2], by[3], heat_above, water_above);
  }
  for_packs(nx, [&](std::size_t i) {
    store((load(heat + i + 1) - load(heat + i)) +
              Pack(weight) * (load(heat_above + i) - load(heat_below + i)),
          f_t + i);
    store((load(water + i + 1) - load(water + i)) +
              Pack(weight) * (load(water_above + i) - load(water_below + i)),
          f_c + i);
  });
  for (const std::size_t i : {std::size_t{0}, nx - 1}) { // halved along as well
    f_t[i] += heat[i + 1] - heat[i];
    f_c[i] += water[i + 1] - water[i];
  }
}

} // namespace

RectangleSystem::RectangleSystem(std::size_t along, std::size_t across)
    : nx_(along + 1), ny_(across + 1), d_(nodes()) {
  if (along < 8 || across < 8 || along % 2 != 0 || across % 2 != 0) {
    throw std::invalid_argument("a reference rectangle has even numbers of intervals, at least 8");
  }
  const std::size_t faces = whole_packs(2 * (nx_ + ny_));
  face_t_.assign(faces, 20.0);
  face_c_ = face_heat_ = face_water_ = std::vector<double>(faces, 0.0);
  heat_ = water_ = std::vector<double>(nx_ + 1, 0.0);
  heat_below_ = water_below_ = heat_above_ = water_above_ = std::vector<double>(nx_, 0.0);
}

void RectangleSystem::set(const Recipe &recipe, std::size_t phase) {
  per_dx_ = static_cast<double>(nx_ - 1) / recipe.length;
  per_dy_ = static_cast<double>(ny_ - 1) / recipe.height;
  scale_ = mobility_scale(recipe.mobility);
  face_.set(0, recipe.phases[phase]);
}

void RectangleSystem::start(const Recipe &recipe, double *y) const {
  std::fill_n(y, nodes(), recipe.start);
  std::fill_n(y + nodes(), nodes(), recipe.water);
}

double RectangleSystem::mean_water(const double *y) const {
  const double *c = y + nodes();
  double sum = 0.0;
  for (std::size_t j = 0; j < ny_; ++j) {
    for (std::size_t i = 0; i < nx_; ++i) {
      const double weight = (i == 0 || i + 1 == nx_ ? 0.5 : 1.0) * (j == 0 || j + 1 == ny_ ? 0.5 : 1.0);
      sum += weight * c[j * nx_ + i];
    }
  }
  return sum / static_cast<double>((nx_ - 1) * (ny_ - 1));
}

std::array<RectangleSystem::Side, 4> RectangleSystem::sides() const {
  return {{{0, 1, nx_, per_dy_},
           {(ny_ - 1) * nx_, 1, nx_, per_dy_},
           {0, nx_, ny_, per_dx_},
           {nx_ - 1, nx_, ny_, per_dx_}}};
}

std::vector<RectangleSystem::Edge> RectangleSystem::edges() const {
  std::vector<Edge> all;
  const auto weight = [](std::size_t i, std::size_t n) { return i == 0 || i + 1 == n ? 2.0 : 1.0; };
  for (std::size_t j = 0; j < ny_; ++j) {
    for (std::size_t i = 0; i < nx_; ++i) {
      const std::size_t p = j * nx_ + i;
      if (i + 1 < nx_) {
        all.push_back({p, p + 1, per_dx_ * per_dx_, weight(i, nx_), weight(i + 1, nx_)});
      }
      if (j + 1 < ny_) {
        all.push_back({p, p + nx_, per_dy_ * per_dy_, weight(j, ny_), weight(j + 1, ny_)});
      }
    }
  }
  return all;
}

void RectangleSystem::evaluate_faces(const double *y) {
  std::size_t k = 0;
  for (const Side &side : sides()) {
    for (std::size_t i = 0; i < side.count; ++i, ++k) {
      const std::size_t p = side.first + i * side.stride;
      face_t_[k] = y[p];
      face_c_[k] = y[nodes() + p];
    }
  }
  face_flows(face_t_.data(), face_c_.data(), face_t_.size(), face_.as<Pack>(), face_heat_.data(),
             face_water_.data());
  // As flows through the outermost edges, towards larger x and y.
  constexpr double per_heat = 1.0 / (Constants::density * Constants::capacity);
  constexpr double per_water = 1.0 / Constants::density;
  k = 0;
  double sign = -1.0;
  for (const Side &side : sides()) {
    for (std::size_t i = 0; i < side.count; ++i, ++k) {
      face_heat_[k] *= sign * per_heat * side.per_spacing;
      face_water_[k] *= -sign * per_water * side.per_spacing;
    }
    sign = -sign;
  }
}

void RectangleSystem::rhs(const double *y, double *f) {
  const std::size_t n = nodes();
  mobilities(y, y + n, n, scale_, d_.data());
  evaluate_faces(y);
  const std::array<double, 4> by{Constants::diffusivity * per_dx_ * per_dx_, 0.5 * per_dx_ * per_dx_,
                                 Constants::diffusivity * per_dy_ * per_dy_, 0.5 * per_dy_ * per_dy_};
  std::copy_n(face_heat_.data(), nx_, heat_below_.data());
  std::copy_n(face_water_.data(), nx_, water_below_.data());
  const std::size_t left = 2 * nx_;
  const std::size_t right = left + ny_;
  for (std::size_t j = 0; j < ny_; ++j) {
    const bool top = j + 1 == ny_;
    heat_[0] = face_heat_[left + j];
    water_[0] = face_water_[left + j];
    heat_[nx_] = face_heat_[right + j];
    water_[nx_] = face_water_[right + j];
    if (top) {
      std::copy_n(&face_heat_[nx_], nx_, heat_above_.data());
      std::copy_n(&face_water_[nx_], nx_, water_above_.data());
    }
    const std::size_t p = j * nx_;
    rate_row(y + p, y + n + p, &d_[p], nx_, top, j == 0 || top ? 2.0 : 1.0, by, heat_.data(), water_.data(),
             heat_below_.data(), water_below_.data(), heat_above_.data(), water_above_.data(), f + p,
             f + n + p);
    heat_below_.swap(heat_above_);
    water_below_.swap(water_above_);
  }
}

} // namespace cook::reference
