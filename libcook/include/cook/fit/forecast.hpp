/// @file
/// When will it be done: an ensemble of cooks that agree with the log so far, run to the end.
///
/// Members are drawn from Laplace's approximation of what the log allows (calibrate.hpp) in its heavy-tailed
/// form and weighted by the exact density over the drawn one: importance sampling, Geweke, Econometrica 57
/// (1989) 1317 (from memory). Each gets its own future: a level and ripple of the pit (first-order
/// autoregression), and its own error of pace and level of the model, conditioned on how it missed the log so
/// far. Members that would be done already are ruled out by so much as they would: the cook is not done.
#pragma once

#include <cstdint>
#include <memory>
#include <string>
#include <vector>

#include "cook/fit/calibrate.hpp"

namespace cook {

/// What the pit may do from now on: level and ripple about the plan's air temperature.
struct PitOutlook {
  double level = 0.0;           ///< expected above the plan [K]
  double level_deviation = 4.0; ///< standard deviation of the level [K]
  double ripple = 3.0;          ///< standard deviation about the level [K]
  double ripple_time = 1200.0;  ///< over which the ripple forgets itself [s]
};

/// How a forecast is made.
struct ForecastOptions {
  int members = 200; ///< 50 to 5000
  std::uint64_t seed = 1;
  ModelError model_error{};
  std::vector<FreeParameter> free{}; ///< empty: usual_free(), or the fit's
  int threads = 0;                   ///< 0: as many as the machine has
  /// Whether what needs no model (the rate of the last hour, what measured cooks took) has its say; never
  /// where the model's error is stated as normal, so the model as right.
  bool join_rules = true;
  std::function<bool()> interrupted{};

  void validate() const;
};

/// Time left by rules that need no model, as a cook might reckon; not a number: nothing to go by [s].
struct ByHandAnswers {
  double last_hour = 0.0;  ///< at the rate of the last hour, where it was read often enough
  double population = 0.0; ///< what measured cooks of this mass, pit and wrap take, less what has passed
  double stage = 0.0;      ///< as the time so far says of measured cooks that were as far
  std::string phase;       ///< "before the stall", "in the stall", "after the stall"
  double stretch = 1.0;    ///< of the model's time left, by what these say [-]
};

/// An ensemble of finishes. Times since the start of the cook [s]; infinite where a member does not get
/// there.
struct Forecast {
  Plan plan;
  double now = 0.0;              ///< the last reading
  std::size_t current = 0;       ///< stage that is under way
  std::size_t done = 0;          ///< stage whose end is called done
  std::vector<double> weight;    ///< of the members; they add up to 1
  std::vector<double> stage_end; ///< members x stages
  std::vector<double> time;      ///< of the traces: from the start to past the end
  std::vector<double>
      core; ///< members x times: what the thermometer will show until it is done; held from then on [°C]
  std::vector<std::string> names; ///< of the free numbers
  std::vector<double> values;     ///< members x free numbers, in their units
  double effective_members = 0.0; ///< 1 / sum of squared weights
  PitOutlook outlook;
  std::optional<ByHandAnswers> by_hand; ///< where the core ends the cook
  double odd = 1.0; ///< how much larger the model's errors seem in this cook than in most [-]
  std::vector<std::string> notes;

  struct State;
  std::shared_ptr<const State> state; ///< what what_if() needs

  [[nodiscard]] std::size_t members() const { return weight.size(); }
  /// When a stage ends, by member [s].
  [[nodiscard]] std::vector<double> ends(std::size_t stage) const;
  /// Quantile of the end of a stage [s since the start] of the members that get there; infinite where none
  /// does.
  /// @throws InvalidInput unless 0 < q < 1 and the stage exists
  [[nodiscard]] double quantile(double q, std::size_t stage) const;
  /// Quantile of the end of stage `done`.
  [[nodiscard]] double finish_quantile(double q) const { return quantile(q, done); }
  /// Chance that a stage never ends [0 to 1]: the possible cooks whose pit is too cool for it.
  [[nodiscard]] double never(std::size_t stage) const;
  /// Chance that a stage ends after a time [0 to 1].
  [[nodiscard]] double chance_after(double seconds, std::size_t stage) const;
  /// Quantile of the core at every time [°C].
  [[nodiscard]] std::vector<double> core_quantile(double q) const;
};

/// Weighted quantile: the value below which a share q of the weight lies, by straight lines between the
/// middles of the weights.
[[nodiscard]] double weighted_quantile(std::vector<double> value, const std::vector<double> &weight,
                                       double q);

/// The same of those times that come: infinite ones are cooks that never get there. Infinite where none does.
[[nodiscard]] double quantile_of_ends(const std::vector<double> &end, const std::vector<double> &weight,
                                      double q);

/// Share of the weight of times after a moment [0 to 1]; those that never come are among them.
[[nodiscard]] double share_after(const std::vector<double> &end, const std::vector<double> &weight,
                                 double moment);

/// Forecasts a cook that is under way (or, with an empty log, not yet begun).
/// @param fit of earlier cooks: its shared numbers are taken as known so far as they are; may be null
/// @throws as calibrate(); InvalidInput when the log shows that the plan is finished
[[nodiscard]] Forecast forecast(const Plan &plan, const CookLog &log, const ForecastOptions &options = {},
                                const Fit *fit = nullptr);

/// The same members with other stages from now on, so that differences are not blurred by chance.
/// @param remaining replaces the stage that is under way, from now on, and all after it
/// @throws InvalidInput when there is no stage left, or none of `remaining` can be used
[[nodiscard]] Forecast what_if(const Forecast &forecast, const std::vector<Stage> &remaining,
                               const std::function<bool()> &interrupted = {});

} // namespace cook
