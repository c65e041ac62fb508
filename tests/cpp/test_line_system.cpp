/// The semi-discrete equations: Jacobian against differences, linear solves, conservation of the rates.
#include <doctest/doctest.h>

#include <cmath>
#include <memory>
#include <random>
#include <utility>

#include "cook/shape.hpp"
#include "engine/line_system.hpp"
#include "engine/stage_setup.hpp"

using namespace cook;
using namespace cook::engine;

namespace {

struct Bench {
  Meat meat;
  Stage stage;
  PropertyTable table;
  Grid grid;
  LineSystem<double> system;
  std::vector<double> y;

  Bench(Meat m, Stage s, double box_temperature = 60.0)
      : meat(std::move(m)), stage(std::move(s)), table(meat.tissue, Physics{}),
        grid(make_grid(meat.shape, 21, 0.5e-3)), system(grid, table) {
    system.set_faces(face_settings(meat, stage, Physics{}));
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
    y[system.film_index(0)] = 0.03;
    y[system.film_index(1)] = 0.07;
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
std::vector<std::unique_ptr<Bench>> benches() {
  std::vector<std::unique_ptr<Bench>> list;
  list.push_back(std::make_unique<Bench>(brisket(), stage_in(pit("drum", 110.0), "none")));
  list.push_back(std::make_unique<Bench>(brisket(), stage_in(pit("kettle", 135.0), "foil")));
  list.push_back(std::make_unique<Bench>(brisket(), stage_in(counter(), "butcher paper")));
  list.push_back(std::make_unique<Bench>(brisket(), stage_in(insulated_box(), "towels"), 65.0));
  list.push_back(std::make_unique<Bench>(pork_shoulder(), stage_in(pit("offset", 110.0), "none")));
  list.push_back(std::make_unique<Bench>(pork_shoulder(), stage_in(insulated_box(), "none"), 80.0));
  return list;
}

} // namespace

TEST_CASE("the analytic Jacobian matches central differences in every column") {
  for (const auto &bench : benches()) {
    Bench &b = *bench;
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

TEST_CASE("solve() inverts shift I - J for the whole state") {
  for (const auto &bench : benches()) {
    Bench &b = *bench;
    const std::size_t n = b.system.size();
    std::vector<double> f(n), product(n), x(n);
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
        x[b.system.film_index(0)] = 0.0;
        for (std::size_t p = 0; p < face_paths; ++p) {
          x[b.system.total_index(0, static_cast<FacePath>(p))] = 0.0;
        }
      }
      auto right = x;
      b.system.multiply(x, product);
      for (std::size_t i = 0; i < n; ++i) {
        right[i] = shift * x[i] - product[i];
      }
      b.system.factorise(shift);
      b.system.solve(right);
      for (std::size_t i = 0; i < n; ++i) {
        INFO("entry ", i, " shift ", shift);
        CHECK(right[i] == doctest::Approx(x[i]).epsilon(1e-7));
      }
    }
  }
}

TEST_CASE("no step size makes a film's elimination lose digits: its pivot stays away from zero") {
  // At given enthalpy more film is colder and evaporates less, so a hot wet film feeds itself. Where the
  // shift equals that, eliminating the film at given enthalpy divides by nothing.
  int fed = 0;
  for (const auto &bench : benches()) {
    Bench &b = *bench;
    const std::size_t n = b.system.size();
    std::vector<double> f(n), product(n), x(n), unit(n, 0.0);
    std::mt19937 random(5);
    std::uniform_real_distribution<double> any(-1.0, 1.0);
    for (std::size_t s = 0; s < 2; ++s) {
      if (b.system.face_area[s] == 0.0) {
        continue;
      }
      b.y[2 * b.system.face_node(s)] = 95.0;
      b.system.linearise(0.0, b.y, f);
      const std::size_t film = b.system.film_index(s);
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
        auto right = x;
        b.system.multiply(x, product);
        for (std::size_t i = 0; i < n; ++i) {
          right[i] = shift * x[i] - product[i];
        }
        b.system.factorise(shift);
        b.system.solve(right);
        for (std::size_t i = 0; i < n; ++i) {
          INFO("entry ", i, ", shift off by ", off);
          CHECK(std::fabs(right[i] - x[i]) < 1e-8);
        }
      }
    }
  }
  CHECK(fed >= 2);
}

TEST_CASE("what leaves one account enters another: weighted rates sum to zero") {
  for (const auto &bench : benches()) {
    Bench &b = *bench;
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
    for (std::size_t s = 0; s < 2; ++s) {
      water += f[b.system.film_index(s)] * b.system.face_area[s];
    }
    heat -= total(FacePath::convection) + total(FacePath::radiation) - total(FacePath::latent) -
            total(FacePath::vapour_sensible) - total(FacePath::run_off_sensible);
    water += total(FacePath::evaporated) + total(FacePath::run_off);
    CHECK(std::fabs(heat) < 1e-12 * heat_scale);
    CHECK(std::fabs(water) < 1e-12 * water_scale);
  }
}
