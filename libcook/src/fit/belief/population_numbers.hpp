/// @file
/// Written by `python validation/population.py` from measured cooks; see validation/POPULATION.md.
#pragma once

#include <array>
#include <cstddef>
#include <string_view>

namespace cook::fit {

/// One number of the population, on its scale (a share, or in its unit).
struct PopulationNumber {
  std::string_view name;
  double middle;  ///< standard deviation of what is known of the population's middle
  double scatter; ///< standard deviation of single cooks about it; 0: not estimated
};

// clang-format off
inline constexpr std::array<PopulationNumber, 10> population_numbers{{
    {"brisket thickness", 0.03684, 0.1296},
    {"pork thickness", 0.04218, 0.1296},
    {"film_coefficient", 0, 0.2012},
    {"vapour_pressure", 0, 0.5036},
    {"pit_offset", 0, 5.639},
    {"wrap_resistance", 0.2753, 0},
    {"expressed_mobility", 0.276, 0},
    {"held_mobility", 0.2882, 0},
    {"final_share", 0.03622, 0.05036},
    {"emissivity", 0.03598, 0},
}};

/// Correlation of two middles, by their places in population_numbers.
struct PopulationTie {
  std::size_t one, other;
  double correlation;
};

inline constexpr std::array<PopulationTie, 16> population_ties{{
    {1, 0, 0.128},
    {6, 0, 0.169},
    {6, 1, 0.055},
    {7, 0, -0.171},
    {7, 1, -0.131},
    {7, 5, -0.099},
    {7, 6, 0.094},
    {8, 0, 0.107},
    {8, 5, -0.055},
    {8, 6, 0.444},
    {8, 7, 0.436},
    {9, 0, 0.141},
    {9, 1, 0.193},
    {9, 6, 0.138},
    {9, 7, 0.171},
    {9, 8, -0.206},
}};
// clang-format on

} // namespace cook::fit
