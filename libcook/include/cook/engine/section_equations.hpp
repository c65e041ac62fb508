/// @file
/// The semi-discrete equations of a stage on a cross-section, for use with any integrator of ordinary
/// differential equations.
#pragma once

#include <memory>
#include <span>
#include <vector>

#include "cook/engine/simulate.hpp"
#include "cook/plan/plan.hpp"

namespace cook {

/// Where a sparse matrix has entries, by compressed rows: those of row i are in the columns
/// column[row_start[i]] to column[row_start[i + 1] - 1], increasing.
struct SparsePattern {
  std::vector<int> row_start; ///< one more than rows
  std::vector<int> column;
};

/// dy/dt = f(t, y) of the first stage of a plan on a lengthwise cross-section, as simulate() solves it,
/// without its events (spritz, lid, end):
///
///     y = [ e_0, X_0, e_1, X_1, ..., e_(n-1), X_(n-1), film_0, ..., film_(b-1) ]
///
/// with e_i the enthalpy of node i per raw volume over a reference heat capacity [K], X_i its water [kg/kg
/// dry] and the films liquid on the boundary nodes [kg m⁻²]. Nodes are numbered column by column, bottom to
/// top, from the flat end on; boundary nodes once around: bottom, point end, top backwards, flat end
/// downwards. Surroundings with states of their own (a box, air with a balance) are left out, as they couple
/// every face to every other, and so is the memory of denaturation: good for stages in which the meat warms.
class SectionEquations {
public:
  /// @throws InvalidInput as simulate() does, and for a first stage in a box or in air with a balance.
  explicit SectionEquations(const Plan &plan, const Options &options = {});
  ~SectionEquations();
  SectionEquations(SectionEquations &&) noexcept;
  SectionEquations &operator=(SectionEquations &&) noexcept;
  SectionEquations(const SectionEquations &) = delete;
  SectionEquations &operator=(const SectionEquations &) = delete;

  [[nodiscard]] std::size_t size() const;
  [[nodiscard]] std::size_t nodes() const;
  [[nodiscard]] const std::vector<double> &along() const;  ///< of the nodes, from the flat end [m]
  [[nodiscard]] const std::vector<double> &height() const; ///< of the nodes, above the bottom [m]
  /// State at the start of the cook.
  [[nodiscard]] std::vector<double> initial() const;
  /// Rates at a time [s]; both spans have size().
  void rhs(double seconds, std::span<const double> y, std::span<double> rates);
  /// Where the Jacobian may have entries.
  [[nodiscard]] const SparsePattern &pattern() const;
  /// The Jacobian's entries, analytic, in the order of pattern().column.
  void jacobian(double seconds, std::span<const double> y, std::span<double> entries);

  /// Node temperatures of a state [°C].
  [[nodiscard]] std::vector<double> temperatures(std::span<const double> y);
  /// Temperature at the place that the first stage's core trace follows [°C].
  [[nodiscard]] double core(std::span<const double> y);
  /// Heat in the whole piece, liquid on it included, from 0 °C [J]; of rates instead of a state: its rate.
  [[nodiscard]] double heat(std::span<const double> y) const;
  /// Water in the whole piece and on it [kg]; of rates instead of a state: its rate.
  [[nodiscard]] double water(std::span<const double> y) const;

private:
  struct State;
  std::unique_ptr<State> state_;
};

} // namespace cook
