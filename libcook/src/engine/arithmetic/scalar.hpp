/// @file
/// The operations that the engine asks of its scalar, so that a pack of cooks can run through the same code.
///
/// A scalar `Real` has + - * / and, found by argument-dependent lookup or here: select(mask, a, b),
/// any(mask), all(mask), sqrt, log, abs, min, max, and comparison operators that return its mask. For double
/// the mask is bool. Engine code never branches on a comparison of Reals except through any() and all().
#pragma once

#include <algorithm>
#include <cmath>

namespace cook::engine {

/// What comparing two scalars gives: a truth value, one for each lane of a pack.
template <class Real> using MaskOf = decltype(Real{} < Real{});

/// True in all lanes.
template <class Real> MaskOf<Real> every_lane() { return Real(0.0) == Real(0.0); }

inline double select(bool mask, double a, double b) { return mask ? a : b; }
inline bool any(bool mask) { return mask; }
inline bool all(bool mask) { return mask; }
inline double sqrt(double x) { return std::sqrt(x); }
inline double log(double x) { return std::log(x); }
inline double abs(double x) { return std::abs(x); }
inline double min(double a, double b) { return a < b ? a : b; }
inline double max(double a, double b) { return a > b ? a : b; }
inline bool is_finite(double x) { return std::isfinite(x); }

} // namespace cook::engine
