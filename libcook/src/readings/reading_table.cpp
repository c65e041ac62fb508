/// @file
/// What sweeps keep of a cook: a row each; a new reading is a row here.
#include "cook/readings/reading_table.hpp"

#include <algorithm>
#include <limits>
#include <optional>

#include "cook/errors.hpp"
#include "cook/readings/readings.hpp"
#include "readings/reading_tools.hpp"

namespace cook {

namespace {

constexpr double nan = std::numeric_limits<double>::quiet_NaN();

/// An outcome and what is read off it, each computed once, when it is first asked for.
class Facts {
public:
  Facts(const Outcome &read_off, double held_to) : outcome(read_off), hold(held_to) {}
  const Outcome &outcome;
  double hold; ///< [°C]

  const std::optional<Stall> &stall() {
    return once(stall_, [this] { return find_stall(outcome); });
  }
  const std::optional<Carryover> &carry() {
    return once(carry_, [this] { return carryover(outcome); });
  }
  const Loss &lost() {
    return once(loss_, [this] { return loss(outcome); });
  }
  const Safety &safe() {
    return once(safety_, [this] { return safety(outcome); });
  }
  [[nodiscard]] double end() const {
    return outcome.stage_ends.empty() ? outcome.time.back() : outcome.stage_ends.back().time;
  }

private:
  template <class Fact, class Make> static const Fact &once(std::optional<Fact> &kept, Make make) {
    return kept ? *kept : kept.emplace(make());
  }
  std::optional<std::optional<Stall>> stall_;
  std::optional<std::optional<Carryover>> carry_;
  std::optional<Loss> loss_;
  std::optional<Safety> safety_;
};

using Take = double (*)(Facts &);
using TakeStage = double (*)(const StageEnd &);

struct KnownReading {
  Reading reading;
  Take take;
  TakeStage take_stage;
};

KnownReading one(const char *name, const char *units, const char *long_name, Take take) {
  return {.reading = {.name = name, .units = units, .long_name = long_name, .by_stage = false},
          .take = take,
          .take_stage = nullptr};
}

KnownReading each(const char *name, const char *units, const char *long_name, TakeStage take) {
  return {.reading = {.name = name, .units = units, .long_name = long_name, .by_stage = true},
          .take = nullptr,
          .take_stage = take};
}

std::vector<KnownReading> timing_rows() {
  return {
      one("finish_time", "s", "end of the last stage on the heat",
          [](Facts &f) { return f.carry() ? f.carry()->pulled_at : f.end(); }),
      one("end_time", "s", "end of the plan", [](Facts &f) { return f.end(); }),
      each("stage_end", "s", "end of each stage", [](const StageEnd &end) { return end.time; }),
      each("stage_core", "degC", "core temperature at the end of each stage",
           [](const StageEnd &end) { return end.core; }),
      one("stall_start", "s", "start of the stall; NaN without one",
          [](Facts &f) { return f.stall() ? f.stall()->start : nan; }),
      one("stall_end", "s", "end of the stall; NaN without one",
          [](Facts &f) { return f.stall() ? f.stall()->end : nan; }),
      one("stall_duration", "s", "duration of the stall; 0 without one",
          [](Facts &f) { return f.stall() ? f.stall()->duration() : 0.0; }),
      one("stall_plateau", "degC", "core temperature in the stall; NaN without one",
          [](Facts &f) { return f.stall() ? f.stall()->plateau : nan; }),
      one("carryover_peak", "degC", "highest core temperature after the heat; NaN if nothing follows",
          [](Facts &f) { return f.carry() ? f.carry()->peak : nan; }),
      one("carryover_rise", "K", "rise of the core after the heat; NaN if nothing follows it",
          [](Facts &f) { return f.carry() ? std::max(0.0, f.carry()->rise()) : nan; }),
      one("carryover_time", "s", "from the end of the heat to the peak; NaN if nothing follows it",
          [](Facts &f) { return f.carry() ? f.carry()->peak_at - f.carry()->pulled_at : nan; }),
      one("held", "s", "core at or above the holding temperature after the heat; NaN if it ends there",
          [](Facts &f) { return f.carry() ? time_above(f.outcome, f.hold) : nan; }),
      one("still_held", "1", "1: the plan ends with the core still at or above the holding temperature",
          [](Facts &f) { return f.carry() && f.outcome.core.back() >= f.hold ? 1.0 : 0.0; }),
  };
}

std::vector<KnownReading> weight_rows() {
  return {
      one("raw_mass", "kg", "raw mass, fat cap included", [](Facts &f) { return f.lost().raw; }),
      one("evaporated", "kg", "lost by evaporation", [](Facts &f) { return f.lost().evaporated; }),
      one("dripped", "kg", "lost by dripping", [](Facts &f) { return f.lost().dripped; }),
      one("in_wrap", "kg", "lost as juice on the faces and in the wrap",
          [](Facts &f) { return f.lost().in_wrap; }),
      one("rendered_fat", "kg", "lost as rendered fat, an estimate", [](Facts &f) { return f.lost().fat; }),
      one("loss", "1", "share of the raw mass that is lost",
          [](Facts &f) { return f.lost().total() / f.lost().raw; }),
      one("yield", "1", "share of the raw mass that is left", [](Facts &f) { return f.lost().yield(); }),
  };
}

std::vector<KnownReading> doneness_and_safety_rows() {
  return {
      one("tenderness", "1", "share of collagen converted at the core by the end",
          [](Facts &f) { return f.outcome.tenderness.empty() ? nan : f.outcome.tenderness.back(); }),
      one("log_reduction", "1",
          "calculated decimal reductions of Salmonella at the slowest place, or a lower bound of them",
          [](Facts &f) { return f.safe().log_reduction; }),
      one("lethality_time", "s", "when 6.5 decimal reductions are calculated everywhere; NaN if never",
          [](Facts &f) { return f.safe().lethality_at < 0.0 ? nan : f.safe().lethality_at; }),
      one("core_danger_time", "s", "core between 5 and 57 °C while warming",
          [](Facts &f) { return f.safe().core_danger_time; }),
      one("surface_danger_time", "s", "slower face between 5 and 57 °C while warming",
          [](Facts &f) { return f.safe().surface_danger_time; }),
      one("safety_warnings", "1", "how many warnings Outcome.safety() gives",
          [](Facts &f) { return static_cast<double>(f.safe().warnings.size()); }),
  };
}

const std::vector<KnownReading> &known_readings() {
  static const std::vector<KnownReading> all = [] {
    std::vector<KnownReading> made = timing_rows();
    for (const std::vector<KnownReading> &more : {weight_rows(), doneness_and_safety_rows()}) {
      made.insert(made.end(), more.begin(), more.end());
    }
    return made;
  }();
  return all;
}

} // namespace

std::span<const Reading> reading_table() {
  static const std::vector<Reading> table = [] {
    std::vector<Reading> made;
    for (const KnownReading &row : known_readings()) {
      made.push_back(row.reading);
    }
    return made;
  }();
  return table;
}

Reader::Reader(std::span<const std::string> names, std::size_t stages, double hold)
    : stages_(stages), hold_(check::celsius("hold", hold, 0.0, 100.0)) {
  const std::span<const Reading> table = reading_table();
  for (const std::string &name : names) {
    const auto row = std::find_if(table.begin(), table.end(),
                                  [&](const Reading &reading) { return reading.name == name; });
    if (row == table.end()) {
      throw InvalidInput("readings", in_quotes(name) + " is not in the table of readings");
    }
    wanted_.push_back(static_cast<std::size_t>(row - table.begin()));
    width_ += row->by_stage ? stages : 1;
  }
}

void Reader::read(const Outcome &outcome, std::span<double> into) const {
  readings::require_samples(outcome);
  if (into.size() != width_) {
    throw InvalidInput("into", std::to_string(into.size()) + " numbers; " + std::to_string(width_) +
                                   " are read off an outcome");
  }
  Facts facts(outcome, hold_);
  auto at = into.begin();
  for (const std::size_t i : wanted_) {
    const KnownReading &row = known_readings()[i];
    if (row.take != nullptr) {
      *at++ = row.take(facts);
      continue;
    }
    for (std::size_t stage = 0; stage < stages_; ++stage) { // those not begun have no end
      *at++ = stage < outcome.stage_ends.size() ? row.take_stage(outcome.stage_ends[stage]) : nan;
    }
  }
}

} // namespace cook
