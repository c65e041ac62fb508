/// @file
/// A place between nodes, where a probe's tip is.
#pragma once

#include <cstddef>
#include <vector>

namespace cook::engine {

/// Nodes around a place and their weights, which sum to one.
struct Spot {
  std::vector<std::size_t> node{0};
  std::vector<double> weight{1.0};

  /// Value there of something known at the nodes.
  template <class OfNode> [[nodiscard]] double mean(const OfNode &of) const {
    double sum = 0.0;
    for (std::size_t i = 0; i < node.size(); ++i) {
      sum += weight[i] * of(node[i]);
    }
    return sum;
  }
  [[nodiscard]] double of(const std::vector<double> &values) const {
    return mean([&](std::size_t i) { return values[i]; });
  }
};

/// What a run needs to know about its mesh beside the system's equations.
struct Layout {
  std::vector<double> share;       ///< of the volume that each node stands for [-]
  double upright = 1.0;            ///< of a rim; see face_settings()
  std::size_t lines = 1;           ///< side by side, node by node in turn; stored one after the other
  double extent = 1.0;             ///< totals = per-unit value x extent: footprint [m²], length or width [m]
  std::vector<Spot> spots;         ///< every place that is watched or recorded
  std::vector<std::size_t> core;   ///< spot that each stage watches
  std::vector<std::size_t> probes; ///< spot of each of Outcome::probes
  std::vector<double> stem;        ///< their Probe::stem
};

} // namespace cook::engine
