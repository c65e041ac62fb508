/// Observed orders of accuracy of the coupled equations, by manufactured solutions.
#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>
#include <numbers>
#include <string>
#include <vector>

#include "cook/meat/shape.hpp"
#include "engine/equations/manufactured.hpp"
#include "engine/grids/grid.hpp"
#include "engine/stages/stage_setup.hpp"
#include "engine/time/ros3.hpp"

using namespace cook;
using namespace cook::engine;
using namespace cook::testing;

namespace {

/// Root-mean-square errors over the volume.
struct Errors {
  double temperature = 0.0; ///< [K]
  double water = 0.0;       ///< [kg/kg dry]
};

struct Setting {
  ShapeKind kind = ShapeKind::slab;
  double hump = 0.0;
  Sources sources = Sources::continuous;
  double base = 60.0; ///< temperature at the start [°C]
};

Meat specimen(const Setting &setting, const Fields &fields) {
  Meat meat = brisket(6.0);
  // The onset of expression is a corner in the second derivative; wide enough here for the coarsest grid to
  // see it.
  meat.tissue.mobility.switch_width = 0.5;
  meat.tissue.sinks.fat_melt_start = 55.0; // so that melting is under way as well
  meat.tissue.sinks.fat_melt_end = 85.0;
  meat.fat_cap.side = setting.kind == ShapeKind::slab ? FatSide::down : FatSide::none;
  meat.shape.kind = setting.kind;
  meat.shape.thickness = setting.kind == ShapeKind::slab ? fields.length : 2.0 * fields.length;
  return meat;
}

/// Runs from one time to the end of the fields in equal steps; a real pit with a ripple acts on the faces
/// meanwhile.
template <class Table> Errors run(const Setting &setting, int nodes, double face_spacing, int steps) {
  Fields fields;
  fields.hump = setting.hump;
  fields.base = setting.base;
  fields.slope = setting.kind == ShapeKind::slab ? 1.0 : 0.0;
  const Meat meat = specimen(setting, fields);
  const Table table(meat.tissue, Physics{});
  const Grid grid = make_grid(meat.shape, nodes, face_spacing);
  ManufacturedSystem<Table> system(grid, table, fields, setting.sources);
  Stage stage;
  stage.surroundings = pit("offset", 110.0);
  stage.wrap.top.vapour_resistance = 50.0;
  system.inner.set_faces(face_settings(meat, stage, Physics{}));
  system.inner.drive.air.fill(110.0);
  system.inner.drive.vapour = 8000.0;
  system.inner.drive.ripple.fill(5.0);
  system.inner.drive.ripple_rate.fill(2.0 * std::numbers::pi / 3600.0);
  system.inner.drive.varies = true;

  Ros3<double> method(system.inner.size());
  std::vector<double> y = system.exact(0.0);
  std::vector<double> f(y.size()), next(y.size()), ignored(y.size());
  const double h = fields.seconds / steps;
  for (int i = 0; i < steps; ++i) {
    const double t = i * h;
    system.linearise(t, y, f);
    method.step(system, t, y, f, h, next, ignored);
    y.swap(next);
  }
  system.inner.evaluate_cells(y);
  Errors errors;
  double volume = 0.0;
  for (std::size_t i = 0; i < grid.nodes(); ++i) {
    const double at = grid.position[i];
    const double heat = system.inner.cells[i].t - fields.temperature(at, fields.seconds).value;
    const double water = y[2 * i + 1] - fields.water(at, fields.seconds).value;
    errors.temperature += grid.volume[i] * heat * heat;
    errors.water += grid.volume[i] * water * water;
    volume += grid.volume[i];
  }
  errors = {std::sqrt(errors.temperature / volume), std::sqrt(errors.water / volume)};
  return errors;
}

/// Observed orders between successive runs, each twice as fine as the one before.
std::vector<double> orders(const std::vector<double> &errors) {
  std::vector<double> list;
  for (std::size_t i = 1; i < errors.size(); ++i) {
    list.push_back(std::log2(errors[i - 1] / errors[i]));
  }
  return list;
}

/// Order over all doublings together.
double overall(const std::vector<double> &errors) {
  return std::log2(errors.front() / errors.back()) / static_cast<double>(errors.size() - 1);
}

struct Study {
  std::vector<double> temperature, water; ///< root-mean-square errors

