#include "engine/runs/recorder.hpp"

#include <algorithm>
#include <cmath>
#include <cstdlib>

#include "engine/equations/line_system.hpp"
#include "engine/equations/section_system.hpp"
#include "engine/runs/settle.hpp"
#include "engine/runs/stored_nodes.hpp"
#include "engine/stages/timeline.hpp"

namespace cook::engine {

template <class System>
void take_snapshot(const System &system, double time, const std::vector<double> &y,
                   const std::vector<double> &f, Snapshot &snapshot) {
  const std::size_t n = system.nodes();
  snapshot.time = time;
  snapshot.y = y;
  snapshot.f = f;
  for (auto *v : {&snapshot.t, &snapshot.t_rate, &snapshot.t_eta, &snapshot.t_x}) {
    v->resize(n);
  }
  std::fill(snapshot.t_rate.begin(), snapshot.t_rate.end(), 0.0);
  snapshot.t_liquid.resize(system.faces());
  for (std::size_t s = 0; s < system.faces(); ++s) {
    const std::size_t i = system.face_node(s);
    snapshot.t_liquid[s] = system.cells[i].t_liquid * system.area_of(s) / system.volume[i];
    snapshot.t_rate[i] = snapshot.t_liquid[s] * f[system.liquid_index(s)];
  }
  for (std::size_t i = 0; i < n; ++i) {
    const Cell<double> &cell = system.cells[i];
    snapshot.t[i] = cell.t;
    snapshot.t_eta[i] = cell.t_eta;
    snapshot.t_x[i] = cell.t_x;
    snapshot.t_rate[i] += cell.t_eta * f[2 * i] + cell.t_x * f[2 * i + 1];
  }
}

template <class System>
Recorder<System>::Recorder(Outcome &outcome, Recording recording, Layout layout)
    : outcome_(&outcome), recording_(recording), layout_(std::move(layout)) {}

namespace {

/// Asks for so many bytes at once and gives them back. A C library that keeps free memory up to twice what it
/// was last asked for, as the usual one of Linux does, then keeps an outcome's between two cooks; without, it
/// gives all of it back to the system and is handed it anew, page by page, for a fifth of a cook's time.
void announce(std::size_t bytes) {
  void *volatile room = std::malloc(bytes + bytes / 2); // NOLINT: nothing is kept. The traces are the half.
  std::free(room);                                      // NOLINT
}

/// Every array of an outcome that has an entry for each stored moment; the fields have as many as there are
/// nodes.
template <class Act> void for_each_trace(Outcome &out, Act act) {
  for (auto *v : {&out.time, &out.core, &out.coldest, &out.tenderness, &out.air, &out.vapour_pressure,
                  &out.pan_water, &out.mean_water, &out.mean_temperature}) {
    act(*v);
  }
  for (ProbeTrace &probe : out.probes) {
    act(probe.temperature);
    act(probe.tenderness);
  }
  for (std::size_t s = 0; s < 2; ++s) {
    for (auto *v : {&out.surface[s], &out.surface_water[s], &out.film[s]}) {
      act(*v);
    }
    for (auto &v : out.paths[s]) {
      act(v);
    }
  }
}

} // namespace

template <class System> void Recorder<System>::expect(const System &system, double spell) {
  constexpr double longest = 16.0 * 3600.0;            // s; a stage that may last 48 h seldom does
  constexpr std::size_t most = 64UL * 1024UL * 1024UL; // bytes of a field
  Outcome &out = *outcome_;
  const std::size_t moments =
      out.times() + 2 + static_cast<std::size_t>(std::fmin(spell, longest) / recording_.every);
  const auto grow = [](std::vector<double> &v, std::size_t size) {
    if (v.capacity() < size) {
      v.reserve(std::max(size, 2 * v.capacity()));
    }
  };
  for_each_trace(out, [&](std::vector<double> &v) { grow(v, moments); });
  if (recording_.keep_fields) {
    const std::size_t size = std::min(moments * system.nodes(), most / sizeof(double));
    if (out.temperature.capacity() < size) {
      announce(2 * size * sizeof(double));
    }
    grow(out.temperature, size);
    grow(out.water, size);
  }
}

template <class System> void Recorder<System>::store(const System &system, const Snapshot &at) {
  if (!outcome_->time.empty() && at.time <= outcome_->time.back() + same_moment) {
    if (!regular_ || at.time <= outcome_->time.back()) {
      return;
    }
    drop_last(system);
  }
  at_ = at;
  dry_ = driest(system, at.y) < nearly_dry;
  make_room(system, 1);
  put(system, outcome_->times() - 1, at.time);
  regular_ = false;
}

template <class System> void Recorder<System>::drop_last(const System &system) {
  Outcome &out = *outcome_;
  for_each_trace(out, [](std::vector<double> &v) { v.pop_back(); });
  if (recording_.keep_fields) {
    out.temperature.resize(out.temperature.size() - system.nodes());
    out.water.resize(out.water.size() - system.nodes());
  }
}

template <class System>
void Recorder<System>::store_between(const System &system, const Ros3<double> &stepper, const Snapshot &a,
                                     const Snapshot &b) {
  // One that is hardly later than a stage's end is that end.
  while (recording_.every * static_cast<double>(next_) <= outcome_->time.back() + same_moment) {
    ++next_;
  }
  at_.y.resize(a.y.size());
  at_.t.resize(a.t.size());
  if (recording_.every * static_cast<double>(next_) > b.time) {
    return;
  }
  dry_ = min(driest(system, a.y), driest(system, b.y)) < nearly_dry;
  // Both tangents as straight lines in (eta, X): base + by_eta eta + by_x X.
  const std::size_t n = a.t.size();
  base_a_.resize(n);
  base_b_.resize(n);
  take_base(n, a.t.data(), a.t_eta.data(), a.t_x.data(), a.y.data(), base_a_.data());
  take_base(n, b.t.data(), b.t_eta.data(), b.t_x.data(), b.y.data(), base_b_.data());
  const auto log_left = [](const std::vector<double> &converted, std::vector<double> &log) {
    constexpr double none = 1e-300; // all converted: a finite logarithm all the same
    log.resize(converted.size());
    for (std::size_t i = 0; i < log.size(); ++i) {
      log[i] = std::log(std::fmax(1.0 - converted[i], none));
    }
  };
  log_left(a.converted, log_a_);
  log_left(b.converted, log_b_);
  std::size_t last = next_;
  while (recording_.every * static_cast<double>(last + 1) <= b.time) {
    ++last;
  }
  std::size_t at = outcome_->times();
  make_room(system, last + 1 - next_);
  for (; next_ <= last; ++next_, ++at) {
    const double time = recording_.every * static_cast<double>(next_);
    const double share = (time - a.time) / (b.time - a.time);
    stepper.interpolate(a.y, share, at_.y);
    interpolate(system, a, b, share);
    put(system, at, time);
  }
  regular_ = true;
}

/// Temperatures from the interpolated state: carried on along the tangents of both ends, blended. Exact at
/// the ends; the error between them is that of the curvature of T(eta, X) over a step, far below the
/// tolerance.
template <class System>
void Recorder<System>::interpolate(const System &system, const Snapshot &a, const Snapshot &b, double share) {
  const double early = 1.0 - share;
  blend_tangents(a.t.size(), share, {base_a_.data(), a.t_eta.data(), a.t_x.data()},
                 {base_b_.data(), b.t_eta.data(), b.t_x.data()}, at_.y.data(), at_.t.data());
  for (std::size_t s = 0; s < system.faces(); ++s) {
    const std::size_t i = system.face_node(s);
    const std::size_t liquid = system.liquid_index(s);
    at_.t[i] += (1.0 - share) * a.t_liquid[s] * (at_.y[liquid] - a.y[liquid]) +
                share * b.t_liquid[s] * (at_.y[liquid] - b.y[liquid]);
  }
  // First order towards the end value: never falls, whatever the step.
  at_.converted.resize(a.converted.size());
  for (std::size_t i = 0; i < a.converted.size(); ++i) {
    at_.converted[i] = 1.0 - std::exp(early * log_a_[i] + share * log_b_[i]);
  }
}

/// Makes room for so many more moments. Once a step: room for one value costs a trace more than the value.
template <class System> void Recorder<System>::make_room(const System &system, std::size_t moments) {
  Outcome &out = *outcome_;
  for_each_trace(out, [&](std::vector<double> &v) { v.resize(v.size() + moments); });
  if (recording_.keep_fields) {
    out.temperature.resize(out.temperature.size() + moments * system.nodes());
    out.water.resize(out.water.size() + moments * system.nodes());
  }
}

/// @param at its place among the stored moments, for which there is room
template <class System> void Recorder<System>::put(const System &system, std::size_t at, double time) {
  Outcome &out = *outcome_;
  const std::size_t n = system.nodes();
  settle(system, at_.y, dry_);
  out.time[at] = time;
  const FaceAir<double> around = system.air_at(1, time, at_.y);
  const double air = around.air;
  out.core[at] = layout_.spots[core_].of(at_.t);
  for (std::size_t p = 0; p < layout_.probes.size(); ++p) {
    const std::size_t spot = layout_.probes[p];
    const double meat = layout_.spots[spot].of(at_.t);
    out.probes[p].temperature[at] = meat + layout_.stem[p] * (air - meat);
    out.probes[p].tenderness[at] = at_.converted[spot];
  }
  out.tenderness[at] = at_.converted[core_];
  out.air[at] = air;
  out.vapour_pressure[at] = around.vapour;
  out.pan_water[at] = at_.y[system.lumped_index(pan_water)];
  const OverNodes over = store_nodes(n, layout_.lines, at_.t.data(), at_.y.data(), layout_.share.data(),
                                     recording_.keep_fields ? &out.temperature[at * n] : nullptr,
                                     recording_.keep_fields ? &out.water[at * n] : nullptr);
  out.coldest[at] = over.coldest;
  out.mean_water[at] = over.water;
  out.mean_temperature[at] = over.temperature;
  for (std::size_t s = 0; s < 2; ++s) {
    const std::size_t face = system.shown_face(s);
    const std::size_t i = system.face_node(face);
    out.surface[s][at] = at_.t[i];
    out.surface_water[s][at] = at_.y[2 * i + 1];
    out.film[s][at] = at_.y[system.liquid_index(face)];
    for (std::size_t p = 0; p < face_paths; ++p) {
      out.paths[s][p][at] = at_.y[system.total_index(s, static_cast<FacePath>(p))];
    }
  }
}

template void take_snapshot(const LineSystem<double> &, double, const std::vector<double> &,
                            const std::vector<double> &, Snapshot &);
template void take_snapshot(const PieceSystem &, double, const std::vector<double> &,
                            const std::vector<double> &, Snapshot &);
template void take_snapshot(const SectionSystem &, double, const std::vector<double> &,
                            const std::vector<double> &, Snapshot &);
template class Recorder<LineSystem<double>>;
template class Recorder<PieceSystem>;
template class Recorder<SectionSystem>;

} // namespace cook::engine
