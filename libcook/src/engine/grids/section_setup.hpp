/// @file
/// What a plan's cross-section needs before any equation: its mesh, its tissues, and where its probes are.
#pragma once

#include <array>
#include <string>
#include <vector>

#include "cook/engine/simulate.hpp"
#include "cook/meat/section.hpp"
#include "engine/cells/property_table.hpp"
#include "engine/grids/probing.hpp"
#include "engine/grids/section_grid.hpp"

namespace cook::engine {

/// Mesh and property tables of a plan's section. Systems keep pointers into it: it stays where it was made.
class SectionSetup {
public:
  SectionSetup(const Plan &plan, const Options &options);
  ~SectionSetup() = default;
  SectionSetup(const SectionSetup &) = delete;
  SectionSetup(SectionSetup &&) = delete;
  SectionSetup &operator=(const SectionSetup &) = delete;
  SectionSetup &operator=(SectionSetup &&) = delete;

  Section section;
  SectionGrid grid;

  /// By region of the grid: flat, point, seam.
  [[nodiscard]] std::vector<const PropertyTable *> tables() const {
    return {&tissue_[0], &tissue_[1], &tissue_[2]};
  }
  /// A probe's spot on the mesh. With an extended sensor it averages from its tip back along the length, the
  /// way it was pushed in. Throws InvalidInput naming `field`.
  [[nodiscard]] Placed place(const Probe &probe, const std::string &field) const;

private:
  std::array<PropertyTable, 3> tissue_;
};

} // namespace cook::engine
