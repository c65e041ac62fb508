/// @file
/// Many cooks through one system of packs, each in a lane of its own with its own time, step and stage; a
/// lane whose cook is over takes the next one.
///
/// What a cook does beside its equations (stages, ends, events, records, ledgers) is CookRun's, as for a cook
/// alone.
#pragma once

#include <array>
#include <cstddef>
#include <exception>
#include <functional>
#include <memory>
#include <optional>
#include <vector>

#include "engine/cells/pack_table.hpp"
#include "engine/cells/table_cache.hpp"
#include "engine/packs/pack_steps.hpp"
#include "engine/runs/line_cook.hpp"
#include "engine/time/ros3.hpp"
#include "engine/time/step_error.hpp"

namespace cook::engine {

/// What a pack takes its cooks from and gives them back to. All cooks of a queue have one kind of shape, on
/// the same number of lines.
struct PackQueue {
  std::function<std::optional<std::size_t>()> next; ///< index of the next cook, if there is one
  std::function<const Plan &(std::size_t)> plan;
  std::function<void(std::size_t, std::shared_ptr<const Outcome>, std::exception_ptr)> done;
};

template <std::size_t Lines> class PackRun {
public:
  /// @param options must outlive the run
  PackRun(const Options &options, PackQueue queue);
  ~PackRun();
  PackRun(const PackRun &) = delete;
  PackRun(PackRun &&) = delete;
  PackRun &operator=(const PackRun &) = delete;
  PackRun &operator=(PackRun &&) = delete;

  /// Until the queue is empty and all lanes are over.
  /// @param most lanes that are filled
  void run(std::size_t most = pack_lanes);

private:
  using System = LineSystem<Pack, PackTable, Lines>;
  using One = LineSystem<double, PropertyTable, Lines>;
  using Cook = CookRun<One>;
  struct Lane;

  void fill(std::size_t lane);
  void make_system(const Cook &cook);
  void load(std::size_t lane);
  void take_conditions(std::size_t lane, Lane &from);
  void take_state(std::size_t lane, const Lane &from);
  void give_states();
  void arrive(std::size_t lane);
  /// True: the lane's step is accepted.
  bool judge(std::size_t lane, const StepVerdict &verdict);
  void take_steps(const PackMask &accepted);
  void finish(std::size_t lane, std::exception_ptr failure);
  template <class Work> void guarded(std::size_t lane, Work work);

  const Options *options_;
  PackQueue queue_;
  std::array<std::unique_ptr<Lane>, pack_lanes> lanes_;
  TableCache tables_{2 * pack_lanes}; ///< lanes keep theirs alive
  /// Of the lanes, empty ones too: these go on computing with the last they had.
  std::array<std::shared_ptr<const PropertyTable>, pack_lanes> lane_tables_;
  PackTable table_;
  std::unique_ptr<System> system_;
  Ros3<Pack> stepper_;
  StepError<Pack> measure_;
  std::vector<Pack> y_, f_, next_, error_;
  Pack time_, length_;
};

} // namespace cook::engine
