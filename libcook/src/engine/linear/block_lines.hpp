/// @file
/// Many block-tridiagonal systems side by side: one per line of a mesh, all of one length.
///
/// The same elimination as BlockTridiagonal, with the lines in the inner loop, where the compiler can put
/// several into one instruction.
#pragma once

#include <array>
#include <cstddef>
#include <vector>

namespace cook::engine {

/// Entries of a 2 x 2 block, row-major.
using Block4 = std::array<double, 4>;

/// Element (position j on line l) lies at j * lines + l.
class BlockLines {
public:
  BlockLines(std::size_t length, std::size_t lines)
      : length_(length), lines_(lines), lower(length * lines), diagonal(length * lines),
        upper(length * lines), inverse_(length * lines), multiplier_(length * lines) {}

  /// Four arrays of one entry each.
  struct Blocks {
    explicit Blocks(std::size_t n = 0) { clear(n); }
    void clear(std::size_t n) {
      for (auto &e : entry) {
        e.assign(n, 0.0);
      }
    }
    void set(std::size_t i, const Block4 &b) {
      for (std::size_t e = 0; e < 4; ++e) {
        entry[e][i] = b[e];
      }
    }
    void add(std::size_t i, const Block4 &b) {
      for (std::size_t e = 0; e < 4; ++e) {
        entry[e][i] += b[e];
      }
    }
    [[nodiscard]] Block4 at(std::size_t i) const {
      return {entry[0][i], entry[1][i], entry[2][i], entry[3][i]};
    }
    std::array<std::vector<double>, 4> entry;
  };

private:
  std::size_t length_, lines_;

public:
  Blocks lower;    ///< row j, column j - 1
  Blocks diagonal; ///< row j, column j
  Blocks upper;    ///< row j, column j + 1

  [[nodiscard]] std::size_t length() const { return length_; }
  [[nodiscard]] std::size_t lines() const { return lines_; }

  /// Factorises shift I - A for all lines.
  void factorise_shifted(double shift);
  /// Solves in place; `first` and `second` hold the two unknowns, laid out as the blocks.
  void solve(double *first, double *second) const;

private:
  Blocks inverse_, multiplier_;
};

} // namespace cook::engine
