/// @file
/// The options of a forecast as the bindings of forecasts and schedules take them.
#pragma once

#include "cook/fit/forecast.hpp"

namespace cook::python {

ForecastOptions forecast_options(int members, std::uint64_t seed, const ModelError &error,
                                 std::vector<FreeParameter> free, int threads);

} // namespace cook::python
