/// @file
/// A quantity that changes with time: constant, straight lines between points (a schedule or a log), with
/// ripple.
#pragma once

#include <string>
#include <vector>

namespace cook {

/// Value as a function of the time since the start of the cook.
///
/// Straight lines between `time`/`value` points, held constant before the first and after the last, plus
/// a sinusoid `ripple_amplitude * sin(2 pi t / ripple_period)` as a controller makes it.
struct Signal {
  std::vector<double> time;      ///< [s], strictly increasing
  std::vector<double> value;     ///< same length, at least one
  double ripple_amplitude = 0.0; ///< same unit as value
  double ripple_period = 600.0;  ///< [s]
  bool measured = false;         ///< a log: lid openings are in it already, so they are not applied again

  Signal() : Signal(0.0) {}
  Signal(double constant) : time{0.0}, value{constant} {} // NOLINT: a number is a constant signal
  Signal(std::vector<double> times, std::vector<double> values)
      : time(std::move(times)), value(std::move(values)) {}

  /// Throws InvalidInput when lengths differ, times do not increase or a value is not finite.
  void validate(const std::string &field) const;
  [[nodiscard]] double at(double seconds) const;
  [[nodiscard]] double without_ripple(double seconds) const; ///< the straight lines alone
  [[nodiscard]] double mean() const;                         ///< over the time that its points span
  [[nodiscard]] double minimum() const;                      ///< ripple included
  [[nodiscard]] double maximum() const;                      ///< ripple included
  [[nodiscard]] bool is_constant() const { return value.size() == 1 && ripple_amplitude == 0.0; }
};

} // namespace cook
