/// @file
/// What the page calls: text in, text out, nothing thrown. Every answer is JSON and stays until the next
/// call; one that failed is {"error": {"field": ..., "message": ...}}.
#include <memory>
#include <string>

#include "cook/engine/simulate.hpp"
#include "cook/errors.hpp"
#include "cook/json/json.hpp"
#include "dials.hpp"
#include "dinner.hpp"
#include "facts.hpp"
#include "possible.hpp"
#include "settings.hpp"

#ifdef __EMSCRIPTEN__
#include <emscripten/emscripten.h>
#else
#define EMSCRIPTEN_KEEPALIVE
#endif

namespace {

using namespace cook;
using page::Json;

template <class Make> const char *answer(Make make) {
  static std::string text;
  Json made;
  try {
    made = make();
  } catch (const InvalidInput &error) {
    made = {{"error", {{"field", error.field()}, {"message", error.message()}}}};
  } catch (const std::exception &error) {
    made = {{"error", {{"field", ""}, {"message", error.what()}}}};
  }
  text = made.dump();
  return text.c_str();
}

/// Settings as they are taken when left to the library, for the sliders that say so.
Json taken(const Plan &plan) {
  return {{"mass", plan.meat.mass()},
          {"thickness", plan.meat.shape.thickness},
          {"vapour", plan.stages.front().surroundings.vapour_pressure.value.front()}};
}

Json cooked(const Json &ask) {
  const Plan plan = page::plan_of(ask);
  Options options;
  options.physics = page::physics_of(ask);
  std::shared_ptr<const Outcome> outcome;
  Json given_up = nullptr;
  try {
    outcome = simulate(plan, options);
  } catch (const SolverFailure &failure) { // what there is of it is shown
    outcome = failure.outcome();
    given_up = failure.what();
  }
  Json made = page::facts_of(*outcome);
  made["given_up"] = given_up;
  made["too_late"] = page::wrapped_too_late(ask);
  made["taken"] = taken(plan);
  made["curves"] = page::curves_of(*outcome, ask.value("points", std::size_t{0}));
  return made;
}

std::unique_ptr<page::Possible> possible;
std::unique_ptr<page::Dinner> dinner;

} // namespace

extern "C" {

/// What can be chosen.
EMSCRIPTEN_KEEPALIVE const char *page_form() { return answer(page::form); }

/// One cook: settings or a plan, "physics", and "points" of the curves (0: all).
EMSCRIPTEN_KEEPALIVE const char *page_cook(const char *ask) {
  return answer([&] { return cooked(json::parse(ask, "ask")); });
}

/// The plan in full, as Plan.from_json reads it.
EMSCRIPTEN_KEEPALIVE const char *page_plan(const char *ask) {
  return answer([&] { return Json{{"plan", to_json(page::plan_of(json::parse(ask, "ask")))}}; });
}

/// Draws "count" possible cooks of a plan.
EMSCRIPTEN_KEEPALIVE const char *page_possible(const char *ask) {
  return answer([&] {
    const Json asked = json::parse(ask, "ask");
    possible = std::make_unique<page::Possible>(page::plan_of(asked), asked.value("count", 40));
    return Json::object();
  });
}

/// Cooks so many more of those drawn last.
EMSCRIPTEN_KEEPALIVE const char *page_possible_next(int count) {
  return answer([&] {
    if (!possible) {
      throw InvalidInput("possible", "no cooks were drawn");
    }
    Json cooks = possible->next(count);
    return Json{{"cooks", std::move(cooks)}, {"done", possible->done()}};
  });
}

/// Draws possible cooks for a few plans, see Dinner.
EMSCRIPTEN_KEEPALIVE const char *page_dinner(const char *ask) {
  return answer([&] {
    dinner = std::make_unique<page::Dinner>(json::parse(ask, "ask"));
    return dinner->drawn();
  });
}

/// Cooks so many more of those drawn last.
EMSCRIPTEN_KEEPALIVE const char *page_dinner_next(int count) {
  return answer([&] {
    if (!dinner || count < 1) {
      throw InvalidInput("dinner", "no cooks were drawn, or none are asked for");
    }
    Json made = dinner->next(static_cast<std::size_t>(count));
    made["done"] = dinner->done();
    return made;
  });
}

/// One of the plans in full, as Plan.from_json reads it.
EMSCRIPTEN_KEEPALIVE const char *page_dinner_plan(int plan) {
  return answer([&] {
    if (!dinner || plan < 0) {
      throw InvalidInput("dinner", "no cooks were drawn");
    }
    return Json{{"plan", to_json(dinner->whole(static_cast<std::size_t>(plan)))}};
  });
}
}
