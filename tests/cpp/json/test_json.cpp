// Plans and outcomes through JSON and back, and the schema. What bad files say is in test_json_errors.cpp.
#include "cook/json/json.hpp"

#include <doctest/doctest.h>

#include <cmath>
#include <limits>
#include <random>

#include "cook/errors.hpp"
#include "cooks.hpp"
#include "json/json_support.hpp"
#include "json/read.hpp"

using namespace cook;
using namespace json_support;
using json::Json;

namespace {

/// Every member of a plan is set, every optional filled, every end condition used.
Plan every_feature() {
  Plan plan;
  plan.meat = brisket(6.4);
  plan.meat.fat_cap.side = FatSide::up;
  plan.meat.tissue.fixed = FixedThermal{.conductivity = 0.48, .heat_capacity = 3.5e6};
  plan.clock_start = 22 * 3600.0;

  Stage smoke;
  smoke.name = "räuchern \"low\"\\\n";
  smoke.surroundings = pit("offset", Signal({0.0, 3600.0, 7200.0}, {95.0, 118.5, 110.0}));
  smoke.surroundings.air.ripple_amplitude = 4.0;
  smoke.surroundings.air.measured = true;
  smoke.surroundings.air_below = Signal({0.0, 60.0}, {90.0, 92.0});
  smoke.surroundings.bottom = {.kind = Convection::given, .value = 9.0, .length = 0.07};
  smoke.surroundings.radiant_bottom = 12.0;
  smoke.surroundings.radiant_top = -3.0;
  smoke.surroundings.view = 0.95;
  smoke.until = {{EndKind::core, 71.1},       {EndKind::elapsed, 36000.0}, {EndKind::clock, 8 * 3600.0},
                 {EndKind::clock, 30000.123}, {EndKind::bark, 0.4},        {EndKind::tender, 0.8}};
  smoke.spritz = Spritz{};
  smoke.lid = {{600.0, 45.0}, {1200.0, 60.0}};

  Stage wrapped;
  wrapped.name = "wrapped";
  wrapped.surroundings = oven(121.0, true);
  wrapped.wrap = wrap("foil");
  wrapped.wrap.bottom.juice_capacity.reset(); // not that of foil: must stay empty
  wrapped.until = {{EndKind::core, 94.0}};

  Stage rest;
  rest.name = "rest";
  rest.surroundings = insulated_box(21.0, {.heat_capacity = 5000.0, .loss = 0.8, .start = 50.0});
  rest.wrap = wrap("towels");
  rest.until = {{EndKind::cooled, 65.0}};

  plan.stages = {smoke, wrapped, rest};
  return plan;
}

/// Moves every number by a few units in the last places, so that none is short in decimal.
template <class S> void roughen(S &value) {
  int turn = 0;
  Walk walk([&turn](double &x) {
    if (x != 0.0) {
      x *= 1.0 - std::ldexp(1.0 + (++turn % 7), -50); // downwards: some stand at the top of their range
    }
  });
  walk.visit(value);
}

Outcome some_outcome() {
  Outcome o;
  o.plan = every_feature();
  std::mt19937_64 random(7);
  const auto any_double = [&] {
    for (;;) {
      const auto x = std::bit_cast<double>(random());
      if (std::isfinite(x)) {
        return x;
      }
    }
  };
  constexpr std::size_t times = 40;
  constexpr std::size_t nodes = 5;
  const auto fill = [&](std::vector<double> &list, std::size_t n) {
    list.resize(n);
    for (double &x : list) {
      x = any_double();
    }
  };
  for (std::size_t i = 0; i < times; ++i) {
    o.time.push_back(static_cast<double>(i) / 3.0);
  }
  for (auto *list : {&o.core, &o.coldest, &o.air, &o.tenderness, &o.mean_water, &o.mean_temperature}) {
    fill(*list, times);
  }
  for (std::size_t face = 0; face < 2; ++face) {
    fill(o.surface[face], times);
    fill(o.surface_water[face], times);
    fill(o.film[face], times);
    for (auto &path : o.paths[face]) {
      fill(path, times);
    }
  }
  fill(o.position, nodes);
  fill(o.node_volume, nodes);
  fill(o.temperature, times * nodes);
  fill(o.water, times * nodes);
  o.core[0] = -0.0;
  o.core[1] = std::numeric_limits<double>::denorm_min();
  o.core[2] = std::numeric_limits<double>::max();
  o.core[3] = 0.1 + 0.2;
  o.face_area = {0.1, 1.0 / 3.0};
  o.stage_ends = {{"smoke", 0.0, 18000.25, 71.1, "core at 71.1 °C"}, {"rest", 18000.25, 2e4, 65.0, "cooled"}};
  o.events = {{7200.0, "spritz"}, {7200.0, "lid"}};
  o.notes = {"invented for a test", ""};
  o.ledger.steps = 1234;
  o.ledger.rejected = 5;
  o.ledger.evaluations = 6;
  o.ledger.factorisations = std::numeric_limits<int>::max();
  int turn = 0;
  Walk number([&turn](double &x) { x = 1.0 / (3.0 + ++turn); });
  number.visit(o.ledger);
  return o;
}

} // namespace

