/// @file
/// Set-up, cells, faces and rates of SectionSystem.
#include "engine/equations/section_system.hpp"

#include <algorithm>
#include <cmath>
#include <utility>

#include "engine/arithmetic/transpose.hpp"

namespace cook::engine {

SectionSystem::SectionSystem(const SectionGrid &grid, std::vector<const PropertyTable *> tables)
    : volume(grid.volume), memory(grid.x.size(), empty_memory<Pack>()),
      cells(grid.x.size(), cell_to_begin_with<Pack>()), grid_(&grid), tables_(std::move(tables)),
      n_(grid.x.size()), nx_(grid.nx), nz_(grid.nz), region_(grid.region.begin(), grid.region.end()),
      arrays_(n_), turned_arrays_(n_),
      abreast_(n_, [this](std::size_t p) -> const PropertyTable & { return table(p); }), along_(nx_, nz_),
      across_(nz_, nx_) {
  for (std::size_t p = 0; p < n_; ++p) {
    const PropertyTable &t = table(p);
    per_heat_.push_back(1.0 / (t.reference_capacity * volume[p]));
    per_water_.push_back(1.0 / (t.solids * volume[p]));
  }
  face_area = grid.side_area;
  for (const BoundaryNode &at : grid.boundary) {
    Boundary b;
    b.node = at.node;
    b.side = static_cast<std::size_t>(at.side);
    b.end = at.end;
    b.area = at.area;
    b.share = b.area / face_area[b.side];
    b.per_volume = b.area / volume[b.node];
    const std::size_t i = b.node / nz_;
    if (b.end) {
      b.before = b.node - 1; // an end node is no corner: it has neighbours above and below
      b.after = b.node + 1;
    } else {
      b.before = i > 0 ? b.node - nz_ : none;
      b.after = i + 1 < nx_ ? b.node + nz_ : none;
    }
    boundary_.push_back(b);
  }
  at_boundary_.assign(n_, none);
  std::vector<FacesAbreast::Place> places;
  for (std::size_t at = 0; at < boundary_.size(); ++at) {
    const Boundary &b = boundary_[at];
    at_boundary_[b.node] = at;
    places.push_back({&table(b.node), b.node, b.side + (b.end ? 2 : 0), air_side(at)});
  }
  faces_abreast_ = FacesAbreast(places);
  flux.resize(boundary_.size());
  latent_.resize(boundary_.size());
  liquid_.assign(n_, 0.0);
  // An edge that is not there (beyond the top of a column, before the first node) stays zero.
  heat_across_.assign(n_ + 1, 0.0);
  heat_along_.assign(n_ + nz_, 0.0);
  water_across_ = heat_across_;
  water_along_ = heat_along_;
  for (auto *v : {&across_g_, &turned_across_g_, &turned_per_heat_, &turned_per_water_}) {
    v->assign(n_, 0.0);
  }
  for (std::size_t p = 0; p < n_; ++p) {
    turned_per_heat_[turned(p)] = per_heat_[p];
    turned_per_water_[turned(p)] = per_water_[p];
    if (p % nz_ + 1 < nz_) {
      across_g_[p] = turned_across_g_[turned(p)] = grid.across[p / nz_ * (nz_ - 1) + p % nz_];
    }
  }
  time_rates_.assign(size(), 0.0);
  residual_ = product_ = time_rates_;
  for (auto *v : {&first_, &second_, &turned_first_, &turned_second_, &border_first_[0], &border_first_[1],
                  &border_second_[0], &border_second_[1], &product_first_, &product_second_,
                  &turned_product_first_, &turned_product_second_}) {
    v->assign(n_, 0.0);
  }
}

void SectionSystem::show_faces_at(double x) {
  std::array<double, 2> nearest{HUGE_VAL, HUGE_VAL};
  for (std::size_t at = 0; at < boundary_.size(); ++at) {
    const Boundary &b = boundary_[at];
    const double distance = std::fabs(grid_->x[b.node] - x);
    if (!b.end && distance < nearest[b.side]) {
      nearest[b.side] = distance;
      shown_[b.side] = at;
    }
  }
}

void SectionSystem::rhs(double time, const Vector &y, Vector &f) {
  evaluate_cells<Slopes::no>(y);
  evaluate_faces(time, y);
  assemble_rates(time, y, f);
}

void SectionSystem::linearise(double time, const Vector &y, Vector &f) {
  evaluate_cells<Slopes::yes>(y);
  evaluate_faces(time, y);
  assemble_rates(time, y, f);
  if (drive.varies) {
    assemble_time_rates(time, y);
  }
  if (look_ahead > 0.0 || !learned_.empty()) {
    anticipate(time, y, f);
  }
  assemble_jacobian(time, y);
}

bool SectionSystem::learn(double time, const Vector &y) {
  constexpr double notable = 0.05; // a twentieth of a fully squeezed cell
  const double *known = std::as_const(arrays_)[CellArrays::juice_phi];
  bool more = false;
  for (std::size_t p = 0; p < n_; ++p) {
    more = more || cells[p].juice_phi > known[p] + notable;
  }
  if (!more) {
    return false;
  }
  learned_.resize(n_);
  for (std::size_t p = 0; p < n_; ++p) {
    learned_[p] = cells[p].juice_phi;
  }
  linearise(time, y, product_); // the rates are those known already
  learned_.clear();
  return true;
}

void SectionSystem::anticipate(double time, const Vector &y, const Vector &f) {
  bool at_faces = false;
  const double *juice_phi = std::as_const(arrays_)[CellArrays::juice_phi];
  for (const std::size_t p : abreast_.anticipate(
           f.data(), look_ahead, learned_.empty() ? nullptr : learned_.data(), cells, arrays_)) {
    turned_arrays_[CellArrays::juice_phi][turned(p)] = juice_phi[p];
    at_faces = at_faces || at_boundary_[p] != none;
  }
  if (at_faces) {
    evaluate_faces(time, y);
  }
}

template <Slopes slopes> void SectionSystem::evaluate_cells(const Vector &y) {
  for (const Boundary &b : boundary_) {
    liquid_[b.node] = y[2 * n_ + static_cast<std::size_t>(&b - boundary_.data())] * b.per_volume;
  }
  abreast_.evaluate(slopes, y.data(), liquid_.data(), memory, cells, arrays_);
  if constexpr (slopes == Slopes::yes) { // only the Jacobian needs them by the lines across
    for (std::size_t field = 0; field < CellArrays::fields; ++field) {
      const auto which = static_cast<CellArrays::Field>(field);
      transpose(arrays_[which], nx_, nz_, turned_arrays_[which]);
    }
  }
}
template void SectionSystem::evaluate_cells<Slopes::no>(const Vector &y);
template void SectionSystem::evaluate_cells<Slopes::yes>(const Vector &y);

void SectionSystem::remember() { remember_peaks(cells, memory); }

void SectionSystem::evaluate_faces(double time, const Vector &y) {
  faces_abreast_.evaluate(face, {air_at(0, time, y), air_at(1, time, y)}, cells, y.data(),
                          &y[liquid_index(0)], flux.data(), latent_.data());
}

ByPath<FaceTerm<double>> SectionSystem::path_terms(std::size_t at) const {
  return face_path_terms(flux[at], cells[boundary_[at].node], latent_[at]);
}

/// Adds what the faces cause: nodes, liquids, lumped states and totals.
template <class By> void SectionSystem::add_face_rates(By by, Vector &out) const {
  const auto gives = face_gives(drive);
  for (std::size_t at = 0; at < boundary_.size(); ++at) {
    const Boundary &b = boundary_[at];
    const auto terms = path_terms(at);
    ByPath<double> along;
    for (std::size_t p = 0; p < face_paths; ++p) {
      along[p] = by(terms[p], at);
      out[total_index(b.side, p)] += along[p] * b.share;
    }
    const double given = by(flux[at].from_liquid, at);
    const double seep = by(flux[at].seep, at);
    out[2 * b.node] += heat_into_cell(along) * b.area * per_heat_[b.node];
    out[2 * b.node + 1] -= water_out_of_cell(along, given, seep) * b.area * per_water_[b.node];
    out[liquid_index(at)] += liquid_gained(along, given, seep);
    const auto gained = air_gained(gives, along);
    for (std::size_t c = 0; c < coupled_states; ++c) {
      out[lumped_index(c)] += gained[c] * b.area;
    }
  }
}

void SectionSystem::assemble_rates(double time, const Vector &y, Vector &f) {
  edge_fluxes(arrays_, across_g_.data(), 1, heat_across_.data() + 1, water_across_.data() + 1);
  edge_fluxes(arrays_, grid_->along.data(), nz_, heat_along_.data() + nz_, water_along_.data() + nz_);
  for (std::size_t p = 0; p < n_; ++p) {
    f[2 * p] =
        (heat_across_[p] - heat_across_[p + 1] + (heat_along_[p] - heat_along_[p + nz_])) * per_heat_[p];
    f[2 * p + 1] =
        (water_across_[p] - water_across_[p + 1] + (water_along_[p] - water_along_[p + nz_])) * per_water_[p];
  }
  std::fill(f.begin() + static_cast<std::ptrdiff_t>(2 * n_), f.end(), 0.0);
  const double *q = &y[lumped_index(0)];
  lumped_rates(drive, time, q, balance_rates(drive, time, q), &f[lumped_index(0)], &f[air_total_index(0)]);
  add_face_rates([](const FaceTerm<double> &term, std::size_t) { return term.value; }, f);
}

void SectionSystem::assemble_time_rates(double time, const Vector &y) {
  // As in LineSystem: time enters through the air, whose own rate is a difference over a short time.
  std::fill(time_rates_.begin(), time_rates_.end(), 0.0);
  lumped_time_rates(drive, time, &y[lumped_index(0)], &time_rates_[lumped_index(0)],
                    &time_rates_[air_total_index(0)]);
  const std::array<FaceAir<double>, 2> rate{air_rates(drive, 0, time, &y[lumped_index(0)]),
                                            air_rates(drive, 1, time, &y[lumped_index(0)])};
  add_face_rates(
      [&](const FaceTerm<double> &term, std::size_t at) {
        const FaceAir<double> &by_time = rate[air_side(at)];
        return term.a * by_time.air + term.v * by_time.vapour;
      },
      time_rates_);
}

} // namespace cook::engine
