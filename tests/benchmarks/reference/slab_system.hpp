/// @file
/// The one-dimensional reference problem: heat and water through a slab, on equal intervals, in the form that
/// engine/time/ros3.hpp runs.
///
/// State [ T_0, C_0, ..., T_N, C_N ]. Finite volumes around the nodes, half ones at the faces, so that a face
/// node is the surface. Mobility between two nodes is the mean of theirs. The whole slab is solved, though it
/// is symmetric.
#pragma once

#include <array>
#include <cstddef>
#include <cstring>
#include <stdexcept>
#include <type_traits>
#include <vector>

#include "benchmarks/reference/lanes.hpp"
#include "benchmarks/reference/properties.hpp"
#include "benchmarks/reference/recipe.hpp"
#include "engine/linear/block_tridiagonal.hpp"

namespace cook::reference {

/// Real is double, or engine::Pack: a cook in each lane.
template <class Real> class SlabSystem {
public:
  using Vector = std::vector<Real>;

  /// @param intervals even, so that a node lies in the middle, and at least 8
  explicit SlabSystem(std::size_t intervals)
      : n_(intervals + 1), matrix_(n_), d_(n_), d_by_t_(n_), d_by_c_(n_) {

    if (intervals < Neighbours::count || intervals % 2 != 0) {
      throw std::invalid_argument("a reference slab has an even number of intervals, at least 8");
    }
  }

  /// Gives a lane its cook and phase.
  void set(std::size_t lane, const Recipe &recipe, std::size_t phase) {
    const double dx = recipe.length / static_cast<double>(n_ - 1);
    set_lane(heat_edge_, lane, Constants::diffusivity / (dx * dx));
    set_lane(water_edge_, lane, 0.5 / (dx * dx));
    set_lane(heat_face_, lane, 2.0 / (Constants::density * Constants::capacity * dx));
    set_lane(water_face_, lane, 2.0 / (Constants::density * dx));
    set_lane(scale_, lane, mobility_scale(recipe.mobility));
    scales_.fill(lane_of(scale_, lane));
    face_.set(lane, recipe.phases[phase]);
    if constexpr (side_by_side) {
      for (std::size_t other = 0; other < Neighbours::count; ++other) {
        face_pack_.set(other, recipe.phases[phase]);
      }
    }
    for (std::size_t i = 0; i < n_; ++i) { // heat between nodes does not change with the state
      const double weight = i == 0 || i + 1 == n_ ? 2.0 : 1.0;
      const double edge = weight * lane_of(heat_edge_, lane);
      set_lane(matrix_.lower[i].a, lane, i == 0 ? 0.0 : edge);
      set_lane(matrix_.upper[i].a, lane, i + 1 == n_ ? 0.0 : edge);
      set_lane(matrix_.diagonal[i].a, lane, -2.0 * lane_of(heat_edge_, lane));
    }
  }

  /// Puts a lane of a state to the start of a cook.
  template <class State> void start(std::size_t lane, const Recipe &recipe, State &y) const {
    for (std::size_t i = 0; i < n_; ++i) {
      set_lane(y[2 * i], lane, recipe.start);
      set_lane(y[2 * i + 1], lane, recipe.water);
    }
  }

  [[nodiscard]] std::size_t nodes() const { return n_; }
  [[nodiscard]] std::size_t size() const { return 2 * n_; }
  [[nodiscard]] std::size_t middle() const { return 2 * (n_ / 2); } ///< where its temperature stands
  [[nodiscard]] static constexpr bool varies() { return false; }
  [[nodiscard]] const Vector &time_rates() const { return d_; } ///< not used: nothing varies with time

  /// Rate of the temperature in the middle.
  [[nodiscard]] Real middle_rate(const Vector &y) const {
    const std::size_t m = middle();
    return heat_edge_ * ((y[m + 2] - y[m]) - (y[m] - y[m - 2]));
  }

  /// Mean of the water over the slab.
  template <class State> [[nodiscard]] Real mean_water(const State &y) const {
    Real sum = 0.5 * (y[1] + y[2 * n_ - 1]);
    for (std::size_t i = 1; i + 1 < n_; ++i) {
      sum = sum + y[2 * i + 1];
    }
    return sum * (1.0 / static_cast<double>(n_ - 1));
  }

  /// @param y,f anything that [] indexes
  template <class State, class Rates> void rhs(const Real & /*time*/, const State &y, Rates &f) {
    evaluate<false>(y);
    edges<false>(y, f);
    faces<false>(y, f);
  }

  /// Rates, and the Jacobian at this state.
  template <class State, class Rates> void linearise(const Real & /*time*/, const State &y, Rates &f) {
    evaluate<true>(y);
    edges<true>(y, f);
    faces<true>(y, f);
  }

  /// Prepares solves with (shift I - J).
  void factorise(const Real &shift) { matrix_.factorise_shifted(shift); }
  void solve(Vector &x) const { matrix_.solve(x); }
  /// The Jacobian as linearise() left it.
  [[nodiscard]] const engine::BlockTridiagonal<Real> &jacobian() const { return matrix_; }

private:
  /// One cook is solved with neighbouring nodes side by side, several with a cook in each lane.
  static constexpr bool side_by_side = std::is_same_v<Real, double>;

  /// Mobilities of the nodes.
  template <bool slopes, class State> void evaluate(const State &y) {
    if constexpr (side_by_side) {
      const Neighbours scale = load(scales_.data());
      for_neighbours(n_, [&](std::size_t first) {
        const auto [t, c] = load_pairs(&y[2 * first]);
        const Mobility<Neighbours> d = mobility(t, c, scale);
        store(d.value, &d_[first]);
        if constexpr (slopes) {
          store(d.by_t, &d_by_t_[first]);
          store(d.by_c, &d_by_c_[first]);
        }
      });
    } else {
      for (std::size_t i = 0; i < n_; ++i) {
        const Mobility<Real> d = mobility(y[2 * i], y[2 * i + 1], scale_);
        d_[i] = d.value;
        if constexpr (slopes) {
          d_by_t_[i] = d.by_t;
          d_by_c_[i] = d.by_c;
        }
      }
    }
  }

  /// What flows between nodes, and its share of the Jacobian.
  template <bool slopes, class State, class Rates> void edges(const State &y, Rates &f) {
    Edge<Real> before{};
    for (std::size_t i = 0; i < n_; ++i) {
      Edge<Real> after{};
      if (i + 1 < n_) {
        after = edge<Real>(y[2 * i], y[2 * i + 1], y[2 * i + 2], y[2 * i + 3], d_[i], d_[i + 1]);
      }
      f[2 * i] = after.heat - before.heat;
      f[2 * i + 1] = after.water - before.water;
      if constexpr (slopes) {
        matrix_.diagonal[i].c = (after.slope - before.slope) * d_by_t_[i];
        matrix_.diagonal[i].d = (after.slope - before.slope) * d_by_c_[i] - (after.spread + before.spread);
        if (i + 1 < n_) {
          matrix_.upper[i].c = after.slope * d_by_t_[i + 1];
          matrix_.upper[i].d = after.spread + after.slope * d_by_c_[i + 1];
          matrix_.lower[i + 1].c = -(after.slope * d_by_t_[i]);
          matrix_.lower[i + 1].d = after.spread - after.slope * d_by_c_[i];
        }
      }
      before = after;
    }
  }

  /// Between two nodes.
  template <class R> struct Edge {
    R heat{0.0}, water{0.0};
    R spread{0.0}; ///< of the water: mobility / spacing²
    R slope{0.0};  ///< of the flow of water by the mobility of either node
  };

  template <class R>
  Edge<R> edge(const R &t0, const R &c0, const R &t1, const R &c1, const R &d0, const R &d1) const {
    const R spread = R(water_edge_) * (d0 + d1);
    const R step = c1 - c0;
    return {R(heat_edge_) * (t1 - t0), spread * step, spread, R(water_edge_) * step};
  }

  /// Half the volume: what the edges bring counts twice. Then what the air does.
  template <bool slopes, class State, class Rates> void faces(const State &y, Rates &f) {
    const std::array<FaceFlow<Real>, 2> flows = face_flows(y);
    for (const std::size_t i : {std::size_t{0}, n_ - 1}) {
      const FaceFlow<Real> &flow = flows[i == 0 ? 0 : 1];
      f[2 * i] = 2.0 * f[2 * i] + heat_face_ * flow.heat;
      f[2 * i + 1] = 2.0 * f[2 * i + 1] - water_face_ * flow.water;
      if constexpr (slopes) {
        auto &own = matrix_.diagonal[i];
        auto &beside = i == 0 ? matrix_.upper[i] : matrix_.lower[i];
        own.a = heat_face_ * flow.heat_by_t - 2.0 * heat_edge_;
        own.b = heat_face_ * flow.heat_by_c;
        own.c = 2.0 * own.c - water_face_ * flow.water_by_t;
        own.d = 2.0 * own.d - water_face_ * flow.water_by_c;
        beside.c = 2.0 * beside.c;
        beside.d = 2.0 * beside.d;
      }
    }
  }

  /// Of both faces; for one cook as two neighbours, for the sake of the exponentials.
  template <class State> std::array<FaceFlow<Real>, 2> face_flows(const State &y) const {
    const std::size_t last = 2 * (n_ - 1);
    if constexpr (side_by_side) {
      const Neighbours t(Neighbours::Vector{y[0], y[last], y[0], y[last], y[0], y[last], y[0], y[last]});
      const Neighbours c(
          Neighbours::Vector{y[1], y[last + 1], y[1], y[last + 1], y[1], y[last + 1], y[1], y[last + 1]});
      const FaceFlow<Neighbours> both = face_flow(t, c, face_pack_);
      const auto lane = [&](std::size_t l) {
        return FaceFlow<double>{both.heat[l],  both.heat_by_t[l],  both.heat_by_c[l],
                                both.water[l], both.water_by_t[l], both.water_by_c[l]};
      };
      return {lane(0), lane(1)};
    } else {
      return {face_flow(y[0], y[1], face_), face_flow(y[last], y[last + 1], face_)};
    }
  }

  std::size_t n_;
  engine::BlockTridiagonal<Real> matrix_;
  std::vector<Real> d_, d_by_t_, d_by_c_;
  Real heat_edge_{0.0}, water_edge_{0.0}, heat_face_{0.0}, water_face_{0.0}, scale_{0.0};
  /// The same number in every lane, for one cook: GCC 12 puts a number into the lanes of a vector one by one.
  std::array<double, Neighbours::count> scales_{};
  FaceConditions<Real> face_;
  FaceConditions<Neighbours> face_pack_; ///< for one cook
};

} // namespace cook::reference