TEST_CASE("the lists of members are complete") {
  // A member that is added to a struct but not to its list would be lost silently; these lines stop compiling
  // then.
  static_assert(sizeof(Composition) == 5 * sizeof(double) && sizeof(WaterHolding) == 3 * sizeof(double));
  static_assert(sizeof(WaterMobility) == 6 * sizeof(double) && sizeof(Sorption) == 3 * sizeof(double));
  static_assert(sizeof(HeatSinks) == 6 * sizeof(double) && sizeof(Exudation) == 3 * sizeof(double));
  static_assert(sizeof(Tenderness) == 2 * sizeof(double) && sizeof(Box) == 3 * sizeof(double));
  static_assert(sizeof(FixedThermal) == 2 * sizeof(double));
  static_assert(sizeof(Spritz) == 5 * sizeof(double) && sizeof(LidOpening) == 2 * sizeof(double));
  static_assert(sizeof(Ledger) == 18 * sizeof(double) + 4 * sizeof(int) + sizeof(double));
  [[maybe_unused]] const auto &[t1, t2, t3, t4, t5, t6, t7, t8, t9, t10, t11] = Tissue{};
  [[maybe_unused]] const auto &[s1, s2, s3, s4] = Shape{};
  [[maybe_unused]] const auto &[f1, f2, f3] = FatCap{};
  [[maybe_unused]] const auto &[m1, m2, m3, m4, m5, m6] = Meat{};
  [[maybe_unused]] const auto &[g1, g2, g3, g4, g5] = Signal{};
  [[maybe_unused]] const auto &[h1, h2, h3, h4] = Film{};
  [[maybe_unused]] const auto &[u1, u2, u3, u4, u5, u6, u7, u8, u9, u10, u11, u12, u13] = Surroundings{};
  [[maybe_unused]] const auto &[c1, c2, c3, c4] = Covering{};
  [[maybe_unused]] const auto &[w1, w2, w3, w4] = Wrap{};
  [[maybe_unused]] const auto &[e1, e2, e3] = End{};
  [[maybe_unused]] const auto &[a1, a2, a3, a4, a5, a6, a7, a8] = Stage{};
  [[maybe_unused]] const auto &[p1, p2, p3, p4] = Plan{};
  [[maybe_unused]] const auto &[b1, b2, b3, b4, b5] = Probe{};
  [[maybe_unused]] const auto &[x1, x2, x3, x4, x5, x6, x7, x8, x9, x10] = Section{};
  [[maybe_unused]] const auto &[q1, q2, q3, q4, q5, q6, q7] = PitAir{};
  [[maybe_unused]] const auto &[n1, n2, n3, n4, n5, n6, n7, n8] = WaterPan{};
  [[maybe_unused]] const auto &[d1, d2, d3, d4, d5] = StageEnd{};
  [[maybe_unused]] const auto &[v1, v2] = Event{};
  [[maybe_unused]] const auto &[o1, o2, o3, o4, o5, o6, o7, o8, o9, o10, o11, o12, o13, o14, o15, o16, o17,
                                o18, o19, o20, o21, o22, o23, o24, o25, o26, o27, o28] = Outcome{};
  CHECK(json::keys_of<Composition>().size() == 5);
  CHECK(json::keys_of<WaterMobility>().size() == 6);
  CHECK(json::keys_of<HeatSinks>().size() == 6);
  CHECK(json::keys_of<Tissue>().size() == 11);
  CHECK(json::keys_of<Meat>().size() == 6);
  CHECK(json::keys_of<Signal>().size() == 5);
  CHECK(json::keys_of<Surroundings>().size() == 13);
  CHECK(json::keys_of<Covering>().size() == 4);
  CHECK(json::keys_of<Spritz>().size() == 5);
  CHECK(json::keys_of<Stage>().size() == 8);
  CHECK(json::keys_of<Plan>().size() == 4);
  CHECK(json::keys_of<Ledger>().size() == 23);
  CHECK(json::keys_of<Outcome>().size() + 2 == 28); // two fields on request
}

