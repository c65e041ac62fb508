/// @file
/// The fields of what a fit is told.
#pragma once

#include "cook/fields/field.hpp"
#include "cook/fit/calibrate.hpp"

namespace cook {

namespace source {

inline constexpr std::string_view forecasts =
    "what forecasts of measured cooks ask for, in the pinball loss of their bands: see validation/HONESTY.md";

} // namespace source

template <>
inline constexpr About about<ModelError>{"ModelError", "model_error",
                                         "how far the model is trusted: errors of its pace and of its level"};
template <>
inline constexpr auto fields_of<ModelError> = std::tuple{
    field("pace", &ModelError::pace, kind::number,
          range::within(0.0, 1.0, "a share: 0.1 is 6 minutes in the hour"),
          "standard deviation of the pace; 0.1 is 6 min in the hour",
          {0.05, 0.4, Provenance::tuned, source::forecasts}),
    field("pace_time", &ModelError::pace_time, kind::duration, range::within(60.0, 1e7),
          "over which the pace wanders", {1800.0, 1e5, Provenance::tuned, source::forecasts}),
    field("level", &ModelError::level, kind::difference, range::within(0.0, 20.0),
          "standard deviation of the level", {1.0, 8.0, Provenance::tuned, source::forecasts}),
    field("level_time", &ModelError::level_time, kind::duration, range::within(60.0, 1e7),
          "over which the level wanders", {600.0, 2e4, Provenance::tuned, source::forecasts}),
    field("tails", &ModelError::tails, kind::number, range::within(1.0, normal_tails),
          "how heavy the tails are: degrees of freedom of Student's t; 1e6: normal",
          {2.0, 30.0, Provenance::tuned, source::forecasts}),
};

} // namespace cook
