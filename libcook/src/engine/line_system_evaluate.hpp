/// @file
/// What LineSystem reads off its state before it forms rates: the faces, and what cells remember.
#pragma once

namespace cook::engine {

template <class Real, class Table> void LineSystem<Real, Table>::remember() {
  Row<Real> row;
  for (std::size_t i = 0; i < n_; ++i) {
    Memory<Real> &m = memory[i];
    const auto warmer = cells[i].t > m.peak;
    if (!any(warmer)) {
      continue;
    }
    m.peak = max(m.peak, cells[i].t);
    table_->template lookup<col_denat_h, col_expressed>(m.peak, row);
    m.held_cap = row.value[col_held];
    m.denat_floor = row.value[col_denat_h];
  }
}

template <class Real, class Table> void LineSystem<Real, Table>::evaluate_faces(Real time, const Vector &y) {
  Row<Real> row;
  for (std::size_t f = 0; f < 2; ++f) {
    if (face_is_absent(f)) {
      continue;
    }
    const Cell<Real> &cell = cells[face_node(f)];
    table_->template lookup<col_saturation, columns>(cell.t, row);
    latent_[f] = {row.value[col_latent], row.slope[col_latent]};
    const Real solids = table_->solids;
    const FaceTissue<Real> tissue{.t = cell.t,
                                  .x = y[2 * face_node(f) + 1],
                                  .phi = cell.phi,
                                  .phi_t = cell.phi_t,
                                  .juice = {cell.juice, cell.juice_phi},
                                  .expressed = {solids * cell.expressed, solids * cell.expressed_t},
                                  .soaking = solids * cell.held,
                                  .soaking_t = solids * cell.held_t,
                                  .soaking_x = solids * cell.held_x,
                                  .saturation = {row.value[col_saturation], row.slope[col_saturation]}};
    flux[f] = face_flux(face[f], air_at(f, time, y), tissue, y[film_index(f)]);
  }
}

template <class Real, class Table>
void LineSystem<Real, Table>::anticipate(Real time, const Vector &y, const Vector &f) {
  bool changed = false;
  for (std::size_t i = 0; i < n_; ++i) {
    changed = anticipate_squeezing(*table_, Real(f[2 * i + 1] * look_ahead), cells[i]) || changed;
  }
  if (changed) {
    evaluate_faces(time, y);
  }
}

} // namespace cook::engine
