/// @file
/// The property tables of the cooks in a pack, one for each lane: lanes may hold different meats.
///
/// A lane's columns lie side by side in its own table. Each lane evaluates four of them at once, and four
/// lanes by four columns are then turned into columns by lane.
#pragma once

#include <array>
#include <cstddef>

#include "engine/arithmetic/pack.hpp"
#include "engine/arithmetic/transpose.hpp"
#include "engine/cells/cell.hpp"
#include "engine/cells/property_table.hpp"
#include "engine/cells/temperature.hpp"

namespace cook::engine {

/// Where the lanes are in their tables.
struct PackPlace {
  std::array<const PropertyTable::Piece *, pack_lanes> piece;
  Pack u;      ///< within the piece, 0 to 1
  Pack beyond; ///< how far outside the range [K]
};

class PackTable {
public:
  Pack solids{}, raw_water{}, reference_capacity{};
  Pack switch_width{}, per_switch_width{}, per_dry_below{}, dry_floor{}, lost_conductivity{};
  bool squeezing = true; ///< the same in all lanes

  void set(std::size_t lane, const PropertyTable &table) {
    table_[lane] = &table;
    solids.set(lane, table.solids);
    raw_water.set(lane, table.raw_water);
    reference_capacity.set(lane, table.reference_capacity);
    switch_width.set(lane, table.switch_width);
    per_switch_width.set(lane, table.per_switch_width);
    per_dry_below.set(lane, table.per_dry_below);
    dry_floor.set(lane, table.dry_floor);
    lost_conductivity.set(lane, table.lost_conductivity);
    squeezing = table.squeezing;
  }
  [[nodiscard]] const PropertyTable &of(std::size_t lane) const { return *table_[lane]; }

  /// Places as PropertyTable::place().
  [[nodiscard]] PackPlace place(const Pack &celsius) const {
    static_assert(PropertyTable::spacing == 1.0, "written for pieces of one kelvin");
    const Pack inside = max(min(celsius, Pack(PropertyTable::highest - 1e-9)), Pack(PropertyTable::lowest));
    const Pack at = inside - PropertyTable::lowest;
    const Whole low = __builtin_convertvector(at.low, Whole);
    const Whole high = __builtin_convertvector(at.high, Whole);
    PackPlace place;
    place.u = at - Pack(__builtin_convertvector(low, Quad), __builtin_convertvector(high, Quad));
    place.beyond = celsius - inside;
    for (std::size_t lane = 0; lane < half_lanes; ++lane) {
      place.piece[lane] = table_[lane]->pieces() + low[lane];
      place.piece[lane + half_lanes] = table_[lane + half_lanes]->pieces() + high[lane];
    }
    return place;
  }

  template <std::size_t First = 0, std::size_t Last = columns>
  void lookup(const Pack &celsius, Row<Pack> &row) const {
    look_up_at<First, Last, Slopes::yes>(place(celsius), row);
  }
  template <std::size_t First, std::size_t Last>
  void lookup_values(const Pack &celsius, Row<Pack> &row) const {
    look_up_at<First, Last, Slopes::no>(place(celsius), row);
  }

  /// Columns [First, Last); without slopes only the values, unless a lane is outside the range.
  template <std::size_t First, std::size_t Last, Slopes slopes>
  static void look_up_at(const PackPlace &at, Row<Pack> &row) {
    if constexpr (slopes == Slopes::no) {
      if (any(at.beyond != Pack(0.0))) {
        look_up_at<First, Last, Slopes::yes>(at, row);
        return;
      }
    }
    for (std::size_t c = First / 4 * 4; c < Last; c += 4) {
      QuadOfLane value;
      QuadOfLane slope;
      for (std::size_t lane = 0; lane < pack_lanes; ++lane) {
        const PropertyTable::Piece &p = *at.piece[lane];
        const double u = at.u[lane];
        const Quad c2 = load(&p.c2[c]);
        const Quad top = u * load(&p.c3[c]);
        const Quad upper = c2 + top;
        const Quad whole = load(&p.c1[c]) + u * upper;
        value[lane] = load(&p.c0[c]) + u * whole;
        if constexpr (slopes == Slopes::yes) {
          slope[lane] = whole + u * (upper + top);
          value[lane] += at.beyond[lane] * slope[lane];
        }
      }
      turn<First, Last>(c, value, row.value);
      if constexpr (slopes == Slopes::yes) {
        turn<First, Last>(c, slope, row.slope);
      }
    }
  }

  /// The cubics of enthalpy per volume, c[0] + c[1] u + ..., for so much water [kg m⁻³] and a share of the
  /// denaturation heat.
  template <class Share>
  static std::array<Pack, 4> enthalpy(const PackPlace &at, const Pack &water, const Share &fresh) {
    static_assert(col_dry_h == 0 && col_denat_h == 1 && col_water_h == 2);
    std::array<Pack, 4> c;
    const auto whole = [&](std::array<double, PropertyTable::padded> PropertyTable::Piece::*member) {
      QuadOfLane rows;
      for (std::size_t lane = 0; lane < pack_lanes; ++lane) {
        rows[lane] = load((at.piece[lane]->*member).data());
      }
      std::array<Pack, columns> column;
      turn<0, 3>(0, rows, column);
      return column[col_dry_h] + water * column[col_water_h] + fresh(column[col_denat_h]);
    };
    c[0] = whole(&PropertyTable::Piece::c0);
    c[1] = whole(&PropertyTable::Piece::c1);
    c[2] = whole(&PropertyTable::Piece::c2);
    c[3] = whole(&PropertyTable::Piece::c3);
    return c;
  }

private:
  using Quad = Pack::Half; ///< four columns, or four lanes
  /// No std::array: GCC ignores the attributes of a template's argument.
  using QuadOfLane = Quad[pack_lanes]; // NOLINT(modernize-avoid-c-arrays)
  using Whole = int __attribute__((vector_size(4 * half_lanes)));

