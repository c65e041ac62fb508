/// @file
/// The moments of a stage that the integrator must hit exactly, in their order, and the conditions between
/// them.
#pragma once

#include <limits>
#include <memory>
#include <vector>

#include "cook/plan/plan.hpp"
#include "engine/equations/line_system.hpp"
#include "engine/stages/lid.hpp"

namespace cook::engine {

/// What is due within this time after something else is due at the same moment [s]: no cook can tell the two
/// apart, and a step between them would drown in rounding.
inline constexpr double same_moment = 1e-6;

/// A moment: everything that is due from `first` on within `same_moment`. Nothing that is due is passed by;
/// what is due together happens in this order:
///
///     1. ends that are looked at now and then (`checks`)
///     2. the timed end (`ends`)
///     3. the stage gives up (`gives_up`)
///
/// and, where the stage goes on, what it goes on with:
///
///     4. a spray
///     5. the lid
///     6. the air, from its value at `last` on, after a line that led to its value at `first`
struct Moment {
  double time = 0.0; ///< when it counts as: that of the timed end, if one is due, or of the first thing [s]
  double first = 0.0, last = 0.0;  ///< [s]
  std::vector<std::size_t> checks; ///< positions in Stage::until
  bool ends = false;
  bool gives_up = false;
  bool spritz = false;
  bool lid = false; ///< begins to open

  [[nodiscard]] bool is_last() const { return ends || gives_up; }
};

/// A stage laid out in time, from its start (absolute, [s]); a window on it of three moments that moves on.
class Timeline {
public:
  /// @param open lid openings before its start, in the same cooker: the air may still recover from them
  Timeline(const Plan &plan, std::size_t stage, double start, std::vector<LidOpening> open = {});

  /// The moment that the stage stands at; at first its start.
  [[nodiscard]] const Moment &now() const { return now_; }
  /// The one after; of the last one itself.
  [[nodiscard]] const Moment &next() const { return next_; }
  void go_on();
  /// Conditions between now and next.
  [[nodiscard]] Drive<double> drive(double footprint) const { return drive(now_, next_, footprint); }
  /// Conditions beyond the next moment, which must not be the last.
  [[nodiscard]] Drive<double> drive_beyond(double footprint) const { return drive(next_, after_, footprint); }
  /// Conditions from any time on, the window left aside: of the straight lines that hold it.
  /// @param until gets the time up to which they hold; past the stage's end its conditions go on
  [[nodiscard]] Drive<double> drive_from(double time, double footprint, double &until) const;
  [[nodiscard]] double start() const { return start_; }
  /// When the stage gives up.
  [[nodiscard]] double limit() const { return limit_; }
  /// When the stage ends by the clock or by elapsed time; infinite if it does not.
  [[nodiscard]] double timed_end() const { return timed_end_; }
  /// The condition behind timed_end(): the earliest, of equals the first in the plan.
  [[nodiscard]] const End &timed() const { return *timed_; }
  /// The openings of the lid up to a time, joined.
  [[nodiscard]] std::vector<LidOpening> opened_until(double time) const;

private:
  /// Things of one kind, in rising time: of a list, or at even spaces.
  struct Row {
    enum class What { line, check, spritz, lid } what = What::line;
    const std::vector<double> *list = nullptr;
    double first = 0.0, every = 0.0;
    std::size_t at = 0;    ///< how many are past
    std::size_t check = 0; ///< position in Stage::until
    [[nodiscard]] double time() const {
      if (list) {
        return at < list->size() ? (*list)[at] : std::numeric_limits<double>::infinity();
      }
      return first + static_cast<double>(at) * every;
    }
  };

  void add_lids(std::vector<LidOpening> open);
  void add_rows();
  void add_list(Row::What what, const std::vector<double> &list);
  /// Takes from all rows what is due up to `same_moment` after `first`.
  void gather(double first, Moment &moment);
  void find_after();
  [[nodiscard]] Drive<double> drive(const Moment &from, const Moment &to, double footprint) const;

  const Stage *stage_;
  double start_;
  double limit_;
  double timed_end_ = std::numeric_limits<double>::infinity();
  const End *timed_ = nullptr;
  std::vector<Row> rows_;
  Moment now_, next_, after_;
  std::vector<LidOpening> openings_; ///< joined, with those before the stage
  std::vector<double> opens_;        ///< when those of this stage begin
  Signal lid_;                       ///< share of the excess over ambient
  std::shared_ptr<const AirBalance> balance_;
};

} // namespace cook::engine
