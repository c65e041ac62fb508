// The cells of one cook in blocks of eight: what is put in comes out, and the last block holds its last cell
// again.
#include <doctest/doctest.h>

#include <vector>

#include "cook/meat/shape.hpp"
#include "engine/cells/cell_blocks.hpp"
#include "engine/cells/cells_abreast.hpp"

using namespace cook;
using namespace cook::engine;

TEST_CASE("a number of a cell is that cell's, and of the last one that of the lanes beyond it") {
  using C = Cell<Pack>;
  for (const std::size_t n : {1UL, 7UL, 8UL, 9UL, 62UL}) {
    INFO(n, " cells");
    CellBlocks cells(n, cell_to_begin_with<Pack>());
    CHECK(cells.size() == n);
    CHECK(cells.blocks() == (n + 7) / 8);
    CHECK(cells[n - 1].t == 20.0);
    for (std::size_t i = 0; i < n; ++i) {
      cells.set(&C::t, i, 30.0 + static_cast<double>(i));
      cells.set(&C::hw_t, i, -static_cast<double>(i)); // the last of them all
    }
    for (std::size_t i = 0; i < n; ++i) {
      const Cell<double> cell = cells[i];
      CHECK(cell.t == 30.0 + static_cast<double>(i));
      CHECK(cell.hw_t == -static_cast<double>(i));
      CHECK(cell.base_t == 20.0);
      CHECK(cells.get(&C::t, i) == cell.t);
    }
    for (std::size_t lane = (n - 1) % pack_lanes; lane < pack_lanes; ++lane) {
      CHECK(cells.block(cells.blocks() - 1).t[lane] == 30.0 + static_cast<double>(n - 1));
    }
  }
}

TEST_CASE("cells abreast are what each would be alone, however many there are") {
  const PropertyTable table(brisket().tissue, {});
  for (const std::size_t n : {1UL, 5UL, 8UL, 17UL, 62UL}) {
    INFO(n, " cells");
    CellsAbreast abreast(n, [&](std::size_t) -> const PropertyTable & { return table; });
    CellBlocks cells(n, cell_to_begin_with<Pack>());
    MemoryBlocks memory(n, empty_memory<Pack>());
    CellArrays arrays(n);
    std::vector<double> y(2 * n), liquid(n, 0.0);
    for (std::size_t i = 0; i < n; ++i) {
      const auto k = static_cast<double>(i);
      y[2 * i] = 20.0 + 70.0 * k / static_cast<double>(n);
      y[2 * i + 1] = 0.5 + 2.5 * k / static_cast<double>(n);
    }
    liquid[n - 1] = 12.0;
    abreast.evaluate(Slopes::yes, y.data(), liquid.data(), memory, cells, arrays);
    for (std::size_t i = 0; i < n; ++i) {
      Cell<double> alone = cell_to_begin_with<double>();
      evaluate_cell<Slopes::yes>(table, y[2 * i], y[2 * i + 1], liquid[i], empty_memory<double>(), alone);
      const Cell<double> cell = cells[i];
      CHECK(cell.t == doctest::Approx(alone.t).epsilon(1e-12));
      CHECK(cell.t_eta == doctest::Approx(alone.t_eta).epsilon(1e-12));
      CHECK(cell.k == doctest::Approx(alone.k).epsilon(1e-12));
      CHECK(cell.phi == doctest::Approx(alone.phi).epsilon(1e-12));
      CHECK(cell.give_x == doctest::Approx(alone.give_x).epsilon(1e-12));
      CHECK(arrays[CellArrays::t][i] == cell.t);
      CHECK(arrays[CellArrays::expressed][i] == table.solids * cell.expressed);
      CHECK(arrays[CellArrays::juice_phi][i] == cell.juice_phi);
    }
    remember_peaks(cells, memory);
    CHECK(memory[n - 1].peak == cells[n - 1].t);
    CHECK(memory[0].held_cap == cells[0].fresh_held);
  }
}

TEST_CASE("squeezing that a cell begins is anticipated in that cell alone, and told") {
  const PropertyTable table(brisket().tissue, {});
  const std::size_t n = 11;
  CellsAbreast abreast(n, [&](std::size_t) -> const PropertyTable & { return table; });
  CellBlocks cells(n, cell_to_begin_with<Pack>());
  CellArrays arrays(n);
  for (std::size_t i = 0; i < n; ++i) {
    cells.set(&Cell<Pack>::phi, i, -1.0); // far from it
    cells.set(&Cell<Pack>::juice_phi, i, 0.0);
  }
  cells.set(&Cell<Pack>::phi, 9, -1e-6);
  std::vector<double> f(2 * n, 0.0);
  f[2 * 9 + 1] = 1e-3; // kg/kg a second: within 10 s it has juice
  const auto &changed = abreast.anticipate(f.data(), 10.0, nullptr, cells, arrays);
  REQUIRE(changed.size() == 1);
  CHECK(changed[0] == 9);
  CHECK(cells[9].juice_phi > 0.0);
  CHECK(arrays[CellArrays::juice_phi][9] == cells[9].juice_phi);
  CHECK(cells[8].juice_phi == 0.0);
  CHECK(cells[10].juice_phi == 0.0);
  // What a failed step has learned counts as well, where it is more.
  std::vector<double> learned(n, 0.0);
  learned[2] = 0.5;
  const auto &again = abreast.anticipate(f.data(), 10.0, learned.data(), cells, arrays);
  REQUIRE(again.size() == 1);
  CHECK(again[0] == 2);
  CHECK(cells[2].juice_phi == 0.5);
}
