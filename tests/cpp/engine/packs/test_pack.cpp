/// The engine's templates on a pack of cooks side by side: each lane computes what it would compute alone.
#include <doctest/doctest.h>

#include <array>
#include <cmath>
#include <memory>
#include <random>
#include <string>
#include <utility>
#include <vector>

#include "cook/cooker/chamber.hpp"
#include "cook/meat/shape.hpp"
#include "cooks.hpp"
#include "engine/cells/pack_table.hpp"
#include "engine/equations/line_system.hpp"
#include "engine/packs/pack_steps.hpp"
#include "engine/stages/stage_setup.hpp"
#include "engine/time/ros3.hpp"
#include "engine/time/step_error.hpp"

using namespace cook;
using namespace cook::engine;

namespace {

constexpr std::size_t lanes = 4;

/// The cook in a lane: four of them, twice.
constexpr std::size_t cook_in(std::size_t lane) { return lane % lanes; }

template <class F> Pack each(F f) {
  Pack p;
  for (std::size_t i = 0; i < pack_lanes; ++i) {
    p.set(i, f(cook_in(i)));
  }
  return p;
}

/// One lane on its own.
struct Lane {
  Meat meat;
  Stage stage;
  PropertyTable table;
  Grid grid;
  LineSystem<double> system;
  std::vector<double> y, f, next, error;

  Lane(Meat m, Stage s, unsigned seed)
      : meat(std::move(m)), stage(std::move(s)), table(meat.tissue, Physics{}),
        grid(make_grid(meat.shape, 21, 0.3e-3)), system(grid, table) {
    system.set_faces(face_settings(meat, stage, Physics{}));
    std::mt19937 random(seed);
    const auto unit = [&random] { return static_cast<double>(random()) / 4294967296.0; };
    system.drive.air = {90.0 + 40.0 * unit(), 90.0 + 40.0 * unit()};
    system.drive.air_slope = {0.01 * unit(), -0.01 * unit()};
    system.drive.vapour = stage.surroundings.vapour_pressure.at(0.0);
    system.drive.vapour_slope = 0.1;
    system.drive.lid = 0.9;
    system.drive.lid_slope = 1e-4;
    system.drive.ripple = {3.0, 5.0};
    system.drive.ripple_rate = {0.01, 0.02};
    system.drive.varies = true;
    if (stage.surroundings.box) {
      system.drive.boxed = true;
      system.drive.box_capacity = 4e4 + 2e4 * unit();
      system.drive.box_loss = 5.0 + 5.0 * unit();
    }
    if (stage.surroundings.pit_air) {
      auto balance = std::make_shared<AirBalance>();
      balance->air = *stage.surroundings.pit_air;
      if (balance->air.pan) {
        balance->pan = pan_setting(*balance->air.pan, 80.0);
      }
      system.drive.extent = grid.extent;
      set_balance(system.drive, balance);
    }
    y.assign(system.size(), 0.0);
    f = next = error = y;
    Row<double> row;
    for (std::size_t i = 0; i < system.nodes(); ++i) {
      y[2 * i] = 40.0 + 3.0 * static_cast<double>(i) * unit();
      y[2 * i + 1] = 0.3 + 2.5 * unit();
      const double peak = 30.0 + 60.0 * unit(); // some cells have been hotter
      table.lookup(peak, row);
      system.memory.put(i, {peak, row.value[col_held], row.value[col_denat_h]});
    }
    y[system.liquid_index(0)] = meat.shape.kind == ShapeKind::cylinder ? 0.0 : 0.02 * unit();
    y[system.liquid_index(1)] = 0.1 * unit();
    if (system.drive.balance) {
      y[system.lumped_index(air_vapour)] = 0.01 + 0.02 * unit();
      y[system.lumped_index(pan_temperature)] = system.drive.pan_area > 0.0 ? 40.0 + 30.0 * unit() : 0.0;
      y[system.lumped_index(pan_water)] = system.drive.pan_area > 0.0 ? 0.02 + 0.1 * unit() : 0.0;
    } else {
      y[system.box_index()] = 50.0 + 20.0 * unit();
    }
  }

  void step(double h) {
    Ros3<double> method(system.size());
    system.linearise(10.0, y, f);
    method.step(system, 10.0, y, f, h, next, error);
  }
};

/// Four lanes as one system.
struct Together {
  PackTable table;
  LineSystem<Pack, PackTable> system;
  std::vector<Pack> y, f, next, error;

  using Lanes = std::array<std::unique_ptr<Lane>, lanes>;

  static PackTable tables_of(const Lanes &all) {
    PackTable tables;
    for (std::size_t i = 0; i < pack_lanes; ++i) {
      tables.set(i, all[cook_in(i)]->table);
    }
    return tables;
  }

