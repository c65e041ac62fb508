/// @file
/// The reference slab as any integrator takes it: rates and Jacobian over plain arrays. Every contender
/// calls these same compiled functions.
#pragma once

#include <cstddef>
#include <vector>

#include "benchmarks/reference/recipe.hpp"
#include "benchmarks/reference/slab_system.hpp"

namespace cook::reference {

/// State [ T_0, C_0, T_1, C_1, ... ].
class SlabEquations {
public:
  /// Jacobian entries further than this from the diagonal are zero.
  static constexpr std::size_t bandwidth = 3;

  explicit SlabEquations(std::size_t intervals) : system_(intervals), scratch_(system_.size()) {}

  [[nodiscard]] std::size_t size() const { return system_.size(); }
  [[nodiscard]] std::size_t middle() const { return system_.middle(); }
  [[nodiscard]] static bool is_water(std::size_t i) { return i % 2 == 1; }
  void set(const Recipe &recipe, std::size_t phase) { system_.set(0, recipe, phase); }
  void start(const Recipe &recipe, double *y) const { system_.start(0, recipe, y); }
  [[nodiscard]] double mean_water(const double *y) const { return system_.mean_water(y); }
  void rates(const double *y, double *f);

  /// Calls add(row, column, value) for every entry of the Jacobian at y.
  template <class Add> void jacobian(const double *y, Add &&add) {
    linearise(y);
    const auto &j = system_.jacobian();
    const auto block = [&add](std::size_t row, std::size_t column, const engine::Block<double> &b) {
      add(row, column, b.a);
      add(row, column + 1, b.b);
      add(row + 1, column, b.c);
      add(row + 1, column + 1, b.d);
    };
    for (std::size_t i = 0; i < system_.nodes(); ++i) {
      block(2 * i, 2 * i, j.diagonal[i]);
      if (i > 0) {
        block(2 * i, 2 * i - 2, j.lower[i]);
      }
      if (i + 1 < system_.nodes()) {
        block(2 * i, 2 * i + 2, j.upper[i]);
      }
    }
  }

private:
  void linearise(const double *y);

  SlabSystem<double> system_;
  std::vector<double> scratch_;
};

} // namespace cook::reference
