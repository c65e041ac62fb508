/// @file
/// The semi-discrete equations of a stage, for use with any integrator of ordinary differential equations.
#pragma once

#include <memory>
#include <span>
#include <vector>

#include "cook/plan/options.hpp"
#include "cook/plan/plan.hpp"

namespace cook {

/// dy/dt = f(t, y) of the first stage of a plan, as simulate() solves it, without its events (spritz, lid,
/// end).
///
/// The state is ordered so that the Jacobian is banded:
///
///     y = [ film_bottom, e_0, X_0, ..., e_(n-1), X_(n-1), film_top ]
///
/// with e_i the enthalpy of node i per raw volume over a reference heat capacity [K], X_i its water [kg/kg
/// dry] and the films liquid on the faces [kg m⁻²]. Of a whole piece, two lines side by side, each of these
/// has its partner of the rim right behind it: both films below, then level by level e and X of the middle
/// and of the rim, then both films above. Surroundings with states of their own (a box, air with a balance)
/// are left out, as they couple both faces, and so is the memory of denaturation: good for stages in which
/// the meat warms. The same on a cross-section: section_equations.hpp; for Boost.Odeint: odeint.hpp.
class Equations {
public:
  /// @throws InvalidInput as simulate() does, and for a first stage in a box or in air with a balance.
  explicit Equations(const Plan &plan, const Options &options = {});
  ~Equations();
  Equations(Equations &&) noexcept;
  Equations &operator=(Equations &&) noexcept;
  Equations(const Equations &) = delete;
  Equations &operator=(const Equations &) = delete;

  [[nodiscard]] std::size_t size() const;
  /// Jacobian entries further than this from the diagonal are zero.
  [[nodiscard]] int bandwidth() const;
  /// State at the start of the cook.
  [[nodiscard]] std::vector<double> initial() const;
  /// Rates at a time [s]; both spans have size().
  void rhs(double seconds, std::span<const double> y, std::span<double> rates);
  /// Node temperatures of a state [°C].
  [[nodiscard]] std::vector<double> temperatures(std::span<const double> y);
  /// Temperature at the core of a state [°C].
  [[nodiscard]] double core(std::span<const double> y);

  struct State; ///< private in all but name: on one line or two

private:
  void check_size(std::size_t came) const;

  std::unique_ptr<State> state_;
};

} // namespace cook
