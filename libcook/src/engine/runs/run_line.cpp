#include <algorithm>
#include <cmath>

#include "cook/errors.hpp"
#include "engine/cells/table_cache.hpp"
#include "engine/grids/grid.hpp"
#include "engine/grids/piece_grid.hpp"
#include "engine/grids/probing.hpp"
#include "engine/runs/line_cook.hpp"
#include "engine/runs/runs.hpp"

namespace cook::engine {

namespace {

/// Without z: the middle.
Placed line_place(const Grid &grid, const Shape &shape, const Probe &probe, const std::string &field) {
  Placed placed;
  placed.z = 0.5 * shape.thickness;
  placed.spot.node = {grid.middle};
  if (!probe.z) {
    return placed;
  }
  placed.z = *probe.z;
  check::within(field + ".z", placed.z, 0.0, shape.thickness, "m", "height above the bottom face");
  const double at = shape.kind == ShapeKind::slab ? placed.z : std::fabs(placed.z - 0.5 * shape.thickness);
  const auto &axis = grid.position; // of two lines, that of the middle's nodes
  const std::size_t step = grid.lines;
  std::size_t next = step;
  while (next + step < axis.size() && axis[next] <= at) {
    next += step;
  }
  const double share = (at - axis[next - step]) / (axis[next] - axis[next - step]);
  placed.spot = {.node = {next - step, next}, .weight = {1.0 - share, share}};
  return placed;
}

/// Nodes line by line, the middle's first.
std::vector<std::size_t> line_by_line(const Grid &grid) {
  std::vector<std::size_t> nodes;
  for (std::size_t line = 0; line < grid.lines; ++line) {
    for (std::size_t i = line; i < grid.nodes(); i += grid.lines) {
      nodes.push_back(i);
    }
  }
  return nodes;
}

} // namespace

std::size_t lines_of(const Meat &meat, const Options &options) {
  return options.grid == GridKind::piece && has_sides(meat.shape) ? 2 : 1;
}

Grid line_grid(const Meat &meat, const Options &options) {
  const double face_spacing = options.face_spacing.value_or(slab_face_spacing);
  return lines_of(meat, options) == 2 ? make_piece_grid(meat.shape, options.nodes, face_spacing)
                                      : make_grid(meat.shape, options.nodes, face_spacing);
}

template <std::size_t Lines>
LineCook<Lines> make_line_cook(const Plan &plan, const Options &options,
                               std::shared_ptr<const PropertyTable> table) {
  using System = LineSystem<double, PropertyTable, Lines>;
  const Shape &shape = plan.meat.shape;
  const Grid grid = line_grid(plan.meat, options);
  auto outcome = std::make_shared<Outcome>();
  Layout layout;
  layout.share = shares(grid.volume);
  layout.extent = grid.extent;
  layout.lines = Lines;
  if (Lines > 1) {
    layout.upright = rim_side_share(shape);
  }
  outcome->lines = static_cast<int>(Lines);
  for (const std::size_t node : line_by_line(grid)) {
    outcome->position.push_back(grid.position[node]);
    outcome->node_volume.push_back(layout.share[node]);
  }
  place_probes(
      plan, {},
      [&](const Probe &probe, const std::string &field) { return line_place(grid, shape, probe, field); },
      layout, *outcome);
  LineCook<Lines> cook;
  cook.run = std::make_unique<CookRun<System>>(plan, options, System(grid, *table), std::move(layout),
                                               std::move(outcome));
  cook.table = std::move(table);
  return cook;
}

template LineCook<1> make_line_cook<1>(const Plan &, const Options &, std::shared_ptr<const PropertyTable>);
template LineCook<2> make_line_cook<2>(const Plan &, const Options &, std::shared_ptr<const PropertyTable>);

std::shared_ptr<const Outcome> run_line(const Plan &plan, const Options &options) {
  thread_local TableCache latest(1);
  const auto table = latest.of(plan.meat.tissue, options.physics);
  return lines_of(plan.meat, options) == 2 ? make_line_cook<2>(plan, options, table).run->run()
                                           : make_line_cook<1>(plan, options, table).run->run();
}

} // namespace cook::engine
