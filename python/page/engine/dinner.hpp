/// @file
/// Dinner at six: the same possible cooks under each of a few plans, a few cooks at a time, so that a page
/// stays awake. They are drawn, run and read by the library's own search for a plan (futures.hpp), and told
/// as python/libcook/planner/measure.py takes them.
#pragma once

#include <cstddef>
#include <vector>

#include "cook/fit/forecast.hpp"
#include "cook/fit/futures.hpp"
#include "json/text.hpp"

namespace cook::page {

using json::Json;

/// Possible cooks of a habit under the plans that may be chosen instead of it.
class Dinner {
public:
  /// @param ask {"settings": as plan_of() takes them, "plans": [settings that differ from these, ...; the
  /// habit first], "members": how many possible cooks, "rest": [s], "longest": wait for dinner [s], "waits":
  /// moments of it [s]} The cooks are drawn here, for the habit, which takes a while.
  /// @throws InvalidInput as plan_of() and forecast()
  explicit Dinner(const Json &ask);

  /// What is told at the beginning: "weight" of the cooks, and "normals": standard normal numbers, one in
  /// each slice of equal probability in an order of their own, by which a saving is believed of a cook.
  [[nodiscard]] Json drawn() const;
  /// Simulates up to so many more cooks, of one plan: its place and the cooks; null stands for what is not
  /// finite.
  [[nodiscard]] Json next(std::size_t count);
  [[nodiscard]] bool done() const { return plan_ == plans_.size(); }
  /// A plan whole, with its rest and its wait for dinner.
  [[nodiscard]] Plan whole(std::size_t plan) const;

private:
  std::vector<std::vector<Stage>> plans_;
  Forecast habit_;
  FuturesQuery query_;
  std::size_t plan_ = 0;
  std::size_t at_ = 0;
};

} // namespace cook::page
