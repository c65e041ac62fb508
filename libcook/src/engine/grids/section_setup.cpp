#include "engine/grids/section_setup.hpp"

#include <cmath>

namespace cook::engine {

SectionSetup::SectionSetup(const Plan &plan, const Options &options)
    : section(plan.meat.section ? *plan.meat.section : default_section(plan.meat)),
      grid(make_section_grid(section, options.columns, options.rows,
                             options.face_spacing.value_or(section_face_spacing), options.end_spacing)),
      tissue_{PropertyTable(plan.meat.tissue, options.physics),
              PropertyTable(section.point.value_or(plan.meat.tissue), options.physics),
              PropertyTable(section.seam.value_or(plan.meat.tissue), options.physics)} {}

Placed SectionSetup::place(const Probe &probe, const std::string &field) const {
  Placed placed;
  if (probe.x || probe.z) {
    placed.x = probe.x.value_or(0.5 * section.length);
    placed.z = probe.z.value_or(0.5 * section.thickness_at(placed.x));
  } else {
    const Section::Place named = section.place(probe.name);
    placed.x = named.x;
    placed.z = named.z;
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

} // namespace cook::engine
