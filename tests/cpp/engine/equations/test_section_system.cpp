/// The equations on a cross-section: Jacobian against differences, conservation of the factorised solves, and
/// a long section of constant thickness against the slab.
#include <doctest/doctest.h>

#include <array>
#include <cmath>
#include <memory>
#include <random>
#include <string>
#include <utility>
#include <vector>

#include "cook/engine/simulate.hpp"
#include "engine/equations/section_system.hpp"
#include "engine/grids/sections.hpp"
#include "engine/stages/stage_setup.hpp"
#include "engine/time/ros3.hpp"

using namespace cook;
using namespace cook::engine;

namespace {

Stage stage_in(Surroundings surroundings, const char *covering) {
  Stage stage;
  stage.surroundings = std::move(surroundings);
  stage.wrap = wrap(covering);
  return stage;
}

/// Random states of a coarse section: wet and dry cells, juice under pressure and none, films.
struct Bench {
  Meat meat = brisket();
  Stage stage;
  SectionGrid grid;
  PropertyTable flat, point, seam;
  SectionSystem system;
  std::vector<double> y, f;

  Bench(const Section &section, Stage s)
      : stage(std::move(s)), grid(make_section_grid(section, 11, 9, 0.5e-3, 2e-3)),
        flat(meat.tissue, Physics{}), point(section.point.value_or(meat.tissue), Physics{}),
        seam(section.seam.value_or(meat.tissue), Physics{}), system(grid, {&flat, &point, &seam}) {
    system.set_faces(face_settings(meat, stage, Physics{}));
    system.drive.air.fill(stage.surroundings.air.at(0.0));
    system.drive.vapour = stage.surroundings.vapour_pressure.at(0.0);
    if (stage.surroundings.box) {
      system.drive.boxed = true;
      system.drive.box_capacity = 2e4;
      system.drive.box_loss = 3.0;
    }
    y.assign(system.size(), 0.0);
    f = y;
    std::mt19937 random(11);
    std::uniform_real_distribution<double> unit(0.0, 1.0);
    for (std::size_t p = 0; p < system.nodes(); ++p) {
      y[2 * p] = raw_eta(system.table(p), 30.0 + 60.0 * unit(random));
      y[2 * p + 1] = (0.2 + 1.0 * unit(random)) * system.table(p).raw_water;
    }
    for (std::size_t b = 0; b < system.faces(); ++b) {
      y[system.liquid_index(b)] = 0.06 * unit(random);
    }
    y[system.lumped_index(box_temperature)] = stage.surroundings.box ? 70.0 : 0.0;
    system.evaluate_cells(y);
    system.remember();
  }

  [[nodiscard]] double total(std::size_t side, FacePath path, const std::vector<double> &x) const {
    return system.face_area[side] * x[system.total_index(side, path)];
  }
};

std::vector<std::unique_ptr<Bench>> benches() {
  const Section section = brisket_section(brisket());
  std::vector<std::unique_ptr<Bench>> list;
  list.push_back(std::make_unique<Bench>(section, stage_in(pit("drum", 120.0), "none")));
  list.push_back(std::make_unique<Bench>(section, stage_in(pit("kettle", 135.0), "foil")));
  list.push_back(std::make_unique<Bench>(testing::bumpy_section(), stage_in(counter(), "butcher paper")));
  list.push_back(std::make_unique<Bench>(section, stage_in(insulated_box(), "towels")));
  return list;
}

} // namespace

TEST_CASE("the section that the equations are tested on has a seam and two tissues") {
  const Section section = brisket_section(brisket());
  REQUIRE(section.seam);
  REQUIRE(section.point);
  const Bench bench(section, stage_in(pit("drum", 120.0), "none"));
  std::array<int, 3> nodes{};
  for (const auto region : bench.grid.region) {
    ++nodes[region];
  }
  CHECK(nodes[0] > 0);
  CHECK(nodes[1] > 0);
  CHECK(nodes[2] > 0);
}

TEST_CASE("the Jacobian of a section matches central differences in every column") {
  for (const auto &bench : benches()) {
    Bench &b = *bench;
    const std::size_t n = b.system.size();
    std::vector<double> plus(n), minus(n), column(n), unit(n);
    b.system.linearise(0.0, b.y, b.f);
    std::vector<std::vector<double>> analytic;
    for (std::size_t j = 0; j < n; ++j) {
      unit.assign(n, 0.0);
      unit[j] = 1.0;
      b.system.multiply(unit, column);
      analytic.push_back(column);
    }
    double worst = 0.0;
    std::string where;
    for (std::size_t j = 0; j < n; ++j) {
      const double step = 1e-6 * std::fmax(std::fabs(b.y[j]), 0.1);
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
        // Rounding in the difference, then 2e-5 of the entry or of a thousandth of its column.
        const double allowed = 2e-13 * std::fmax(1.0, std::fabs(plus[i])) / step +
                               2e-5 * std::fmax(std::fabs(analytic[j][i]), 1e-3 * scale);
        const double off = std::fabs(difference - analytic[j][i]) / allowed;
        if (!(off <= worst)) {
          worst = off;
          where = "row " + std::to_string(i) + " column " + std::to_string(j) + ": " +
                  std::to_string(difference) + " and " + std::to_string(analytic[j][i]);
        }
      }
    }
    INFO(where, " wrap ", b.stage.wrap.name, " in ", b.stage.surroundings.kind);
    CHECK(worst < 1.0);
  }
}

