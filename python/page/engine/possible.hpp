/// @file
/// How sure a cook's times are: possible cooks of the same plan, a few at a time, so that a page stays awake.
/// Drawn and told as python/libcook/words/variants.py does.
#pragma once

#include <cstddef>
#include <vector>

#include "cook/fit/belief.hpp"
#include "cook/plan/outcome.hpp"
#include "json/text.hpp"

namespace cook::page {

using json::Json;

/// The possible cooks of one plan.
class Possible {
public:
  /// @param count how many  @throws as believe() and draw_cooks()
  Possible(const Plan &plan, int count);
  /// Simulates up to so many more; what each gave, null for one that does not finish.
  [[nodiscard]] Json next(int count);
  [[nodiscard]] bool done() const { return at_ == draws_.plans.size(); }

private:
  Draws draws_;
  std::size_t at_ = 0;
};

/// A time of the simulation [s] as the clock on the wall shows it, where the meat takes `pace` times as long.
[[nodiscard]] double on_the_wall(const Outcome &outcome, double pace, double seconds);

} // namespace cook::page