TEST_CASE("a plan comes back bit by bit") {
  Plan plan = every_feature();
  SUBCASE("as it is") {}
  SUBCASE("with numbers that need all their digits") { roughen(plan); }
  for (const int indent : {-1, 0, 2, 4}) {
    const std::string text = to_json(plan, indent);
    const Plan back = plan_from_json(text);
    CHECK(contents_of(back) == contents_of(plan));
    CHECK(to_json(back, indent) == text);
  }
  const Plan back = plan_from_json(to_json(plan));
  CHECK(back.stages[0].until[3].value == plan.stages[0].until[3].value);
  CHECK(back.stages[0].surroundings.air.value == plan.stages[0].surroundings.air.value);
  CHECK_FALSE(back.stages[1].wrap.bottom.juice_capacity.has_value());
  CHECK(back.stages[2].surroundings.box->loss == plan.stages[2].surroundings.box->loss);
}

TEST_CASE("other shapes and empty optionals come back") {
  Plan plan;
  plan.meat = testing::roll(3.5);
  plan.stages = {Stage{}};
  plan.stages[0].until = {{EndKind::core, 90.0}};
  const std::string text = to_json(plan);
  CHECK(contents_of(plan_from_json(text)) == contents_of(plan));
  CHECK(text.find("null") == std::string::npos);
  CHECK(text.find("\"clock_start\"") == std::string::npos);
}

TEST_CASE("the written form is stable") {
  const std::string text = text_of(plans() / "good" / "as_written.json");
  CHECK(to_json(plan_from_json(text)) + "\n" == text);
}

TEST_CASE("short forms stand for what the functions make") {
  const auto first = [](const std::string &stage) {
    return plan_from_json(R"({"format": "libcook plan", "version": 1, "stages": [)" + stage + "]}")
        .stages.at(0);
  };
  const auto place = [&](const std::string &text) {
    return contents_of(first("{\"surroundings\": " + text + R"(, "until": {"elapsed": 60}})").surroundings);
  };
  CHECK(place(R"({"pit": "drum", "air": 107})") == contents_of(pit("drum", 107.0)));
  CHECK(place(R"({"oven": 120})") == contents_of(oven(120.0)));
  CHECK(place(R"({"oven": 120, "fan": true})") == contents_of(oven(120.0, true)));
  CHECK(place(R"({"counter": 22.5})") == contents_of(counter(22.5)));
  CHECK(place(R"({"insulated_box": {}})") == contents_of(insulated_box()));
  CHECK(place(R"({"insulated_box": {"room": 18, "loss": 0.7}})") ==
        contents_of(insulated_box(18.0, {.loss = 0.7})));
  CHECK(place("{}") == contents_of(Surroundings{}));
  Surroundings changed = pit("offset", 107.0);
  changed.top.value = 1.5;
  CHECK(place(R"({"pit": "offset", "air": 107, "top": {"value": 1.5}})") == contents_of(changed));
  Signal rippled(107.0);
  rippled.ripple_amplitude = 5.0;
  CHECK(place(R"({"oven": {"value": 107, "ripple_amplitude": 5}})") == contents_of(oven(rippled)));

  for (const std::string &name : wrap_names()) {
    const Stage by_name = first(R"({"until": {"core": 90}, "wrap": ")" + name + "\"}");
    const Stage by_object = first(R"({"until": {"core": 90}, "wrap": {"name": ")" + name + "\"}}");
    CHECK(contents_of(by_name.wrap) == contents_of(wrap(name)));
    CHECK(contents_of(by_object.wrap) == contents_of(wrap(name)));
  }
  CHECK(first(R"({"until": {"core": 90}})").until.size() == 1);

  const auto meat = [](const std::string &text) {
    return contents_of(plan_from_json(
                           R"({"format": "libcook plan", "version": 1, "stages": [{"until": {"core": 90}}],
      "meat": )" + text + "}")
                           .meat);
  };
  CHECK(meat(R"({"cut": "brisket", "mass": 6.4})") == contents_of(brisket(6.4)));
  CHECK(meat(R"({"cut": "brisket", "mass": 6.4, "thickness": 0.06, "start": 8})") ==
        contents_of(brisket(6.4, 0.06, 8.0)));
  CHECK(meat(R"({"cut": "pork_shoulder", "mass": 3, "thickness": 0.08})") ==
        contents_of(pork_shoulder(3.0, 0.08)));
  CHECK(meat("{}") == contents_of(Meat{}));
}

