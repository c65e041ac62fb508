/// @file
/// A plan's numbers from a cook's log, with honest uncertainty.
///
/// Maximum a posteriori: the core readings y of every log against the simulated core f(u), u the free numbers
/// in standard deviations from what was believed beforehand,
///
///     minimise (y - f)' V^-1 (y - f) + u' u
///
/// by the Levenberg-Marquardt method (Marquardt, J. SIAM 11 (1963) 431), sensitivities by differences of
/// cooks run side by side. V holds three kinds of error: of the thermometer (independent, found from the
/// log); of the model's *pace* (the slab runs fast or slow by a slowly wandering share, which shifts the
/// trace in time); and of its level. The last two are a Gaussian discrepancy in the sense of Kennedy &
/// O'Hagan, J. Royal Statistical Society B 63 (2001) 425: without them neighbouring readings would count as
/// independent evidence, and intervals come out several times too narrow. Outliers lose weight as under
/// Student's t (Lange, Little & Taylor, J. Am. Statistical Association 84 (1989) 881). Intervals are
/// Laplace's: the normal distribution with the curvature at the optimum. Sources from memory.
#pragma once

#include <functional>
#include <memory>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "cook/fit/cook_log.hpp"
#include "cook/fit/free_parameter.hpp"

namespace cook {

/// Degrees of freedom from which on an error is taken as normal.
inline constexpr double normal_tails = 1e6;

/// How far the model is trusted. Default: what measured cooks say of it, see validation/HONESTY.md.
struct ModelError {
  double pace = 0.20;             ///< standard deviation of the pace [share]; 0.1: 6 min in the hour
  double pace_time = 12 * 3600.0; ///< over which the pace wanders [s]
  double level = 4.0;             ///< standard deviation of the level [K]
  double level_time = 2 * 3600.0; ///< over which the level wanders [s]
  double tails = 3.0; ///< degrees of freedom of Student's t: how heavy the tails are [-]; 1e6: normal

  void validate(const std::string &field = "model_error") const;
};

/// Where the meat is what the model is made of and only the solver and the thinning of the log err: for
/// checks of the statistics.
[[nodiscard]] ModelError slab_model_error();

/// How a fit is made.
struct FitOptions {
  ModelError model_error{};
  bool robust = true; ///< outliers lose weight
  int max_iterations = 15;
  int threads = 0;                     ///< 0: as many as the machine has
  std::function<bool()> interrupted{}; ///< asked now and then; true stops with Interrupted

  void validate() const;
};

/// One number as fitted.
struct Estimate {
  std::string name;
  std::string unit;
  int log = -1; ///< which log it belongs to; -1: shared by all
  Scale scale = Scale::logarithmic;
  double prior = 0.0;               ///< median beforehand
  double prior_spread = 0.0;        ///< see Scale
  std::string source;               ///< of what was believed beforehand
  double value = 0.0;               ///< best value
  double deviation = 0.0;           ///< standard deviation on its scale: a share, or in its unit
  double low50 = 0.0, high50 = 0.0; ///< 50 % interval
  double low90 = 0.0, high90 = 0.0; ///< 90 % interval
  /// How much narrower it became: 1 - standard deviation after / before; 0: the log says nothing.
  double learned = 0.0;
};

/// How the fit follows one log. Readings are medians over short spells (about a hundred in all).
struct FitSeries {
  std::string name;
  std::vector<double> time;      ///< [s]
  std::vector<double> observed;  ///< [°C]
  std::vector<double> fitted;    ///< what the tuned plan would have read [°C]
  std::vector<double> deviation; ///< standard deviation expected of observed - fitted [K]
  std::vector<double> weight;    ///< 1; less for an outlier
  double noise = 0.0;            ///< of one reading of the thermometer [K]
  bool fahrenheit = false;       ///< the log was written in °F: so are reports of it
};

/// A calibrated plan.
struct Fit {
  /// The plan asked about, with shared numbers and the last log's own. One that waits for a core hotter than
  /// the pit that was found cannot be cooked; the notes say so.
  Plan plan;
  std::vector<Plan> plans; ///< the same for each log
  std::vector<Plan> asked; ///< the plans as they came, one for each log
  std::vector<Estimate> estimates;
  std::vector<double> covariance; ///< of the estimates in standard deviations beforehand, row by row
  std::vector<FitSeries> series;  ///< one for each log
  double rms = 0.0;               ///< of observed - fitted [K]
  /// Mean square of the residuals against what thermometer and model error lead one to expect [-]; about 1.
  double misfit = 0.0;
  /// Factor by which the stated errors were widened because the misfit asked for it [-]; 1: not.
  double widened = 1.0;
  ModelError model_error;
  bool converged = false;
  int iterations = 0;
  int simulations = 0;
  /// In words: what the logs cannot tell, and what else a user should know. Quantities stand in both scales.
  std::vector<std::string> notes;

  /// Correlation of two estimates [-].
  [[nodiscard]] double correlation(std::size_t a, std::size_t b) const;
  /// An estimate by name (of the last log that has it). @throws InvalidInput
  [[nodiscard]] const Estimate &estimate(const std::string &name) const;
};

/// Fits.
/// @param plans one for each log, or one for all  @param logs at least one
/// @throws InvalidInput naming the field: an unknown or unsuitable name, a log without core readings, with
/// fewer readings than numbers to fit, hotter than its pit, or outside the plan; SolverFailure when the plan
/// cannot be simulated; Interrupted.
[[nodiscard]] Fit calibrate(std::span<const Plan> plans, std::span<const CookLog> logs,
                            std::span<const FreeParameter> free, const FitOptions &options = {});
[[nodiscard]] Fit calibrate(const Plan &plan, const CookLog &log, std::span<const FreeParameter> free,
                            const FitOptions &options = {});

/// The posterior density that calibrate() maximises, for samplers that check its intervals.
class LogPosterior {
public:
  LogPosterior(std::span<const Plan> plans, std::span<const CookLog> logs,
               std::span<const FreeParameter> free, const FitOptions &options = {});
  /// How many numbers.
  [[nodiscard]] std::size_t size() const;
  /// Log density, up to a constant, of several points: rows of `points` are numbers in standard deviations
  /// from their medians beforehand. The errors V stay as they are at the first row of the first call. Minus
  /// infinity where a cook cannot be simulated. May be called from several threads.
  /// @param interrupted asked now and then; true stops with Interrupted
  [[nodiscard]] std::vector<double> operator()(std::span<const double> points,
                                               const std::function<bool()> &interrupted = {});

private:
  struct State;
  std::shared_ptr<State> state_;
};

/// A fit as JSON text, and back bit by bit. @throws InvalidInput as the readers of json.hpp
[[nodiscard]] std::string to_json(const Fit &fit, int indent = 2);
[[nodiscard]] Fit fit_from_json(std::string_view text);

} // namespace cook
