/// @file
/// What LineSystem reads off its state before it forms rates: the faces, and what cells remember.
#pragma once

namespace cook::engine {

template <class Real, class Table, std::size_t Lines>
void LineSystem<Real, Table, Lines>::remember(MaskOf<Real> counted) {
  if constexpr (one_cook) {
    remember_peaks(cells, memory);
  } else {
    for (std::size_t i = 0; i < n_; ++i) {
      remember_peak(cells[i], counted, memory[i]);
    }
  }
}

template <class Real, class Table, std::size_t Lines>
inline void LineSystem<Real, Table, Lines>::evaluate_faces(Real time, const Vector &y) {
  Row<Real> row;
  const std::array<FaceAir<Real>, 2> air{air_at(0, time, y), air_at(1, time, y)};
  for (std::size_t f = 0; f < face_count; ++f) {
    if (face_is_absent(f)) {
      continue;
    }
    const Cell<Real> &cell = cells[face_node(f)];
    table_->template lookup<col_saturation, columns>(cell.t, row);
    latent_[f] = {row.value[col_latent], row.slope[col_latent]};
    const auto tissue = tissue_at_face(cell, row, y[2 * face_node(f) + 1], Real(table_->solids));
    flux[f] = face_flux(face[f], air[face_side(f)], tissue, y[liquid_index(f)]);
  }
}

template <class Real, class Table, std::size_t Lines>
inline void LineSystem<Real, Table, Lines>::anticipate(Real time, const Vector &y, const Vector &f) {
  bool face_changed = false;
  const auto note = [&](std::size_t i) { face_changed = face_changed || i < Lines || i + Lines >= n_; };
  if constexpr (one_cook) {
    for (const std::size_t i : abreast_.anticipate(f.data(), look_ahead, nullptr, cells, edges_.cells)) {
      note(i);
    }
  } else {
    // Most steps begin no squeezing anywhere: one question for all cells.
    Real begins(-1.0);
    for (std::size_t i = 0; i < n_; ++i) {
      begins = max(begins, begins_to_squeeze(Real(f[2 * i + 1] * look_ahead), cells[i]));
    }
    if (!any(begins > Real(0.0))) {
      return;
    }
    for (std::size_t i = 0; i < n_; ++i) {
      if (anticipate_squeezing(*table_, Real(f[2 * i + 1] * look_ahead), cells[i])) {
        note(i);
      }
    }
  }
  if (face_changed) {
    evaluate_faces(time, y);
  }
}

} // namespace cook::engine