  void add(const Errors &e) {
    temperature.push_back(e.temperature);
    water.push_back(e.water);
  }
  [[nodiscard]] std::string text() const {
    std::string line;
    const auto write = [&line](const char *name, const std::vector<double> &errors) {
      line += std::string("; ") + name + " error " + std::to_string(1e6 * errors.back()) + "e-6, orders";
      for (const double order : orders(errors)) {
        line += " " + std::to_string(order).substr(0, 4);
      }
    };
    write("T", temperature);
    write("X", water);
    return line;
  }
};

/// 20, 40, 80, 160 spacings across (half of them along a radius), graded so that the first is a quarter of
/// the even one: spacings differ by up to a factor of eight. Steps short enough that their error is a tenth
/// at most.
template <class Table> Study refine_grid(const Setting &setting) {
  Study study;
  for (int level = 0; level < 4; ++level) {
    study.add(run<Table>(setting, 20 * (1 << level) + 1, 0.6e-3 / (1 << level), std::min(120 << level, 480)));
  }
  return study;
}

Study refine_step(const Setting &setting, int nodes, double face_spacing, int coarsest, int finest) {
  Study study;
  for (int steps = coarsest; steps <= finest; steps *= 2) {
    study.add(run<PropertyTable>(setting, nodes, face_spacing, steps));
  }
  return study;
}

std::string name(ShapeKind kind) { return kind == ShapeKind::slab ? "slab" : "cylinder"; }

constexpr double ridge = 0.8; // kg/kg dry

} // namespace

TEST_CASE("where all is centred, the coupled equations are second order in space on graded grids") {
  // Constant mobilities and water without heat of its own; conduction with k(T, X), melting, denaturation,
  // release of juice, both branches of the water law and the faces are all there, and the flow turns round at
  // the ridge.
  for (const Setting &setting : {Setting{ShapeKind::slab, ridge}, Setting{ShapeKind::cylinder, ridge}}) {
    const Study study = refine_grid<CentredTable>(setting);
    MESSAGE(name(setting.kind), study.text());
    for (const auto *errors : {&study.temperature, &study.water}) {
      CHECK(overall(*errors) > 1.8);
      CHECK(overall(*errors) < 2.4);
      CHECK(orders(*errors).back() > 1.4);
    }
  }
}

TEST_CASE("the full equations are first order in space: mobility and enthalpy come from the upwind side") {
  // Taken half a spacing upstream of where the flux is, a mobility D is wrong by dD/dx h/2, and so is the
  // flux: first order, whatever the rest does. It is the price of juice passing through a dried skin. That
  // the flux is wrong by no more shows in the errors: a few hundredths of a kelvin and a hundredth of a kg/kg
  // on a grid like the default one.
  for (const Setting &setting : {Setting{ShapeKind::slab, 0.0}, Setting{ShapeKind::slab, ridge},
                                 Setting{ShapeKind::cylinder, ridge}}) {
    const Study study = refine_grid<PropertyTable>(setting);
    MESSAGE(name(setting.kind), std::string(setting.hump == 0.0 ? ", flow outward" : ", flow turning round"),
            study.text());
    CHECK(study.temperature[1] < 0.03);
    CHECK(study.water[1] < 0.01);
    CHECK(orders(study.temperature).back() > 0.8);
    CHECK(orders(study.temperature).back() < 1.6);
    CHECK(orders(study.water).back() > 0.7);
    CHECK(overall(study.water) > 0.85);
    CHECK(overall(study.water) < 2.1);
  }
}

TEST_CASE("the manufactured flow keeps its direction without the ridge and turns round with it") {
  const Meat meat = brisket(6.0);
  const PropertyTable table(meat.tissue, Physics{});
  const Grid grid = make_grid(meat.shape, 21, 1e-3);
  for (const double hump : {0.0, ridge}) {
    Fields fields;
    fields.hump = hump;
    const ManufacturedSystem<PropertyTable> system(grid, table, fields, Sources::continuous);
    int inward = 0;
    for (double t = 0.0; t <= fields.seconds; t += 0.1 * fields.seconds) {
      for (double at = 0.01; at < 1.0; at += 0.03) {
        inward += system.water_flux(at * fields.length, t) < 0.0 ? 1 : 0;
      }
    }
    CHECK((inward > 0) == (hump > 0.0));
  }
}

TEST_CASE("third order in time once steps resolve the faces, between two and three before that") {
  // The fields at the nodes solve the semi-discrete equations exactly, so all that is left is the error in
  // time. The method has order three. For parabolic equations with conditions at the boundary that depend on
  // time, Rosenbrock methods without further order conditions show a fractional order between two and three
  // while steps are longer than the time constants of the thinnest cells: Ostermann & Roche, SIAM J. Numer.
  // Anal. 30 (1993) 1084.
  for (const ShapeKind kind : {ShapeKind::slab, ShapeKind::cylinder}) {
    const Setting setting{kind, 0.0, Sources::semi_discrete};
    const Study resolved = refine_step(setting, 9, 8e-3, 960, 3840);
    MESSAGE(name(kind), ", thick cells", resolved.text());
    CHECK(orders(resolved.temperature).back() > 2.6);
    CHECK(orders(resolved.temperature).back() < 3.3);
    CHECK((overall(resolved.water) > 2.2 || resolved.water.back() < 1e-11)); // or down at rounding
    const Study stiff = refine_step(setting, 41, 0.3e-3, 60, 480);
    MESSAGE(name(kind), ", thin cells at the face", stiff.text());
    for (const double order : orders(stiff.temperature)) {
      CHECK(order > 2.0);
      CHECK(order < 3.0);
    }
    CHECK(overall(stiff.water) > 2.2);
  }
}
