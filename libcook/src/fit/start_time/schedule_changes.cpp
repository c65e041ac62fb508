#include "fit/start_time/schedule_changes.hpp"

#include <cmath>

#include "cook/errors.hpp"
#include "cook/fit/free_parameter.hpp"
#include "cook/fit/schedule.hpp"
#include "cook/units.hpp"

namespace cook {

namespace {

constexpr double hottest_low_and_slow = 150.0; // °C: low and slow ends there
constexpr double coolest_wrap = 55.0;          // °C: bark needs its time

/// Makes the pit of heated stages hotter. @returns whether any is
bool heat_up(Plan &plan, std::size_t first, std::size_t done) {
  bool any = false;
  for (std::size_t i = first; i <= done; ++i) {
    Surroundings &around = plan.stages[i].surroundings;
    if (heats(plan.stages[i]) && around.air.maximum() + schedule_hotter_by <= hottest_low_and_slow) {
      for (double &v : around.air.value) {
        v += schedule_hotter_by;
      }
      any = true;
    }
  }
  return any;
}

std::string hotter_in_words() {
  const double fahrenheit = fahrenheit_difference_from_kelvin(schedule_hotter_by);
  return "the pit " + format_number(std::round(fahrenheit)) + " °F (" + format_number(schedule_hotter_by) +
         " °C) hotter";
}

std::optional<Change> hotter_pit(const Plan &plan, std::size_t first, std::size_t done) {
  Change change{hotter_in_words(), plan};
  return heat_up(change.plan, first, done) ? std::optional(change) : std::nullopt;
}

/// The first stage that is wrapped after a bare one which waits for the core.
std::optional<std::size_t> wrapped_stage(const Plan &plan, std::size_t done) {
  for (std::size_t i = 1; i <= done; ++i) {
    if (heats(plan.stages[i]) && !is_bare(plan.stages[i]) && is_bare(plan.stages[i - 1])) {
      return i;
    }
  }
  return {};
}

} // namespace

bool is_bare(const Stage &stage) { return stage.wrap.name == "none"; }

std::optional<std::size_t> core_end(const Stage &stage) {
  for (std::size_t i = 0; i < stage.until.size(); ++i) {
    if (stage.until[i].kind == EndKind::core) {
      return i;
    }
  }
  return {};
}

std::vector<Change> quicker(const Plan &plan, std::size_t done) {
  std::vector<Change> list;
  if (auto hotter = hotter_pit(plan, 0, done)) {
    list.push_back(std::move(*hotter));
  }
  if (const auto wrapped = wrapped_stage(plan, done)) {
    if (plan.stages[*wrapped].wrap.name != "foil") {
      Change foil{"foil instead of " + plan.stages[*wrapped].wrap.name, plan};
      for (std::size_t i = *wrapped; i <= done; ++i) {
        if (!is_bare(plan.stages[i])) {
          foil.plan.stages[i].wrap = wrap("foil");
        }
      }
      list.push_back(std::move(foil));
    }
    Stage before = plan.stages[*wrapped - 1];
    if (const auto at = core_end(before);
        at && before.until[*at].value - schedule_earlier_by >= coolest_wrap) {
      const double usual = before.until[*at].value;
      Change earlier{"wrapped at " + format_degrees(usual - schedule_earlier_by) + " instead of " +
                         format_degrees(usual),
                     plan};
      earlier.plan.stages[*wrapped - 1].until[*at].value -= schedule_earlier_by;
      list.push_back(std::move(earlier));
    }
    return list;
  }
  const Stage &last = plan.stages[done];
  const auto at = core_end(last);
  if (heats(last) && is_bare(last) && at &&
      last.until[*at].value > schedule_usual_wrap + schedule_earlier_by) {
    for (const char *name : {"butcher paper", "foil"}) {
      Change wrapping{std::string("wrapped in ") + name + " at " + format_degrees(schedule_usual_wrap), plan};
      Stage bare = last;
      bare.until[*at].value = schedule_usual_wrap;
      wrapping.plan.stages[done].wrap = wrap(name);
      wrapping.plan.stages.insert(wrapping.plan.stages.begin() + static_cast<std::ptrdiff_t>(done), bare);
      list.push_back(std::move(wrapping));
    }
  }
  return list;
}

std::optional<Change> hurried(const Plan &plan, std::size_t first, std::size_t done) {
  Change change{"", plan};
  bool was_wrapped = false;
  for (std::size_t i = 0; i < first; ++i) {
    was_wrapped = was_wrapped || !is_bare(plan.stages[i]);
  }
  for (std::size_t i = first; i <= done; ++i) {
    Stage &stage = change.plan.stages[i];
    if (!heats(stage) || stage.wrap.name == "foil") {
      was_wrapped = was_wrapped || stage.wrap.name == "foil";
      continue;
    }
    if (is_bare(stage) && was_wrapped) {
      continue; // unwrapped again for its crust
    }
    stage.wrap = wrap("foil");
    stage.spritz.reset();
    stage.lid.clear();
    was_wrapped = true;
    change.what = "foil round it";
  }
  if (heat_up(change.plan, first, done)) {
    change.what += (change.what.empty() ? "" : " and ") + hotter_in_words();
  }
  return change.what.empty() ? std::nullopt : std::optional(change);
}

} // namespace cook