TEST_CASE("times of day") {
  const auto start = [](const std::string &value) {
    return plan_from_json(
               R"({"format": "libcook plan", "version": 1, "stages": [{"until": {"core": 90}}], "clock_start": )" +
               value + "}")
        .clock_start;
  };
  CHECK(start("\"00:00\"") == 0.0);
  CHECK(start("\"18:05\"") == 65100.0);
  CHECK(start("\"23:59\"") == 86340.0);
  CHECK(start("86400") == 86400.0);
  CHECK(start("0.5") == 0.5);
  CHECK_FALSE(start("null").has_value());
  for (const char *bad :
       {"\"24:00\"", "\"18:60\"", "\"6:30\"", "\"18:0\"", "\"::::0\"", "\"-1:30\"", "\"\"", "true"}) {
    CAPTURE(bad);
    CHECK_THROWS_WITH_AS(start(bad), doctest::Contains("hh:mm"), InvalidInput);
  }
}

TEST_CASE("an outcome comes back bit by bit") {
  Outcome outcome = some_outcome();
  CHECK(contents_of(outcome_from_json(to_json(outcome, true))) == contents_of(outcome));
  CHECK(contents_of(outcome_from_json(to_json(outcome, true, 1))) == contents_of(outcome));
  CHECK(std::signbit(outcome_from_json(to_json(outcome)).core[0]));

  SUBCASE("without fields") {
    const Outcome back = outcome_from_json(to_json(outcome));
    CHECK(back.temperature.empty());
    CHECK(back.water.empty());
    outcome.temperature.clear();
    outcome.water.clear();
    CHECK(contents_of(back) == contents_of(outcome));
  }
  SUBCASE("of a cylinder, which has no bottom face") {
    outcome.surface[0].clear();
    outcome.surface_water[0].clear();
    outcome.film[0].clear();
    outcome.paths[0] = {};
    CHECK(contents_of(outcome_from_json(to_json(outcome, true))) == contents_of(outcome));
  }
  SUBCASE("a face has all of its traces, or none") {
    const auto field_of = [](const Outcome &changed) -> std::string {
      try {
        (void)outcome_from_json(to_json(changed, true));
      } catch (const InvalidInput &error) {
        return error.field();
      }
      return "";
    };
    CHECK(field_of(outcome).empty());
    Outcome changed = outcome;
    changed.film[1].clear();
    CHECK(field_of(changed) == "film[1]");
    changed = outcome;
    changed.paths[1][static_cast<std::size_t>(FacePath::latent)].clear();
    CHECK(field_of(changed) == "paths[1].latent");
    changed = outcome;
    changed.surface[0].clear();
    CHECK(field_of(changed) == "surface_water[0]");
  }
}

