/// @file
/// Jacobian of SectionSystem, split along and across.
#include "engine/equations/section_system.hpp"

#include <algorithm>

namespace cook::engine {

void SectionSystem::assemble_jacobian(double time, const Vector &y) {
  edge_blocks(arrays_, grid_->along.data(), per_heat_.data(), per_water_.data(), along_);
  edge_blocks(turned_arrays_, turned_across_g_.data(), turned_per_heat_.data(), turned_per_water_.data(),
              across_);
  couple_liquid();
  for (std::size_t at = 0; at < boundary_.size(); ++at) {
    assemble_face(boundary_[at], at);
  }
  const LumpedSlopes slopes = lumped_slopes(drive, balance_rates(drive, time, &y[lumped_index(0)]));
  lumped_jacobian_ = slopes.rates;
  air_slopes_ = slopes.totals;
  const bool acted = acts_;
  acts_ = lumped_acts(drive);
  if (acts_ || acted) { // once more after it, to clear what it has left
    const auto air = air_by_lumped(drive, time, &y[lumped_index(0)]);
    for (std::size_t at = 0; at < boundary_.size(); ++at) {
      couple_lumped(boundary_[at], at, air);
    }
  }
}

/// At given eta liquid changes its node's temperature, hence the fluxes to the neighbours along the face, in
/// proportion to what eta does. Those within the factor that the liquid belongs to follow from zeta.
void SectionSystem::couple_liquid() {
  for (Boundary &b : boundary_) {
    const Cell<double> &cell = cells[b.node];
    b.liquid_heat = -(b.area * per_heat_[b.node] * cell.hw);
    b.own_beside = b.at_before = b.at_after = {};
    b.through = {};
    b.inverse = 0.0; // no liquid is eliminated yet
    const auto through = [&](std::size_t other, Pair &beyond) {
      const BlockLines &lines = b.end ? across_ : along_;
      const std::size_t place = b.end ? turned(other) : other;
      const BlockLines::Blocks &seen = b.node < other ? lines.lower : lines.upper;
      beyond = {seen.entry[0][place] * b.liquid_heat, seen.entry[2][place] * b.liquid_heat};
      // The same flux, out of the node.
      b.own_beside.heat -= beyond.heat / per_heat_[other] * per_heat_[b.node];
      b.own_beside.water -= beyond.water / per_water_[other] * per_water_[b.node];
    };
    if (b.before != none) {
      through(b.before, b.at_before);
    }
    if (b.after != none) {
      through(b.after, b.at_after);
    }
  }
}

/// Own terms of a boundary node, and its liquid's couplings.
void SectionSystem::assemble_face(Boundary &b, std::size_t at) {
  const Cell<double> &cell = cells[b.node];
  const auto chain = [&](const FaceTerm<double> &term) {
    return Partial{term.t * cell.t_eta, term.x + term.t * cell.t_x, term.m};
  };
  const auto terms = path_terms(at);
  ByPath<Partial> along;
  for (std::size_t p = 0; p < face_paths; ++p) {
    along[p] = chain(terms[p]);
    b.paths[p] = {along[p].eta * b.share, along[p].x * b.share, along[p].m * b.share};
  }
  const Partial given = chain(flux[at].from_liquid);
  const Partial seep = chain(flux[at].seep);
  const auto heat = [&](auto member) { return heat_into_cell(along, member); };
  const auto lost = [&](auto member) { return water_out_of_cell(along, given, seep, member); };
  const double ph = b.area * per_heat_[b.node];
  const double pw = b.area * per_water_[b.node];
  BlockLines &lines = b.end ? along_ : across_;
  const std::size_t place = b.end ? b.node : turned(b.node);
  lines.diagonal.add(place, {ph * heat(&Partial::eta), ph * heat(&Partial::x), -pw * lost(&Partial::eta),
                             -pw * lost(&Partial::x)});
  const auto liquid = [&](auto member) { return liquid_gained(along, given, seep, member); };
  b.liquid = {liquid(&Partial::eta), liquid(&Partial::x), 0.0};
  b.liquid_own = liquid(&Partial::m);
  b.own = {ph * heat(&Partial::m), -pw * lost(&Partial::m)};
  b.kept_own = lines.diagonal.at(place); // factorise() will change it, and must find it again
}

/// How a boundary node and the coupled lumped states act on each other.
void SectionSystem::couple_lumped(Boundary &b, std::size_t at,
                                  const std::array<FaceAir<double>, coupled_states> &air) {
  const auto gives = face_gives(drive);
  const FaceFlux<double> &q = flux[at];
  const auto along = path_terms(at);
  for (std::size_t c = 0; c < coupled_states; ++c) {
    const auto slope = [&](const FaceTerm<double> &term) {
      return term.a * air[c].air + term.v * air[c].vapour;
    };
    b.by_lumped[c] = {heat_into_cell(along, slope) * b.area * per_heat_[b.node],
                      -water_out_of_cell(along, q.from_liquid, q.seep, slope) * b.area * per_water_[b.node]};
    b.liquid_by_lumped[c] = liquid_gained(along, q.from_liquid, q.seep, slope);
    for (std::size_t p = 0; p < face_paths; ++p) {
      b.paths_by_lumped[p][c] = slope(along[p]) * b.share;
    }
    const auto gained = air_gained(gives, along, slope);
    for (std::size_t r = 0; r < coupled_states; ++r) {
      b.lumped_own[r][c] = gained[r] * b.area;
      lumped_jacobian_[r][c] += b.lumped_own[r][c];
    }
  }
  const double area = face_area[b.side]; // the paths are shares of the side's
  const std::array<double, coupled_states> of_side{gives[0] * area, gives[1] * area};
  const auto by_eta = air_gained(of_side, b.paths, &Partial::eta);
  const auto by_x = air_gained(of_side, b.paths, &Partial::x);
  const auto by_m = air_gained(of_side, b.paths, &Partial::m);
  for (std::size_t r = 0; r < coupled_states; ++r) {
    b.lumped[r] = {by_eta[r], by_x[r], by_m[r]};
  }
}

void SectionSystem::multiply(const Vector &x, Vector &out) {
  std::fill(out.begin() + static_cast<std::ptrdiff_t>(2 * n_), out.end(), 0.0);
  multiply_edges(x, out);
  const double *q = &x[lumped_index(0)];
  const std::size_t coupled = acts_ ? coupled_states : 0;
  for (std::size_t at = 0; at < boundary_.size(); ++at) {
    const Boundary &b = boundary_[at];
    const double liquid = x[liquid_index(at)];
    const double zeta = x[2 * b.node] + b.liquid_heat * liquid;
    const double water = x[2 * b.node + 1];
    const auto add = [&](std::size_t node, const Pair &pair, double by) {
      out[2 * node] += pair.heat * by;
      out[2 * node + 1] += pair.water * by;
    };
    add(b.node, b.own, liquid);
    double rate = b.liquid.eta * zeta + b.liquid.x * water + b.liquid_own * liquid;
    for (std::size_t c = 0; c < coupled; ++c) {
      add(b.node, b.by_lumped[c], q[c]);
      rate += b.liquid_by_lumped[c] * q[c];
      out[lumped_index(c)] += b.lumped[c].eta * zeta + b.lumped[c].x * water + b.lumped[c].m * liquid;
    }
    out[liquid_index(at)] = rate;
    for (std::size_t p = 0; p < face_paths; ++p) {
      const Partial &d = b.paths[p];
      double &total = out[total_index(b.side, p)];
      total += d.eta * zeta + d.x * water + d.m * liquid;
      for (std::size_t c = 0; c < coupled; ++c) {
        total += b.paths_by_lumped[p][c] * q[c];
      }
    }
  }
  for (std::size_t r = 0; r < lumped_states; ++r) {
    for (std::size_t c = 0; c < lumped_states; ++c) {
      out[lumped_index(r)] += lumped_jacobian_[r][c] * q[c];
    }
  }
  for (std::size_t r = 0; r < air_totals; ++r) {
    for (std::size_t c = 0; c < lumped_states; ++c) {
      out[air_total_index(r)] += air_slopes_[r][c] * q[c];
    }
  }
}

/// The part of J x that the blocks of the two factors hold, own terms of the faces included: on zeta.
void SectionSystem::multiply_edges(const Vector &x, Vector &out) {
  split(x);
  for (std::size_t at = 0; at < boundary_.size(); ++at) {
    first_[boundary_[at].node] += boundary_[at].liquid_heat * x[liquid_index(at)];
  }
  turn(first_, second_);
  multiply_lines(along_, first_.data(), second_.data(), product_first_.data(), product_second_.data());
  multiply_lines(across_, turned_first_.data(), turned_second_.data(), turned_product_first_.data(),
                 turned_product_second_.data());
  for (std::size_t i = 0; i < nx_; ++i) {
    for (std::size_t k = 0; k < nz_; ++k) {
      const std::size_t p = i * nz_ + k;
      const std::size_t t = k * nx_ + i;
      out[2 * p] = product_first_[p] + turned_product_first_[t];
      out[2 * p + 1] = product_second_[p] + turned_product_second_[t];
    }
  }
  // Takes back what factorise() has put into the blocks of the boundary nodes for their liquids.
  for (const Boundary &b : boundary_) {
    const double liquid = b.inverse * (b.liquid.eta * first_[b.node] + b.liquid.x * x[2 * b.node + 1]);
    out[2 * b.node] -= b.through.heat * liquid;
    out[2 * b.node + 1] -= b.through.water * liquid;
  }
}

} // namespace cook::engine
