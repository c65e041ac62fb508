#include "cook/engine/section_equations.hpp"

#include <algorithm>
#include <array>
#include <utility>

#include "cook/errors.hpp"
#include "engine/equations/section_system.hpp"
#include "engine/equations_check.hpp"
#include "engine/grids/section_setup.hpp"
#include "engine/stages/stage_setup.hpp"
#include "engine/stages/timeline.hpp"

namespace cook {

namespace {

/// An edge couples a node with its four neighbours, hence entries in the columns of these five: eta and X,
/// and the liquid of those on the boundary. Liquid changes with its own node alone.
class Stencil {
public:
  Stencil(const engine::SectionGrid &grid, std::vector<std::size_t> liquid_of)
      : nx_(grid.nx), nz_(grid.nz), liquid_of_(std::move(liquid_of)) {}

  /// Unknowns of a node, in increasing order.
  void own(std::size_t node, std::vector<int> &columns) const {
    columns.push_back(static_cast<int>(2 * node));
    columns.push_back(static_cast<int>(2 * node + 1));
    if (liquid_of_[node] != none) {
      columns.push_back(static_cast<int>(liquid_of_[node]));
    }
  }
  void around(std::size_t node, std::vector<int> &columns) const {
    const std::size_t i = node / nz_;
    const std::size_t k = node % nz_;
    own(node, columns);
    if (i > 0) {
      own(node - nz_, columns);
    }
    if (i + 1 < nx_) {
      own(node + nz_, columns);
    }
    if (k > 0) {
      own(node - 1, columns);
    }
    if (k + 1 < nz_) {
      own(node + 1, columns);
    }
  }

  static constexpr std::size_t none = static_cast<std::size_t>(-1);

private:
  std::size_t nx_, nz_;
  std::vector<std::size_t> liquid_of_; ///< index of a node's liquid in the state, or none
};

/// Colours of nodes such that no two of one colour share a neighbour: any two are three or more steps apart,
/// as i + 2 k mod 5 is different for a node and the twelve within two steps.
constexpr std::size_t colours = 5;
std::size_t colour(std::size_t node, std::size_t nz) { return (node / nz + 2 * (node % nz)) % colours; }

} // namespace

struct SectionEquations::State {
  /// Columns of the Jacobian that share no row, so that one product with their sum shows the entries of all.
  struct ColumnGroup {
    struct Entry {
      std::size_t at, row;
    };
    std::vector<std::size_t> columns;
    std::vector<Entry> entries;
  };

  State(Plan the_plan, const Options &options)
      : plan(std::move(the_plan)), setup(plan, options), system(setup.grid, setup.tables()),
        timeline(plan, 0, 0.0), y(system.size(), 0.0), f(system.size(), 0.0), seed(system.size(), 0.0),
        product(system.size(), 0.0) {
    system.set_faces(engine::face_settings(plan.meat, plan.stages[0], options.physics));
    const Probe flat{.name = "flat"};
    core = plan.stages[0].probe ? setup.place(*plan.stages[0].probe, "stages[0].probe").spot
                                : setup.place(flat, "probes").spot;
    lay_pattern();
  }

  [[nodiscard]] std::size_t size() const { return 2 * system.nodes() + system.faces(); }

  void lay_pattern() {
    std::vector<std::size_t> liquid_of(system.nodes(), Stencil::none);
    for (std::size_t b = 0; b < system.faces(); ++b) {
      liquid_of[system.face_node(b)] = system.liquid_index(b);
    }
    const Stencil stencil(setup.grid, liquid_of);
    pattern.row_start.push_back(0);
    std::vector<int> columns;
    const auto row = [&] {
      std::sort(columns.begin(), columns.end());
      pattern.column.insert(pattern.column.end(), columns.begin(), columns.end());
      pattern.row_start.push_back(static_cast<int>(pattern.column.size()));
    };
    for (std::size_t p = 0; p < system.nodes(); ++p) {
      columns.clear();
      stencil.around(p, columns);
      row(); // of eta
      row(); // of X
    }
    for (std::size_t b = 0; b < system.faces(); ++b) {
      columns.clear();
      stencil.own(system.face_node(b), columns);
      row();
    }
    std::vector<std::size_t> group_of(size());
    for (std::size_t p = 0; p < system.nodes(); ++p) {
      const std::size_t first = 3 * colour(p, setup.grid.nz);
      group_of[2 * p] = first;
      group_of[2 * p + 1] = first + 1;
      if (liquid_of[p] != Stencil::none) {
        group_of[liquid_of[p]] = first + 2;
      }
    }
    for (std::size_t j = 0; j < size(); ++j) {
      groups[group_of[j]].columns.push_back(j);
    }
    for (std::size_t i = 0; i < size(); ++i) {
      for (int at = pattern.row_start[i]; at < pattern.row_start[i + 1]; ++at) {
        const auto entry = static_cast<std::size_t>(at);
        groups[group_of[static_cast<std::size_t>(pattern.column[entry])]].entries.push_back({entry, i});
      }
    }
  }

  void check_size(std::span<const double> given) const {
    if (given.size() != size()) {
      throw InvalidInput("y",
                         std::to_string(given.size()) + " values; the state has " + std::to_string(size()));
    }
  }

