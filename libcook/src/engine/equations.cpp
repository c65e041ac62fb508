#include "cook/engine/equations.hpp"

#include <algorithm>
#include <utility>

#include "cook/errors.hpp"
#include "engine/equations/line_system.hpp"
#include "engine/equations_check.hpp"
#include "engine/grids/piece_grid.hpp"
#include "engine/runs/line_cook.hpp"
#include "engine/stages/stage_setup.hpp"
#include "engine/stages/timeline.hpp"

namespace cook {

struct Equations::State {
  State() = default;
  State(const State &) = delete;
  State(State &&) = delete;
  State &operator=(const State &) = delete;
  State &operator=(State &&) = delete;
  virtual ~State() = default;
  [[nodiscard]] virtual std::size_t size() const = 0;
  [[nodiscard]] virtual int bandwidth() const = 0;
  [[nodiscard]] virtual std::vector<double> initial() const = 0;
  virtual void rhs(double seconds, std::span<const double> y, std::span<double> rates) = 0;
  [[nodiscard]] virtual std::vector<double> temperatures(std::span<const double> y) = 0;
  [[nodiscard]] virtual std::size_t core_node() const = 0;
};

namespace {

/// The equations on so many lines.
template <std::size_t Lines> class Lined final : public Equations::State {
public:
  Lined(Plan the_plan, const Options &options)
      : plan_(std::move(the_plan)), table_(plan_.meat.tissue, options.physics),
        grid_(engine::line_grid(plan_.meat, options)), system_(grid_, table_), timeline_(plan_, 0, 0.0),
        y_(system_.size(), 0.0), f_(system_.size(), 0.0) {
    const double upright = Lines == 2 ? engine::rim_side_share(plan_.meat.shape) : 1.0;
    system_.set_faces(engine::face_settings(plan_.meat, plan_.stages[0], options.physics, upright));
  }

  [[nodiscard]] std::size_t size() const override { return cells() + 2 * Lines; }
  [[nodiscard]] int bandwidth() const override { return 4 * static_cast<int>(Lines); }
  [[nodiscard]] std::size_t core_node() const override { return grid_.middle / Lines; }

  [[nodiscard]] std::vector<double> initial() const override {
    std::vector<double> y(size(), 0.0);
    const double eta = engine::raw_eta(table_, plan_.meat.start);
    for (std::size_t i = 0; i < system_.nodes(); ++i) {
      y[Lines + 2 * i] = eta;
      y[Lines + 2 * i + 1] = table_.raw_water;
    }
    return y;
  }

  void rhs(double seconds, std::span<const double> y, std::span<double> rates) override {
    take(seconds, y);
    system_.rhs(seconds, y_, f_);
    for (std::size_t line = 0; line < Lines; ++line) {
      rates[line] = f_[system_.liquid_index(line)];
      rates[Lines + cells() + line] = f_[system_.liquid_index(Lines + line)];
    }
    std::copy_n(f_.begin(), cells(), rates.begin() + Lines);
  }

  [[nodiscard]] std::vector<double> temperatures(std::span<const double> y) override {
    take(begin_, y);
    system_.evaluate_cells(y_);
    std::vector<double> t;
    t.reserve(system_.nodes());
    for (std::size_t line = 0; line < Lines; ++line) { // as an outcome has them
      for (std::size_t i = line; i < system_.nodes(); i += Lines) {
        t.push_back(system_.cells[i].t);
      }
    }
    return t;
  }

private:
  [[nodiscard]] std::size_t cells() const { return 2 * system_.nodes(); }

  /// Brings conditions and the engine's own state vector to (t, y).
  void take(double t, std::span<const double> given) {
    // A moment ends its straight line: conditions are those of the line that holds t, found anew when t has
    // left it.
    if (t < begin_ || t >= end_) {
      begin_ = std::max(t, 0.0);
      system_.drive = timeline_.drive_from(begin_, grid_.extent, end_);
    }
    std::copy_n(given.begin() + Lines, cells(), y_.begin());
    for (std::size_t line = 0; line < Lines; ++line) {
      y_[system_.liquid_index(line)] = given[line];
      y_[system_.liquid_index(Lines + line)] = given[Lines + cells() + line];
    }
  }

  Plan plan_;
  engine::PropertyTable table_;
  engine::Grid grid_;
  engine::LineSystem<double, engine::PropertyTable, Lines> system_;
  engine::Timeline timeline_;
  std::vector<double> y_, f_;
  double begin_ = 1.0;
  double end_ = 0.0;
};

} // namespace

Equations::Equations(const Plan &plan, const Options &options) {
  check_for_equations(plan, options);
  if (engine::lines_of(plan.meat, options) == 2) {
    state_ = std::make_unique<Lined<2>>(plan, options);
  } else {
    state_ = std::make_unique<Lined<1>>(plan, options);
  }
}

Equations::~Equations() = default;
Equations::Equations(Equations &&) noexcept = default;
Equations &Equations::operator=(Equations &&) noexcept = default;

void Equations::check_size(std::size_t came) const {
  if (came != size()) {
    throw InvalidInput("y", std::to_string(came) + " values; the state has " + std::to_string(size()));
  }
}

std::size_t Equations::size() const { return state_->size(); }

int Equations::bandwidth() const { return state_->bandwidth(); }

std::vector<double> Equations::initial() const { return state_->initial(); }

void Equations::rhs(double seconds, std::span<const double> y, std::span<double> rates) {
  check_size(y.size());
  check_size(rates.size());
  state_->rhs(seconds, y, rates);
}

std::vector<double> Equations::temperatures(std::span<const double> y) {
  check_size(y.size());
  return state_->temperatures(y);
}

double Equations::core(std::span<const double> y) { return temperatures(y)[state_->core_node()]; }

} // namespace cook
