#include "engine/cells/cells_abreast.hpp"

#include <algorithm>
#include <cstddef>
#include <cstring>
#include <type_traits>

#include "engine/arithmetic/transpose.hpp"
#include "engine/arithmetic/vector_clones.hpp"

namespace cook::engine {

namespace {

using Half = Pack::Half;
using C = Cell<double>;

constexpr std::size_t four = half_lanes * sizeof(double);
static_assert(std::is_standard_layout_v<C> && offsetof(C, t) == 0 && offsetof(C, k) == four &&
                  offsetof(C, expressed) == 2 * four && offsetof(C, fresh_held) == 3 * four &&
                  offsetof(C, base_x) == 4 * four && offsetof(C, phi_t) == 5 * four &&
                  offsetof(C, give_x) == 6 * four && sizeof(C) == 6 * four + 2 * sizeof(double),
              "in fours");

/// Eight cells, of which those beyond the last are the last one again.
struct Eight {
  std::size_t first, count;
  [[nodiscard, gnu::always_inline]] std::size_t at(std::size_t lane) const {
    return first + (lane < count ? lane : count - 1);
  }
};

template <class Of> [[gnu::always_inline]] inline Pack gathered(const Eight &cells, Of of) {
  return engine::gathered([&](std::size_t lane) { return of(cells.at(lane)); });
}

/// Four neighbouring members of eight cells, by the first of them.
[[gnu::always_inline]] inline std::array<Pack, 4> load_four(const Eight &cells, const C *from,
                                                            double C::*first) {
  return load_fours([&](std::size_t lane) { return &(from[cells.at(lane)].*first); });
}

[[gnu::always_inline]] inline void store_four(const Eight &cells, C *to, double C::*first, const Pack &a,
                                              const Pack &b, const Pack &c, const Pack &d) {
  store_fours(
      cells.count, [&](std::size_t lane) { return &(to[cells.first + lane].*first); }, a, b, c, d);
}

[[gnu::always_inline]] inline void store_all(const Eight &cells, const Pack &from, double *to) {
  if (cells.count == pack_lanes) {
    std::memcpy(to + cells.first, &from.low, sizeof from.low);
    std::memcpy(to + cells.first + half_lanes, &from.high, sizeof from.high);
    return;
  }
  for (std::size_t lane = 0; lane < cells.count; ++lane) {
    to[cells.first + lane] = from[lane];
  }
}

template <Slopes slopes>
[[gnu::always_inline]] inline void evaluate_eight(const Eight &at, const PackTable &table, const double *y,
                                                  const double *liquid, const Memory<double> *memory,
                                                  C *cells, CellArrays *arrays) {
  const Pack eta = gathered(at, [&](std::size_t i) { return y[2 * i]; });
  const Pack x = gathered(at, [&](std::size_t i) { return y[2 * i + 1]; });
  const Pack wet = gathered(at, [&](std::size_t i) { return liquid[i]; });
  const Memory<Pack> seen{gathered(at, [&](std::size_t i) { return memory[i].peak; }),
                          gathered(at, [&](std::size_t i) { return memory[i].held_cap; }),
                          gathered(at, [&](std::size_t i) { return memory[i].denat_floor; })};
  Cell<Pack> c;
  const auto slope = load_four(at, cells, &C::t);
  c.t_eta = slope[1];
  c.t_x = slope[2];
  c.t_liquid = slope[3];
  const auto base = load_four(at, cells, &C::base_t);
  c.base_t = base[0];
  c.base_eta = base[1];
  c.base_x = base[2];
  c.base_liquid = base[3];
  evaluate_cell<slopes>(table, eta, x, wet, seen, c);
  store_four(at, cells, &C::t, c.t, c.t_eta, c.t_x, c.t_liquid);
  store_four(at, cells, &C::k, c.k, c.phi, c.juice, c.juice_phi);
  store_four(at, cells, &C::expressed, c.expressed, c.held_mobility, c.give, c.hw);
  store_four(at, cells, &C::fresh_held, c.fresh_held, c.fresh_denat, c.base_t, c.base_eta);
  if constexpr (slopes == Slopes::yes) {
    store_four(at, cells, &C::base_x, c.base_x, c.base_liquid, c.k_t, c.k_x);
    store_four(at, cells, &C::phi_t, c.phi_t, c.expressed_t, c.held_mobility_t, c.held_mobility_x);
    for (std::size_t lane = 0; lane < at.count; ++lane) {
      cells[at.first + lane].give_x = c.give_x[lane];
      cells[at.first + lane].hw_t = c.hw_t[lane];
    }
  }
  if (arrays) {
    CellArrays::each<slopes>(
        c, table.solids, [&](CellArrays::Field field, const Pack &value) __attribute__((always_inline)) {
          store_all(at, value, (*arrays)[field]);
        });
  }
}

// Functions, not templates: only those are compiled for several widths.

COOK_PACK_CLONES
void with_slopes(const Eight &at, const PackTable &table, const double *y, const double *liquid,
                 const Memory<double> *memory, C *cells, CellArrays *arrays) {
  evaluate_eight<Slopes::yes>(at, table, y, liquid, memory, cells, arrays);
}

COOK_PACK_CLONES
void without_slopes(const Eight &at, const PackTable &table, const double *y, const double *liquid,
                    const Memory<double> *memory, C *cells, CellArrays *arrays) {
  evaluate_eight<Slopes::no>(at, table, y, liquid, memory, cells, arrays);
}

} // namespace

CellsAbreast::CellsAbreast(std::size_t nodes,
                           const std::function<const PropertyTable &(std::size_t)> &table) {
  bool alike = true;
  for (std::size_t i = 1; i < nodes; ++i) {
    alike = alike && &table(i) == &table(0);
  }
  for (std::size_t first = 0; first < (alike ? 1 : nodes); first += pack_lanes) {
    PackTable &eight = tables_.emplace_back();
    for (std::size_t lane = 0; lane < pack_lanes; ++lane) {
      eight.set(lane, table(std::min(first + lane, nodes - 1)));
    }
  }
}

void CellsAbreast::evaluate(Slopes slopes, const double *y, const double *liquid,
                            const std::vector<Memory<double>> &memory, std::vector<C> &cells,
                            CellArrays *arrays) const {
  for (std::size_t first = 0; first < cells.size(); first += pack_lanes) {
    const Eight at{first, std::min(pack_lanes, cells.size() - first)};
    (slopes == Slopes::yes ? with_slopes : without_slopes)(at, table_of(first / pack_lanes), y, liquid,
                                                           memory.data(), cells.data(), arrays);
  }
}

} // namespace cook::engine
