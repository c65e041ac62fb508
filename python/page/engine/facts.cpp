#include "facts.hpp"

#include <algorithm>
#include <cmath>
#include <utility>

#include "cook/readings/limits.hpp"
#include "cook/readings/readings.hpp"

namespace cook::page {

namespace {

std::vector<std::size_t> faces(const Outcome &outcome) {
  return outcome.face_area[0] > 0.0 ? std::vector<std::size_t>{0, 1} : std::vector<std::size_t>{1};
}

Json or_null(const std::optional<double> &value) { return value ? Json(*value) : Json(nullptr); }
/// The readings of safety write -1 for never.
Json unless_never(double seconds) { return seconds < 0.0 ? Json(nullptr) : Json(seconds); }

std::string wrap_of(const Outcome &outcome, std::size_t stage) {
  const std::string &name = outcome.plan.stages[stage].wrap.name;
  return name == "none" ? "" : name;
}

Json stages_of(const Outcome &outcome) {
  Json made = Json::array();
  for (std::size_t i = 0; i < outcome.stage_ends.size(); ++i) {
    const StageEnd &end = outcome.stage_ends[i];
    made.push_back({{"name", end.name},
                    {"wrap", wrap_of(outcome, i)},
                    {"start", end.start},
                    {"end", end.time},
                    {"core", end.core},
                    {"reason", end.reason}});
  }
  return made;
}

/// The stage that ended nearest to the pull; of equal ones the first by name.
std::string pulled_stage(const Outcome &outcome, double pulled_at) {
  std::vector<const StageEnd *> lasted;
  for (const StageEnd &end : outcome.stage_ends) {
    if (end.time > end.start) {
      lasted.push_back(&end);
    }
  }
  if (lasted.empty()) {
    for (const StageEnd &end : outcome.stage_ends) {
      lasted.push_back(&end);
    }
  }
  const auto rank = [&](const StageEnd *end) {
    return std::pair(std::abs(end->time - pulled_at), end->name);
  };
  const auto nearest = std::min_element(lasted.begin(), lasted.end(),
                                        [&](const auto *a, const auto *b) { return rank(a) < rank(b); });
  return nearest == lasted.end() ? "" : (*nearest)->name;
}

/// Mean heat over a spell: what reaches the faces, what evaporation takes [W m⁻²].
std::pair<double, double> mean_heat(const Outcome &outcome, double start, double end) {
  const FaceHeat heat = face_heat(outcome);
  double arrives = 0.0;
  double taken = 0.0;
  double whole = 0.0;
  for (std::size_t i = 0; i + 1 < outcome.times(); ++i) {
    const double weight =
        std::max(0.0, std::min(outcome.time[i + 1], end) - std::max(outcome.time[i], start));
    arrives += weight * (heat.convection[i] + heat.radiation[i]);
    taken += weight * heat.evaporation[i];
    whole += weight;
  }
  return {arrives / whole, taken / whole};
}

/// Why the core climbs slowly: in its stall, or where one would have been; null where it does not get there.
Json slow_spell(const Outcome &outcome, const std::optional<Stall> &stall) {
  const auto told = [&](double from, double to, double rate, double core) {
    const auto [arrives, taken] = mean_heat(outcome, from, to);
    return Json{{"arrives", arrives}, {"taken", taken}, {"rate", rate}, {"core", core}};
  };
  if (stall) {
    return told(stall->start, stall->end, stall->slowest, stall->plateau);
  }
  const auto slow = slowest_rise(outcome.time, outcome.core);
  return slow ? told(slow->from, slow->to, slow->rate, slow->core) : Json(nullptr);
}

Json heat_until(const Outcome &outcome, double pulled_at) {
  const auto [arrives, taken] = mean_heat(outcome, 0.0, pulled_at);
  return {{"arrives", arrives}, {"taken", taken}};
}

Json stall_of(const std::optional<Stall> &stall) {
  if (!stall) {
    return nullptr;
  }
  return {{"start", stall->start},     {"end", stall->end},         {"over", stall->over},
          {"plateau", stall->plateau}, {"slowest", stall->slowest}, {"slowest_at", stall->slowest_at}};
}

Json loss_of(const Outcome &outcome) {
  const Loss lost = loss(outcome);
  return {{"raw", lost.raw},         {"evaporated", lost.evaporated},
          {"dripped", lost.dripped}, {"in_wrap", lost.in_wrap},
          {"fat", lost.fat},         {"spritzed", lost.spritzed},
          {"total", lost.total()}};
}

Json safety_of(const Outcome &outcome) {
  const Safety read = safety(outcome);
  Json cooling = Json::array();
  for (const double level : {safety_limits::cooling_middle, safety_limits::cold_holding}) {
    cooling.push_back(read.cooling_start < 0.0 ? Json(nullptr) : or_null(falls_to(outcome, level)));
  }
  return {{"reductions", read.log_reduction},
          {"killed_at", unless_never(read.lethality_at)},
          {"come_up", unless_never(read.come_up)},
          {"core_danger", read.core_danger_time},
          {"surface_danger", read.surface_danger_time},
          {"cooling_from", unless_never(read.cooling_start)},
          {"cooled_at", cooling},
          {"warnings", read.warnings},
          {"caution", read.caution}};
}

Json ledger_of(const Ledger &book) {
  return {{"heat_stored", book.heat_stored},       {"convection", book.convection},
          {"radiation", book.radiation},           {"latent", book.latent},
          {"water_enthalpy", book.water_enthalpy}, {"spritz_enthalpy", book.spritz_enthalpy},
          {"heat_residual", book.heat_residual},   {"water_residual", book.water_residual}};
}

double last_rate(const Outcome &outcome) {
  const double end = outcome.time.back();
  const double begin = 0.9 * end;
  return end > begin ? (outcome.core.back() - outcome.core_at(begin)) / (end - begin) : 0.0;
}

/// What an outcome notes of stages that were over before they began.
Json skipped(const Outcome &outcome) {
  Json made = Json::array();
  for (const std::string &note : outcome.notes) {
    if (note.find(" was skipped: ") != std::string::npos) {
      made.push_back(note);
    }
  }
  return made;
}

std::vector<std::size_t> kept(const Outcome &outcome, std::size_t points) {
  const std::size_t count = outcome.times();
  std::vector<std::size_t> made;
  if (points == 0 || points >= count) {
    for (std::size_t i = 0; i < count; ++i) {
      made.push_back(i);
    }
    return made;
  }
  for (std::size_t k = 0; k < points; ++k) {
    made.push_back(static_cast<std::size_t>(
        std::llround(static_cast<double>(k * (count - 1)) / static_cast<double>(points - 1))));
  }
  // a step of the air happens between two stored times: both stay in
  for (const StageEnd &end : outcome.stage_ends) {
    const auto at = std::lower_bound(outcome.time.begin(), outcome.time.end(), end.time);
    const auto i = static_cast<std::size_t>(at - outcome.time.begin());
    made.push_back(std::min(i, count - 1));
    made.push_back(std::min(i + 1, count - 1));
  }
  std::sort(made.begin(), made.end());
  made.erase(std::unique(made.begin(), made.end()), made.end());
  return made;
}

} // namespace

FaceHeat face_heat(const Outcome &outcome) {
  FaceHeat mean;
  const std::vector<std::size_t> all = faces(outcome);
  const auto add = [&](std::vector<double> &to, const std::vector<double> &from) {
    to.resize(from.size());
    for (std::size_t i = 0; i < from.size(); ++i) {
      to[i] += from[i] / static_cast<double>(all.size());
    }
  };
  for (const std::size_t face : all) {
    const HeatBudget one = heat_budget(outcome, face);
    add(mean.convection, one.convection);
    add(mean.radiation, one.radiation);
    add(mean.evaporation, one.evaporation);
    add(mean.into_meat, one.into_meat);
  }
  return mean;
}

Json facts_of(const Outcome &outcome) {
  const auto carry = carryover(outcome);
  const auto stall = find_stall(outcome);
  const double end = outcome.time.back();
  const double last = outcome.core.back();
  const double pulled_at = carry ? carry->pulled_at : end;
  const bool given_up = outcome.stage_ends.size() < outcome.plan.stages.size();
  const std::string unfinished = given_up ? outcome.plan.stages[outcome.stage_ends.size()].name : "";
  Json made{
      {"stages", stages_of(outcome)},
      {"pulled_at", pulled_at},
      {"pulled_core", carry ? carry->pulled_core : last},
      {"pulled_stage", !carry && given_up ? unfinished : pulled_stage(outcome, pulled_at)},
      {"end", end},
      {"core", {outcome.core.front(), *std::max_element(outcome.core.begin(), outcome.core.end()), last}},
      {"stall", stall_of(stall)},
      {"spell", slow_spell(outcome, stall)},
      {"until_pull", heat_until(outcome, pulled_at)},
      {"rise", nullptr},
      {"peak", nullptr},
      {"peak_after", nullptr},
      {"hold", holding_core},
      {"held", nullptr},
      {"still_held", carry && last >= holding_core},
      {"above_hold", time_above(outcome, holding_core)},
      {"loss", loss_of(outcome)},
      {"tenderness", outcome.tenderness.back()},
      {"clock_start", or_null(outcome.plan.clock_start)},
      {"unfinished", given_up ? Json(unfinished) : Json(nullptr)},
      {"only_cools", !carry && last < outcome.core.front()},
      {"skipped", skipped(outcome)},
      {"last_rate", last_rate(outcome)},
      {"safety", safety_of(outcome)},
      {"ledger", ledger_of(outcome.ledger)}};
  if (carry) {
    made["rise"] = std::max(0.0, carry->rise()); // smoothing may leave a hair below zero
    made["peak"] = carry->peak;
    made["peak_after"] = carry->peak_at - pulled_at;
    made["held"] = time_above(outcome, holding_core);
  }
  return made;
}

Json curves_of(const Outcome &outcome, std::size_t points) {
  const std::vector<std::size_t> keep = kept(outcome, points);
  // What is drawn needs no more digits, and fewer of them are written and read sooner.
  const auto shown = [&](double value) { return points == 0 ? value : std::round(1e4 * value) / 1e4; };
  const auto read = [&](const std::vector<double> &from) {
    std::vector<double> made;
    made.reserve(keep.size());
    for (const std::size_t i : keep) {
      made.push_back(shown(from[i]));
    }
    return made;
  };
  const FaceHeat heat = face_heat(outcome);
  // Over the interval that begins at each time; the last one once more.
  const auto rate = [&](const std::vector<double> &from) {
    std::vector<double> made;
    made.reserve(keep.size());
    for (const std::size_t i : keep) {
      made.push_back(from.empty() ? 0.0 : shown(from[std::min(i, from.size() - 1)]));
    }
    return made;
  };
  return {{"time", read(outcome.time)},
          {"core", read(outcome.core)},
          {"surface", read(outcome.surface[1])},
          {"air", read(outcome.air)},
          {"surface_water", read(outcome.surface_water[1])},
          {"mean_water", read(outcome.mean_water)},
          {"tenderness", read(outcome.tenderness)},
          {"convection", rate(heat.convection)},
          {"radiation", rate(heat.radiation)},
          {"evaporation", rate(heat.evaporation)},
          {"into_meat", rate(heat.into_meat)}};
}

} // namespace cook::page
