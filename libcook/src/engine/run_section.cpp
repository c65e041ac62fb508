#include <cmath>

#include "cook/section.hpp"
#include "engine/cook_run.hpp"
#include "engine/probing.hpp"
#include "engine/runs.hpp"
#include "engine/section_grid.hpp"
#include "engine/section_system.hpp"

namespace cook::engine {

namespace {

/// A probe with an extended sensor averages from its tip back along the length, the way it was pushed in.
Placed section_place(const Section &section, const SectionGrid &grid, const Probe &probe,
                     const std::string &field) {
  Placed placed;
  if (probe.x || probe.z) {
    placed.x = probe.x.value_or(0.5 * section.length);
    placed.z = probe.z.value_or(0.5 * section.thickness_at(placed.x));
  } else {
    const Section::Place place = section.place(probe.name);
    placed.x = place.x;
    placed.z = place.z;
  }
  constexpr int points = 5;
  const int count = probe.tip > 0.0 ? points : 1;
  placed.spot = {.node = {}, .weight = {}};
  for (int p = 0; p < count; ++p) {
    const double back = count > 1 ? probe.tip * p / (count - 1) : 0.0;
    // A long sensor near the sloping top stays inside the meat.
    const double x = std::fmax(placed.x - back, 0.0);
    const double z = p > 0 ? std::fmin(placed.z, section.thickness_at(x)) : placed.z;
    const auto around = grid.locate(x, z, field);
    for (std::size_t i = 0; i < around.node.size(); ++i) {
      placed.spot.node.push_back(around.node[i]);
      placed.spot.weight.push_back(around.weight[i] / count);
    }
  }
  return placed;
}

} // namespace

std::shared_ptr<const Outcome> run_section(const Plan &plan, const Options &options) {
  const Section section = plan.meat.section ? *plan.meat.section : brisket_section(plan.meat);
  const SectionGrid grid =
      make_section_grid(section, options.columns, options.rows,
                        options.face_spacing.value_or(section_face_spacing), options.end_spacing);
  const PropertyTable flat(plan.meat.tissue, options.physics);
  const PropertyTable point(section.point.value_or(plan.meat.tissue), options.physics);
  const PropertyTable seam(section.seam.value_or(plan.meat.tissue), options.physics);
  SectionSystem system(grid, {&flat, &point, &seam});
  system.passes = options.sweeps;

  auto outcome = std::make_shared<Outcome>();
  outcome->position = grid.z;
  outcome->along = grid.x;
  outcome->columns = static_cast<int>(grid.nx);
  outcome->region.assign(grid.region.begin(), grid.region.end());
  outcome->node_volume = shares(grid.volume);
  Layout layout;
  layout.extent = grid.width;
  std::vector<Probe> always{{.name = "flat"}, {.name = "point"}};
  place_probes(
      plan, always,
      [&](const Probe &probe, const std::string &field) {
        return section_place(section, grid, probe, field);
      },
      layout, *outcome);
  system.show_faces_at(outcome->probes.front().x);
  CookRun<SectionSystem> run(plan, options, std::move(system), std::move(layout), std::move(outcome));
  return run.run();
}

} // namespace cook::engine
