/// @file
/// Cross-sections that the tests share.
#pragma once

#include <cmath>
#include <cstddef>
#include <vector>

#include "cook/meat/section.hpp"
#include "engine/grids/grid.hpp"
#include "engine/grids/section_grid.hpp"

namespace cook::testing {

/// Invented, and harsher than any cut: 30 to 90 mm with a bump, slopes up to 0.4.
inline Section bumpy_section() {
  Section s;
  s.length = 0.4;
  s.width = 0.25;
  s.at = {0.0, 0.08, 0.16, 0.24, 0.32, 0.4};
  s.thickness = {0.03, 0.045, 0.07, 0.062, 0.078, 0.09};
  return s;
}

inline Section straight_section(double from, double to) {
  Section s;
  s.length = 0.4;
  s.width = 0.25;
  s.at = {0.0, 0.4};
  s.thickness = {from, to};
  return s;
}

/// Meshes of the bumpy section, each with twice as many intervals as the one before, by one and the same
/// mapping, strongly graded to every face.
class RefinedSections {
public:
  [[nodiscard]] engine::SectionGrid next() {
    engine::SectionGrid grid = engine::make_section_grid(section_, 2 * static_cast<int>(along_) + 1,
                                                         2 * static_cast<int>(across_) + 1, face_, end_);
    face_ = halved(0.5 * section_.area() / section_.length, across_, face_);
    end_ = halved(0.5 * section_.length, along_, end_);
    along_ *= 2;
    across_ *= 2;
    return grid;
  }

private:
  static Section without_sides() {
    Section s = bumpy_section();
    s.side_share = 0.0;
    return s;
  }
  /// First spacing of a grading that splits every interval in two.
  static double halved(double length, std::size_t count, double first) {
    const std::vector<double> spacing = engine::graded_spacings(length, count, first);
    return spacing[0] / (1.0 + std::sqrt(spacing[1] / spacing[0]));
  }

  Section section_ = without_sides();
  // Half of the intervals: coarser meshes do not resolve the bump, and converge unevenly around second order.
  std::size_t along_ = 30;
  std::size_t across_ = 12;
  double face_ = 0.26e-3; // first spacings a tenth of even ones [m]
  double end_ = 0.67e-3;
};

} // namespace cook::testing