  static Quad load(const double *from) {
    Quad q;
    __builtin_memcpy(&q, from, sizeof q);
    return q;
  }

  /// Four columns from c on, of rows by lane, as packs; those within [First, Last).
  template <std::size_t First, std::size_t Last>
  static void turn(std::size_t c, const QuadOfLane &rows, std::array<Pack, columns> &out) {
    const auto low = transposed(rows[0], rows[1], rows[2], rows[3]);
    const auto high = transposed(rows[4], rows[5], rows[6], rows[7]);
    for (std::size_t k = 0; k < 4; ++k) {
      if (c + k >= First && c + k < Last) {
        out[c + k] = Pack(low[k], high[k]);
      }
    }
  }

  std::array<const PropertyTable *, pack_lanes> table_{};
};

/// What the inversion finds in the tables of a pack.
template <> struct Found<Pack, PackTable> {
  Pack t;
  Slope<Pack> kept;
  PackPlace at; ///< of t
};

/// Takes over from `other` the lanes that are not `done`.
inline void take_others(const PackMask &done, const Found<Pack, PackTable> &other,
                        Found<Pack, PackTable> &found) {
  found.t = select(done, found.t, other.t);
  found.kept = {select(done, found.kept.value, other.kept.value),
                select(done, found.kept.slope, other.kept.slope)};
  found.at.u = select(done, found.at.u, other.at.u);
  found.at.beyond = select(done, found.at.beyond, other.at.beyond);
  for (std::size_t lane = 0; lane < pack_lanes; ++lane) {
    found.at.piece[lane] = done[lane] ? found.at.piece[lane] : other.at.piece[lane];
  }
}

/// The series of find_temperature(PropertyTable) in all lanes at once; a lane that it does not serve is
/// searched alone, as if there were no others. What a lane finds does not hang on its lane mates.
inline Found<Pack, PackTable> find_temperature(const PackTable &table, Pack target, Pack water,
                                               const Memory<Pack> &memory, Pack guess) {
  constexpr double tolerance = 1e-10; // K
  constexpr double small = 0.1;       // of a piece
  constexpr int most = 3;
  Found<Pack, PackTable> found;
  PackMask done{};
  Pack barred(0.0); // above zero where a round began at the table's end, or where memory takes over
  Pack t = guess;
  for (int round = 0; round < most; ++round) {
    // Where all lanes warm, which is the usual case, nothing is kept, neither here nor at what is found.
    const bool warm = all_warm(memory, t, small);
    const Slope<Pack> kept = warm ? Slope<Pack>{Pack(0.0), Pack(0.0)} : memory_share(memory, t);
    Found<Pack, PackTable> next;
    next.at = table.place(t);
    const Pack u = next.at.u;
    const auto c = warm ? PackTable::enthalpy(next.at, water, [](const Pack &denat) { return denat; })
                        : PackTable::enthalpy(next.at, water,
                                              [&](const Pack &denat) { return (1.0 - kept.value) * denat; });
    const Pack off = target - kept.value * memory.denat_floor - (c[0] + u * (c[1] + u * (c[2] + u * c[3])));
    const Pack curve = c[2] + 3.0 * u * c[3]; // half the second derivative
    const Pack per_slope = 1.0 / (c[1] + u * (c[2] + curve));
    const Pack bend = curve * per_slope;
    const Pack third = c[3] * per_slope;
    const Pack d = off * per_slope;
    const Pack square = bend * bend;
    const Pack change = d * (1.0 - d * (bend - d * (2.0 * square - third)));
    const Pack left = 5.0 * abs(bend) * (abs(third) + square) * (d * d) * (d * d);
    next.at.u = u + change;
    next.t = t + select(abs(d) < Pack(1.0), change, d);
    next.kept = warm ? kept : memory_share(memory, next.t);
    // Everything that must not be above zero, in one number: masks are dear.
    const Pack outside = max(max(-next.at.u, next.at.u - 1.0), max(left - tolerance, abs(d) - small));
    barred = barred + (abs(next.at.beyond) + kept.slope);
    const Pack moved = barred + next.kept.slope + abs(next.kept.value - kept.value);
    if (round == 0) {
      found = next;
    } else {
      take_others(done, next, found);
    }
    done = done || outside + 1e300 * moved <= Pack(0.0);
    if (all(done)) {
      return found;
    }
    t = found.t;
  }
  Found<Pack, PackTable> alone;
  alone.t = found.t;
  for (std::size_t lane = 0; lane < pack_lanes; ++lane) {
    if (!done[lane]) {
      const Memory<double> own{memory.peak[lane], memory.held_cap[lane], memory.denat_floor[lane]};
      alone.t.set(lane, find_temperature(table.of(lane), target[lane], water[lane], own, guess[lane]).t);
    }
  }
  alone.at = table.place(alone.t);
  alone.kept = memory_share(memory, alone.t);
  take_others(done, alone, found);
  return found;
}

template <std::size_t First, std::size_t Last>
void look_up(const PackTable & /*table*/, const Found<Pack, PackTable> &found, Row<Pack> &row) {
  PackTable::look_up_at<First, Last, Slopes::yes>(found.at, row);
}
template <std::size_t First, std::size_t Last>
void look_up_values(const PackTable & /*table*/, const Found<Pack, PackTable> &found, Row<Pack> &row) {
  PackTable::look_up_at<First, Last, Slopes::no>(found.at, row);
}

} // namespace cook::engine
