/// @file
/// Changes of a plan that make a cook quicker.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "cook/plan/plan.hpp"

namespace cook {

/// A changed plan.
struct Change {
  std::string what; ///< in words
  Plan plan;
};

/// Whether nothing is wrapped round the meat.
[[nodiscard]] bool is_bare(const Stage &stage);
/// Place among a stage's ends of the core temperature that it waits for; empty: it waits for none.
[[nodiscard]] std::optional<std::size_t> core_end(const Stage &stage);

/// What would make a plan quicker from its beginning. @param done stage whose end is called done
[[nodiscard]] std::vector<Change> quicker(const Plan &plan, std::size_t done);

/// What hurries a cook in the stages from `first` on: a hotter pit, foil round what is not in foil. Empty:
/// nothing does.
[[nodiscard]] std::optional<Change> hurried(const Plan &plan, std::size_t first, std::size_t done);

} // namespace cook