TEST_CASE("a factorised solve keeps heat and water to rounding, however many sweeps") {
  for (const auto &bench : benches()) {
    Bench &b = *bench;
    for (const int sweeps : {1, 2, 3}) {
      for (const double step : {3.0, 300.0}) {
        b.system.linearise(0.0, b.y, b.f);
        b.system.passes = sweeps;
        b.system.factorise(1.0 / (Ros3Tableau::gamma * step));
        std::vector<double> x = b.f;
        b.system.solve(x);
        double heat = 0.0;
        double water = 0.0;
        double moved = 0.0;
        double carried = 0.0;
        for (std::size_t p = 0; p < b.system.nodes(); ++p) {
          const PropertyTable &table = b.system.table(p);
          heat += b.system.volume[p] * table.reference_capacity * x[2 * p];
          water += b.system.volume[p] * table.solids * x[2 * p + 1];
          moved += b.system.volume[p] * table.reference_capacity * std::fabs(x[2 * p]);
          carried += b.system.volume[p] * table.solids * std::fabs(x[2 * p + 1]);
        }
        for (std::size_t at = 0; at < b.system.faces(); ++at) {
          water += b.system.area_of(at) * x[b.system.liquid_index(at)];
        }
        double taken = 0.0;
        for (std::size_t side = 0; side < 2; ++side) {
          const auto total = [&](FacePath path) { return b.total(side, path, x); };
          taken += total(FacePath::convection) + total(FacePath::radiation);
          heat -= total(FacePath::convection) + total(FacePath::radiation) - total(FacePath::latent) -
                  total(FacePath::vapour_sensible) - total(FacePath::run_off_sensible);
          water += total(FacePath::evaporated) + total(FacePath::run_off);
        }
        INFO("sweeps ", sweeps, " step ", step, " in ", b.stage.surroundings.kind);
        CHECK(std::fabs(heat) < 1e-11 * moved);
        CHECK(std::fabs(water) < 1e-11 * carried);
        if (b.system.drive.boxed) { // what the meat took, the box gave
          const double given = b.system.drive.box_capacity * x[b.system.lumped_index(box_temperature)] +
                               x[b.system.air_total_index(box_loss)];
          CHECK(std::fabs(given + taken) < 1e-11 * moved);
        }
      }
    }
  }
}

TEST_CASE("sweeps of the factorised solve converge to the exact one") {
  for (const auto &bench : benches()) {
    Bench &b = *bench;
    const double shift = 1.0 / (Ros3Tableau::gamma * 30.0);
    std::vector<double> product(b.system.size());
    const auto residual = [&](int sweeps) {
      b.system.linearise(0.0, b.y, b.f);
      b.system.passes = sweeps;
      b.system.factorise(shift);
      std::vector<double> x = b.f;
      b.system.solve(x);
      b.system.multiply(x, product);
      double left = 0.0;
      double whole = 0.0;
      for (std::size_t i = 0; i < x.size(); ++i) { // films, box and totals included
        const double off = b.f[i] - shift * x[i] + product[i];
        left += off * off;
        whole += b.f[i] * b.f[i];
      }
      return std::sqrt(left / whole);
    };
    const double one = residual(1);
    const double many = residual(20);
    INFO("in ", b.stage.surroundings.kind, ", one sweep leaves ", one);
    CHECK(one < 0.5);
    CHECK(many < 1e-4 * one);
  }
}

TEST_CASE("the middle of a long section of constant thickness cooks like the slab") {
  Section section;
  section.length = 2.0;
  section.width = 0.3;
  section.at = {0.0, 2.0};
  section.thickness = {0.05, 0.05};
  section.side_share = 0.0;
  Plan plan;
  plan.meat = with_section(brisket(6.0), section);
  REQUIRE(plan.meat.shape.thickness == doctest::Approx(0.05));
  plan.probes = {{.name = "middle", .x = 1.0, .z = 0.025}};
  const std::pair<Stage, double> parts[]{{stage_in(pit("drum", 120.0), "none"), 5.0},
                                         {stage_in(pit("drum", 120.0), "butcher paper"), 3.0},
                                         {stage_in(counter(), "foil"), 1.5}};
  for (const auto &[stage, hours] : parts) {
    plan.stages.push_back(stage);
    plan.stages.back().until = {{EndKind::elapsed, hours * 3600.0}};
  }
  Options options;
  options.nodes = options.rows = 25;
  options.face_spacing = 0.3e-3;
  options.columns = 21;
  options.grid = GridKind::slab;
  const auto slab = simulate(plan, options);
  options.grid = GridKind::cross_section;
  const auto cut = simulate(plan, options);
  REQUIRE(slab->time.size() == cut->time.size());
  const ProbeTrace *middle = nullptr;
  for (const ProbeTrace &probe : cut->probes) {
    middle = probe.name == "middle" ? &probe : middle;
  }
  REQUIRE(middle != nullptr);
  double worst = 0.0;
  for (std::size_t i = 0; i < slab->time.size(); ++i) {
    REQUIRE(slab->time[i] == doctest::Approx(cut->time[i]));
    worst = std::fmax(worst, std::fabs(slab->core[i] - middle->temperature[i]));
  }
  CHECK(worst < 0.1);
  for (const Outcome *outcome : {slab.get(), cut.get()}) {
    CHECK(std::fabs(outcome->ledger.heat_residual) < 1e-9);
    CHECK(std::fabs(outcome->ledger.water_residual) < 1e-9);
  }
}
