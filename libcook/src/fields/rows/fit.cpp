/// @file
/// Table rows of calibration and forecasts: how far the model is trusted, and what a pit may do.
/// Values stand in the structs (include/cook), ranges and sources of their members in the *_fields.hpp beside
/// them; here is what is no member of a struct.
#include "cook/fit/fit_fields.hpp"
#include "cook/fit/forecast.hpp"
#include "cook/fit/schedule.hpp"
#include "fields/parameter_rows.hpp"
#include "fit/calibrate/words.hpp"
#include "fit/forecast/outlook.hpp"

namespace cook::rows {

namespace {
using enum Provenance;
} // namespace

void add_fit(std::vector<Parameter> &table) {
  add_defaults(table, "model_error.", ModelError{}, "");
  const PitOutlook pit;
  constexpr std::string_view solver = "chosen so that intervals cover cooks of the same model as stated: a "
                                      "coarser grid, and a pit log thinned "
                                      "to ten minutes";
  const ModelError slab = slab_model_error();
  add(table, "slab_model_error.", told_of(&ModelError::pace), slab.pace, {0.0, 0.05, tuned, solver}, "");
  add(table, "slab_model_error.", told_of(&ModelError::level), slab.level, {0.05, 0.5, tuned, solver}, "");
  const std::string cookers = "judgement: what charcoal and simple controllers do";
  table.insert(
      table.end(),
      {
          {"pit_outlook.level_deviation", pit.level_deviation, "K", 1.0, 10.0, cookers, assumed},
          {"pit_outlook.drift", fit::outlook_drift, "K", 0.5, 6.0, cookers, assumed},
          {"pit_outlook.ripple", pit.ripple, "K", 0.5, 10.0, cookers, assumed},
          {"pit_outlook.ripple_time", pit.ripple_time, "s", 120.0, 7200.0, cookers, assumed},
          {"fit.tied", fit::tied, "-", 0.7, 0.95, "judgement: from here on two numbers are named as one",
           assumed},
          {"fit.told_little", fit::told_little, "-", 0.1, 0.5,
           "judgement: narrowing that nobody would notice", assumed},
          {"free.probe_distance.median", usual_probe_distance, "m", 0.001, 0.008,
           "judgement: heights off by 5 mm (standard deviation)", assumed},
          {"schedule.hotter_by", schedule_hotter_by, "K", 5.0, 30.0,
           "common practice, no source: pits are set in steps of 25 °F", common_practice},
          {"schedule.earlier_by", schedule_earlier_by, "K", 2.0, 15.0,
           "common practice, no source: a wrap at 150 or 160 °F", common_practice},
          {"schedule.usual_wrap", schedule_usual_wrap, "°C", 60.0, 77.0,
           "common practice, no source: wrapped in the stall", common_practice},
          {"schedule.hold_limit", ScheduleOptions{}.hold_limit, "°C", 57.0, 63.0,
           "FDA Food Code 3-501.16: hot holding at 57 °C (135 °F) or above; local rules may ask for more",
           published},
      });
}

} // namespace cook::rows
