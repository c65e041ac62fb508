#include <algorithm>
#include <cmath>

#include "cook/errors.hpp"
#include "engine/grid.hpp"
#include "engine/line_cook.hpp"
#include "engine/probing.hpp"
#include "engine/runs.hpp"

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
  const auto &axis = grid.position;
  const auto above = std::upper_bound(axis.begin(), axis.end() - 1, at);
  const auto next = static_cast<std::size_t>(std::max<std::ptrdiff_t>(above - axis.begin(), 1));
  const double share = (at - axis[next - 1]) / (axis[next] - axis[next - 1]);
  placed.spot = {.node = {next - 1, next}, .weight = {1.0 - share, share}};
  return placed;
}

} // namespace

LineCook make_line_cook(const Plan &plan, const Options &options,
                        std::shared_ptr<const PropertyTable> table) {
  const Shape &shape = plan.meat.shape;
  const Grid grid = make_grid(shape, options.nodes, options.face_spacing.value_or(slab_face_spacing));
  auto outcome = std::make_shared<Outcome>();
  outcome->position = grid.position;
  outcome->node_volume = shares(grid.volume);
  Layout layout;
  layout.extent = grid.extent;
  place_probes(
      plan, {},
      [&](const Probe &probe, const std::string &field) { return line_place(grid, shape, probe, field); },
      layout, *outcome);
  LineCook cook;
  cook.run = std::make_unique<CookRun<LineSystem<double>>>(plan, options, LineSystem<double>(grid, *table),
                                                           std::move(layout), std::move(outcome));
  cook.table = std::move(table);
  return cook;
}

std::shared_ptr<const Outcome> run_line(const Plan &plan, const Options &options) {
  return make_line_cook(plan, options,
                        std::make_shared<const PropertyTable>(plan.meat.tissue, options.physics))
      .run->run();
}

} // namespace cook::engine
