/// The semi-discrete equations: Jacobian against differences, linear solves, conservation of the rates.
#include <doctest/doctest.h>

#include <cmath>
#include <memory>
#include <random>
#include <type_traits>
#include <utility>

#include "cook/meat/shape.hpp"
#include "cooks.hpp"
#include "engine/equations/line_system.hpp"
#include "engine/grids/piece_grid.hpp"
#include "engine/stages/stage_setup.hpp"

using namespace cook;
using namespace cook::engine;

namespace {

/// On one line or two.
template <std::size_t Lines> struct Bench {
  Meat meat;
  Stage stage;
  PropertyTable table;
  Grid grid;
  LineSystem<double, PropertyTable, Lines> system;
  std::vector<double> y;

  Bench(Meat m, Stage s, double box_temperature = 60.0)
      : meat(std::move(m)), stage(std::move(s)), table(meat.tissue, Physics{}),
        grid(Lines == 2 ? make_piece_grid(meat.shape, 21, 0.5e-3) : make_grid(meat.shape, 21, 0.5e-3)),
        system(grid, table) {
    const double upright = Lines == 2 ? rim_side_share(meat.shape) : 1.0;
    system.set_faces(face_settings(meat, stage, Physics{}, upright));
    system.drive.air.fill(stage.surroundings.air.at(0.0));
    system.drive.vapour = stage.surroundings.vapour_pressure.at(0.0);
    if (stage.surroundings.box) {
      system.drive.boxed = true;
      system.drive.box_capacity = 5e4;
      system.drive.box_loss = 10.0;
    }
    y.assign(system.size(), 0.0);
    std::mt19937 random(7);
    std::uniform_real_distribution<double> unit(0.0, 1.0);
    for (std::size_t i = 0; i < system.nodes(); ++i) {
      y[2 * i] = 40.0 + 60.0 * unit(random);
      y[2 * i + 1] = 0.05 + 3.0 * unit(random);
    }
    for (std::size_t f = 0; f < system.faces(); ++f) {
      y[system.liquid_index(f)] = 0.03 + 0.04 * static_cast<double>(f);
    }
    y[system.box_index()] = box_temperature;
  }
};

Stage stage_in(const Surroundings &surroundings, const char *wrapped) {
  Stage stage;
  stage.surroundings = surroundings;
  stage.wrap = wrap(wrapped);
  return stage;
}

/// On the heap: the system keeps a pointer to the table beside it.
template <std::size_t Lines> std::vector<std::unique_ptr<Bench<Lines>>> benches() {
  std::vector<std::unique_ptr<Bench<Lines>>> list;
  list.push_back(std::make_unique<Bench<Lines>>(brisket(), stage_in(pit("drum", 110.0), "none")));
  list.push_back(std::make_unique<Bench<Lines>>(brisket(), stage_in(pit("kettle", 135.0), "foil")));
  list.push_back(std::make_unique<Bench<Lines>>(brisket(), stage_in(counter(), "butcher paper")));
  list.push_back(std::make_unique<Bench<Lines>>(brisket(), stage_in(insulated_box(), "towels"), 65.0));
  list.push_back(std::make_unique<Bench<Lines>>(testing::roll(), stage_in(pit("offset", 110.0), "none")));
  list.push_back(std::make_unique<Bench<Lines>>(testing::roll(), stage_in(insulated_box(), "none"), 80.0));
  return list;
}

/// (shift I - J) x, worked out by multiply().
template <std::size_t Lines>
std::vector<double> shifted_product(Bench<Lines> &b, const std::vector<double> &x, double shift) {
  std::vector<double> right(x.size());
  b.system.multiply(x, right);
  for (std::size_t i = 0; i < x.size(); ++i) {
    right[i] = shift * x[i] - right[i];
  }
  return right;
}

/// x back from (shift I - J) x.
template <std::size_t Lines>
std::vector<double> there_and_back(Bench<Lines> &b, const std::vector<double> &x, double shift) {
  std::vector<double> right = shifted_product(b, x, shift);
  b.system.factorise(shift);
  b.system.solve(right);
  return right;
}

using OneLine = std::integral_constant<std::size_t, 1>;
using TwoLines = std::integral_constant<std::size_t, 2>;

} // namespace

