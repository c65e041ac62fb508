/// The moments of a stage, in their order: against a plain list that is sorted and grouped.
#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>
#include <random>
#include <set>
#include <string>
#include <vector>

#include "clock.hpp"
#include "engine/stages/timeline.hpp"

using namespace cook;
using namespace cook::engine;

namespace {

/// Something that is due.
struct Due {
  double time;
  enum What { line, check, spritz, lid, end, limit } what;
  std::size_t check_of = 0;
};

/// A stage with many things due at nearly the same moments.
struct Crowd {
  std::mt19937 random;
  Plan plan;
  double start = 0.0;

  explicit Crowd(unsigned seed) : random(seed) {
    start = one_of({0.0, 1234.5, 7200.1, 4e4 + number(0.0, 1.0), 3e6 + number(0.0, 1.0)});
    plan.stages.resize(1);
    Stage &stage = plan.stages[0];
    stage.at_most = one_of({600.0, 900.0, number(200.0, 900.0)});
    if (chance(0.5)) {
      stage.spritz = Spritz{.every = one_of({60.0, 100.0, number(60.0, 300.0)}),
                            .first = one_of({0.0, 60.0, std::fmax(0.0, near(0.0)), number(0.0, 300.0)}),
                            .amount = 0.01,
                            .temperature = 20.0,
                            .lid_open = one_of({0.0, 10.0, 50.0})};
    }
    for (int k = count(3); k > 0; --k) {
      stage.lid.push_back({std::fmax(0.0, near(one_of({0.0, 60.0, 120.0, number(0.0, 600.0)}))),
                           one_of({1.0, 60.0, number(1.0, 200.0)})});
    }
    for (int k = count(3); k > 0; --k) {
      End end{EndKind::core, 500.0}; // never met: only looked at
      end.every = one_of({30.0, 60.0, number(20.0, 200.0)});
      stage.until.push_back(end);
    }
    for (int k = count(3); k > 0; --k) {
      const double after = std::fmax(1e-9, near(one_of({60.0, 240.0, 300.0, number(0.0, 600.0)})));
      if (chance(0.7)) {
        stage.until.push_back({EndKind::elapsed, after});
      } else {
        plan.clock_start = one_of({0.0, 64800.0});
        stage.until.push_back(
            {EndKind::clock, std::fmod(*plan.clock_start + start + after, seconds_per_day)});
      }
    }
    stage.surroundings.air = signal();
    stage.surroundings.vapour_pressure = chance(0.3) ? signal() : Signal(100.0);
    if (chance(0.2)) {
      stage.surroundings.air_below = signal();
    }
  }

  double number(double low, double high) { return std::uniform_real_distribution<double>(low, high)(random); }
  bool chance(double share) { return number(0.0, 1.0) < share; }
  int count(int most) { return std::uniform_int_distribution<int>(0, most)(random); }
  double one_of(std::initializer_list<double> list) {
    return *(list.begin() + std::uniform_int_distribution<std::ptrdiff_t>(
                                0, static_cast<std::ptrdiff_t>(list.size()) - 1)(random));
  }
  /// A time hardly apart from another: within rounding, within a moment, or just beyond one.
  double near(double time) {
    return time + one_of({0.0, 0.0, 1e-12, -1e-12, 1e-9, -1e-9, 4e-7, -4e-7, 9e-7, -9e-7, 1.1e-6, -1.1e-6,
                          2.5e-6, 1e-3});
  }
  Signal signal() {
    std::set<double> times;
    for (int k = 1 + count(12); k > 0; --k) {
      times.insert(start + near(one_of({-60.0, 0.0, 60.0, 120.0, 240.0, 300.0, number(-50.0, 700.0)})));
    }
    Signal made;
    made.time.assign(times.begin(), times.end());
    made.value.clear();
    for (std::size_t i = 0; i < made.time.size(); ++i) {
      made.value.push_back(number(60.0, 150.0));
    }
    return made;
  }

