#include "engine/equations/section_system.hpp"
#include "engine/grids/section_setup.hpp"
#include "engine/runs/cook_run.hpp"
#include "engine/runs/runs.hpp"

namespace cook::engine {

std::shared_ptr<const Outcome> run_section(const Plan &plan, const Options &options) {
  const SectionSetup setup(plan, options);
  const SectionGrid &grid = setup.grid;
  SectionSystem system(grid, setup.tables());
  system.passes = options.sweeps;

  auto outcome = std::make_shared<Outcome>();
  outcome->position = grid.z;
  outcome->along = grid.x;
  outcome->columns = static_cast<int>(grid.nx);
  outcome->region.assign(grid.region.begin(), grid.region.end());
  outcome->node_volume = shares(grid.volume);
  Layout layout;
  layout.share = outcome->node_volume;
  layout.extent = grid.width;
  std::vector<Probe> always{{.name = "flat"}, {.name = "point"}};
  place_probes(
      plan, always, [&](const Probe &probe, const std::string &field) { return setup.place(probe, field); },
      layout, *outcome);
  system.show_faces_at(outcome->probes.front().x);
  CookRun<SectionSystem> run(plan, options, std::move(system), std::move(layout), std::move(outcome));
  return run.run();
}

} // namespace cook::engine
