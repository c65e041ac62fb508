/// @file
/// Temperature of an enthalpy: the inversion that cell.hpp describes, in three ways that agree: a
/// series on the table's own cubics, Newton's method on any table, bisection where that fails.
#pragma once

#include <array>
#include <cmath>
#include <cstddef>

#include "engine/arithmetic/smooth.hpp"
#include "engine/cells/property_table.hpp"

namespace cook::engine {

/// What denaturation has left behind: neither comes back on cooling.
template <class Real> struct Memory {
  Real peak;        ///< highest temperature so far [°C]
  Real held_cap;    ///< water held at the peak [kg/kg dry]
  Real denat_floor; ///< denaturation heat taken up at the peak [J m⁻³]
};

/// How far a cell has cooled from its peak before the memory takes over, smoothly: a corner exactly at the
/// peak would be crossed back and forth by every surface whose temperature hovers, and cost the integrator
/// its step.
inline constexpr double memory_drop = 1.5; ///< middle of the take-over [K below the peak]
inline constexpr double memory_half = 1.0; ///< its half width [K]

/// Share of what denaturation left behind that counts at a temperature, with its slope by (peak -
/// temperature).
template <class Real> Slope<Real> memory_share(const Memory<Real> &memory, Real t) {
  const Real drop = memory.peak - t - memory_drop;
  if (all(drop < Real(-memory_half))) { // warming: the usual case
    return {Real(0.0), Real(0.0)};
  }
  return smooth_step(drop, memory_half);
}

/// Whether all lanes warm, and would after a change by less than `margin` [K]: then nothing is kept.
template <class Real> bool all_warm(const Memory<Real> &memory, Real t, double margin) {
  return all(memory.peak - t < Real(memory_drop - memory_half - margin));
}

/// Enthalpy per kelvin at fixed water [J m⁻³ K⁻¹], from the first columns of a row.
/// @param kept memory_share at the row's temperature
/// @param denat_gap denaturation heat taken up at the peak less that of the row
template <class Real>
Real capacity_of(const Row<Real> &row, Real water, const Slope<Real> &kept, Real denat_gap) {
  return row.slope[col_dry_h] + water * row.slope[col_water_h] + row.slope[col_denat_h] * (1.0 - kept.value) -
         denat_gap * kept.slope;
}

/// Temperature of an enthalpy per volume, by bisection: for much fat that melts within a few kelvins Newton's
/// method may jump back and forth across the melting range for ever.
template <class Real, class Table>
[[gnu::noinline]] Real bisect_temperature(const Table &table, Real target, Real water,
                                          const Memory<Real> &memory) {
  Row<Real> row;
  Real low(-1e3);
  Real high(2e3);
  for (int i = 0; i < 55; ++i) { // to 1e-13 K
    const Real middle = 0.5 * (low + high);
    table.template lookup<col_dry_h, inversion_end>(middle, row);
    const Real kept = memory_share(memory, middle).value;
    const Real denat = row.value[col_denat_h] + (memory.denat_floor - row.value[col_denat_h]) * kept;
    const auto colder = row.value[col_dry_h] + water * row.value[col_water_h] + denat < target;
    low = select(colder, middle, low);
    high = select(colder, high, middle);
  }
  return 0.5 * (low + high);
}

/// The same by Newton's method on any table.
/// 1 or 2 rounds are usual, the melting range may take 5. The error left after a change d is below 0.05 d^2 /
/// K (the capacity changes by less than a tenth per kelvin), so a last change below 3e-5 K leaves less than
/// 1e-10 K.
template <class Real, class Table>
[[gnu::noinline]] Real iterate_temperature(const Table &table, Real target, Real water,
                                           const Memory<Real> &memory, Real guess) {
  constexpr int most = 12;
  constexpr double tolerance = 3e-5; // K
  Row<Real> row;
  Real t = guess;
  for (int i = 0; i < most; ++i) {
    table.template lookup<col_dry_h, inversion_end>(t, row);
    const Slope<Real> kept = memory_share(memory, t);
    const Real denat_gap = memory.denat_floor - row.value[col_denat_h];
    const Real denat = row.value[col_denat_h] + denat_gap * kept.value;
    const Real change = (target - row.value[col_dry_h] - water * row.value[col_water_h] - denat) /
                        capacity_of(row, water, kept, denat_gap);
    t = t + change;
    if (all(abs(change) < Real(tolerance))) {
      return t;
    }
  }
  return bisect_temperature(table, target, water, memory);
}

/// What the inversion finds, and what its caller would otherwise work out again.
template <class Real, class Table> struct Found {
  Real t;           ///< temperature [°C]
  Slope<Real> kept; ///< memory_share there
};
template <> struct Found<double, PropertyTable> {
  double t;
  Slope<double> kept;
  PropertyTable::Place at; ///< of t
};

/// Temperature at which tissue has an enthalpy per volume [J m⁻³] with so much water [kg m⁻³].
template <class Real, class Table>
Found<Real, Table> find_temperature(const Table &table, Real target, Real water, const Memory<Real> &memory,
                                    Real guess) {
  const Real t = iterate_temperature(table, target, water, memory, guess);
  return {t, memory_share(memory, t)};
}

/// On the property table itself enthalpy is one cubic between two knots, and is inverted as such, by the
/// series of its inverse at the guess. Where that is not so (end of the table, memory taking over) the
/// iteration above does it. Inlined by force: all of a cell's evaluation overlaps with this one's division.
[[gnu::always_inline]] inline Found<double, PropertyTable> find_temperature(const PropertyTable &table,
                                                                            double target, double water,
                                                                            const Memory<double> &memory,
                                                                            double guess) {
  // The series is cut after the third power; the next term is 5 bend (c3 / slope - bend^2) d^4.
  constexpr double tolerance = 1e-10; // K
  constexpr double small = 0.1;       // of a piece
  constexpr int most = 4;
  double t = guess;
  for (int i = 0; i < most; ++i) {
    const Slope<double> kept = memory_share(memory, t);
    const PropertyTable::Place at = table.place(t);
    if (kept.slope != 0.0 || at.beyond != 0.0) {
      break;
    }
    const auto &p = *at.piece;
    const double fresh = 1.0 - kept.value;
    const auto whole = [&](const auto &c) {
      return c[col_dry_h] + water * c[col_water_h] + fresh * c[col_denat_h];
    };
    const double c1 = whole(p.c1);
    const double c2 = whole(p.c2);
    const double c3 = whole(p.c3);
    const double u = at.u;
    const double off =
        target - kept.value * memory.denat_floor - (whole(p.c0) + u * (c1 + u * (c2 + u * c3)));
    const double curve = c2 + 3.0 * u * c3; // half the second derivative
    const double per_slope = 1.0 / (c1 + u * (c2 + curve));
    const double bend = curve * per_slope;
    const double third = c3 * per_slope;
    const double d = off * per_slope;
    const double square = bend * bend;
    const double change = d * (1.0 - d * (bend - d * (2.0 * square - third)));
    const double left = 5.0 * std::abs(bend) * (std::abs(third) + square) * (d * d) * (d * d);
    const double end = u + change;
    // Beyond its piece a cubic means nothing; a temperature next to the knot is a good guess all the same.
    if (left < tolerance / PropertyTable::spacing && std::abs(d) < small && end >= 0.0 && end <= 1.0) {
      t = t + change * PropertyTable::spacing;
      const Slope<double> still = memory_share(memory, t);
      if (still.slope == 0.0 && still.value == kept.value) {
        return {t, still, {at.piece, end, 0.0}};
      }
      continue;
    }
    t = t + (std::abs(d) < 1.0 ? change : d) * PropertyTable::spacing; // far away: Newton's own step
  }
  t = iterate_temperature(table, target, water, memory, t);
  return {t, memory_share(memory, t), table.place(t)};
}

/// Columns [First, Last) at what was found: with slopes, or values only.
template <std::size_t First, std::size_t Last, class Real, class Table>
void look_up(const Table &table, const Found<Real, Table> &found, Row<Real> &row) {
  table.template lookup<First, Last>(found.t, row);
}
template <std::size_t First, std::size_t Last>
void look_up(const PropertyTable &table, const Found<double, PropertyTable> &found, Row<double> &row) {
  table.lookup_at<First, Last>(found.at, row);
}
template <std::size_t First, std::size_t Last, class Real, class Table>
void look_up_values(const Table &table, const Found<Real, Table> &found, Row<Real> &row) {
  table.template lookup_values<First, Last>(found.t, row);
}
template <std::size_t First, std::size_t Last>
void look_up_values(const PropertyTable &table, const Found<double, PropertyTable> &found, Row<double> &row) {
  table.lookup_values_at<First, Last>(found.at, row);
}

} // namespace cook::engine