  explicit Together(const Lanes &all) : table(tables_of(all)), system(all[0]->grid, table) {
    const auto pack = [&](const auto &get) { return each([&](std::size_t i) { return get(*all[i]); }); };
    for (std::size_t n = 0; n < system.nodes(); ++n) {
      system.set_volume(n, pack([n](const Lane &l) { return l.system.volume[n]; }));
      system.memory[n] = {pack([n](const Lane &l) { return l.system.memory[n].peak; }),
                          pack([n](const Lane &l) { return l.system.memory[n].held_cap; }),
                          pack([n](const Lane &l) { return l.system.memory[n].denat_floor; })};
      if (n + 1 < system.nodes()) {
        system.conductance[n] = pack([n](const Lane &l) { return l.system.conductance[n]; });
      }
    }
    system.set_areas({pack([](const Lane &l) { return l.system.area[0]; }),
                      pack([](const Lane &l) { return l.system.area[1]; })});
    for (std::size_t i = 0; i < pack_lanes; ++i) {
      const Lane &own = *all[cook_in(i)];
      set_lane(system.drive, i, own.system.drive);
      for (std::size_t s = 0; s < 2; ++s) {
        set_lane(system.face[s], i, own.system.face[s]);
        system.face[s].resists_heat = system.face[s].resists_heat || own.system.face[s].resists_heat;
      }
    }
    system.drive.varies = all[0]->system.drive.varies;
    for (std::size_t k = 0; k < system.size(); ++k) {
      y.push_back(pack([k](const Lane &l) { return l.y[k]; }));
    }
    f = next = error = y;
  }

  void step(double h) {
    Ros3<Pack> method(system.size());
    system.linearise(Pack(10.0), y, f);
    method.step(system, Pack(10.0), y, f, Pack(h), next, error);
  }
};

Stage stage_in(const Surroundings &surroundings, const std::string &wrapped) {
  Stage stage;
  stage.surroundings = surroundings;
  stage.wrap = wrap(wrapped);
  return stage;
}

std::unique_ptr<Lane> lane(const Meat &meat, const Surroundings &surroundings, const std::string &wrapped,
                           unsigned seed) {
  return std::make_unique<Lane>(meat, stage_in(surroundings, wrapped), seed);
}

std::vector<Together::Lanes> four_by_four() {
  Meat porky = brisket(7.0);
  porky.tissue = pork_shoulder_tissue();
  std::vector<Together::Lanes> list;
  list.push_back({lane(brisket(4.0), pit("drum", 110.0), "none", 1),
                  lane(brisket(8.0), pit("kettle", 135.0), "foil", 2),
                  lane(porky, pit("offset", 120.0), "butcher paper", 3), lane(porky, oven(100.0), "pan", 4)});
  list.push_back({lane(brisket(4.0), insulated_box(), "none", 5),
                  lane(brisket(8.0), insulated_box(), "towels", 6), lane(porky, insulated_box(), "foil", 7),
                  lane(brisket(5.0), insulated_box(), "foil tent", 8)});
  list.push_back({lane(testing::roll(2.0), pit("drum", 110.0), "none", 9),
                  lane(testing::roll(3.0), oven(140.0, true), "foil", 10),
                  lane(testing::roll(4.0), counter(), "none", 11),
                  lane(testing::roll(5.0), pit("pellet", 120.0), "none", 12)});
  const auto breathing = [](const std::string &kind, double air, bool pan) {
    Surroundings s = pit(kind, air);
    s.pit_air = pit_air(kind, air);
    if (pan) {
      s.pit_air->pan = WaterPan{};
    }
    return s;
  };
  list.push_back({lane(brisket(4.0), breathing("drum", 110.0, true), "none", 13),
                  lane(brisket(8.0), insulated_box(), "foil", 14),
                  lane(porky, breathing("kettle", 95.0, false), "butcher paper", 15),
                  lane(porky, pit("offset", 120.0), "none", 16)});
  list.push_back({lane(testing::roll(2.0), breathing("drum", 110.0, true), "none", 17),
                  lane(testing::roll(3.0), breathing("pellet", 90.0, true), "foil", 18),
                  lane(testing::roll(4.0), breathing("kettle", 120.0, false), "none", 19),
                  lane(testing::roll(5.0), breathing("offset", 130.0, true), "none", 20)});
  return list;
}

} // namespace