TEST_CASE_TEMPLATE("the analytic Jacobian matches central differences in every column", Count, OneLine,
                   TwoLines) {
  for (const auto &bench : benches<Count::value>()) {
    auto &b = *bench;
    const std::size_t n = b.system.size();
    std::vector<double> f(n), plus(n), minus(n), column(n), unit(n);
    b.system.linearise(0.0, b.y, f);
    // First all analytic columns, since every evaluation below overwrites the linearisation point.
    std::vector<std::vector<double>> analytic;
    for (std::size_t j = 0; j < n; ++j) {
      unit.assign(n, 0.0);
      unit[j] = 1.0;
      b.system.multiply(unit, column);
      analytic.push_back(column);
    }
    for (std::size_t j = 0; j < n; ++j) {
      const double step = 1e-5 * std::fmax(std::fabs(b.y[j]), 0.1);
      auto y = b.y;
      y[j] += step;
      b.system.rhs(0.0, y, plus);
      y[j] -= 2.0 * step;
      b.system.rhs(0.0, y, minus);
      double scale = 1e-12;
      for (std::size_t i = 0; i < n; ++i) {
        scale = std::fmax(scale, std::fabs(analytic[j][i]));
      }
      for (std::size_t i = 0; i < n; ++i) {
        const double difference = (plus[i] - minus[i]) / (2.0 * step);
        INFO("row ", i, " column ", j, " wrap ", b.stage.wrap.name, " in ", b.stage.surroundings.kind);
        // Rounding in the difference, then 2e-5 of the entry or of a thousandth of its column.
        const double rounding = 2e-13 * std::fmax(1.0, std::fabs(plus[i])) / step;
        CHECK(std::fabs(difference - analytic[j][i]) <
              rounding + 2e-5 * std::fmax(std::fabs(analytic[j][i]), 1e-3 * scale));
      }
    }
  }
}

TEST_CASE_TEMPLATE("solve() inverts shift I - J for the whole state", Count, OneLine, TwoLines) {
  for (const auto &bench : benches<Count::value>()) {
    auto &b = *bench;
    const std::size_t n = b.system.size();
    std::vector<double> f(n), x(n);
    std::mt19937 random(3);
    std::uniform_real_distribution<double> unit(-1.0, 1.0);
    b.system.linearise(0.0, b.y, f);
    for (const double shift : {1e-3, 0.1, 10.0}) {
      for (auto &v : x) {
        v = unit(random);
      }
      for (std::size_t q = b.system.drive.boxed ? air_vapour : box_temperature; q < lumped_states; ++q) {
        x[b.system.lumped_index(q)] = 0.0; // nothing couples to these here
      }
      if (b.meat.shape.kind == ShapeKind::cylinder) {
        // A cylinder has no bottom face: nothing couples to its film and totals, solve() leaves them alone.
        for (std::size_t line = 0; line < Count::value; ++line) {
          x[b.system.liquid_index(line)] = 0.0;
        }
        for (std::size_t p = 0; p < face_paths; ++p) {
          x[b.system.total_index(0, static_cast<FacePath>(p))] = 0.0;
        }
      }
      const auto right = there_and_back(b, x, shift);
      // Two lines meet in small cells at the rim, whose rates are far faster: at a small shift the running
      // totals lose digits to cancellation in J x, and are held to what they solve instead.
      const std::size_t known = Count::value == 1 ? n : b.system.total_index(0, FacePath{});
      const auto given = shifted_product(b, x, shift);
      const auto again = shifted_product(b, right, shift);
      double largest = 0.0;
      for (const double v : given) {
        largest = std::fmax(largest, std::fabs(v));
      }
      for (std::size_t i = 0; i < n; ++i) {
        INFO("entry ", i, " shift ", shift, " wrap ", b.stage.wrap.name, " in ", b.stage.surroundings.kind);
        if (i < known) {
          CHECK(right[i] == doctest::Approx(x[i]).epsilon(1e-7));
        }
        CHECK(std::fabs(again[i] - given[i]) < 1e-13 * largest);
      }
    }
  }
}

