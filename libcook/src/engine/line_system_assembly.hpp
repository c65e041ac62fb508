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
  const Real per_volume = face_area[f] / volume[s];
  out[2 * s] = out[2 * s] + heat * per_volume / table_->reference_capacity;
  out[2 * s + 1] = out[2 * s + 1] - (paths[4] - given + seep) * per_volume / table_->solids;
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
  Real heat_in(0.0);
  Real water_in(0.0);
  for (std::size_t i = 0; i < n_; ++i) {
    Real heat(0.0);
    Real water(0.0);
    if (i + 1 < n_) {
      const Cell<Real> &a = cells[i];
      const Cell<Real> &b = cells[i + 1];
      const auto forward = a.phi >= b.phi;
      const Real squeezed = b.juice - a.juice;
      water = -(table_->solids * conductance[i] *
                (select(forward, a.expressed, b.expressed) * squeezed +
                 0.5 * (a.held + b.held) * select(forward, a.give, b.give) * (b.phi - a.phi - squeezed)));
      heat = -(0.5 * (a.k + b.k) * (b.t - a.t) * conductance[i]) + water * select(forward, a.hw, b.hw);
    }
    const Real per_volume = 1.0 / volume[i];
    f[2 * i] = (heat_in - heat) * (per_heat * per_volume);
    f[2 * i + 1] = (water_in - water) * (per_water * per_volume);
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
  by_lumped_ = {};
  if (is_coupled()) {
    by_lumped_ = air_by_lumped(drive, time, &y[lumped_index(0)]);
    lumped_ = lumped_slopes(drive, time, &y[lumped_index(0)]);
  }
  for (auto &c : coupling_) {
    c = {};
  }
  const Real per_heat = 1.0 / table_->reference_capacity;
  const Real per_water = 1.0 / Real(table_->solids);
  const Real solids = Real(table_->solids);
  Block<Real> own{}; // of node i, from the edge before
  Real ha = per_heat / volume[0];
  Real wa = per_water / volume[0];
  for (std::size_t i = 0; i + 1 < n_; ++i) {
    const Cell<Real> &a = cells[i];
    const Cell<Real> &b = cells[i + 1];
    const auto forward = a.phi >= b.phi;
    const Real one_a = select(forward, Real(1.0), Real(0.0));
    const Real one_b = 1.0 - one_a;
    const Real give = select(forward, a.give, b.give);
    const Real hw = select(forward, a.hw, b.hw);
    const Real g = conductance[i];
    const Real sg = solids * g;
    const Real fast = sg * select(forward, a.expressed, b.expressed);
    const Real mean = (0.5 * sg) * (a.held + b.held);
    const Real slow = mean * give;
    const Real squeezed = b.juice - a.juice;
    const Real rest = b.phi - a.phi - squeezed;
    const Real water = -(fast * squeezed + slow * rest);
    // Water flux by T and X of either side, then heat flux.
    const Real by_phi_a = slow + (fast - slow) * a.juice_phi;
    const Real by_phi_b = slow + (fast - slow) * b.juice_phi;
    const Real pressed = sg * squeezed;
    const Real half = (0.5 * sg) * (give * rest);
    const Real given = mean * rest;
    const Real w_ta = by_phi_a * a.phi_t - one_a * a.expressed_t * pressed - half * a.held_t;
    const Real w_xa = by_phi_a - half * a.held_x - one_a * a.give_x * given;
    const Real w_tb = -(by_phi_b * b.phi_t) - one_b * b.expressed_t * pressed - half * b.held_t;
    const Real w_xb = -by_phi_b - half * b.held_x - one_b * b.give_x * given;
    const Real conducted = (0.5 * g) * (a.k + b.k);
    const Real rise = (0.5 * g) * (b.t - a.t);
    const Real q_ta = conducted - rise * a.k_t + w_ta * hw + one_a * a.hw_t * water;
    const Real q_xa = w_xa * hw - rise * a.k_x;
    const Real q_tb = -conducted - rise * b.k_t + w_tb * hw + one_b * b.hw_t * water;
    const Real q_xb = w_xb * hw - rise * b.k_x;
    // To the unknowns (eta, X): T depends on both.
    const Block<Real> from_a{q_ta * a.t_eta, q_xa + q_ta * a.t_x, w_ta * a.t_eta, w_xa + w_ta * a.t_x};
    const Block<Real> from_b{q_tb * b.t_eta, q_xb + q_tb * b.t_x, w_tb * b.t_eta, w_xb + w_tb * b.t_x};
    const Real per_volume = 1.0 / volume[i + 1];
    const Real hb = per_heat * per_volume;
    const Real wb = per_water * per_volume;
    matrix_.diagonal[i] = {own.a - ha * from_a.a, own.b - ha * from_a.b, own.c - wa * from_a.c,
                           own.d - wa * from_a.d};
    matrix_.upper[i] = {-(ha * from_b.a), -(ha * from_b.b), -(wa * from_b.c), -(wa * from_b.d)};
    matrix_.lower[i + 1] = {hb * from_a.a, hb * from_a.b, wb * from_a.c, wb * from_a.d};
    own = {hb * from_b.a, hb * from_b.b, wb * from_b.c, wb * from_b.d};
    // The film of a face changes its node's temperature, hence the flux to the neighbour.
    if (i == 0) {
      const Real t_m = a.t_liquid * face_area[0] / volume[0];
      coupling_[0].cell_eta = coupling_[0].cell_eta - ha * q_ta * t_m;
      coupling_[0].cell_x = coupling_[0].cell_x - wa * w_ta * t_m;
      coupling_[0].next_eta = hb * q_ta * t_m;
      coupling_[0].next_x = wb * w_ta * t_m;
    }
    if (i + 2 == n_) {
      const Real t_m = b.t_liquid * face_area[1] / volume[i + 1];
      coupling_[1].cell_eta = coupling_[1].cell_eta + hb * q_tb * t_m;
      coupling_[1].cell_x = coupling_[1].cell_x + wb * w_tb * t_m;
      coupling_[1].next_eta = -(ha * q_tb * t_m);
      coupling_[1].next_x = -(wa * w_tb * t_m);
    }
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
    const Real per_volume = face_area[f] / volume[s];
    const Real ph = per_heat * per_volume;
    const Real pw = per_water * per_volume;
    Block<Real> &d = matrix_.diagonal[s];
    d = {d.a + ph * heat(&Partial::eta), d.b + ph * heat(&Partial::x), d.c - pw * from_tissue(&Partial::eta),
         d.d - pw * from_tissue(&Partial::x)};
    c.cell_eta = c.cell_eta + ph * heat(&Partial::m);
    c.cell_x = c.cell_x - pw * from_tissue(&Partial::m);
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
    c.beside = f == 0 ? matrix_.lower[1] : matrix_.upper[n_ - 2];
  }
}

} // namespace cook::engine
