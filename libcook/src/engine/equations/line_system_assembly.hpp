/// @file
/// Rates and Jacobian of LineSystem.
#pragma once

namespace cook::engine {

/// Adds the rates that a face causes: its node, its liquid, the coupled lumped state and its side's totals.
/// @param of what of each term is meant: the flux itself, or its derivative by something
template <class Real, class Table, std::size_t Lines>
template <class Of>
inline void LineSystem<Real, Table, Lines>::face_rates(std::size_t f, const Of &of, Vector &out) const {
  const std::size_t s = face_node(f);
  const auto terms = face_path_terms(flux[f], cells[s], latent_[f]);
  ByPath<Real> along;
  for (std::size_t p = 0; p < face_paths; ++p) {
    along[p] = of(terms[p]);
  }
  const Real heat = heat_into_cell(along);
  const Real seep = of(flux[f].seep);
  const Real given = of(flux[f].from_liquid);
  const Real area_per_volume = area[f] / volume[s];
  out[2 * s] = out[2 * s] + heat * area_per_volume / table_->reference_capacity;
  out[2 * s + 1] = out[2 * s + 1] - water_out_of_cell(along, given, seep) * area_per_volume / table_->solids;
  out[liquid_index(f)] = liquid_gained(along, given, seep);
  for (std::size_t p = 0; p < face_paths; ++p) {
    Real &total = out[total_index(face_side(f), p)];
    if constexpr (Lines == 1) {
      total = along[p];
    } else {
      total = total + along[p] * share_of_side(f);
    }
  }
  if (is_coupled()) {
    const auto gained = air_gained(face_gives(drive), along);
    for (std::size_t c = 0; c < coupled_states; ++c) {
      out[lumped_index(c)] = out[lumped_index(c)] + gained[c] * area[f];
    }
  }
}

template <class Real, class Table, std::size_t Lines>
inline void LineSystem<Real, Table, Lines>::assemble_rates(Real time, const Vector &y, Vector &f) {
  for (std::size_t i = 2 * n_; i < f.size(); ++i) {
    f[i] = Real(0.0);
  }
  if (is_coupled()) {
    const Real *q = &y[lumped_index(0)];
    chamber_ = balance_rates(drive, time, q);
    lumped_rates(drive, time, q, chamber_, &f[lumped_index(0)], &f[air_total_index(0)]);
  }
  const Real per_heat = 1.0 / table_->reference_capacity;
  const Real per_water = 1.0 / Real(table_->solids);
  if constexpr (one_cook) {
    edges_.evaluate(conductance);
  }
  std::array<EdgeFluxOf<Real>, Lines> in{};
  for (std::size_t level = 0; level < n_; level += Lines) {
    EdgeFluxOf<Real> over{}; // from the middle to the rim
    if constexpr (Lines == 2) {
      over = edge_flow(level, level + 1, across[level / 2]);
    }
    for (std::size_t line = 0; line < Lines; ++line) {
      const std::size_t i = level + line;
      EdgeFluxOf<Real> out{};
      if (i + Lines < n_) {
        out = edge_flow(i, i + Lines, conductance[i]);
      }
      EdgeFluxOf<Real> gain{in[line].heat - out.heat, in[line].water - out.water};
      if constexpr (Lines == 2) {
        gain = line == 0 ? EdgeFluxOf<Real>{gain.heat - over.heat, gain.water - over.water}
                         : EdgeFluxOf<Real>{gain.heat + over.heat, gain.water + over.water};
      }
      f[2 * i] = gain.heat * (per_heat * per_volume[i]);
      f[2 * i + 1] = gain.water * (per_water * per_volume[i]);
      in[line] = out;
    }
  }
  for (std::size_t s = 0; s < face_count; ++s) {
    if (!face_is_absent(s)) {
      face_rates(
          s, [](const FaceTerm<Real> &term) { return term.value; }, f);
    }
  }
}

template <class Real, class Table, std::size_t Lines>
inline void LineSystem<Real, Table, Lines>::assemble_time_rates(Real time, const Vector &y) {
  // Time enters through the air alone.
  for (auto &rate : time_rates_) {
    rate = Real(0.0);
  }
  const Real *q = &y[lumped_index(0)];
  if (is_coupled()) {
    lumped_time_rates(drive, time, q, &time_rates_[lumped_index(0)], &time_rates_[air_total_index(0)]);
  }
  const std::array<FaceAir<Real>, 2> rates{air_rates(drive, 0, time, q), air_rates(drive, 1, time, q)};
  for (std::size_t f = 0; f < face_count; ++f) {
    if (face_is_absent(f)) {
      continue;
    }
    const FaceAir<Real> &rate = rates[face_side(f)];
    const auto by_time = [&](const FaceTerm<Real> &term) { return term.a * rate.air + term.v * rate.vapour; };
    face_rates(f, by_time, time_rates_);
  }
}

template <class Real, class Table, std::size_t Lines>
inline void LineSystem<Real, Table, Lines>::assemble_jacobian(Real time, const Vector &y) {
  by_acting_ = {};
  if (is_coupled()) {
    const auto by = air_by_lumped(drive, time, &y[lumped_index(0)]); // one of them, in each lane
    by_acting_ = {by[box_temperature].air, by[box_temperature].vapour + by[air_vapour].vapour};
    lumped_ = lumped_slopes(drive, chamber_);
  }
  for (auto &c : coupling_) {
    c = {};
  }
  assemble_edges();
  for (std::size_t f = 0; f < face_count; ++f) {
    if (!face_is_absent(f)) {
      assemble_face(f);
    }
  }
}

/// Fluxes through the edge between two cells: of one cook they are there already.
template <class Real, class Table, std::size_t Lines>
inline EdgeFluxOf<Real> LineSystem<Real, Table, Lines>::edge_flow(std::size_t from, std::size_t to,
                                                                  const Real &g) const {
  if constexpr (one_cook) {
    return to - from == Lines ? edges_.along(from) : edges_.across(from);
  } else {
    const Real solids(table_->solids);
    return edge_flux(edge_side(cells[from], solids), edge_side(cells[to], solids), g);
  }
}

/// Their derivatives by the unknowns (eta, X) of the cells on either side.
template <class Real, class Table, std::size_t Lines>
inline auto LineSystem<Real, Table, Lines>::edge_blocks(std::size_t from, std::size_t to, const Real &g) const
    -> EdgeBlocks {
  if constexpr (one_cook) {
    const EdgeJacobian &by = to - from == Lines ? edges_.by_along() : edges_.by_across();
    return {
        {by[heat_by_eta_a][from], by[heat_by_x_a][from], by[water_by_eta_a][from], by[water_by_x_a][from]},
        {by[heat_by_eta_b][from], by[heat_by_x_b][from], by[water_by_eta_b][from], by[water_by_x_b][from]}};
  } else {
    const Cell<Real> &a = cells[from];
    const Cell<Real> &b = cells[to];
    const Real solids(table_->solids);
    const auto d = by_state(edge_slopes(edge_side(a, solids), edge_side_slopes(a, solids),
                                        edge_side(b, solids), edge_side_slopes(b, solids), g),
                            a.t_eta, a.t_x, b.t_eta, b.t_x);
    return {{d.heat_eta_a, d.heat_x_a, d.water_eta_a, d.water_x_a},
            {d.heat_eta_b, d.heat_x_b, d.water_eta_b, d.water_x_b}};
  }
}

template <class Real, class Table, std::size_t Lines>
inline void LineSystem<Real, Table, Lines>::assemble_edges() {
  if constexpr (one_cook) {
    edges_.differentiate(conductance);
  }
  const Real per_heat = 1.0 / table_->reference_capacity;
  const Real per_water = 1.0 / Real(table_->solids);
  const auto gain = [](const Block<Real> &x, Real heat, Real water) {
    return Block<Real>{heat * x.a, heat * x.b, water * x.c, water * x.d};
  };
  const auto plus = [](const Block<Real> &x, const Block<Real> &y) {
    return Block<Real>{x.a + y.a, x.b + y.b, x.c + y.c, x.d + y.d};
  };
  std::array<Block<Real>, Lines> own{}; // of the level's cells, from the edges before
  std::array<Real, Lines> ha, wa;
  for (std::size_t line = 0; line < Lines; ++line) {
    ha[line] = per_heat / volume[line];
    wa[line] = per_water / volume[line];
  }
  for (std::size_t level = 0; level < n_; level += Lines) {
    if constexpr (Lines == 2) {
      const std::size_t m = level;
      const std::size_t r = level + 1;
      const EdgeBlocks q = edge_blocks(m, r, across[level / 2]);
      own[0] = plus(own[0], gain(q.from_a, -ha[0], -wa[0]));
      own[1] = plus(own[1], gain(q.from_b, ha[1], wa[1]));
      matrix_.partner[m] = gain(q.from_a, ha[1], wa[1]);
      matrix_.partner[r] = gain(q.from_b, -ha[0], -wa[0]);
    }
    for (std::size_t line = 0; line < Lines; ++line) {
      const std::size_t i = level + line;
      const std::size_t j = i + Lines;
      if (j >= n_) {
        matrix_.diagonal[i] = own[line];
        continue;
      }
      const EdgeBlocks q = edge_blocks(i, j, conductance[i]);
      const Real hb = per_heat * per_volume[j];
      const Real wb = per_water * per_volume[j];
      matrix_.diagonal[i] = plus(own[line], gain(q.from_a, -ha[line], -wa[line]));
      matrix_.upper[i] = gain(q.from_b, -ha[line], -wa[line]);
      matrix_.lower[j] = gain(q.from_a, hb, wb);
      own[line] = gain(q.from_b, hb, wb);
      ha[line] = hb;
      wa[line] = wb;
    }
  }
}

template <class Real, class Table, std::size_t Lines>
inline void LineSystem<Real, Table, Lines>::assemble_face(std::size_t f) {
  FaceCoupling &c = coupling_[f];
  const std::size_t s = face_node(f);
  const auto terms = face_path_terms(flux[f], cells[s], latent_[f]);
  for (std::size_t p = 0; p < face_paths; ++p) {
    c.paths[p] = chain(terms[p], f);
  }
  const ByPath<Partial> &along = c.paths;
  const auto heat = [&](auto member) { return heat_into_cell(along, member); };
  const Partial given = chain(flux[f].from_liquid, f);
  const Partial seep = chain(flux[f].seep, f);
  const auto from_tissue = [&](auto member) { return water_out_of_cell(along, given, seep, member); };
  const Real area_per_volume = area[f] / volume[s];
  const Real ph = 1.0 / table_->reference_capacity * area_per_volume;
  const Real pw = 1.0 / Real(table_->solids) * area_per_volume;
  Block<Real> &d = matrix_.diagonal[s];
  d = {d.a + ph * heat(&Partial::eta), d.b + ph * heat(&Partial::x), d.c - pw * from_tissue(&Partial::eta),
       d.d - pw * from_tissue(&Partial::x)};
  c.liquid_heat = -(ph * cells[s].hw);
  c.cell_eta = ph * heat(&Partial::m);
  c.cell_x = -(pw * from_tissue(&Partial::m));
  c.lumped_eta = ph * heat(&Partial::b);
  c.lumped_x = -(pw * from_tissue(&Partial::b));
  const auto liquid = [&](auto member) { return liquid_gained(along, given, seep, member); };
  c.liquid = {liquid(&Partial::eta), liquid(&Partial::x), Real(0.0), liquid(&Partial::b)};
  c.liquid_own = liquid(&Partial::m);
  if (is_coupled()) {
    const auto gives = face_gives(drive);
    const auto rate = [&](auto member) {
      const auto gained = air_gained(gives, along, member);
      return (gained[box_temperature] + gained[air_vapour]) * area[f];
    };
    c.lumped = {rate(&Partial::eta), rate(&Partial::x), rate(&Partial::m), Real(0.0)};
    set_acting(drive, Real(acting(drive, lumped_.rates) + rate(&Partial::b)), lumped_.rates);
  }
  c.own = d;
}

} // namespace cook::engine