TEST_CASE("one step of four cooks at once is, lane by lane, the step of each alone") {
  // Not to the last bit: a pack's search for the temperatures goes on until its slowest lane is there, which
  // leaves the others nearer to their root than alone (cell.hpp: within 1e-10 K).
  constexpr double agreement = 5e-9;
  double worst = 0.0;
  for (const Together::Lanes &all : four_by_four()) {
    for (const double h : {0.5, 20.0, 300.0}) {
      Together together(all);
      together.step(h);
      for (std::size_t i = 0; i < lanes; ++i) {
        Lane &alone = *all[i];
        alone.step(h);
        double change = 0.0;
        for (std::size_t k = 0; k < alone.y.size(); ++k) {
          INFO("lane ", i, " entry ", k, " step ", h, " wrap ", alone.stage.wrap.name);
          REQUIRE(std::isfinite(alone.next[k]));
          const auto agree = [&](double one, double other, double scale) {
            const double off = std::fabs(one - other) / std::fmax(std::fabs(one), scale);
            worst = std::fmax(worst, off);
            CHECK(off < agreement);
          };
          agree(alone.next[k], together.next[k][i], 1e-2);
          agree(alone.error[k], together.error[k][i], 1e-2);
          agree(alone.f[k], together.f[k][i], 1e-2);
          change = std::fmax(change, std::fabs(alone.next[k] - alone.y[k]));
        }
        CHECK(change > 1e-3); // something happened
      }
    }
  }
  MESSAGE("largest relative difference of a lane ", worst);
}

TEST_CASE("how large a lane's error is, and whether its step ended where it can be, is as alone") {
  constexpr Tolerance tolerance;
  for (const Together::Lanes &all : four_by_four()) {
    for (const double h : {0.5, 20.0, 300.0}) {
      Together together(all);
      together.step(h);
      const Pack square = StepError<Pack>(tolerance).square(together.system, together.error);
      const PackMask possible = plausible<Pack>(together.system, together.y, together.next);
      for (std::size_t i = 0; i < lanes; ++i) {
        Lane &alone = *all[i];
        alone.step(h);
        INFO("lane ", i, " step ", h);
        CHECK(square[i] ==
              doctest::Approx(StepError<double>(tolerance).square(alone.system, alone.error)).epsilon(1e-6));
        CHECK(possible[i] == plausible<double>(alone.system, alone.y, alone.next));
      }
    }
  }
}

TEST_CASE("a pan that a step has overdrawn, or a chamber's error, counts in its own lane") {
  const Together::Lanes all = std::move(four_by_four()[3]); // a pan, a box, a chamber without one, given air
  Together together(all);
  together.step(0.5);
  const auto &system = together.system;
  const auto possible = [&] { return plausible<Pack>(system, together.y, together.next); };
  REQUIRE(possible()[0]);
  const std::size_t water = system.lumped_index(pan_water);
  for (std::size_t i = 0; i < lanes; ++i) {
    const PackMask before = possible();
    together.next[water].set(i, -1e-3); // where there is no pan, nobody asks
    CHECK(possible()[i] == (i != 0 && before[i]));
  }
  const auto error_by = [&](std::size_t state, double by) {
    std::vector<Pack> error(system.size(), Pack(0.0));
    error[system.lumped_index(state)] = Pack(by);
    return StepError<Pack>(Tolerance{}).square(system, error);
  };
  const Pack of_box = error_by(box_temperature, 0.1);
  const Pack of_vapour = error_by(air_vapour, 1e-3);
  for (std::size_t i = 0; i < pack_lanes; ++i) {
    CHECK((of_box[i] > 0.0) == (cook_in(i) == 1));
    CHECK((of_vapour[i] > 0.0) == (cook_in(i) == 0 || cook_in(i) == 2));
  }
}

TEST_CASE("a pack remembers the peaks of its lanes, each its own") {
  const auto lists = four_by_four();
  const auto &all = lists[0];
  Together together(all);
  std::vector<Pack> f(together.system.size());
  together.system.rhs(Pack(0.0), together.y, f);
  together.system.remember();
  for (std::size_t i = 0; i < lanes; ++i) {
    Lane &alone = *all[i];
    alone.system.rhs(0.0, alone.y, alone.f);
    alone.system.remember();
    for (std::size_t n = 0; n < alone.system.nodes(); ++n) {
      INFO("lane ", i, " node ", n);
      CHECK(together.system.memory[n].peak[i] == doctest::Approx(alone.system.memory[n].peak).epsilon(1e-10));
      CHECK(together.system.memory[n].held_cap[i] ==
            doctest::Approx(alone.system.memory[n].held_cap).epsilon(1e-8));
      CHECK(together.system.memory[n].denat_floor[i] ==
            doctest::Approx(alone.system.memory[n].denat_floor).epsilon(1e-8));
    }
  }
}
