/// @file
/// Where the weight went, and the estimate of the fat that rendered out.
#include <algorithm>

#include "cook/readings/readings.hpp"
#include "readings/reading_tools.hpp"

namespace cook {

namespace {

/// Rendered share of the fat in the tissue, weighted by volume.
double tissue_share(const Outcome &outcome) {
  if (!readings::has_fields(outcome)) {
    return rendered_share(
        *std::max_element(outcome.mean_temperature.begin(), outcome.mean_temperature.end()));
  }
  const std::size_t n = outcome.nodes();
  std::vector<double> highest(outcome.temperature.begin(),
                              outcome.temperature.begin() + static_cast<std::ptrdiff_t>(n));
  for (std::size_t i = 1; i < outcome.times(); ++i) {
    for (std::size_t k = 0; k < n; ++k) {
      highest[k] = std::max(highest[k], outcome.temperature[i * n + k]);
    }
  }
  double share = 0.0;
  for (std::size_t k = 0; k < n; ++k) {
    share += outcome.node_volume[k] * rendered_share(highest[k]);
  }
  return share;
}

} // namespace

double rendered_share(double highest) {
  const double u = std::clamp((highest - rendering_start) / (rendering_end - rendering_start), 0.0, 1.0);
  return rendered_share_cooked * u * u * (3.0 - 2.0 * u);
}

double rendered_fat(const Outcome &outcome) {
  readings::require_samples(outcome);
  const Meat &meat = outcome.plan.meat;
  const double in_tissue = meat.tissue.fat_density() * meat.shape.volume();
  double fat = in_tissue * tissue_share(outcome);
  if (meat.fat_cap.side != FatSide::none) {
    const std::vector<double> &face = outcome.surface[meat.fat_cap.side == FatSide::down ? 0 : 1];
    const double cap = meat.mass() - meat.tissue.raw_density() * meat.shape.volume();
    fat += cap * cap_fat_share * rendered_share(*std::max_element(face.begin(), face.end()));
  }
  return fat;
}

Loss loss(const Outcome &outcome) {
  readings::require_samples(outcome);
  const Ledger &ledger = outcome.ledger;
  return {.raw = outcome.plan.meat.mass(),
          .evaporated = ledger.evaporated,
          .dripped = ledger.run_off,
          .in_wrap = ledger.on_surface,
          .fat = rendered_fat(outcome),
          .spritzed = ledger.spritzed};
}

} // namespace cook
