/// @file
/// Rates and Jacobian of LineSystem.
#pragma once

namespace cook::engine {

template <class Real, class Table>
std::array<FaceTerm<Real>, face_paths> LineSystem<Real, Table>::path_terms(std::size_t f) const {
  const FaceFlux<Real> &q = flux[f];
  const Cell<Real> &cell = cells[face_node(f)];
  const auto times = [](const FaceTerm<Real> &flow, Slope<Real> per_kg) {
    return FaceTerm<Real>{flow.value * per_kg.value, flow.t * per_kg.value + flow.value * per_kg.slope,
                          flow.x * per_kg.value, flow.m * per_kg.value, flow.a * per_kg.value};
  };
  const Slope<Real> liquid{cell.hw, cell.hw_t};
  return {q.convection,
          q.radiation,
          times(q.vapour, latent_[f]),
          times(q.vapour, liquid),
          q.vapour,
          times(q.run_off, liquid),
          q.run_off};
}

/// Adds the rates that a face causes: its node, its film, the box and the totals.
template <class Real, class Table>
void LineSystem<Real, Table>::face_rates(std::size_t f, Vector &out) const {
  const std::size_t s = face_node(f);
  const FaceFlux<Real> &q = flux[f];
  const auto paths = path_terms(f);
  const Real heat = q.convection.value + q.radiation.value - paths[2].value - paths[3].value - paths[5].value;
  const Real per_volume = face_area[f] / volume[s];
  out[2 * s] = out[2 * s] + heat * per_volume / table_->reference_capacity;
  out[2 * s + 1] =
      out[2 * s + 1] - (q.vapour.value - q.from_film.value + q.seep.value) * per_volume / table_->solids;
  out[film_index(f)] = q.seep.value - q.from_film.value - q.run_off.value;
  for (std::size_t p = 0; p < face_paths; ++p) {
    out[2 * n_ + 3 + f * face_paths + p] = paths[p].value;
  }
  if (drive.boxed) {
    out[box_index()] =
        out[box_index()] - (q.convection.value + q.radiation.value) * face_area[f] / drive.box_capacity;
  }
}

template <class Real, class Table> void LineSystem<Real, Table>::assemble_rates(const Vector &y, Vector &f) {
  for (std::size_t i = 2 * n_; i < f.size(); ++i) {
    f[i] = Real(0.0);
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
    f[2 * i] = (heat_in - heat) * per_heat / volume[i];
    f[2 * i + 1] = (water_in - water) * per_water / volume[i];
    heat_in = heat;
    water_in = water;
  }
  for (std::size_t s = 0; s < 2; ++s) {
    if (!face_is_absent(s)) {
      face_rates(s, f);
    }
  }
  if (drive.boxed) {
    const Real lost = drive.box_loss * (y[box_index()] - drive.air[1]);
    f[box_index()] = f[box_index()] - lost / drive.box_capacity;
    f[box_loss_index()] = lost;
  }
}

template <class Real, class Table>
void LineSystem<Real, Table>::assemble_time_rates(Real time, const Vector &y) {
  // A central difference over a short time: the air enters through smooth functions, so this is exact to
  // 1e-8, and because the same numbers go to both sides of the ledger, conservation does not depend on it.
  constexpr double step = 0.5; // s
  const auto saved = flux;
  Vector later(time_rates_.size(), Real(0.0));
  Vector earlier(time_rates_.size(), Real(0.0));
  for (const double sign : {1.0, -1.0}) {
    evaluate_faces(time + sign * step, y);
    Vector &out = sign > 0 ? later : earlier;
    for (std::size_t f = 0; f < 2; ++f) {
      if (!face_is_absent(f)) {
        face_rates(f, out);
      }
    }
  }
  flux = saved;
  for (std::size_t i = 0; i < time_rates_.size(); ++i) {
    time_rates_[i] = (later[i] - earlier[i]) * (0.5 / step);
  }
}

template <class Real, class Table> void LineSystem<Real, Table>::assemble_jacobian() {
  for (auto &block : matrix_.diagonal) {
    block = {};
  }
  for (auto &c : coupling_) {
    c = {};
  }
  const Real per_heat = 1.0 / table_->reference_capacity;
  const Real per_water = 1.0 / Real(table_->solids);
  const Real solids = Real(table_->solids);
  for (std::size_t i = 0; i + 1 < n_; ++i) {
    const Cell<Real> &a = cells[i];
    const Cell<Real> &b = cells[i + 1];
    const auto forward = a.phi >= b.phi;
    const Real one_a = select(forward, Real(1.0), Real(0.0));
    const Real one_b = 1.0 - one_a;
    const Real fast = select(forward, a.expressed, b.expressed);
    const Real mean = 0.5 * (a.held + b.held);
    const Real give = select(forward, a.give, b.give);
    const Real slow = mean * give;
    const Real hw = select(forward, a.hw, b.hw);
    const Real g = conductance[i];
    const Real squeezed = b.juice - a.juice;
    const Real rest = b.phi - a.phi - squeezed;
    const Real sg = solids * g;
    const Real water = -(sg * (fast * squeezed + slow * rest));
    // Water flux by T and X of either side, then heat flux.
    const Real by_phi_a = fast * a.juice_phi + slow * (1.0 - a.juice_phi);
    const Real by_phi_b = fast * b.juice_phi + slow * (1.0 - b.juice_phi);
    const Real half = 0.5 * give * rest;
    const Real w_ta = -(sg * (one_a * a.expressed_t * squeezed + half * a.held_t - by_phi_a * a.phi_t));
    const Real w_xa = -(sg * (half * a.held_x + one_a * mean * a.give_x * rest - by_phi_a));
    const Real w_tb = -(sg * (one_b * b.expressed_t * squeezed + half * b.held_t + by_phi_b * b.phi_t));
    const Real w_xb = -(sg * (half * b.held_x + one_b * mean * b.give_x * rest + by_phi_b));
    const Real km = 0.5 * (a.k + b.k);
    const Real rise = b.t - a.t;
    const Real q_ta = -(g * (0.5 * a.k_t * rise - km)) + w_ta * hw + one_a * water * a.hw_t;
    const Real q_xa = -(g * 0.5 * a.k_x * rise) + w_xa * hw;
    const Real q_tb = -(g * (0.5 * b.k_t * rise + km)) + w_tb * hw + one_b * water * b.hw_t;
    const Real q_xb = -(g * 0.5 * b.k_x * rise) + w_xb * hw;
    // To the unknowns (eta, X): T depends on both.
    const Block<Real> from_a{q_ta * a.t_eta, q_xa + q_ta * a.t_x, w_ta * a.t_eta, w_xa + w_ta * a.t_x};
    const Block<Real> from_b{q_tb * b.t_eta, q_xb + q_tb * b.t_x, w_tb * b.t_eta, w_xb + w_tb * b.t_x};
    const Real ha = per_heat / volume[i];
    const Real wa = per_water / volume[i];
    const Real hb = per_heat / volume[i + 1];
    const Real wb = per_water / volume[i + 1];
    Block<Real> &da = matrix_.diagonal[i];
    da = {da.a - ha * from_a.a, da.b - ha * from_a.b, da.c - wa * from_a.c, da.d - wa * from_a.d};
    matrix_.upper[i] = {-(ha * from_b.a), -(ha * from_b.b), -(wa * from_b.c), -(wa * from_b.d)};
    matrix_.lower[i + 1] = {hb * from_a.a, hb * from_a.b, wb * from_a.c, wb * from_a.d};
    Block<Real> &db = matrix_.diagonal[i + 1];
    db = {db.a + hb * from_b.a, db.b + hb * from_b.b, db.c + wb * from_b.c, db.d + wb * from_b.d};
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
  }
  box_own_ = drive.boxed ? -(drive.box_loss / drive.box_capacity) : Real(0.0);
  for (std::size_t f = 0; f < 2; ++f) {
    if (face_is_absent(f)) {
      continue;
    }
    FaceCoupling &c = coupling_[f];
    const std::size_t s = face_node(f);
    const auto paths = path_terms(f);
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
    c.box_eta = ph * heat(&Partial::b);
    c.box_x = -(pw * from_tissue(&Partial::b));
    const auto film = [&](auto member) { return seep.*member - given.*member - into[6].*member; };
    c.film = {film(&Partial::eta), film(&Partial::x), Real(0.0), film(&Partial::b)};
    c.film_own = film(&Partial::m);
    if (drive.boxed) {
      const Real per_box = face_area[f] / drive.box_capacity;
      const auto taken = [&](auto member) { return -(per_box * (into[0].*member + into[1].*member)); };
      c.box = {taken(&Partial::eta), taken(&Partial::x), taken(&Partial::m), Real(0.0)};
      box_own_ = box_own_ + taken(&Partial::b);
    }
    c.own = d;
    c.beside = f == 0 ? matrix_.lower[1] : matrix_.upper[n_ - 2];
  }
}

} // namespace cook::engine