  /// Everything that the plan asks for, each by itself.
  [[nodiscard]] std::vector<Due> all() const {
    const Stage &stage = plan.stages[0];
    std::vector<Due> list;
    const double limit = start + stage.at_most;
    list.push_back({limit, Due::limit});
    for (std::size_t i = 0; i < stage.until.size(); ++i) {
      const End &end = stage.until[i];
      if (end.kind == EndKind::elapsed) {
        list.push_back({start + end.value, Due::end});
      } else if (end.kind == EndKind::clock) {
        list.push_back({start + time_until_clock(*plan.clock_start + start, end.value), Due::end});
      }
      for (double k = 0.0; end.every > 0.0 && start + end.every + k * end.every < limit + 1.0; k += 1.0) {
        list.push_back({start + end.every + k * end.every, Due::check, i});
      }
    }
    double last = limit;
    for (const Due &due : list) {
      last = due.what == Due::end ? std::fmin(last, due.time) : last;
    }
    std::vector<LidOpening> openings;
    for (const LidOpening &opening : stage.lid) {
      openings.push_back({start + opening.at, opening.duration});
    }
    for (double k = 0.0; stage.spritz; k += 1.0) {
      const double at = start + stage.spritz->first + k * stage.spritz->every;
      if (at > limit + 1.0) {
        break;
      }
      list.push_back({at, Due::spritz});
      if (at < last && stage.spritz->lid_open > 0.0) {
        openings.push_back({at, stage.spritz->lid_open});
      }
    }
    for (const LidOpening &opening : openings) {
      list.push_back({opening.at, Due::lid});
    }
    const Signal lid = lid_signal(joined(openings));
    const Surroundings &s = stage.surroundings;
    for (const Signal *signal : {&s.air, s.air_below ? &*s.air_below : &s.air, &s.vapour_pressure, &lid}) {
      for (std::size_t i = 0; signal->time.size() > 1 && i < signal->time.size(); ++i) {
        list.push_back({signal->time[i], Due::line});
      }
    }
    return list;
  }
};

/// The moments that follow from a list: sorted, and what is close together taken as one.
std::vector<Moment> plainly(std::vector<Due> list, double start) {
  list.erase(std::remove_if(list.begin(), list.end(), [start](const Due &d) { return d.time < start; }),
             list.end());
  list.push_back({start, Due::line});
  std::stable_sort(list.begin(), list.end(), [](const Due &a, const Due &b) { return a.time < b.time; });
  std::vector<Moment> moments;
  for (std::size_t i = 0; i < list.size() && (moments.empty() || !moments.back().is_last());) {
    Moment moment;
    moment.first = list[i].time;
    double end = 0.0;
    double limit = 0.0;
    for (; i < list.size() && list[i].time <= moment.first + same_moment; ++i) {
      const Due &due = list[i];
      if (due.what == Due::end) {
        end = moment.ends ? end : due.time;
        moment.ends = true;
        continue;
      }
      if (due.what == Due::limit) {
        limit = due.time;
        moment.gives_up = true;
        continue;
      }
      moment.last = due.time;
      moment.spritz = moment.spritz || due.what == Due::spritz;
      moment.lid = moment.lid || due.what == Due::lid;
      if (due.what == Due::check) {
        moment.checks.push_back(due.check_of);
      }
    }
    moment.last = std::fmax(moment.last, moment.first);
    std::sort(moment.checks.begin(), moment.checks.end());
    moment.time = moments.empty() ? start : moment.ends ? end : moment.gives_up ? limit : moment.first;
    moments.push_back(moment);
  }
  return moments;
}

bool same(const Moment &a, const Moment &b) {
  return a.time == b.time && a.first == b.first && a.last == b.last && a.checks == b.checks &&
         a.ends == b.ends && a.gives_up == b.gives_up && a.spritz == b.spritz && a.lid == b.lid;
}

std::string told(const Moment &m) {
  std::string text = std::to_string(m.time) + " [" + std::to_string(m.first) + ", " + std::to_string(m.last);
  text += "] checks " + std::to_string(m.checks.size());
  for (const auto &[on, name] : {std::pair{m.ends, " ends"}, std::pair{m.gives_up, " gives up"},
                                 std::pair{m.spritz, " spritz"}, std::pair{m.lid, " lid"}}) {
    text += on ? name : "";
  }
  return text;
}

/// Walks through a timeline; the first thing that is wrong, in words.
std::string walk(const Crowd &crowd) {
  const std::vector<Moment> wanted = plainly(crowd.all(), crowd.start);
  Timeline timeline(crowd.plan, 0, crowd.start);
  const Signal &air = crowd.plan.stages[0].surroundings.air;
  for (std::size_t k = 0;; ++k) {
    if (k >= wanted.size() || !same(timeline.now(), wanted[k])) {
      return "moment " + std::to_string(k) + ": " + told(timeline.now()) + ", wanted " +
             (k < wanted.size() ? told(wanted[k]) : "none");
    }
    if (timeline.now().is_last()) {
      return k + 1 == wanted.size() ? "" : "it ends too early";
    }
    const Moment &next = timeline.next();
    if (!(next.time > timeline.now().time)) {
      return "time does not go on after " + told(timeline.now());
    }
    const Drive<double> drive = timeline.drive(1.0);
    const double length = next.time - timeline.now().time;
    const double at_end = drive.air[1] + drive.air_slope[1] * length;
    if (drive.air[1] != air.without_ripple(timeline.now().last) ||
        std::fabs(at_end - air.without_ripple(next.first)) > 1e-9) {
      return "the air does not follow its lines after " + told(timeline.now());
    }
    timeline.go_on();
  }
}

Plan timed(double seconds) {
  Plan plan;
  plan.stages.resize(1);
  plan.stages[0].until = {{EndKind::elapsed, seconds}};
  return plan;
}

} // namespace

