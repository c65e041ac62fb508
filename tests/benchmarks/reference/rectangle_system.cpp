#include "benchmarks/reference/rectangle_system.hpp"

#include <algorithm>
#include <stdexcept>

#include "benchmarks/reference/lanes.hpp"
#include "engine/arithmetic/vector_clones.hpp"

namespace cook::reference {

constexpr std::size_t eight = Neighbours::count;

namespace {

std::size_t whole_packs(std::size_t n) { return (n + eight - 1) / eight * eight; }

COOK_PACK_CLONES
void mobilities(const double *t, const double *c, std::size_t n, double scale, double *d) {
  const Neighbours scales(scale);
  for_neighbours(n, [&](std::size_t i) { store(mobility(load(t + i), load(c + i), scales).value, d + i); });
}

COOK_PACK_CLONES
void face_flows(const double *t, const double *c, std::size_t n, const FaceConditions<Neighbours> &at,
                double *heat, double *water) {
  for (std::size_t first = 0; first < n; first += eight) {
    const FaceFlow<Neighbours> flow = face_flow(load(t + first), load(c + first), at);
    store(flow.heat, heat + first);
    store(flow.water, water + first);
  }
}

/// What flows from b to a.
template <class Real> struct Flow {
  Real heat, water;
  friend Flow operator-(const Flow &x, const Flow &y) { return {x.heat - y.heat, x.water - y.water}; }
};

/// Temperature, water and mobility.
template <class Real> struct Node { Real t, c, d; };

template <class Real> Flow<Real> flow(const Node<Real> &b, const Node<Real> &a, const Flow<Real> &by) {
  return {by.heat * (b.t - a.t), by.water * (b.d + a.d) * (b.c - a.c)};
}

/// Coefficients of the flows along and across, and 2 where the volume is halved across. Made once: GCC 12
/// puts a number into the lanes of a pack one by one.
template <class Real> struct Coefficients {
  Flow<Real> along, across;
  Real weight;
};

/// A row of nodes, and what it exchanges with the rows beside it and with the air at its ends.
struct RowOf {
  const double *t, *c, *d;
  std::size_t nx;
  const Coefficients<Neighbours> &packs;
  const Coefficients<double> &by;
  bool top; ///< `above` is already what the face does
  double *heat_below, *water_below, *heat_above, *water_above;
  std::array<Flow<double>, 2> ends;

  [[nodiscard]] Node<Neighbours> pack(std::size_t i) const { return {load(t + i), load(c + i), load(d + i)}; }
  [[nodiscard]] Node<double> node(std::size_t i) const { return {t[i], c[i], d[i]}; }
};

COOK_PACK_CLONES
void rate_row(const RowOf &row, double *f_t, double *f_c) {
  // Between the ends; everything in one pass, for what has just been stored is slow to load at another place.
  for_neighbours(row.nx - 2, [&](std::size_t first) {
    const std::size_t i = first + 1;
    const Node<Neighbours> own = row.pack(i);
    const Flow<Neighbours> along =
        flow(row.pack(i + 1), own, row.packs.along) - flow(own, row.pack(i - 1), row.packs.along);
    Flow<Neighbours> above;
    if (row.top) {
      above = {load(row.heat_above + i), load(row.water_above + i)};
    } else {
      above = flow(row.pack(i + row.nx), own, row.packs.across);
      store(above.heat, row.heat_above + i);
      store(above.water, row.water_above + i);
    }
    const Flow<Neighbours> across =
        above - Flow<Neighbours>{load(row.heat_below + i), load(row.water_below + i)};
    store(along.heat + row.packs.weight * across.heat, f_t + i);
    store(along.water + row.packs.weight * across.water, f_c + i);
  });
  const std::size_t last = row.nx - 1;
  for (const std::size_t i : {std::size_t{0}, last}) { // halved along as well
    const Node<double> own = row.node(i);
    const Flow<double> along = i == 0 ? flow(row.node(1), own, row.by.along) - row.ends[0]
                                      : row.ends[1] - flow(own, row.node(i - 1), row.by.along);
    if (!row.top) {
      const Flow<double> above = flow(row.node(i + row.nx), own, row.by.across);
      row.heat_above[i] = above.heat;
      row.water_above[i] = above.water;
    }
    f_t[i] = 2.0 * along.heat + row.by.weight * (row.heat_above[i] - row.heat_below[i]);
    f_c[i] = 2.0 * along.water + row.by.weight * (row.water_above[i] - row.water_below[i]);
  }
}

} // namespace

RectangleSystem::RectangleSystem(std::size_t along, std::size_t across)
    : nx_(along + 1), ny_(across + 1), d_(nodes()) {
  if (along < eight + 2 || across < eight + 2 || along % 2 != 0 || across % 2 != 0) {
    throw std::invalid_argument("a reference rectangle has even numbers of intervals, at least 10");
  }
  const std::size_t faces = whole_packs(2 * (nx_ + ny_));
  face_t_.assign(faces, 20.0);
  face_c_ = face_heat_ = face_water_ = std::vector<double>(faces, 0.0);
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
  face_flows(face_t_.data(), face_c_.data(), face_t_.size(), face_.as<Neighbours>(), face_heat_.data(),
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
  const Coefficients<double> inner{
      .along = {Constants::diffusivity * per_dx_ * per_dx_, 0.5 * per_dx_ * per_dx_},
      .across = {Constants::diffusivity * per_dy_ * per_dy_, 0.5 * per_dy_ * per_dy_},
      .weight = 1.0};
  Coefficients<double> outer = inner;
  outer.weight = 2.0;
  const auto packed = [](const Coefficients<double> &by) {
    return Coefficients<Neighbours>{.along = {Neighbours(by.along.heat), Neighbours(by.along.water)},
                                    .across = {Neighbours(by.across.heat), Neighbours(by.across.water)},
                                    .weight = Neighbours(by.weight)};
  };
  const Coefficients<Neighbours> inner_packs = packed(inner);
  const Coefficients<Neighbours> outer_packs = packed(outer);
  std::copy_n(face_heat_.data(), nx_, heat_below_.data());
  std::copy_n(face_water_.data(), nx_, water_below_.data());
  const std::size_t left = 2 * nx_;
  const std::size_t right = left + ny_;
  for (std::size_t j = 0; j < ny_; ++j) {
    const bool top = j + 1 == ny_;
    if (top) {
      std::copy_n(&face_heat_[nx_], nx_, heat_above_.data());
      std::copy_n(&face_water_[nx_], nx_, water_above_.data());
    }
    const std::size_t p = j * nx_;
    const RowOf row{.t = y + p,
                    .c = y + n + p,
                    .d = &d_[p],
                    .nx = nx_,
                    .packs = j == 0 || top ? outer_packs : inner_packs,
                    .by = j == 0 || top ? outer : inner,
                    .top = top,
                    .heat_below = heat_below_.data(),
                    .water_below = water_below_.data(),
                    .heat_above = heat_above_.data(),
                    .water_above = water_above_.data(),
                    .ends = {{{face_heat_[left + j], face_water_[left + j]},
                              {face_heat_[right + j], face_water_[right + j]}}}};
    rate_row(row, f + p, f + n + p);
    heat_below_.swap(heat_above_);
    water_below_.swap(water_above_);
  }
}

} // namespace cook::reference
