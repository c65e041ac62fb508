/// @file
/// The latest property tables that were made: to make one takes as long as a few steps, and cooks one after
/// another mostly are of one meat.
#pragma once

#include <cstddef>
#include <memory>
#include <vector>

#include "engine/cells/property_table.hpp"

namespace cook::engine {

class TableCache {
public:
  /// @param most tables that it keeps; a caller's own stay with the caller
  explicit TableCache(std::size_t most) : most_(most) {}

  [[nodiscard]] std::shared_ptr<const PropertyTable> of(const Tissue &tissue, const Physics &physics) {
    for (const Made &made : made_) {
      if (made.tissue == tissue && made.physics == physics) {
        return made.table;
      }
    }
    if (made_.size() >= most_) {
      made_.erase(made_.begin());
    }
    made_.push_back({tissue, physics, std::make_shared<const PropertyTable>(tissue, physics)});
    return made_.back().table;
  }

private:
  struct Made {
    Tissue tissue;
    Physics physics;
    std::shared_ptr<const PropertyTable> table;
  };
  std::size_t most_;
  std::vector<Made> made_;
};

} // namespace cook::engine