TEST_CASE("what JSON cannot hold is refused on writing") {
  Plan plan = every_feature();
  SUBCASE("not a number") {
    plan.stages[0].surroundings.air.value[1] = std::numeric_limits<double>::quiet_NaN();
    CHECK_THROWS_WITH_AS((void)to_json(plan),
                         "stages[0].surroundings.air.value[1]: nan; JSON holds finite numbers only",
                         InvalidInput);
  }
  SUBCASE("infinite") {
    plan.stages[0].until[2].value = std::numeric_limits<double>::infinity();
    CHECK_THROWS_WITH_AS((void)to_json(plan), "stages[0].until[2].clock: inf; JSON holds finite numbers only",
                         InvalidInput);
  }
  SUBCASE("bytes that are no text") {
    plan.meat.tissue.name = "br\xFCst";
    CHECK_THROWS_WITH_AS((void)to_json(plan),
                         doctest::Contains("meat.tissue.name: 'br?st' is not valid UTF-8"), InvalidInput);
  }
}

TEST_CASE("the schema is the file, and knows the members and words of the code") {
  CHECK(plan_schema() == text_of(repository() / "libcook" / "schema" / "plan.schema.json"));

  const Json schema = Json::parse(plan_schema());
  const Json &defs = schema["$defs"];
  const auto keys = [](const Json &object, std::vector<std::string> without = {}) {
    std::vector<std::string> result;
    for (const auto &[key, value] : object["properties"].items()) {
      if (std::find(without.begin(), without.end(), key) == without.end()) {
        result.push_back(key);
      }
    }
    return result;
  };
  CHECK(keys(schema, {"$schema", "format", "version"}) == json::keys_of<Plan>());
  CHECK(keys(defs["meat_in_full"]) == json::keys_of<Meat>());
  CHECK(keys(defs["tissue"]) == json::keys_of<Tissue>());
  CHECK(keys(defs["composition"]) == json::keys_of<Composition>());
  CHECK(keys(defs["holding"]) == json::keys_of<WaterHolding>());
  CHECK(keys(defs["mobility"]) == json::keys_of<WaterMobility>());
  CHECK(keys(defs["sorption"]) == json::keys_of<Sorption>());
  CHECK(keys(defs["sinks"]) == json::keys_of<HeatSinks>());
  CHECK(keys(defs["exudation"]) == json::keys_of<Exudation>());
  CHECK(keys(defs["tenderness"]) == json::keys_of<Tenderness>());
  CHECK(keys(defs["fixed"]) == json::keys_of<FixedThermal>());
  CHECK(keys(defs["shape"]) == json::keys_of<Shape>());
  CHECK(keys(defs["fat_cap"]) == json::keys_of<FatCap>());
  CHECK(keys(defs["stage"]) == json::keys_of<Stage>());
  CHECK(keys(defs["signal"]["anyOf"][1]) == json::keys_of<Signal>());
  CHECK(keys(defs["film"]) == json::keys_of<Film>());
  CHECK(keys(defs["box"]) == json::keys_of<Box>());
  CHECK(keys(defs["surroundings"], {"pit", "oven", "holding_oven", "humidity", "fan", "counter",
                                    "insulated_box"}) == json::keys_of<Surroundings>());
  CHECK(keys(defs["surroundings"]["properties"]["insulated_box"], {"room"}) == json::keys_of<Box>());
  CHECK(keys(defs["wrap"]["anyOf"][1]) == json::keys_of<Wrap>());
  CHECK(keys(defs["covering"]) == json::keys_of<Covering>());
  CHECK(keys(defs["spritz"]) == json::keys_of<Spritz>());
  CHECK(keys(defs["lid"]) == json::keys_of<LidOpening>());
  CHECK(Json(keys(defs["end"], {"every"})) == Json(words(EndKind{})));
  CHECK(keys(defs["probe"]) == json::keys_of<Probe>());
  CHECK(keys(defs["section"]) == json::keys_of<Section>());
  CHECK(keys(defs["pit_air"]) == json::keys_of<PitAir>());
  CHECK(keys(defs["water_pan"]) == json::keys_of<WaterPan>());
  CHECK(defs["shape"]["properties"]["kind"]["enum"] == Json(words(ShapeKind{})));
  CHECK(defs["fat_cap"]["properties"]["side"]["enum"] == Json(words(FatSide{})));
  CHECK(defs["film"]["properties"]["kind"]["enum"] == Json(words(Convection{})));
  CHECK(defs["surroundings"]["properties"]["pit"]["enum"] == Json(pit_kinds()));
  CHECK(defs["wrap"]["anyOf"][0]["enum"] == Json(wrap_names()));
}
