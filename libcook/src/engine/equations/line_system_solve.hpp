/// @file
/// The linear algebra of a step of LineSystem: liquids are eliminated into their nodes, a lumped
/// state of the surroundings is a border.
#pragma once

#include <algorithm>

namespace cook::engine {

template <class Real, class Table, std::size_t Lines>
void LineSystem<Real, Table, Lines>::factorise(Real shift) {
  shift_ = shift;
  for (std::size_t f = 0; f < face_count; ++f) {
    if (face_is_absent(f)) {
      continue;
    }
    FaceCoupling &c = coupling_[f];
    c.inverse = 1.0 / (shift - c.liquid_own);
    c.through = c.cell_eta + shift * c.liquid_heat;
    // liquid = inverse (r + liquid.eta zeta + liquid.x x): substituted into the rows of the node.
    const Real by_eta = c.inverse * c.liquid.eta;
    const Real by_x = c.inverse * c.liquid.x;
    matrix_.diagonal[face_node(f)] = {c.own.a + c.through * by_eta, c.own.b + c.through * by_x,
                                      c.own.c + c.cell_x * by_eta, c.own.d + c.cell_x * by_x};
  }
  matrix_.factorise_shifted(shift);
  if (!is_coupled()) {
    return;
  }
  for (auto &value : border_) {
    value = Real(0.0);
  }
  for (std::size_t f = 0; f < face_count; ++f) {
    if (face_is_absent(f)) {
      continue;
    }
    const FaceCoupling &c = coupling_[f];
    const std::size_t s = face_node(f);
    const Real liquid = c.inverse * c.liquid.b;
    border_[2 * s] = border_[2 * s] + c.lumped_eta + c.through * liquid;
    border_[2 * s + 1] = border_[2 * s + 1] + c.lumped_x + c.cell_x * liquid;
  }
  matrix_.solve(border_);
  LumpedMatrixOf<Real> pivot{};
  for (std::size_t r = 0; r < lumped_states; ++r) {
    for (std::size_t q = 0; q < lumped_states; ++q) {
      pivot[r][q] = (r == q ? shift : Real(0.0)) - lumped_.rates[r][q];
    }
  }
  Real own = acting(drive, pivot);
  for (std::size_t f = 0; f < face_count; ++f) {
    if (face_is_absent(f)) {
      continue;
    }
    const FaceCoupling &c = coupling_[f];
    const std::size_t s = face_node(f);
    const Real liquid =
        c.inverse * (c.liquid.b + c.liquid.eta * border_[2 * s] + c.liquid.x * border_[2 * s + 1]);
    own = own - (c.lumped.eta * border_[2 * s] + c.lumped.x * border_[2 * s + 1] + c.lumped.m * liquid);
  }
  set_acting(drive, own, pivot);
  lumped_inverse_ = inverse(pivot);
}

template <class Real, class Table, std::size_t Lines>
void LineSystem<Real, Table, Lines>::solve(Vector &x) const {
  for (std::size_t f = 0; f < face_count; ++f) {
    if (face_is_absent(f)) {
      continue;
    }
    const FaceCoupling &c = coupling_[f];
    const std::size_t s = face_node(f);
    const Real liquid = c.inverse * x[liquid_index(f)];
    x[2 * s] = x[2 * s] + c.through * liquid;
    x[2 * s + 1] = x[2 * s + 1] + c.cell_x * liquid;
  }
  matrix_.solve(x);
  Real acts(0.0); // the coupled state
  Real *lumped = &x[lumped_index(0)];
  if (is_coupled()) {
    std::array<Real, lumped_states> right;
    std::copy_n(lumped, std::size_t{lumped_states}, right.begin());
    Real sum = acting(drive, right.data());
    for (std::size_t f = 0; f < face_count; ++f) {
      if (face_is_absent(f)) {
        continue;
      }
      const FaceCoupling &c = coupling_[f];
      const std::size_t s = face_node(f);
      const Real liquid =
          c.inverse * (x[liquid_index(f)] + c.liquid.eta * x[2 * s] + c.liquid.x * x[2 * s + 1]);
      sum = sum + c.lumped.eta * x[2 * s] + c.lumped.x * x[2 * s + 1] + c.lumped.m * liquid;
    }
    set_acting(drive, sum, right.data());
    for (std::size_t r = 0; r < lumped_states; ++r) {
      lumped[r] = Real(0.0);
      for (std::size_t q = 0; q < lumped_states; ++q) {
        lumped[r] = lumped[r] + lumped_inverse_[r][q] * right[q];
      }
    }
    acts = acting(drive, lumped);
    for (std::size_t i = 0; i < 2 * n_; ++i) {
      x[i] = x[i] + border_[i] * acts;
    }
  } else {
    std::fill_n(lumped, std::size_t{lumped_states}, Real(0.0));
  }
  const Real per_shift = 1.0 / shift_;
  for (std::size_t f = 0; f < face_count; ++f) {
    if (face_is_absent(f)) {
      continue;
    }
    const FaceCoupling &c = coupling_[f];
    const std::size_t s = face_node(f);
    const Real zeta = x[2 * s];
    const Real water = x[2 * s + 1];
    const Real liquid =
        c.inverse * (x[liquid_index(f)] + c.liquid.eta * zeta + c.liquid.x * water + c.liquid.b * acts);
    x[liquid_index(f)] = liquid;
    x[2 * s] = zeta - c.liquid_heat * liquid;
    for (std::size_t p = 0; p < face_paths; ++p) {
      Real &total = x[total_index(face_side(f), p)];
      const Partial &d = c.paths[p];
      if constexpr (Lines == 1) {
        total = (total + d.eta * zeta + d.x * water + d.m * liquid + d.b * acts) * per_shift;
      } else { // a side's two faces add up; the first one brings what is there already
        const Real part = (d.eta * zeta + d.x * water + d.m * liquid + d.b * acts) * share_of_side(f);
        total = (f % Lines == 0 ? (total + part) * per_shift : total + part * per_shift);
      }
    }
  }
  for (std::size_t r = 0; r < air_totals; ++r) {
    Real &total = x[air_total_index(r)];
    for (std::size_t q = 0; is_coupled() && q < lumped_states; ++q) {
      total = total + lumped_.totals[r][q] * lumped[q];
    }
    total = total * per_shift;
  }
}

template <class Real, class Table, std::size_t Lines>
void LineSystem<Real, Table, Lines>::multiply(const Vector &x, Vector &out) const {
  // Uses the unmodified blocks of the face nodes; for checks only, so written for clarity.
  for (auto &value : out) {
    value = Real(0.0);
  }
  std::vector<Real> zeta(n_);
  for (std::size_t i = 0; i < n_; ++i) {
    zeta[i] = x[2 * i];
  }
  for (std::size_t f = 0; f < face_count; ++f) {
    if (!face_is_absent(f)) {
      zeta[face_node(f)] = zeta[face_node(f)] + coupling_[f].liquid_heat * x[liquid_index(f)];
    }
  }
  for (std::size_t i = 0; i < n_; ++i) {
    Block<Real> diagonal = matrix_.diagonal[i];
    for (std::size_t f = 0; f < face_count; ++f) {
      diagonal = !face_is_absent(f) && i == face_node(f) ? coupling_[f].own : diagonal;
    }
    const auto add = [&](const Block<Real> &b, std::size_t j) {
      out[2 * i] = out[2 * i] + b.a * zeta[j] + b.b * x[2 * j + 1];
      out[2 * i + 1] = out[2 * i + 1] + b.c * zeta[j] + b.d * x[2 * j + 1];
    };
    add(diagonal, i);
    if (i >= Lines) {
      add(matrix_.lower[i], i - Lines);
    }
    if (i + Lines < n_) {
      add(matrix_.upper[i], i + Lines);
    }
    if constexpr (Lines == 2) {
      add(matrix_.partner[i ^ 1], i ^ 1);
    }
  }
  const Real acts = is_coupled() ? acting(drive, &x[lumped_index(0)]) : Real(0.0);
  Real sum(0.0); // of what the faces give the coupled state
  for (std::size_t f = 0; f < face_count; ++f) {
    if (face_is_absent(f)) {
      continue;
    }
    const FaceCoupling &c = coupling_[f];
    const std::size_t s = face_node(f);
    const Real liquid = x[liquid_index(f)];
    const Real water = x[2 * s + 1];
    out[2 * s] = out[2 * s] + c.cell_eta * liquid + c.lumped_eta * acts;
    out[2 * s + 1] = out[2 * s + 1] + c.cell_x * liquid + c.lumped_x * acts;
    out[liquid_index(f)] =
        c.liquid.eta * zeta[s] + c.liquid.x * water + c.liquid_own * liquid + c.liquid.b * acts;
    sum = sum + c.lumped.eta * zeta[s] + c.lumped.x * water + c.lumped.m * liquid;
    for (std::size_t p = 0; p < face_paths; ++p) {
      const Partial &d = c.paths[p];
      Real &total = out[total_index(face_side(f), p)];
      total = total + (d.eta * zeta[s] + d.x * water + d.m * liquid + d.b * acts) * share_of_side(f);
    }
  }
  if (!is_coupled()) {
    return;
  }
  for (std::size_t q = 0; q < lumped_states; ++q) {
    for (std::size_t r = 0; r < lumped_states; ++r) {
      out[lumped_index(r)] = out[lumped_index(r)] + lumped_.rates[r][q] * x[lumped_index(q)];
    }
    for (std::size_t r = 0; r < air_totals; ++r) {
      out[air_total_index(r)] = out[air_total_index(r)] + lumped_.totals[r][q] * x[lumped_index(q)];
    }
  }
  Real *lumped = &out[lumped_index(0)];
  set_acting(drive, Real(acting(drive, lumped) + sum), lumped);
}

} // namespace cook::engine