TEST_CASE("100,000 stages with crowds of near and equal moments: none is passed by, none comes twice") {
  std::size_t moments = 0;
  std::size_t crowded = 0;
  for (unsigned seed = 0; seed < 100000; ++seed) {
    const Crowd crowd(seed);
    const std::string wrong = walk(crowd);
    INFO("seed ", seed, ": ", wrong);
    REQUIRE(wrong.empty());
    for (const Moment &moment : plainly(crowd.all(), crowd.start)) {
      ++moments;
      crowded += moment.last > moment.first ? 1 : 0;
    }
  }
  CHECK(moments > 1000000);
  CHECK(crowded > 100000);
}

TEST_CASE("an end a rounding error after a row of the log is the end, at its own time") {
  Plan plan = timed(3960.0000000000005);
  plan.stages[0].surroundings.air = Signal({0.0, 3960.0, 36000.0}, {110.0, 120.0, 118.0});
  Timeline timeline(plan, 0, 0.0);
  CHECK(timeline.next().ends);
  CHECK(timeline.next().time == 3960.0000000000005);
  CHECK(timeline.next().first == 3960.0);
}

TEST_CASE("an end no later than its stage's start is at the start; nothing else is done") {
  for (const double seconds : {1e-12, 1e-9, 5e-7}) {
    Plan plan = timed(seconds);
    plan.stages[0].spritz = Spritz{.first = 0.0};
    const Timeline timeline(plan, 0, 1e6);
    CHECK(timeline.now().ends);
    CHECK(timeline.now().time == 1e6);
    CHECK(timeline.drive(1.0).air_slope[0] == 0.0);
  }
}

TEST_CASE("of several timed ends the earliest counts, of equals the first") {
  Plan plan = timed(5.0 * 3600.0);
  plan.stages[0].until.push_back({EndKind::elapsed, 3.0 * 3600.0});
  CHECK(Timeline(plan, 0, 7.0).timed().value == 3.0 * 3600.0);
  plan.clock_start = 0.0;
  plan.stages[0].until.push_back({EndKind::clock, 3.0 * 3600.0});
  CHECK(Timeline(plan, 0, 0.0).timed().kind == EndKind::elapsed);
  std::swap(plan.stages[0].until[1], plan.stages[0].until[2]);
  CHECK(Timeline(plan, 0, 0.0).timed().kind == EndKind::clock);
}

TEST_CASE("a jump of the air within a moment stays one: it does not become a ramp to the next row") {
  Plan plan = timed(7200.0);
  plan.stages[0].surroundings.air = Signal({0.0, 3600.0, 3600.0 + 1e-7, 7200.0}, {110.0, 110.0, 60.0, 60.0});
  Timeline timeline(plan, 0, 0.0);
  CHECK(timeline.drive(1.0).air_slope[1] == doctest::Approx(0.0));
  CHECK(timeline.drive_beyond(1.0).air[1] == 60.0);
  timeline.go_on();
  CHECK(timeline.now().time == 3600.0);
  CHECK(timeline.drive(1.0).air[1] == 60.0);
  CHECK(timeline.drive(1.0).air_slope[1] == 0.0);
  double until = 0.0;
  CHECK(timeline.drive_from(3600.0, 1.0, until).air[1] == 60.0);
  CHECK(until == 7200.0);
}

TEST_CASE("a time of day that rounding has put into the past is now, not tomorrow") {
  CHECK(time_until_clock(64800.0, 64800.0) == 0.0);
  CHECK(time_until_clock(64800.0 + 1e-9, 64800.0) == 0.0);
  CHECK(time_until_clock(64800.0 + 1.0, 64800.0) == doctest::Approx(86399.0));
  CHECK(time_until_clock(64800.0 - 1.0, 64800.0) == doctest::Approx(1.0));
  CHECK(time_until_clock(10.0 * 86400.0 + 60.0, 30.0) == doctest::Approx(86370.0));
  CHECK(time_until_clock(0.0, 86400.0) == 0.0);
}

TEST_CASE("openings that overlap or touch are one: a short one does not shut the lid of a long one") {
  const auto openings = joined({{700.0, 30.0}, {600.0, 900.0}, {1500.0, 10.0}, {3000.0, 60.0}});
  REQUIRE(openings.size() == 2);
  CHECK(openings[0].at == 600.0);
  CHECK(openings[0].duration == doctest::Approx(910.0));
  const Signal lid = lid_signal(openings);
  CHECK(lid.at(800.0) == doctest::Approx(lid_share));
  CHECK(lid.at(1509.0) == doctest::Approx(lid_share));
  CHECK(lid.at(1510.0 + lid_recovery) == doctest::Approx(1.0));
  // One that begins while the air recovers takes over from there.
  const Signal again = lid_signal(joined({{0.0, 60.0}, {210.0, 60.0}}));
  CHECK(again.at(210.0) == doctest::Approx(0.5 * (1.0 + lid_share)));
  CHECK(again.at(225.0) == doctest::Approx(lid_share));
}
