/// @file
/// The library's exceptions: one family, one voice.
///
/// A message names the field as the user wrote it, what came, what is accepted and the likely slip, for
/// instance "stages[1].until: core 200 °C is hotter than the pit, 121 °C; did you mean '200 °F'?".
#pragma once

#include <memory>
#include <stdexcept>
#include <string>
#include <string_view>

namespace cook {

struct Outcome;

/// Base of everything libcook throws on purpose.
class Error : public std::runtime_error {
public:
  using std::runtime_error::runtime_error;
};

/// A value that cannot be used: thrown before any work is done, with the field it concerns.
class InvalidInput : public Error {
public:
  InvalidInput(std::string field, std::string_view message);
  /// The field as the user wrote it, for instance "stages[1].until".
  [[nodiscard]] const std::string &field() const noexcept { return field_; }
  /// The message without the field in front.
  [[nodiscard]] const std::string &message() const noexcept { return message_; }

private:
  std::string field_;
  std::string message_;
};

/// The integration could not go on. What was computed up to there is kept in `outcome`.
class SolverFailure : public Error {
public:
  SolverFailure(const std::string &message, std::shared_ptr<const Outcome> partial);
  /// The part of the cook that was computed; never null.
  [[nodiscard]] const std::shared_ptr<const Outcome> &outcome() const noexcept { return outcome_; }

private:
  std::shared_ptr<const Outcome> outcome_;
};

/// A stage's end condition was not reached within the stage's time limit; the message says where the core
/// levels off.
class Unreachable : public SolverFailure {
public:
  using SolverFailure::SolverFailure;
};

/// The run was stopped by the caller (keyboard interrupt); what was computed is kept.
class Interrupted : public SolverFailure {
public:
  using SolverFailure::SolverFailure;
};

/// Checks that share one wording; each returns its value so it can stand in an initialiser.
namespace check {

/// Throws unless `value` is a finite number.
double finite(const std::string &field, double value);
/// Throws unless low <= value <= high; `unit` and `hint` (may be empty) finish the sentence.
double within(const std::string &field, double value, double low, double high, std::string_view unit,
              std::string_view hint = {});
/// Throws unless value > 0 and finite.
double positive(const std::string &field, double value, std::string_view unit, std::string_view hint = {});
/// Throws unless value >= 0 and finite.
double not_negative(const std::string &field, double value, std::string_view unit,
                    std::string_view hint = {});
/// A temperature in °C within [low, high]; a value that would fit if it had been °F is named as the likely
/// slip.
double celsius(const std::string &field, double value, double low, double high);

} // namespace check

/// Text from outside as the messages quote it: in quotes, cut at 200 characters with a mark and the length it
/// had, control characters and invalid bytes replaced.
std::string in_quotes(std::string_view text);

/// A number as the messages print it: up to six significant digits, no trailing zeros.
std::string format_number(double value);

/// A temperature [°C] as cooks read it: whole °F, and °C to a tenth: "203 °F (95 °C)".
std::string format_degrees(double celsius);

/// A duration [s] as cooks read it: "7 h 40 min", "5 h", "12 min"; to the second below a minute.
std::string format_duration(double seconds);

} // namespace cook
