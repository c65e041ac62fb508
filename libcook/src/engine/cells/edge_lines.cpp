#include "engine/cells/edge_lines.hpp"

#include "engine/arithmetic/vector_clones.hpp"

namespace cook::engine {

namespace {

/// Addresses of the arrays, taken out of the loops.
struct Pointers {
  explicit Pointers(const CellArrays &c)
      : t(c[CellArrays::t]), k(c[CellArrays::k]), phi(c[CellArrays::phi]), juice(c[CellArrays::juice]),
        expressed(c[CellArrays::expressed]), held_mobility(c[CellArrays::held_mobility]),
        give(c[CellArrays::give]), hw(c[CellArrays::hw]) {}
  [[nodiscard, gnu::always_inline]] EdgeSide at(std::size_t p) const {
    return {t[p], k[p], phi[p], juice[p], expressed[p], held_mobility[p], give[p], hw[p]};
  }
  const double *t, *k, *phi, *juice, *expressed, *held_mobility, *give, *hw;
};

struct SlopePointers {
  explicit SlopePointers(const CellArrays &c)
      : k_t(c[CellArrays::k_t]), k_x(c[CellArrays::k_x]), phi_t(c[CellArrays::phi_t]),
        juice_phi(c[CellArrays::juice_phi]), expressed_t(c[CellArrays::expressed_t]),
        held_mobility_t(c[CellArrays::held_mobility_t]), held_mobility_x(c[CellArrays::held_mobility_x]),
        give_x(c[CellArrays::give_x]), hw_t(c[CellArrays::hw_t]) {}
  [[nodiscard, gnu::always_inline]] EdgeSideSlopes at(std::size_t p) const {
    return {k_t[p],    k_x[p], phi_t[p], juice_phi[p], expressed_t[p], held_mobility_t[p], held_mobility_x[p],
            give_x[p], hw_t[p]};
  }
  const double *k_t, *k_x, *phi_t, *juice_phi, *expressed_t, *held_mobility_t, *held_mobility_x, *give_x,
      *hw_t;
};

} // namespace

COOK_VECTOR_CLONES
void edge_fluxes(const CellArrays &cells, const double *g, std::size_t stride, double *__restrict__ heat,
                 double *__restrict__ water) {
  const Pointers cell(cells);
  const std::size_t count = cells.nodes() - stride;
  COOK_INDEPENDENT
  for (std::size_t p = 0; p < count; ++p) {
    const EdgeFlux q = edge_flux(cell.at(p), cell.at(p + stride), g[p]);
    heat[p] = q.heat;
    water[p] = q.water;
  }
}

COOK_VECTOR_CLONES
void edge_jacobian(const CellArrays &cells, const double *g, std::size_t stride, EdgeJacobian &by) {
  const Pointers cell(cells);
  const SlopePointers slope(cells);
  const double *t_eta = cells[CellArrays::t_eta];
  const double *t_x = cells[CellArrays::t_x];
  double *__restrict__ heat_eta_a = by[heat_by_eta_a].data();
  double *__restrict__ heat_x_a = by[heat_by_x_a].data();
  double *__restrict__ water_eta_a = by[water_by_eta_a].data();
  double *__restrict__ water_x_a = by[water_by_x_a].data();
  double *__restrict__ heat_eta_b = by[heat_by_eta_b].data();
  double *__restrict__ heat_x_b = by[heat_by_x_b].data();
  double *__restrict__ water_eta_b = by[water_by_eta_b].data();
  double *__restrict__ water_x_b = by[water_by_x_b].data();
  const std::size_t count = cells.nodes() - stride;
  COOK_INDEPENDENT
  for (std::size_t a = 0; a < count; ++a) {
    const std::size_t b = a + stride;
    const EdgeByStateOf<double> d =
        by_state(edge_slopes(cell.at(a), slope.at(a), cell.at(b), slope.at(b), g[a]), t_eta[a], t_x[a],
                 t_eta[b], t_x[b]);
    heat_eta_a[a] = d.heat_eta_a;
    heat_x_a[a] = d.heat_x_a;
    water_eta_a[a] = d.water_eta_a;
    water_x_a[a] = d.water_x_a;
    heat_eta_b[a] = d.heat_eta_b;
    heat_x_b[a] = d.heat_x_b;
    water_eta_b[a] = d.water_eta_b;
    water_x_b[a] = d.water_x_b;
  }
}

COOK_VECTOR_CLONES
void edge_blocks(const CellArrays &cells, const double *g, const double *per_heat, const double *per_water,
                 BlockLines &lines) {
  const Pointers cell(cells);
  const SlopePointers slope(cells);
  const double *t_eta = cells[CellArrays::t_eta];
  const double *t_x = cells[CellArrays::t_x];
  const std::size_t w = lines.lines();
  for (auto &entry : lines.diagonal.entry) {
    COOK_INDEPENDENT
    for (std::size_t l = 0; l < w; ++l) {
      entry[l] = 0.0;
    }
  }
  for (std::size_t row = 0; row + 1 < lines.length(); ++row) {
    const std::size_t at = row * w;
    const std::size_t next = at + w;
    // A row's diagonal is begun by the edges before it and finished by those after it.
    double *__restrict__ oa = &lines.diagonal.entry[0][at];
    double *__restrict__ ob = &lines.diagonal.entry[1][at];
    double *__restrict__ oc = &lines.diagonal.entry[2][at];
    double *__restrict__ od = &lines.diagonal.entry[3][at];
    double *__restrict__ na = &lines.diagonal.entry[0][next];
    double *__restrict__ nb = &lines.diagonal.entry[1][next];
    double *__restrict__ nc = &lines.diagonal.entry[2][next];
    double *__restrict__ nd = &lines.diagonal.entry[3][next];
    double *__restrict__ ua = &lines.upper.entry[0][at];
    double *__restrict__ ub = &lines.upper.entry[1][at];
    double *__restrict__ uc = &lines.upper.entry[2][at];
    double *__restrict__ ud = &lines.upper.entry[3][at];
    double *__restrict__ la = &lines.lower.entry[0][next];
    double *__restrict__ lb = &lines.lower.entry[1][next];
    double *__restrict__ lc = &lines.lower.entry[2][next];
    double *__restrict__ ld = &lines.lower.entry[3][next];
    COOK_INDEPENDENT
    for (std::size_t l = 0; l < w; ++l) {
      const std::size_t a = at + l;
      const std::size_t b = next + l;
      const EdgeByStateOf<double> d =
          by_state(edge_slopes(cell.at(a), slope.at(a), cell.at(b), slope.at(b), g[a]), t_eta[a], t_x[a],
                   t_eta[b], t_x[b]);
      const double ha = per_heat[a];
      const double wa = per_water[a];
      const double hb = per_heat[b];
      const double wb = per_water[b];
      oa[l] -= ha * d.heat_eta_a;
      ob[l] -= ha * d.heat_x_a;
      oc[l] -= wa * d.water_eta_a;
      od[l] -= wa * d.water_x_a;
      ua[l] = -(ha * d.heat_eta_b);
      ub[l] = -(ha * d.heat_x_b);
      uc[l] = -(wa * d.water_eta_b);
      ud[l] = -(wa * d.water_x_b);
      la[l] = hb * d.heat_eta_a;
      lb[l] = hb * d.heat_x_a;
      lc[l] = wb * d.water_eta_a;
      ld[l] = wb * d.water_x_a;
      na[l] = hb * d.heat_eta_b;
      nb[l] = hb * d.heat_x_b;
      nc[l] = wb * d.water_eta_b;
      nd[l] = wb * d.water_x_b;
    }
  }
}

COOK_VECTOR_CLONES
void multiply_lines(const BlockLines &lines, const double *x, const double *y, double *__restrict__ p,
                    double *__restrict__ q) {
  const std::size_t w = lines.lines();
  const std::size_t n = w * lines.length();
  const auto add = [&](const BlockLines::Blocks &blocks, std::size_t at, std::size_t from) {
    const double *a = &blocks.entry[0][at];
    const double *b = &blocks.entry[1][at];
    const double *c = &blocks.entry[2][at];
    const double *d = &blocks.entry[3][at];
    COOK_INDEPENDENT
    for (std::size_t l = 0; l < n - at - from; ++l) {
      const double u = x[from + l];
      const double v = y[from + l];
      p[at + l] += a[l] * u + b[l] * v;
      q[at + l] += c[l] * u + d[l] * v;
    }
  };
  COOK_INDEPENDENT
  for (std::size_t l = 0; l < n; ++l) {
    p[l] = q[l] = 0.0;
  }
  add(lines.diagonal, 0, 0);
  add(lines.lower, w, 0);
  add(lines.upper, 0, w);
}

} // namespace cook::engine
