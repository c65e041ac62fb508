/// @file
/// The method of manufactured solutions on the equations of a cross-section: manufactured.hpp in two
/// dimensions, on any mesh.
///
/// Smooth fields of temperature, water and film are chosen; what the continuous equations need to have them
/// as their solution is added as sources, the value at a node standing for its control volume.
#pragma once

#include <cmath>
#include <cstddef>
#include <vector>

#include "engine/equations/manufactured_plane_fields.hpp"
#include "engine/equations/section_system.hpp"

namespace cook::testing {

/// SectionSystem plus sources; everything that Ros3 asks of a system.
class ManufacturedSection {
public:
  using Vector = std::vector<double>;

  ManufacturedSection(const engine::SectionGrid &grid, const engine::PropertyTable &table,
                      const PlaneFields &fields)
      : inner(grid, {&table, &table, &table}), probe_(grid, {&table, &table, &table}), grid_(&grid),
        table_(&table), fields_(fields), point_(inner.nodes()), exact_(inner.size()), now_(inner.size()),
        later_(inner.size()), scratch_(inner.size()), time_rates_(inner.size()) {
    for (std::size_t b = 0; b < inner.faces(); ++b) {
      outward_.push_back(outward(grid.boundary[b]));
    }
  }

  engine::SectionSystem inner;

  /// The fields as a state vector.
  [[nodiscard]] Vector exact(double t) {
    look(t);
    return exact_;
  }

  void rhs(double t, const Vector &y, Vector &f) {
    inner.rhs(t, y, f);
    fill(t, now_);
    add(now_, f);
  }
  void linearise(double t, const Vector &y, Vector &f) {
    constexpr double step = 0.1; // s: the fields take hours
    inner.linearise(t, y, f);
    fill(t, now_);
    fill(t + step, later_);
    add(now_, f);
    time_rates_ = inner.time_rates();
    for (std::size_t i = 0; i < time_rates_.size(); ++i) {
      time_rates_[i] += (later_[i] - now_[i]) * (1.0 / step);
    }
  }
  [[nodiscard]] const Vector &time_rates() const { return time_rates_; }
  [[nodiscard]] bool varies() const { return true; }
  void factorise(double shift) { inner.factorise(shift); }
  void solve(Vector &x) { inner.solve(x); }

private:
  struct Vec {
    double x, z;
  };
  static double dot(Vec a, Vec b) { return a.x * b.x + a.z * b.z; }

  /// The fields at a node and time, the properties there, and the water flux.
  struct Point {
    PlaneJet temperature, water;
    engine::Cell<double> cell{};
    engine::Row<double> row{};
    double energy = 0.0;          ///< [J m⁻³]
    double energy_rate = 0.0;     ///< [W m⁻³]
    Vec flow{0.0, 0.0};           ///< [kg m⁻² s⁻¹]
    double flow_divergence = 0.0; ///< [kg m⁻³ s⁻¹]
    Vec heat{0.0, 0.0};           ///< [W m⁻²]
    double heat_divergence = 0.0; ///< [W m⁻³]
  };

  [[nodiscard]] Point point(std::size_t node, double t) const {
    const double x = grid_->x[node];
    const double z = grid_->z[node];
    Point p{fields_.temperature(x, z, t), fields_.water(x, z, t)};
    table_->lookup<>(p.temperature.value, p.row);
    const auto &value = p.row.value;
    const auto &slope = p.row.slope;
    const double solids = table_->solids;
    const double water = solids * p.water.value;
    p.energy = value[engine::col_dry_h] + water * value[engine::col_water_h] + value[engine::col_denat_h];
    p.energy_rate =
        (slope[engine::col_dry_h] + water * slope[engine::col_water_h] + slope[engine::col_denat_h]) *
            p.temperature.t +
        solids * p.water.t * value[engine::col_water_h];
    p.cell.base_t = p.temperature.value;
    const engine::Memory<double> none{-1e30, 0.0, 0.0};
    engine::evaluate_cell<engine::Slopes::yes>(*table_, p.energy / table_->reference_capacity, p.water.value,
                                               0.0, none, p.cell);
    conduct(p);
    return p;
  }

