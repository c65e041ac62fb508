#include "engine/grids/probing.hpp"

#include "cook/errors.hpp"

namespace cook::engine {

void place_probes(const Plan &plan, const std::vector<Probe> &always, const Locate &locate, Layout &layout,
                  Outcome &outcome) {
  layout.spots.clear();
  const auto add = [&](const Probe &probe, const std::string &field) {
    Placed placed = locate(probe, field);
    layout.spots.push_back(placed.spot);
    return placed;
  };
  const auto trace = [&](const Probe &probe, const std::string &field) {
    for (const ProbeTrace &other : outcome.probes) {
      if (other.name == probe.name) {
        throw InvalidInput(field + ".name",
                           in_quotes(probe.name) + " is used twice; give each probe its own name");
      }
    }
    const Placed placed = add(probe, field);
    layout.probes.push_back(layout.spots.size() - 1);
    layout.stem.push_back(probe.stem);
    outcome.probes.push_back({probe.name, placed.x, placed.z, {}, {}});
  };
  if (always.empty()) {
    add({}, "probe");
  }
  for (const Probe &probe : always) {
    trace(probe, "probes");
  }
  for (std::size_t i = 0; i < plan.probes.size(); ++i) {
    trace(plan.probes[i], "probes[" + std::to_string(i) + "]");
  }
  std::size_t core = 0;
  for (std::size_t i = 0; i < plan.stages.size(); ++i) {
    if (plan.stages[i].probe) {
      add(*plan.stages[i].probe, "stages[" + std::to_string(i) + "].probe");
      core = layout.spots.size() - 1;
    }
    layout.core.push_back(core);
  }
}

} // namespace cook::engine
