/// @file
/// One cook: carries the system through the stages of a plan and fills an Outcome.
///
/// The run is cut where a linearisation is needed, so that a cook can go alone (run()) or as a lane of a pack
/// (pack_run.hpp), through the same code:
///
///     begin();
///     until over(): linearise at (time, y); if arrive(): make a step
///
/// arrive() books the step that led here, ends segments and stages, and says whether a step can be made from
/// here; where not, the state or the conditions have changed, and it wants to be linearised again.
#pragma once

#include <array>
#include <memory>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "cook/engine/simulate.hpp"
#include "cook/errors.hpp"
#include "cook/meat/kinetics.hpp"
#include "engine/air/lumped.hpp"
#include "engine/runs/recorder.hpp"
#include "engine/stages/timeline.hpp"
#include "engine/stages/watch.hpp"
#include "engine/time/bracket.hpp"
#include "engine/time/step_control.hpp"

namespace cook::engine {

/// @tparam System LineSystem<double>, PieceSystem or SectionSystem
template <class System> class CookRun {
public:
  /// @param outcome with the geometry filled in
  CookRun(const Plan &plan, const Options &options, System system, Layout layout,
          std::shared_ptr<Outcome> outcome);

  /// Runs all stages. Throws Unreachable, SolverFailure or Interrupted with the outcome so far.
  std::shared_ptr<const Outcome> run();

  // As a lane of a pack. All of these may throw as run() does.
  void begin();
  bool arrive();
  [[nodiscard]] bool over() const { return phase_ == Phase::over; }
  [[nodiscard]] const std::shared_ptr<Outcome> &outcome() const { return outcome_; }
  [[nodiscard]] double time() const { return time_; }
  [[nodiscard]] double look_ahead() const;
  /// State and rates, to be filled with those of the lane before arrive(), and read after it.
  [[nodiscard]] std::vector<double> &state() { return y_; }
  [[nodiscard]] std::vector<double> &rates() { return f_; }
  /// Conditions of the faces, and the cells, to be filled before arrive().
  [[nodiscard]] System &system() { return system_; }
  [[nodiscard]] StepControl<System> &control() { return control_; }
  /// Whether arrive() has booked a step since the last call: then the lane's cells remember their peaks.
  [[nodiscard]] bool take_booked() { return std::exchange(booked_, false); }
  /// Counts conditions that a lane has to take over.
  [[nodiscard]] int changes() const { return changes_; }
  /// After arrive() said so: the step to be tried.
  [[nodiscard]] StepSize::Try next_step() const;
  /// Books the verdict on it. Only once accepted the state may be that at its end.
  void accept(const StepSize::Try &made, double error_size);
  /// True: it makes no sense to go on trying.
  bool reject(const StepSize::Try &made, double error_size);
  /// Gives up, with the error of the last try.
  [[noreturn]] void stuck(const std::vector<double> &error);
  [[nodiscard]] bool takes_any_error() const { return phase_ == Phase::seeks; }

private:
  enum class Phase {
    stage,   ///< the conditions of a stage have just begun
    segment, ///< those of a segment
    step,    ///< a step has been made
    back,    ///< back at the start of a step in which an end was met
    seeks,   ///< there, ready for a trial
    trial,   ///< a trial has been made
    over
  };

  void start_state();
  void begin_stage(std::size_t index);
  void enter_surroundings(const Surroundings &s);
  void leave_surroundings();
  void close_air();
  [[nodiscard]] double evaporated(const std::vector<double> &y) const;
  /// After the stage's first snapshot. False: it is over already, or the state has changed.
  bool open_stage();
  /// Sets the conditions until the next moment; what happens at this one changes the state first.
  void begin_segment();
  /// Where a step has ended at a moment that only bends the air's course, the conditions beyond it are set
  /// before the linearisation there, which then serves both sides. drop_look() takes it back.
  void look_past_moment();
  void drop_look();
  /// What is due at the end of a segment. True: the stage is over.
  bool end_segment();
  void end_stage();
  [[nodiscard]] bool is_met(const Watched &state) const;
  void depart();
  void count_anew();
  void book();
  /// The excess that is largest, and whose it is.
  [[nodiscard]] double largest_excess(const Watched &state, const End *&which) const;
  [[nodiscard]] Bracket bracket_step();
  void locate();
  bool try_end(double length);
  void spritz(const Spritz &spritz);
  void relinearise();
  void snapshot();
  [[nodiscard]] Watched watched(double step) const;
  [[nodiscard]] double converted_after(double step, std::size_t spot) const;
  [[nodiscard]] double browned_after(double step) const;
  [[nodiscard]] double browning_rate(double temperature, double water) const;
  [[nodiscard]] std::size_t bark_node() const;
  [[nodiscard]] double core_now() const;
  [[nodiscard]] double spot_now(std::size_t spot) const;
  [[nodiscard]] std::size_t core_spot() const { return layout_.core[stage_]; }
  [[nodiscard]] double heat_content() const;
  [[nodiscard]] double water_content(const std::vector<double> &y) const;
  void close_ledger();
  void note_air();
  void finish();
  [[nodiscard]] std::string where() const;
  [[nodiscard]] std::optional<double> levels_off_at() const;
  [[noreturn]] void give_up();
  [[noreturn]] void fail(const std::string &message);
  [[noreturn]] void fail_step(std::size_t worst);

  const Plan *plan_;
  const Options *options_;
  std::shared_ptr<Outcome> outcome_;
  System system_;
  Layout layout_;
  StepControl<System> control_;
  Recorder<System> recorder_;
  Arrhenius conversion_;

  Phase phase_ = Phase::stage;
  bool alone_ = false; ///< run() drives, not a pack
  bool booked_ = false;
  int changes_ = 0;
  double time_ = 0.0;
  std::vector<double> y_, f_;
  Snapshot before_, now_;
  double start_heat_ = 0.0;
  double start_water_ = 0.0;
  double air_found_ = 0.0; ///< vapour and pan water that new surroundings began with, less what was left [kg]
  double evaporated_then_ = 0.0; ///< by the meat, until the air was last closed [kg]
  double given_to_air_ = 0.0;    ///< vapour from all pieces into balanced air until then [kg]
  // Of the last stage that took time, for the next: one that was skipped changed nothing.
  std::optional<std::size_t> left_; ///< that stage
  std::array<double, lumped_states> left_lumped_{};
  double left_air_found_ = 0.0;
  std::vector<LidOpening> left_open_; ///< of its lid
  // Of the stage and segment
  std::size_t stage_ = 0;
  double stage_start_ = 0.0;
  double stage_peak_core_ = -1e9;
  std::optional<Timeline> timeline_;
  std::vector<End> conditions_; ///< watched all the time
  std::string reason_;          ///< why the stage ends; empty: it goes on
  double moment_ = 0.0;         ///< end of the segment
  bool looked_ = false;         ///< the conditions are those beyond it already
  Drive<double> left_behind_{}; ///< then: those before it
  bool jumped_ = true;          ///< the state, or what surrounds it, has just changed at once
  double departed_h_ = 1.0;     ///< step size when the step was begun [s]
  int counted_from_ = 0;        ///< steps made when the count for max_steps began anew
  double counted_until_ = 0.0;  ///< when it does again [s]
  Bracket bracket_;
  double trial_ = 0.0;
  const End *met_ = nullptr;
};

} // namespace cook::engine
