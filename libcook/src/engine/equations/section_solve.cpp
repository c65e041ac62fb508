/// @file
/// Linear algebra of a step of SectionSystem: lines along, then lines across with liquids and lumped states.
#include "engine/arithmetic/transpose.hpp"
#include "engine/equations/section_system.hpp"

namespace cook::engine {

void SectionSystem::factorise(double shift) {
  shift_ = shift;
  solves_ = 0;
  for (Boundary &b : boundary_) {
    b.inverse = 1.0 / (shift - b.liquid_own);
    b.through = {b.own.heat + shift * b.liquid_heat, b.own.water};
    // liquid = inverse (r + liquid.eta zeta + liquid.x x): substituted into the rows of the node.
    const double by_eta = b.inverse * b.liquid.eta;
    const double by_x = b.inverse * b.liquid.x;
    BlockLines &lines = b.end ? along_ : across_;
    const Block4 &kept = b.kept_own;
    lines.diagonal.set(b.end ? b.node : turned(b.node),
                       {kept[0] + b.through.heat * by_eta, kept[1] + b.through.heat * by_x,
                        kept[2] + b.through.water * by_eta, kept[3] + b.through.water * by_x});
  }
  along_.factorise_shifted(shift);
  across_.factorise_shifted(shift);
  // The coupled lumped states as a border of the lines across. Columns that are zero stay so.
  LumpedMatrix pivot{};
  for (std::size_t r = 0; r < lumped_states; ++r) {
    for (std::size_t c = 0; c < lumped_states; ++c) {
      pivot[r][c] = (r == c ? shift : 0.0) - lumped_jacobian_[r][c];
    }
  }
  // Faces of the ends act on the lumped states only through what the lines along have found.
  for (const Boundary &b : boundary_) {
    for (std::size_t r = 0; acts_ && b.end && r < coupled_states; ++r) {
      for (std::size_t c = 0; c < coupled_states; ++c) {
        pivot[r][c] += b.lumped_own[r][c];
      }
    }
  }
  for (std::size_t c = 0; c < coupled_states; ++c) {
    if (!acts(c)) {
      continue;
    }
    auto &first = border_first_[c];
    auto &second = border_second_[c];
    std::fill(first.begin(), first.end(), 0.0);
    std::fill(second.begin(), second.end(), 0.0);
    for (const Boundary &b : boundary_) {
      if (b.end) {
        continue;
      }
      const double liquid = b.inverse * b.liquid_by_lumped[c];
      const std::size_t own = turned(b.node);
      first[own] += b.by_lumped[c].heat + b.through.heat * liquid;
      second[own] += b.by_lumped[c].water + b.through.water * liquid;
    }
    across_.solve(first.data(), second.data());
    for (const Boundary &b : boundary_) {
      if (b.end) {
        continue;
      }
      const double zeta = first[turned(b.node)];
      const double water = second[turned(b.node)];
      const double liquid = b.inverse * (b.liquid_by_lumped[c] + b.liquid.eta * zeta + b.liquid.x * water);
      for (std::size_t r = 0; r < coupled_states; ++r) {
        pivot[r][c] -= b.lumped[r].eta * zeta + b.lumped[r].x * water + b.lumped[r].m * liquid;
      }
    }
  }
  lumped_inverse_ = inverse(pivot);
}

void SectionSystem::solve(Vector &x) {
  // The first stage of a step says where the second is evaluated, and takes one sweep more than the others:
  // with it a step may be as long as if all of them did.
  const int sweeps = solves_ == 0 ? passes : passes - 1;
  ++solves_;
  if (sweeps <= 1) {
    solve_once(x);
    return;
  }
  right_ = x;
  solve_once(x);
  for (int pass = 1; pass < sweeps; ++pass) {
    multiply(x, product_);
    for (std::size_t i = 0; i < x.size(); ++i) {
      residual_[i] = right_[i] - shift_ * x[i] + product_[i];
    }
    solve_once(residual_);
    for (std::size_t i = 0; i < x.size(); ++i) {
      x[i] += residual_[i];
    }
  }
}

void SectionSystem::split(const Vector &x) {
  for (std::size_t p = 0; p < n_; ++p) {
    first_[p] = x[2 * p];
    second_[p] = x[2 * p + 1];
  }
}

void SectionSystem::turn(const std::vector<double> &first, const std::vector<double> &second) {
  transpose(first.data(), nx_, nz_, turned_first_.data());
  transpose(second.data(), nx_, nz_, turned_second_.data());
}

void SectionSystem::solve_once(Vector &x) {
  const double per_shift = 1.0 / shift_;
  const std::size_t coupled = acts_ ? coupled_states : 0;
  split(x);
  const auto add = [&](std::size_t node, const Pair &pair, double by) {
    first_[node] += pair.heat * by;
    second_[node] += pair.water * by;
  };
  const auto beside = [&](const Boundary &b, double liquid) {
    add(b.node, b.own_beside, liquid);
    if (b.before != none) {
      add(b.before, b.at_before, liquid);
    }
    if (b.after != none) {
      add(b.after, b.at_after, liquid);
    }
  };
  // Along: liquids of the end faces are eliminated; those of bottom and top only have their start value here.
  for (std::size_t at = 0; at < boundary_.size(); ++at) {
    const Boundary &b = boundary_[at];
    if (b.end) {
      add(b.node, b.through, b.inverse * x[liquid_index(at)]);
    } else {
      beside(b, x[liquid_index(at)] * per_shift);
    }
  }
  along_.solve(first_.data(), second_.data());
  double *lumped = &x[lumped_index(0)];
  for (std::size_t at = 0; at < boundary_.size(); ++at) {
    const Boundary &b = boundary_[at];
    if (!b.end) {
      continue;
    }
    const double zeta = first_[b.node];
    const double water = second_[b.node];
    const double liquid = b.inverse * (x[liquid_index(at)] + b.liquid.eta * zeta + b.liquid.x * water);
    x[liquid_index(at)] = liquid;
    first_[b.node] = zeta - b.liquid_heat * liquid;
    for (std::size_t p = 0; p < face_paths; ++p) {
      x[total_index(b.side, p)] += b.paths[p].eta * zeta + b.paths[p].x * water + b.paths[p].m * liquid;
    }
    for (std::size_t c = 0; c < coupled; ++c) {
      lumped[c] += b.lumped[c].eta * zeta + b.lumped[c].x * water + b.lumped[c].m * liquid;
    }
  }
  // Across, from shift times what the lines along gave.
  for (std::size_t p = 0; p < n_; ++p) {
    first_[p] *= shift_;
    second_[p] *= shift_;
  }
  for (std::size_t at = 0; at < boundary_.size(); ++at) {
    const Boundary &b = boundary_[at];
    if (b.end) {
      beside(b, x[liquid_index(at)]);
    } else {
      add(b.node, b.through, b.inverse * x[liquid_index(at)]);
    }
  }
  turn(first_, second_);
  across_.solve(turned_first_.data(), turned_second_.data());
  std::array<double, lumped_states> right{};
  for (std::size_t q = 0; q < lumped_states; ++q) {
    right[q] = lumped[q];
  }
  for (std::size_t at = 0; at < boundary_.size(); ++at) {
    const Boundary &b = boundary_[at];
    if (b.end) {
      continue;
    }
    const double zeta = turned_first_[turned(b.node)];
    const double water = turned_second_[turned(b.node)];
    const double liquid = b.inverse * (x[liquid_index(at)] + b.liquid.eta * zeta + b.liquid.x * water);
    for (std::size_t c = 0; c < coupled; ++c) {
      right[c] += b.lumped[c].eta * zeta + b.lumped[c].x * water + b.lumped[c].m * liquid;
    }
  }
  for (std::size_t r = 0; r < lumped_states; ++r) {
    lumped[r] = 0.0;
    for (std::size_t c = 0; c < lumped_states; ++c) {
      lumped[r] += lumped_inverse_[r][c] * right[c];
    }
  }
  for (std::size_t c = 0; c < coupled; ++c) {
    if (acts(c)) {
      for (std::size_t p = 0; p < n_; ++p) {
        turned_first_[p] += border_first_[c][p] * lumped[c];
        turned_second_[p] += border_second_[c][p] * lumped[c];
      }
    }
  }
  transpose(turned_first_.data(), nz_, nx_, first_.data());
  transpose(turned_second_.data(), nz_, nx_, second_.data());
  for (std::size_t p = 0; p < n_; ++p) {
    x[2 * p] = first_[p];
    x[2 * p + 1] = second_[p];
  }
  // What nothing depends on: liquids of bottom and top, totals.
  for (std::size_t at = 0; at < boundary_.size(); ++at) {
    const Boundary &b = boundary_[at];
    if (b.end) {
      continue;
    }
    const double zeta = x[2 * b.node];
    const double water = x[2 * b.node + 1];
    double liquid = x[liquid_index(at)] + b.liquid.eta * zeta + b.liquid.x * water;
    for (std::size_t c = 0; c < coupled; ++c) {
      liquid += b.liquid_by_lumped[c] * lumped[c];
    }
    liquid *= b.inverse;
    x[liquid_index(at)] = liquid;
    x[2 * b.node] = zeta - b.liquid_heat * liquid;
    for (std::size_t p = 0; p < face_paths; ++p) {
      double &total = x[total_index(b.side, p)];
      total += b.paths[p].eta * zeta + b.paths[p].x * water + b.paths[p].m * liquid;
      for (std::size_t c = 0; c < coupled; ++c) {
        total += b.paths_by_lumped[p][c] * lumped[c];
      }
    }
  }
  for (std::size_t r = 0; r < air_totals; ++r) {
    for (std::size_t c = 0; c < lumped_states; ++c) {
      x[air_total_index(r)] += air_slopes_[r][c] * lumped[c];
    }
  }
  for (std::size_t i = first_total(); i < x.size(); ++i) {
    x[i] *= per_shift;
  }
}

} // namespace cook::engine