TEST_CASE_TEMPLATE("no step size makes a film's elimination lose digits: its pivot stays away from zero",
                   Count, OneLine, TwoLines) {
  // At given enthalpy more film is colder and evaporates less, so a hot wet film feeds itself. Where the
  // shift equals that, eliminating the film at given enthalpy divides by nothing.
  int fed = 0;
  for (const auto &bench : benches<Count::value>()) {
    auto &b = *bench;
    const std::size_t n = b.system.size();
    std::vector<double> f(n), product(n), x(n), unit(n, 0.0);
    std::mt19937 random(5);
    std::uniform_real_distribution<double> any(-1.0, 1.0);
    for (std::size_t s = 0; s < b.system.faces(); ++s) {
      if (b.system.area_of(s) == 0.0) {
        continue;
      }
      b.y[2 * b.system.face_node(s)] = 95.0;
      b.system.linearise(0.0, b.y, f);
      const std::size_t film = b.system.liquid_index(s);
      std::fill(unit.begin(), unit.end(), 0.0);
      unit[film] = 1.0;
      b.system.multiply(unit, product);
      const double own = product[film];
      if (own <= 0.0) {
        continue;
      }
      ++fed;
      for (const double off : {0.0, 1e-15, 1e-12, 1e-9, -1e-9}) {
        const double shift = own * (1.0 + off);
        std::fill(x.begin(), x.end(), 0.0);
        for (std::size_t i = 0; i < 2 * b.system.nodes(); ++i) {
          x[i] = any(random);
        }
        x[film] = any(random);
        const auto right = there_and_back(b, x, shift);
        for (std::size_t i = 0; i < n; ++i) {
          INFO("entry ", i, ", shift off by ", off);
          CHECK(std::fabs(right[i] - x[i]) < 1e-8);
        }
      }
    }
  }
  CHECK(fed >= 2);
}

TEST_CASE_TEMPLATE("what leaves one account enters another: weighted rates sum to zero", Count, OneLine,
                   TwoLines) {
  for (const auto &bench : benches<Count::value>()) {
    auto &b = *bench;
    std::vector<double> f(b.system.size());
    b.system.rhs(0.0, b.y, f);
    const auto total = [&](FacePath path) {
      double sum = 0.0;
      for (std::size_t s = 0; s < 2; ++s) {
        sum += f[b.system.total_index(s, path)] * b.system.face_area[s];
      }
      return sum;
    };
    double heat = 0.0;
    double water = 0.0;
    double heat_scale = 0.0;
    double water_scale = 0.0;
    for (std::size_t i = 0; i < b.system.nodes(); ++i) {
      heat += f[2 * i] * b.system.volume[i] * b.table.reference_capacity;
      water += f[2 * i + 1] * b.system.volume[i] * b.table.solids;
      heat_scale += std::fabs(f[2 * i]) * b.system.volume[i] * b.table.reference_capacity;
      water_scale += std::fabs(f[2 * i + 1]) * b.system.volume[i] * b.table.solids;
    }
    for (std::size_t s = 0; s < b.system.faces(); ++s) {
      water += f[b.system.liquid_index(s)] * b.system.area_of(s);
    }
    heat -= total(FacePath::convection) + total(FacePath::radiation) - total(FacePath::latent) -
            total(FacePath::vapour_sensible) - total(FacePath::run_off_sensible);
    water += total(FacePath::evaporated) + total(FacePath::run_off);
    CHECK(std::fabs(heat) < 1e-12 * heat_scale);
    CHECK(std::fabs(water) < 1e-12 * water_scale);
  }
}