  /// Brings conditions and the engine's own state vector to (t, y).
  void take(double t, std::span<const double> given) {
    check_size(given);
    // A moment ends its straight line: conditions are those of the line that holds t, found anew when t has
    // left it.
    if (t < begin || t >= end) {
      begin = std::max(t, 0.0);
      system.drive = timeline.drive_from(begin, setup.grid.width, end);
    }
    std::copy(given.begin(), given.end(), y.begin());
  }

  /// Where the next inversion of enthalpy starts from: integrators of others never linearise.
  void keep_guesses() {
    for (std::size_t p = 0; p < system.nodes(); ++p) {
      using Of = engine::Cell<engine::Pack>;
      system.cells.set(&Of::base_t, p, system.cells[p].t);
      system.cells.set(&Of::base_eta, p, y[2 * p]);
      system.cells.set(&Of::base_x, p, y[2 * p + 1]);
    }
    for (std::size_t b = 0; b < system.faces(); ++b) {
      const std::size_t p = system.face_node(b);
      system.cells.set(&engine::Cell<engine::Pack>::base_liquid, p,
                       y[system.liquid_index(b)] * system.area_of(b) / system.volume[p]);
    }
  }

  Plan plan;
  engine::SectionSetup setup;
  engine::SectionSystem system;
  engine::Timeline timeline;
  engine::Spot core;
  SparsePattern pattern;
  std::array<ColumnGroup, 3 * colours> groups;
  std::vector<double> y, f, seed, product;
  double begin = 1.0;
  double end = 0.0;
};

SectionEquations::SectionEquations(const Plan &plan, const Options &options) {
  check_for_equations(plan, options);
  state_ = std::make_unique<State>(plan, options);
}

SectionEquations::~SectionEquations() = default;
SectionEquations::SectionEquations(SectionEquations &&) noexcept = default;
SectionEquations &SectionEquations::operator=(SectionEquations &&) noexcept = default;

std::size_t SectionEquations::size() const { return state_->size(); }
std::size_t SectionEquations::nodes() const { return state_->system.nodes(); }
const std::vector<double> &SectionEquations::along() const { return state_->setup.grid.x; }
const std::vector<double> &SectionEquations::height() const { return state_->setup.grid.z; }
const SparsePattern &SectionEquations::pattern() const { return state_->pattern; }

std::vector<double> SectionEquations::initial() const {
  const State &s = *state_;
  std::vector<double> y(size(), 0.0);
  for (std::size_t p = 0; p < nodes(); ++p) {
    y[2 * p] = engine::raw_eta(s.system.table(p), s.plan.meat.start);
    y[2 * p + 1] = s.system.table(p).raw_water;
  }
  return y;
}

void SectionEquations::rhs(double seconds, std::span<const double> y, std::span<double> rates) {
  State &s = *state_;
  s.check_size(rates);
  s.take(seconds, y);
  s.system.rhs(seconds, s.y, s.f);
  s.keep_guesses();
  std::copy_n(s.f.begin(), size(), rates.begin());
}

void SectionEquations::jacobian(double seconds, std::span<const double> y, std::span<double> entries) {
  State &s = *state_;
  if (entries.size() != s.pattern.column.size()) {
    throw InvalidInput("entries", std::to_string(entries.size()) + " values; the pattern has " +
                                      std::to_string(s.pattern.column.size()));
  }
  s.take(seconds, y);
  s.system.linearise(seconds, s.y, s.f);
  // Curtis, Powell & Reid, On the estimation of sparse Jacobian matrices, J. Inst. Maths Applics 13 (1974)
  // 117.
  for (const State::ColumnGroup &group : s.groups) {
    std::fill(s.seed.begin(), s.seed.end(), 0.0);
    for (const std::size_t j : group.columns) {
      s.seed[j] = 1.0;
    }
    s.system.multiply(s.seed, s.product);
    for (const State::ColumnGroup::Entry &entry : group.entries) {
      entries[entry.at] = s.product[entry.row];
    }
  }
}

std::vector<double> SectionEquations::temperatures(std::span<const double> y) {
  State &s = *state_;
  s.take(s.begin, y);
  s.system.evaluate_cells(s.y);
  s.keep_guesses();
  std::vector<double> t;
  t.reserve(nodes());
  for (std::size_t p = 0; p < nodes(); ++p) {
    t.push_back(s.system.cells[p].t);
  }
  return t;
}

double SectionEquations::core(std::span<const double> y) { return state_->core.of(temperatures(y)); }

double SectionEquations::heat(std::span<const double> y) const {
  const State &s = *state_;
  s.check_size(y);
  double sum = 0.0;
  for (std::size_t p = 0; p < nodes(); ++p) {
    sum += s.system.volume[p] * s.system.table(p).reference_capacity * y[2 * p];
  }
  return sum * s.setup.grid.width;
}

double SectionEquations::water(std::span<const double> y) const {
  const State &s = *state_;
  s.check_size(y);
  double sum = 0.0;
  for (std::size_t p = 0; p < nodes(); ++p) {
    sum += s.system.volume[p] * s.system.table(p).solids * y[2 * p + 1];
  }
  for (std::size_t b = 0; b < s.system.faces(); ++b) {
    sum += s.system.area_of(b) * y[s.system.liquid_index(b)];
  }
  return sum * s.setup.grid.width;
}

} // namespace cook
