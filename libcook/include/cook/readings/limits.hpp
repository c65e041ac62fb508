/// @file
/// The numbers that readings compare a cook with: limits of the regulators, and what counts as a stall. Each
/// stands here once; the parameter table (rows/readings.cpp) and Python read it from here.
#pragma once

#include "cook/meat/kinetics.hpp"

namespace cook {

/// Limits of food-safety rules. Local rules may be stricter.
namespace safety_limits {

// FDA Food Code 3-501.14 and 3-501.16 give 41, 70 and 135 °F and print them as 5, 21 and 57 °C.
inline constexpr double cold_holding = 5.0;    ///< [°C] or below
inline constexpr double cooling_middle = 21.0; ///< end of the first step of cooling [°C]
inline constexpr double hot_holding = 57.0;    ///< [°C] or above
inline constexpr double first_cooling = 2.0;   ///< from hot_holding to cooling_middle [h]
inline constexpr double whole_cooling = 6.0;   ///< from hot_holding to cold_holding [h]

// USDA FSIS cooking guideline, Appendix A, from memory.
inline constexpr double come_up_from = 10.0;              ///< 50 °F [°C]
inline constexpr double come_up_to = lethality_range_low; ///< 130 °F [°C]
inline constexpr double come_up_limit = 6.0;              ///< from one to the other, coldest part [h]

} // namespace safety_limits

/// What counts as a stall, see find_stall: ours, none has been published. Rates in [K s⁻¹].
namespace stall_rule {

inline constexpr double rate_window = 2400.0;              ///< of one rate [s]
inline constexpr double least_window = 0.75 * rate_window; ///< a shorter one knows no rate yet [s]
inline constexpr double slow_share = 0.25;             ///< of the fastest rate so far: below it is slow [-]
inline constexpr double slow = 6.0 / 3600.0;           ///< and below this
inline constexpr double least_recovery = 1.5 / 3600.0; ///< a climb of the rate that noise does not make
inline constexpr double relapse = 0.5;                 ///< of the rate since the last stall: a new one [-]
inline constexpr double shortest = 1800.0;             ///< [s]
inline constexpr double least_pace = 3.0 / 3600.0;     ///< what has never climbed so fast does not stall
inline constexpr double coldest = 50.0;                ///< core of a stall [°C]
inline constexpr double hottest_begin = 80.0;          ///< core at which one may begin [°C]
inline constexpr double hottest = 85.0;                ///< core of a stall [°C]

} // namespace stall_rule

} // namespace cook
