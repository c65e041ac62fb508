/// @file
/// All numbers that are read off an outcome, as a table: name, units, meaning, and how each is taken.
///
/// Sweeps keep these of each cook, so they are taken in one pass, and what several of them rest on (the
/// stall, the carryover, the loss, the safety readings) is computed once, and only when one is wanted.
#pragma once

#include <cstddef>
#include <span>
#include <string>
#include <vector>

#include "cook/plan/outcome.hpp"

namespace cook {

/// A number, or one for each stage, that is read off an outcome.
struct Reading {
  std::string name;      ///< as a variable of a data set
  std::string units;     ///< as data sets write them, such as "s", "degC", "1"
  std::string long_name; ///< what it is, and when it is NaN
  bool by_stage = false; ///< one for each stage of the plan
};

/// Every reading, in the order in which tables show them.
[[nodiscard]] std::span<const Reading> reading_table();

/// Takes some of the readings off outcomes of one plan and its variants.
class Reader {
public:
  /// @param names of readings, in the order wanted; a name may come twice
  /// @param stages of the plan
  /// @param hold holding temperature of the readings "held" and "still_held", 0 to 100 °C
  /// @throws InvalidInput for a name that is not in the table, and a temperature out of range
  Reader(std::span<const std::string> names, std::size_t stages, double hold);

  /// Numbers that read() fills: one for a reading, or as many as the plan has stages.
  [[nodiscard]] std::size_t width() const { return width_; }
  /// Fills `into`, of width() numbers, in units of the table; NaN where there is nothing to read.
  /// @throws InvalidInput for an empty outcome
  void read(const Outcome &outcome, std::span<double> into) const;

private:
  std::vector<std::size_t> wanted_; ///< rows of the table
  std::size_t stages_;
  double hold_;
  std::size_t width_ = 0;
};

} // namespace cook
