/// @file
/// Rates and Jacobian of LineSystem.
#pragma once

namespace cook::engine {

/// Adds the rates that a face causes: its node, its film, the coupled lumped state and the totals.
/// @param of what of each term is meant: the flux itself, or its derivative by something
template <class Real, class Table>
template <class Of>
void LineSystem<Real, Table>::face_rates(std::size_t f, const Of &of, Vector &out) const {
  const std::size_t s = face_node(f);
  const FaceFlux<Real> &q = flux[f];
  const auto terms = face_path_terms(flux[f], cells[face_node(f)], latent_[f]);
  std::array<Real, face_paths> paths;
  for (std::size_t p = 0; p < face_paths; ++p) {
    paths[p] = of(terms[p]);
  }
  const Real heat = paths[0] + paths[1] - paths[2] - paths[3] - paths[5];
  const Real seep = of(q.seep);
  const Real given = of(q.from_film);
  const Real area_per_volume = face_area[f] / volume[s];
  out[2 * s] = out[2 * s] + heat * area_per_volume / table_->reference_capacity;
  out[2 * s + 1] = out[2 * s + 1] - (paths[4] - given + seep) * area_per_volume / table_->solids;
  out[film_index(f)] = seep - given - paths[6];
  for (std::size_t p = 0; p < face_paths; ++p) {
    out[first_total() + f * face_paths + p] = paths[p];
  }
  if (is_coupled()) {
    const auto gives = face_gives(drive);
    const std::size_t box = lumped_index(box_temperature);
    const std::size_t vapour = lumped_index(air_vapour);
    out[box] = out[box] + gives[box_temperature] * (paths[0] + paths[1]) * face_area[f];
    out[vapour] = out[vapour] + gives[air_vapour] * paths[4] * face_area[f];
  }
}

template <class Real, class Table>
void LineSystem<Real, Table>::assemble_rates(Real time, const Vector &y, Vector &f) {
  for (std::size_t i = 2 * n_; i < f.size(); ++i) {
    f[i] = Real(0.0);
  }
  if (is_coupled()) {
    lumped_rates(drive, time, &y[lumped_index(0)], &f[lumped_index(0)], &f[air_total_index(0)]);
  }
  const Real per_heat = 1.0 / table_->reference_capacity;
  const Real per_water = 1.0 / Real(table_->solids);
  const Real solids(table_->solids);
  Real heat_in(0.0);
  Real water_in(0.0);
  for (std::size_t i = 0; i < n_; ++i) {
    Real heat(0.0);
    Real water(0.0);
    if (i + 1 < n_) {
      const EdgeFluxOf<Real> q =
          edge_flux(edge_side(cells[i], solids), edge_side(cells[i + 1], solids), conductance[i]);
      heat = q.heat;
      water = q.water;
    }
    f[2 * i] = (heat_in - heat) * (per_heat * per_volume[i]);
    f[2 * i + 1] = (water_in - water) * (per_water * per_volume[i]);
    heat_in = heat;
    water_in = water;
  }
  for (std::size_t s = 0; s < 2; ++s) {
    if (!face_is_absent(s)) {
      face_rates(
          s, [](const FaceTerm<Real> &term) { return term.value; }, f);
    }
  }
}

template <class Real, class Table>
void LineSystem<Real, Table>::assemble_time_rates(Real time, const Vector &y) {
  // Time enters through the air alone.
  for (auto &rate : time_rates_) {
    rate = Real(0.0);
  }
  const Real *q = &y[lumped_index(0)];
  if (is_coupled()) {
    lumped_time_rates(drive, time, q, &time_rates_[lumped_index(0)], &time_rates_[air_total_index(0)]);
  }
  for (std::size_t f = 0; f < 2; ++f) {
    if (face_is_absent(f)) {
      continue;
    }
    const FaceAir<Real> rate = air_rates(drive, f, time, q);
    const auto by_time = [&](const FaceTerm<Real> &term) { return term.a * rate.air + term.v * rate.vapour; };
    face_rates(f, by_time, time_rates_);
  }
}

template <class Real, class Table>
void LineSystem<Real, Table>::assemble_jacobian(Real time, const Vector &y) {
  by_acting_ = {};
  if (is_coupled()) {
    const auto by = air_by_lumped(drive, time, &y[lumped_index(0)]); // one of them, in each lane
    by_acting_ = {by[box_temperature].air, by[box_temperature].vapour + by[air_vapour].vapour};
    lumped_ = lumped_slopes(drive, time, &y[lumped_index(0)]);
  }
  for (auto &c : coupling_) {
    c = {};
  }
  const Real per_heat = 1.0 / table_->reference_capacity;
  const Real per_water = 1.0 / Real(table_->solids);
  const Real solids(table_->solids);
  Block<Real> own{}; // of node i, from the edge before
  Real ha = per_heat / volume[0];
  Real wa = per_water / volume[0];
  for (std::size_t i = 0; i + 1 < n_; ++i) {
    const Cell<Real> &a = cells[i];
    const Cell<Real> &b = cells[i + 1];
    const EdgeSlopesOf<Real> q =
        edge_slopes(edge_side(a, solids), edge_side_slopes(a, solids), edge_side(b, solids),
                    edge_side_slopes(b, solids), conductance[i]);
    // To the unknowns (eta, X): T depends on both.
    const Block<Real> from_a{q.heat_ta * a.t_eta, q.heat_xa + q.heat_ta * a.t_x, q.water_ta * a.t_eta,
                             q.water_xa + q.water_ta * a.t_x};
    const Block<Real> from_b{q.heat_tb * b.t_eta, q.heat_xb + q.heat_tb * b.t_x, q.water_tb * b.t_eta,
                             q.water_xb + q.water_tb * b.t_x};
    const Real hb = per_heat * per_volume[i + 1];
    const Real wb = per_water * per_volume[i + 1];
    matrix_.diagonal[i] = {own.a - ha * from_a.a, own.b - ha * from_a.b, own.c - wa * from_a.c,
                           own.d - wa * from_a.d};
    matrix_.upper[i] = {-(ha * from_b.a), -(ha * from_b.b), -(wa * from_b.c), -(wa * from_b.d)};
    matrix_.lower[i + 1] = {hb * from_a.a, hb * from_a.b, wb * from_a.c, wb * from_a.d};
    own = {hb * from_b.a, hb * from_b.b, wb * from_b.c, wb * from_b.d};
    ha = hb;
    wa = wb;
  }
  matrix_.diagonal[n_ - 1] = own;
  for (std::size_t f = 0; f < 2; ++f) {
    if (face_is_absent(f)) {
      continue;
    }
    FaceCoupling &c = coupling_[f];
    const std::size_t s = face_node(f);
    const auto paths = face_path_terms(flux[f], cells[face_node(f)], latent_[f]);
    for (std::size_t p = 0; p < face_paths; ++p) {
      c.paths[p] = chain(paths[p], f);
    }
    const auto &into = c.paths;
    const auto heat = [&](auto member) {
      return into[0].*member + into[1].*member - into[2].*member - into[3].*member - into[5].*member;
    };
    const Partial given = chain(flux[f].from_film, f);
    const Partial seep = chain(flux[f].seep, f);
    const auto from_tissue = [&](auto member) { return into[4].*member - given.*member + seep.*member; };
    const Real area_per_volume = face_area[f] / volume[s];
    const Real ph = per_heat * area_per_volume;
    const Real pw = per_water * area_per_volume;
    Block<Real> &d = matrix_.diagonal[s];
    d = {d.a + ph * heat(&Partial::eta), d.b + ph * heat(&Partial::x), d.c - pw * from_tissue(&Partial::eta),
         d.d - pw * from_tissue(&Partial::x)};
    c.film_heat = -(ph * cells[s].hw);
    c.cell_eta = ph * heat(&Partial::m);
    c.cell_x = -(pw * from_tissue(&Partial::m));
    c.lumped_eta = ph * heat(&Partial::b);
    c.lumped_x = -(pw * from_tissue(&Partial::b));
    const auto film = [&](auto member) { return seep.*member - given.*member - into[6].*member; };
    c.film = {film(&Partial::eta), film(&Partial::x), Real(0.0), film(&Partial::b)};
    c.film_own = film(&Partial::m);
    if (is_coupled()) {
      const auto gives = face_gives(drive);
      const auto rate = [&](auto member) {
        return (gives[box_temperature] * (into[0].*member + into[1].*member) +
                gives[air_vapour] * into[4].*member) *
               face_area[f];
      };
      c.lumped = {rate(&Partial::eta), rate(&Partial::x), rate(&Partial::m), Real(0.0)};
      Real &by_itself = lumped_.rates[coupled_state()][coupled_state()];
      by_itself = by_itself + rate(&Partial::b);
    }
    c.own = d;
  }
}

} // namespace cook::engine
