/// @file
/// The method of manufactured solutions on the engine's own equations.
///
/// Smooth fields of temperature, water and film are chosen; what the continuous equations need to have them
/// as their solution is added as sources. Method: Salari & Knupp, Code Verification by the Method of
/// Manufactured Solutions, SAND2000-1444 (2000); Roache, J. Fluids Eng. 124 (2002) 4.
#pragma once

#include <array>
#include <cmath>
#include <cstddef>
#include <numbers>
#include <vector>

#include "engine/equations/line_system.hpp"
#include "engine/equations/manufactured_fields.hpp"

namespace cook::testing {

/// Where the sources come from: the continuous equations (what is left is the error in space, and in time),
/// or the semi-discrete ones (the fields at the nodes then solve them exactly: what is left is the error in
/// time alone).
enum class Sources { continuous, semi_discrete };

/// LineSystem plus sources; everything that Ros3 asks of a system.
template <class Table> class ManufacturedSystem {
public:
  using Vector = std::vector<double>;
  using Line = engine::LineSystem<double, Table>;

  ManufacturedSystem(const engine::Grid &grid, const Table &table, const Fields &fields, Sources sources)
      : inner(grid, table), probe_(grid, table), grid_(&grid), table_(&table), fields_(fields),
        sources_(sources), edges_(grid.nodes() + 1), now_(inner.size()), later_(inner.size()),
        earlier_(inner.size()), scratch_(inner.size()), time_rates_(inner.size()) {
    edges_.front() = grid.position.front();
    edges_.back() = grid.position.back();
    for (std::size_t i = 1; i < grid.nodes(); ++i) {
      edges_[i] = 0.5 * (grid.position[i - 1] + grid.position[i]);
    }
  }

  Line inner;

  /// The fields as a state vector.
  [[nodiscard]] Vector exact(double t) const {
    Vector y(inner.size(), 0.0);
    for (std::size_t i = 0; i < inner.nodes(); ++i) {
      const Point p = point(grid_->position[i], t);
      y[2 * i] = p.energy / table_->reference_capacity;
      y[2 * i + 1] = p.water.value;
    }
    for (std::size_t f = first_face(); f < 2; ++f) {
      const std::size_t s = inner.face_node(f);
      const double film = fields_.film(t).value;
      y[2 * s] += film * point(grid_->position[s], t).cell.hw * inner.face_area[f] / inner.volume[s] /
                  table_->reference_capacity;
      y[inner.liquid_index(f)] = film;
    }
    return y;
  }

  /// Water flux of the fields [kg m⁻² s⁻¹], outward.
  [[nodiscard]] double water_flux(double at, double t) const { return flux(point(at, t)).water; }

  void rhs(double t, const Vector &y, Vector &f) {
    inner.rhs(t, y, f);
    fill(t, now_);
    add(now_, f);
  }
  void linearise(double t, const Vector &y, Vector &f) {
    constexpr double step = 1.0; // s
    inner.linearise(t, y, f);
    fill(t, now_);
    fill(t + step, later_);
    fill(t - step, earlier_);
    add(now_, f);
    time_rates_ = inner.time_rates();
    for (std::size_t i = 0; i < time_rates_.size(); ++i) {
      time_rates_[i] += (later_[i] - earlier_[i]) * (0.5 / step);
    }
  }
  [[nodiscard]] const Vector &time_rates() const { return time_rates_; }
  [[nodiscard]] bool varies() const { return true; }
  void factorise(double shift) { inner.factorise(shift); }
  void solve(Vector &x) const { inner.solve(x); }

private:
  /// The fields at a place and time, and the properties there.
  struct Point {
    Jet temperature, water;
    engine::Cell<double> cell{};
    engine::Row<double> row{};
    double energy = 0.0;      ///< [J m⁻³]
    double energy_rate = 0.0; ///< [W m⁻³]
  };
  struct Flux {
    double heat, water; ///< [W m⁻²], [kg m⁻² s⁻¹]
  };

  [[nodiscard]] Point point(double at, double t) const {
    Point p{fields_.temperature(at, t), fields_.water(at, t)};
    table_->template lookup<>(p.temperature.value, p.row);
    const auto &value = p.row.value;
    const auto &slope = p.row.slope;
    const double water = table_->solids * p.water.value;
    p.energy = value[engine::col_dry_h] + water * value[engine::col_water_h] + value[engine::col_denat_h];
    p.energy_rate =
        (slope[engine::col_dry_h] + water * slope[engine::col_water_h] + slope[engine::col_denat_h]) *
            p.temperature.t +
        table_->solids * p.water.t * value[engine::col_water_h];
    p.cell.base_t = p.temperature.value;
    const engine::Memory<double> none{-1e30, 0.0, 0.0};
    engine::evaluate_cell<engine::Slopes::yes>(*table_, p.energy / table_->reference_capacity, p.water.value,
                                               0.0, none, p.cell);
    return p;
  }

  /// The continuous law, with j = -s [D_expressed P'(phi) + D_held (1 - P'(phi))] dphi/dx.
  [[nodiscard]] Flux flux(const Point &p) const {
    const double drop = p.water.x + p.cell.phi_t * p.temperature.x;
    const double mobility =
        p.cell.expressed * p.cell.juice_phi + p.cell.held_mobility * p.cell.give * (1.0 - p.cell.juice_phi);
    const double water = -table_->solids * mobility * drop;
    return {-p.cell.k * p.temperature.x + water * p.cell.hw, water};
  }

  [[nodiscard]] std::size_t first_face() const { return inner.face_area[0] == 0.0 ? 1 : 0; }
  [[nodiscard]] double area(std::size_t edge) const {
    return first_face() == 1 ? 2.0 * std::numbers::pi * edges_[edge] : 1.0;
  }

  /// Rates of energy and of water in control volume i, by Gauss's two points on either side of its node.
  [[nodiscard]] Flux stored(std::size_t i, double t) const {
    Flux sum{0.0, 0.0};
    const double node = grid_->position[i];
    for (const double side : {edges_[i], edges_[i + 1]}) {
      for (const double sign : {-1.0, 1.0}) {
        const double half = 0.5 * std::fabs(side - node);
        const double at = 0.5 * (side + node) + sign * half / std::numbers::sqrt3;
        const double weight = half * (first_face() == 1 ? 2.0 * std::numbers::pi * at : 1.0);
        const Point p = point(at, t);
        sum.heat += weight * p.energy_rate;
        sum.water += weight * table_->solids * p.water.t;
      }
    }
    return sum;
  }

  void fill(double t, Vector &source) {
    if (sources_ == Sources::semi_discrete) {
      fill_semi_discrete(t, source);
      return;
    }
    const std::size_t n = inner.nodes();
    source.assign(source.size(), 0.0);
    Flux left{0.0, 0.0};
    for (std::size_t i = 0; i < n; ++i) {
      // The divergence integrated over the control volume, exactly: its fluxes at the edges. None at a face:
      // what crosses there is the business of face_sources().
      Flux right{0.0, 0.0};
      if (i + 1 < n) {
        right = flux(point(edges_[i + 1], t));
        right = {right.heat * area(i + 1), right.water * area(i + 1)};
      }
      const Flux rate = stored(i, t);
      source[2 * i] = (rate.heat + right.heat - left.heat) / (inner.volume[i] * table_->reference_capacity);
      source[2 * i + 1] = (rate.water + right.water - left.water) / (inner.volume[i] * table_->solids);
      left = right;
    }
    probe_.face = inner.face;
    probe_.drive = inner.drive;
    probe_.rhs(t, exact(t), scratch_); // leaves what the faces would do to the fields
    for (std::size_t f = first_face(); f < 2; ++f) {
      face_sources(f, t, source);
    }
  }

  /// The engine's own face acts on the numerical solution; what it would do to the fields is taken off again,
  /// so that the fields stay the solution while the face stays as nonlinear as it is.
  void face_sources(std::size_t f, double t, Vector &source) const {
    const std::size_t s = inner.face_node(f);
    const Point p = point(grid_->position[s], t);
    const auto &c = p.cell;
    const Jet film = fields_.film(t);
    const double solids = table_->solids;
    const auto &q = probe_.flux[f];
    const double heat = q.convection.value + q.radiation.value -
                        q.vapour.value * (p.row.value[engine::col_latent] + c.hw) - q.run_off.value * c.hw;
    const double liquid_heat = film.t * c.hw + film.value * c.hw_t * p.temperature.t;
    const double per_volume = inner.face_area[f] / inner.volume[s];
    source[2 * s] += (liquid_heat - heat) * per_volume / table_->reference_capacity;
    source[2 * s + 1] += (q.vapour.value - q.from_liquid.value + q.seep.value) * per_volume / solids;
    source[inner.liquid_index(f)] = film.t - (q.seep.value - q.from_liquid.value - q.run_off.value);
  }

  void fill_semi_discrete(double t, Vector &source) {
    probe_.face = inner.face;
    probe_.drive = inner.drive;
    probe_.rhs(t, exact(t), scratch_);
    constexpr double step = 4.0; // s; fourth-order difference: good to 1e-12 of the fields
    const Vector after = exact(t + step);
    const Vector before = exact(t - step);
    const Vector long_after = exact(t + 2.0 * step);
    const Vector long_before = exact(t - 2.0 * step);
    for (std::size_t i = 0; i < inner.box_index(); ++i) {
      const double rate = (8.0 * (after[i] - before[i]) - (long_after[i] - long_before[i])) / (12.0 * step);
      source[i] = rate - scratch_[i];
    }
  }

  static void add(const Vector &source, Vector &f) {
    for (std::size_t i = 0; i < f.size(); ++i) {
      f[i] += source[i];
    }
  }

  Line probe_;
  const engine::Grid *grid_;
  const Table *table_;
  Fields fields_;
  Sources sources_;
  Vector edges_, now_, later_, earlier_, scratch_, time_rates_;
};

} // namespace cook::testing
