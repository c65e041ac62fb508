/// @file
/// A state as it is told: without what a step has overdrawn.
#pragma once

#include <array>
#include <cstddef>
#include <vector>

#include "engine/air/lumped.hpp"

namespace cook::engine {

/// Least water content of any cell [kg/kg dry].
template <class System> double driest(const System &system, const std::vector<double> &y) {
  double least = y[1];
  for (std::size_t i = 1; i < system.nodes(); ++i) {
    least = min(least, y[2 * i + 1]);
  }
  return least;
}
/// Cells that are wetter at both ends of a step are not overdrawn between them [kg/kg dry].
inline constexpr double nearly_dry = 0.01;

/// Leaves no mass below zero. Liquid, a dried-out cell, what has run off or a pan that runs empty may end a
/// step a little below, within its tolerance, and the next steps bring it back. There is no less than no
/// water: what is missing has been taken from a place too early, so there it is counted as still being there.
/// A drip is taken from the liquid on a face, that and cells from the vapour, a pan from what has left with
/// the air. Sums stay what they are, and so does the heat.
/// @param y of the system, a copy: the equations go on from the state as it is
/// @param any_dry whether a cell may be below zero
template <class System> void settle(const System &system, std::vector<double> &y, bool any_dry = true) {
  std::array<double, 2> owed{}; // by the vapour through each side, per extent [kg]
  std::array<double, 2> dripped{};
  for (std::size_t s = 0; s < 2; ++s) {
    double &run_off = y[system.total_index(s, FacePath::run_off)];
    if (run_off < 0.0) {
      dripped[s] = run_off;
      run_off = 0.0;
    }
  }
  for (std::size_t b = 0; b < system.faces(); ++b) {
    double &liquid = y[system.liquid_index(b)];
    liquid += dripped[system.face_side(b)];
    if (liquid < 0.0 && system.face[0].evaporates > 0.0) {
      owed[system.face_side(b)] += liquid * system.area_of(b);
      liquid = 0.0;
    } else if (liquid < 0.0) { // no vapour at all: the tissue has soaked up too much
      const std::size_t i = system.face_node(b);
      y[2 * i + 1] += liquid * system.area_of(b) / (system.volume[i] * system.table(i).solids);
      liquid = 0.0;
    }
  }
  for (std::size_t i = 0; any_dry && i < system.nodes(); ++i) {
    double &x = y[2 * i + 1];
    if (x < 0.0) {
      owed[system.side_near(i)] += x * system.table(i).solids * system.volume[i];
      x = 0.0;
    }
  }
  double left = 0.0; // with the air [kg]
  for (std::size_t s = 0; s < 2; ++s) {
    if (owed[s] < 0.0) {
      y[system.total_index(s, FacePath::evaporated)] += owed[s] / system.face_area[s];
      left += owed[s] * system.drive.extent;
    }
  }
  left = system.drive.balance ? left * system.drive.balance->air.meat_count : 0.0;
  double &pan = y[system.lumped_index(pan_water)];
  if (pan < 0.0) {
    y[system.air_total_index(pan_given)] += pan;
    left += pan;
    pan = 0.0;
  }
  double &out = y[system.air_total_index(vapour_out)];
  out += left;
  if (out < 0.0) { // it is still in the air
    y[system.lumped_index(air_vapour)] += out;
    out = 0.0;
  }
}

} // namespace cook::engine