  /// The continuous laws: j = -s M grad(phi) with M = D_expressed P'(phi) + D_held give (1 - P'(phi)), and
  /// q = -k grad(T) + h_w j.
  void conduct(Point &p) const {
    const auto &c = p.cell;
    const Vec t{p.temperature.x, p.temperature.z};
    const Vec x{p.water.x, p.water.z};
    const Vec phi{x.x + c.phi_t * t.x, x.z + c.phi_t * t.z};
    constexpr double near = 0.05; // K
    engine::Row<double> above, below;
    table_->lookup<engine::col_held, engine::col_held + 1>(c.t + near, above);
    table_->lookup<engine::col_held, engine::col_held + 1>(c.t - near, below);
    const double phi_tt = -(above.slope[engine::col_held] - below.slope[engine::col_held]) / (2.0 * near);
    const double phi_laplacian = p.water.laplacian + c.phi_t * p.temperature.laplacian + phi_tt * dot(t, t);
    const double slow = c.held_mobility * c.give;
    const bool switching = table_->squeezing && c.juice_phi > 0.0 && c.juice_phi < 1.0;
    const double by_phi = switching ? (c.expressed - slow) / table_->switch_width : 0.0;
    const double squeezed = c.juice_phi;
    const double mobility = c.expressed * squeezed + slow * (1.0 - squeezed);
    const double by_t =
        c.expressed_t * squeezed + c.held_mobility_t * c.give * (1.0 - squeezed) + by_phi * c.phi_t;
    const double by_x = (c.held_mobility_x * c.give + c.held_mobility * c.give_x) * (1.0 - squeezed) + by_phi;
    const Vec gradient{by_t * t.x + by_x * x.x, by_t * t.z + by_x * x.z};
    const double solids = table_->solids;
    p.flow = {-solids * mobility * phi.x, -solids * mobility * phi.z};
    p.flow_divergence = -solids * (mobility * phi_laplacian + dot(gradient, phi));
    p.heat = {-c.k * t.x + c.hw * p.flow.x, -c.k * t.z + c.hw * p.flow.z};
    p.heat_divergence = -(c.k * p.temperature.laplacian + c.k_t * dot(t, t) + c.k_x * dot(x, t)) +
                        c.hw_t * dot(t, p.flow) + c.hw * p.flow_divergence;
  }

  /// Area of a boundary node's faces, as a vector out of the meat. A corner has two: half of the way to the
  /// next node along the bottom or the top, and the rest of its area on the end face.
  [[nodiscard]] Vec outward(const engine::BoundaryNode &at) const {
    const engine::SectionGrid &g = *grid_;
    const std::size_t i = at.node / g.nz;
    const auto [height, slope] = g.profile(g.x[at.node]);
    const double rise = g.z[at.node] / height * slope;
    const double per = 1.0 / std::sqrt(1.0 + rise * rise);
    const double up = at.side == 0 ? -1.0 : 1.0;
    const double on = i == 0 ? -1.0 : 1.0;
    const Vec across{-up * rise * per, up * per};
    const Vec along{on * per, on * rise * per};
    double face = at.end ? 0.0 : at.area;
    if (!at.end && (i == 0 || i + 1 == g.nx)) {
      const std::size_t next = i == 0 ? at.node + g.nz : at.node - g.nz;
      face = 0.5 * std::hypot(g.x[next] - g.x[at.node], g.z[next] - g.z[at.node]);
    }
    const double end = at.area - face;
    return {face * across.x + end * along.x, face * across.z + end * along.z};
  }

  /// Takes the fields at a time: at the nodes, and as a state vector.
  void look(double t) {
    const double film = fields_.film(t)[0];
    for (std::size_t p = 0; p < inner.nodes(); ++p) {
      point_[p] = point(p, t);
      exact_[2 * p] = point_[p].energy / table_->reference_capacity;
      exact_[2 * p + 1] = point_[p].water.value;
    }
    for (std::size_t b = 0; b < inner.faces(); ++b) {
      const std::size_t p = inner.face_node(b);
      exact_[2 * p] +=
          film * point_[p].cell.hw * inner.area_of(b) / inner.volume[p] / table_->reference_capacity;
      exact_[inner.liquid_index(b)] = film;
    }
  }

  void fill(double t, Vector &source) {
    look(t);
    for (std::size_t p = 0; p < inner.nodes(); ++p) {
      const Point &at = point_[p];
      source[2 * p] = (at.energy_rate + at.heat_divergence) / table_->reference_capacity;
      source[2 * p + 1] = at.water.t + at.flow_divergence / table_->solids;
    }
    // The engine's own face acts on the numerical solution; what it would do to the fields is taken off
    // again, so that the fields stay the solution while the face stays as nonlinear as it is.
    probe_.face = inner.face;
    probe_.drive = inner.drive;
    probe_.rhs(t, exact_, scratch_);
    const auto [film, film_rate] = fields_.film(t);
    for (std::size_t b = 0; b < inner.faces(); ++b) {
      const std::size_t p = inner.face_node(b);
      const double area = inner.area_of(b);
      const Point &at = point_[p];
      const double hw = at.cell.hw;
      const auto &q = probe_.flux[b];
      const double into = q.convection.value + q.radiation.value -
                          q.vapour.value * (at.row.value[engine::col_latent] + hw) - q.run_off.value * hw;
      const double liquid_heat = film_rate * hw + film * at.cell.hw_t * at.temperature.t;
      const double heat = area * (liquid_heat - into) - dot(at.heat, outward_[b]);
      const double water =
          area * (q.vapour.value - q.from_liquid.value + q.seep.value) - dot(at.flow, outward_[b]);
      source[2 * p] += heat / (inner.volume[p] * table_->reference_capacity);
      source[2 * p + 1] += water / (inner.volume[p] * table_->solids);
      source[inner.liquid_index(b)] = film_rate - (q.seep.value - q.from_liquid.value - q.run_off.value);
    }
  }

  static void add(const Vector &source, Vector &f) {
    for (std::size_t i = 0; i < f.size(); ++i) {
      f[i] += source[i];
    }
  }

  engine::SectionSystem probe_;
  const engine::SectionGrid *grid_;
  const engine::PropertyTable *table_;
  PlaneFields fields_;
  std::vector<Vec> outward_;
  std::vector<Point> point_;
  Vector exact_;
  Vector now_, later_, scratch_, time_rates_;
};

} // namespace cook::testing
