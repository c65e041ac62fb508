/// @file
/// One cook: carries the system through the stages of a plan and fills an Outcome.
#pragma once

#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "cook/errors.hpp"
#include "cook/simulate.hpp"
#include "engine/recorder.hpp"
#include "engine/step_control.hpp"
#include "engine/timeline.hpp"
#include "engine/watch.hpp"

namespace cook::engine {

/// @tparam System LineSystem<double> or SectionSystem
template <class System> class CookRun {
public:
  /// @param outcome with the geometry filled in
  CookRun(const Plan &plan, const Options &options, System system, Layout layout,
          std::shared_ptr<Outcome> outcome);

  /// Runs all stages. Throws Unreachable, SolverFailure or Interrupted with the outcome so far.
  std::shared_ptr<const Outcome> run();

private:
  enum class StageResult { next_moment, ended };

  void start_state();
  void run_stage(std::size_t index);
  void begin_stage(std::size_t index, const Timeline &timeline);
  void enter_surroundings(const Surroundings &s);
  void close_air();
  [[nodiscard]] double evaporated() const;
  /// Integrates to `moment`, or to the first end condition met before it.
  StageResult to_moment(double moment, const std::vector<End> &conditions, std::string &reason);
  /// Shortens the step just made so that it ends where a condition is met. `before` is the state it started
  /// from.
  void locate(const std::vector<End> &conditions, std::string &reason);
  void spritz(const Spritz &spritz);
  void relinearise();
  void snapshot();
  [[nodiscard]] Watched watched(double step) const;
  [[nodiscard]] double converted_after(double step, std::size_t spot) const;
  [[nodiscard]] std::size_t bark_node() const;
  [[nodiscard]] double core_now() const;
  [[nodiscard]] double spot_now(std::size_t spot) const;
  [[nodiscard]] std::size_t core_spot() const { return layout_.core[stage_]; }
  [[nodiscard]] double heat_content() const;
  [[nodiscard]] double water_content() const;
  void close_ledger();
  void finish();
  [[nodiscard]] std::string where() const;
  [[nodiscard]] std::optional<double> levels_off_at() const;
  [[noreturn]] void give_up(const Timeline &timeline);
  [[noreturn]] void fail(const std::string &message);

  const Plan *plan_;
  const Options *options_;
  std::shared_ptr<Outcome> outcome_;
  System system_;
  Layout layout_;
  StepControl<System> control_;
  Recorder<System> recorder_;
  Arrhenius conversion_;

  std::size_t stage_ = 0;
  double time_ = 0.0;
  std::vector<double> y_, f_;
  Snapshot before_, now_;
  double stage_peak_core_ = -1e9;
  double start_heat_ = 0.0;
  double start_water_ = 0.0;
  double air_found_ = 0.0; ///< vapour and pan water that new surroundings began with, less what was left [kg]
  double evaporated_then_ = 0.0; ///< by the meat, until the air was last closed [kg]
  double given_to_air_ = 0.0;    ///< vapour from all pieces into balanced air until then [kg]
};

} // namespace cook::engine
