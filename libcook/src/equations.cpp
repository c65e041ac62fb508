#include "cook/equations.hpp"

#include <algorithm>
#include <utility>

#include "cook/errors.hpp"
#include "engine/line_system.hpp"
#include "engine/stage_setup.hpp"
#include "engine/timeline.hpp"
#include "equations_check.hpp"

namespace cook {

struct Equations::State {
  State(Plan the_plan, const Options &options)
      : plan(std::move(the_plan)), table(plan.meat.tissue, options.physics),
        grid(engine::make_grid(plan.meat.shape, options.nodes,
                               options.face_spacing.value_or(slab_face_spacing))),
        system(grid, table), timeline(plan, 0, 0.0), y(system.size(), 0.0), f(system.size(), 0.0) {
    system.set_faces(engine::face_settings(plan.meat, plan.stages[0], options.physics));
  }

  /// Brings conditions and the engine's own state vector to (t, y).
  void take(double t, std::span<const double> given) {
    // A moment ends its straight line: conditions are those of the line that holds t, found anew when t has
    // left it.
    if (t < begin || t >= end) {
      begin = std::max(t, 0.0);
      system.drive = timeline.drive_from(begin, grid.extent, end);
    }
    const std::size_t cells = 2 * system.nodes();
    std::copy_n(given.begin() + 1, cells, y.begin());
    y[system.film_index(0)] = given.front();
    y[system.film_index(1)] = given[cells + 1];
  }

  Plan plan;
  engine::PropertyTable table;
  engine::Grid grid;
  engine::LineSystem<double> system;
  engine::Timeline timeline;
  std::vector<double> y, f;
  double begin = 1.0;
  double end = 0.0;
};

Equations::Equations(const Plan &plan, const Options &options) {
  check_for_equations(plan, options);
  state_ = std::make_unique<State>(plan, options);
}

Equations::~Equations() = default;
Equations::Equations(Equations &&) noexcept = default;
Equations &Equations::operator=(Equations &&) noexcept = default;

std::size_t Equations::size() const { return 2 * state_->system.nodes() + 2; }

std::vector<double> Equations::initial() const {
  std::vector<double> y(size(), 0.0);
  const double eta = engine::raw_eta(state_->table, state_->plan.meat.start);
  for (std::size_t i = 0; i < state_->system.nodes(); ++i) {
    y[2 * i + 1] = eta;
    y[2 * i + 2] = state_->table.raw_water;
  }
  return y;
}

void Equations::rhs(double seconds, std::span<const double> y, std::span<double> rates) {
  if (y.size() != size() || rates.size() != size()) {
    throw InvalidInput("y", std::to_string(y.size()) + " values; the state has " + std::to_string(size()));
  }
  State &s = *state_;
  s.take(seconds, y);
  s.system.rhs(seconds, s.y, s.f);
  const std::size_t cells = 2 * s.system.nodes();
  rates[0] = s.f[s.system.film_index(0)];
  std::copy_n(s.f.begin(), cells, rates.begin() + 1);
  rates[cells + 1] = s.f[s.system.film_index(1)];
}

std::vector<double> Equations::temperatures(std::span<const double> y) {
  if (y.size() != size()) {
    throw InvalidInput("y", std::to_string(y.size()) + " values; the state has " + std::to_string(size()));
  }
  State &s = *state_;
  s.take(s.begin, y);
  s.system.evaluate_cells(s.y);
  std::vector<double> t;
  t.reserve(s.system.nodes());
  for (const auto &cell : s.system.cells) {
    t.push_back(cell.t);
  }
  return t;
}

double Equations::core(std::span<const double> y) { return temperatures(y)[state_->grid.middle]; }

} // namespace cook
