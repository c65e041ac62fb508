#include "engine/recorder.hpp"

#include <algorithm>
#include <cmath>

namespace cook::engine {

void take_snapshot(const LineSystem<double> &system, double time, const std::vector<double> &y,
                   const std::vector<double> &f, Snapshot &snapshot) {
  const std::size_t n = system.nodes();
  snapshot.time = time;
  snapshot.y = y;
  snapshot.f = f;
  for (auto *v : {&snapshot.t, &snapshot.t_rate, &snapshot.t_eta, &snapshot.t_x, &snapshot.t_film}) {
    v->assign(n, 0.0);
  }
  for (std::size_t s = 0; s < 2; ++s) {
    const std::size_t i = system.face_node(s);
    snapshot.t_film[i] = system.cells[i].t_liquid * system.face_area[s] / system.volume[i];
    snapshot.t_rate[i] = snapshot.t_film[i] * f[system.film_index(s)];
  }
  for (std::size_t i = 0; i < n; ++i) {
    const Cell<double> &cell = system.cells[i];
    snapshot.t[i] = cell.t;
    snapshot.t_eta[i] = cell.t_eta;
    snapshot.t_x[i] = cell.t_x;
    snapshot.t_rate[i] += cell.t_eta * f[2 * i] + cell.t_x * f[2 * i + 1];
  }
}

Recorder::Recorder(Outcome &outcome, double every, bool keep_fields, std::size_t middle, double solids)
    : outcome_(&outcome), every_(every), keep_fields_(keep_fields), middle_(middle), solids_(solids) {}

void Recorder::store(const LineSystem<double> &system, const Snapshot &at) {
  if (!outcome_->time.empty() && at.time <= outcome_->time.back() + 1e-6) {
    return;
  }
  at_ = at;
  append(system, at.time);
}

void Recorder::store_between(const LineSystem<double> &system, const Ros3<double> &stepper, const Snapshot &a,
                             const Snapshot &b) {
  while (every_ * static_cast<double>(next_) <= a.time + 1e-6) {
    ++next_;
  }
  at_.y.resize(a.y.size());
  at_.t.resize(a.t.size());
  for (; every_ * static_cast<double>(next_) <= b.time; ++next_) {
    const double time = every_ * static_cast<double>(next_);
    const double share = (time - a.time) / (b.time - a.time);
    stepper.interpolate(a.y, share, at_.y);
    interpolate(system, a, b, share);
    append(system, time);
  }
}

/// Temperatures from the interpolated state: carried on along the tangents of both ends, blended. Exact at
/// the ends; the error between them is that of the curvature of T(eta, X) over a step, far below the
/// tolerance.
void Recorder::interpolate(const LineSystem<double> &system, const Snapshot &a, const Snapshot &b,
                           double share) {
  const auto tangent = [&](const Snapshot &end, std::size_t i) {
    return end.t[i] + end.t_eta[i] * (at_.y[2 * i] - end.y[2 * i]) +
           end.t_x[i] * (at_.y[2 * i + 1] - end.y[2 * i + 1]);
  };
  for (std::size_t i = 0; i < a.t.size(); ++i) {
    at_.t[i] = (1.0 - share) * tangent(a, i) + share * tangent(b, i);
  }
  for (std::size_t s = 0; s < 2; ++s) {
    const std::size_t i = system.face_node(s);
    const std::size_t film = system.film_index(s);
    at_.t[i] += (1.0 - share) * a.t_film[i] * (at_.y[film] - a.y[film]) +
                share * b.t_film[i] * (at_.y[film] - b.y[film]);
  }
  // First order towards the end value: never falls, whatever the step.
  at_.converted = 1.0 - std::pow(1.0 - a.converted, 1.0 - share) * std::pow(1.0 - b.converted, share);
}

void Recorder::append(const LineSystem<double> &system, double time) {
  Outcome &out = *outcome_;
  const std::size_t n = system.nodes();
  out.time.push_back(time);
  out.core.push_back(at_.t[middle_]);
  out.coldest.push_back(*std::min_element(at_.t.begin(), at_.t.end()));
  out.tenderness.push_back(at_.converted);
  out.air.push_back(system.air_at(1, time, at_.y[system.box_index()]).air);
  double water = 0.0;
  double heat = 0.0;
  for (std::size_t i = 0; i < n; ++i) {
    water += out.node_volume[i] * at_.y[2 * i + 1];
    heat += out.node_volume[i] * at_.t[i];
  }
  out.mean_water.push_back(water);
  out.mean_temperature.push_back(heat);
  for (std::size_t s = 0; s < 2; ++s) {
    const std::size_t i = system.face_node(s);
    out.surface[s].push_back(at_.t[i]);
    out.surface_water[s].push_back(at_.y[2 * i + 1]);
    out.film[s].push_back(at_.y[system.film_index(s)]);
    for (std::size_t p = 0; p < face_paths; ++p) {
      out.paths[s][p].push_back(at_.y[system.total_index(s, static_cast<FacePath>(p))]);
    }
  }
  if (keep_fields_) {
    out.temperature.insert(out.temperature.end(), at_.t.begin(), at_.t.end());
    const std::size_t first = out.water.size();
    out.water.resize(first + n);
    for (std::size_t i = 0; i < n; ++i) {
      out.water[first + i] = at_.y[2 * i + 1];
    }
  }
}

} // namespace cook::engine
