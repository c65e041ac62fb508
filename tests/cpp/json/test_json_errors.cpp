// What is said about bad documents: every file in tests/python/data/plans, and what only code can make.
#include "cook/json/json.hpp"

#include <doctest/doctest.h>

#include <algorithm>
#include <filesystem>
#include <set>
#include <string>
#include <vector>

#include "cook/errors.hpp"
#include "json/json_support.hpp"
#include "json/path.hpp"

using namespace cook;
using namespace json_support;

namespace {

struct Bad {
  const char *file;
  const char *field;
  const char *message; ///< all of it; of bad_meaning, where Plan::validate() speaks, the beginning
};

const std::vector<Bad> &bad_files() {
  static const std::vector<Bad> files{
      {"bad_meaning/area_zero.json", "meat.shape.extent", "0 m²"},
      {"bad_meaning/box_too_hot.json", "stages[1].surroundings.insulated_box.start", "150 °C"},
      {"bad_meaning/clock_start_late.json", "clock_start", "90000 s after midnight"},
      {"bad_meaning/clock_without_start.json", "stages[1].until[0].clock",
       "a time of day needs the plan's start time"},
      {"bad_meaning/counter_too_hot.json", "stages[1].surroundings.counter", "70 °C"},
      {"bad_meaning/cylinder_with_cap.json", "meat.fat_cap",
       "a cylinder has one face, so it cannot carry a cap on one side"},
      {"bad_meaning/emissivity_percent.json", "stages[1].wrap.top.emissivity", "93"},
      {"bad_meaning/fahrenheit_core.json", "stages[1].until[1].core",
       "a core of 392 °F (200 °C) cannot be reached in the drum, 250 °F (121 °C)"},
      {"bad_meaning/lengths_differ.json", "stages[1].surroundings.air", "2 times but 3 values"},
      {"bad_meaning/mass_in_grams.json", "meat.mass", "6400 kg"},
      {"bad_meaning/mobility_negative.json", "meat.tissue.mobility.held", "-1e-10 m²/s"},
      {"bad_meaning/oven_too_hot.json", "stages[1].surroundings.oven", "275 °C"},
      {"bad_meaning/pit_too_hot.json", "stages[1].surroundings.air", "275 °C"},
      {"bad_meaning/thickness_in_millimetres.json", "meat.thickness", "66 m"},
      {"bad_meaning/times_go_back.json", "stages[1].surroundings.air.time[2]", "30 s after 60 s"},
      {"bad_meaning/water_in_percent.json", "meat.tissue.composition.water", "70 kg/kg"},
      {"bad_structure/a_list.json", "plan", "a list of 2 came; an object in braces is needed"},
      {"bad_structure/clock_out_of_day.json", "stages[1].until.clock",
       "the text \"24:30\" came; a time of day as \"hh:mm\" (00:00 to 23:59) or in seconds after midnight is "
       "needed"},
      {"bad_structure/core_as_text.json", "stages[1].until[1].core",
       "the text \"94 °C\" came; a number is needed; quantities are plain numbers in SI units and °C"},
      {"bad_structure/core_in_quotes.json", "stages[1].until.core",
       "the text \"94\" came; a number is needed; take the quotes away"},
      {"bad_structure/cut_without_mass.json", "meat.mass",
       "missing; the raw, trimmed mass [kg] goes with the cut"},
      {"bad_structure/diameter_of_a_brisket.json", "meat.diameter",
       "unknown key 'diameter'; known: cut, mass, thickness, start, fat"},
      {"bad_structure/emissivity_true.json", "stages[1].wrap.bottom.emissivity",
       "true came; a number is needed"},
      {"bad_structure/fan_in_a_pit.json", "stages[1].surroundings.fan",
       "only with 'oven'; elsewhere give the air speed in 'bottom' and 'top'"},
      {"bad_structure/film_kind.json", "stages[1].surroundings.top.kind",
       "unknown word 'natrual'; did you mean 'natural'?"},
      {"bad_structure/key_in_capitals.json", "stages[1].Until", "unknown key 'Until'; did you mean 'until'?"},
      {"bad_structure/later_version.json", "version", "the number 2 came; this libcook reads version 1"},
      {"bad_structure/lid_not_a_list.json", "stages[1].lid", "an object came; a list is needed"},
      {"bad_structure/mass_without_cut.json", "meat.mass", R"(a mass goes with a cut: add "cut": "brisket")"},
      {"bad_structure/misspelt_key.json", "stages[1].surrondings",
       "unknown key 'surrondings'; did you mean 'surroundings'?"},
      {"bad_structure/misspelt_top_key.json", "maet", "unknown key 'maet'; did you mean 'meat'?"},
      {"bad_structure/no_end.json", "stages[1].until",
       "missing; say what ends stage 'smoke', for instance a core temperature"},
      {"bad_structure/no_header.json", "format",
       R"(missing; start with "format": "libcook plan", "version": 1)"},
      {"bad_structure/no_stages.json", "stages", "empty; a plan needs at least one stage"},
      {"bad_structure/null_for_a_number.json", "stages[1].at_most", "null came; a number is needed"},
      {"bad_structure/other_format.json", "format",
       R"(the text "recipe" came; "format": "libcook plan" is needed)"},
      {"bad_structure/oven_and_air.json", "stages[1].surroundings.air",
       "the temperature is given by 'oven' already; give one of the two"},
      {"bad_structure/pit_without_air.json", "stages[1].surroundings.air",
       "missing; the air temperature [°C] goes with the pit"},
      {"bad_structure/signal_a_list.json", "stages[1].surroundings.air",
       "a list of 2 came; a number, or an object with time and value, is needed"},
      {"bad_structure/signal_without_value.json", "stages[1].surroundings.air.value", "missing"},
      {"bad_structure/stages_an_object.json", "stages", "an object came; a list is needed"},
      {"bad_structure/two_ends_in_one.json", "stages[1].until",
       R"(2 conditions in one object; give each its own, as in [{"core": 71}, {"elapsed": 3600}])"},
      {"bad_structure/two_places.json", "stages[1].surroundings",
       "both 'pit' and 'counter' are given; give one of the two"},
      {"bad_structure/unheard_key.json", "stages[1].music",
       "unknown key 'music'; known: name, surroundings, wrap, until, spritz, lid, at_most, probe"},
      {"bad_structure/unknown_cut.json", "meat.cut",
       "'briskit' is not a cut that is known; did you mean 'brisket'?; for another one, describe it by its "
       "tissue "
       "(composition) and its shape (thickness, area, width)"},
      {"bad_structure/unknown_end.json", "stages[1].until.cor", "unknown key 'cor'; did you mean 'core'?"},
      {"bad_structure/pit_of_the_trade.json", "stages[1].surroundings.pit",
       "unknown word 'electric'; did you mean 'cabinet'?"},
      {"bad_structure/unknown_pit.json", "stages[1].surroundings.pit",
       "unknown word 'drumm'; did you mean 'drum'?"},
      {"bad_structure/unknown_wrap.json", "stages[1].wrap", "unknown word 'tinfoil'; did you mean 'foil'?"},
      {"bad_text/backslash.json", "plan",
       "line 1, column 66: 's' cannot stand here in a text; JSON writes a backslash as \\\\ and a tab as "
       "\\t\n"
       "    mat\": \"libcook plan\", \"version\": 1, \"stages\": [{\"name\": \"C:\\smoke\", \"until\": "
       "{\"core\": 94}}]}\n"
       "                                                                ^"},
      {"bad_text/capital_true.json", "plan",
       "line 1, column 91: 'True'; JSON writes true, false and null, in lower case\n"
       "    rsion\": 1, \"stages\": [{\"surroundings\": {\"oven\": 120, \"fan\": True}, \"until\": "
       "{\"core\": 94}}]}\n"
       "                                                                ^"},
      {"bad_text/comma_before_bracket.json", "plan",
       "line 5, column 3: a comma stands before the closing bracket; take it out\n"
       "      ]\n"
       "      ^"},
      {"bad_text/comma_missing.json", "plan",
       "line 3, column 3: is a comma missing before this?\n"
       "      \"stages\": [{\"until\": {\"core\": 94}}]\n"
       "      ^"},
      {"bad_text/comment.json", "plan",
       "line 2, column 3: JSON has no comments\n"
       "      // overnight\n"
       "      ^"},
      {"bad_text/cut_off.json", "plan",
       "line 4, column 28: the text ends here; a bracket, a brace or a quote is still open\n"
       "        {\"until\": {\"core\": 94}}\n"
       "                               ^"},
      {"bad_text/empty.json", "plan", "line 1, column 1: empty"},
      {"bad_text/infinite.json", "stages[1].until[1].core", "1e999; a finite number is needed"},
      {"bad_text/key_twice.json", "stages[0].at_most",
       "the key is given twice; one of the two would be lost"},
      {"bad_text/latin_1.json", "plan",
       "line 1, column 65: the text is not UTF-8; save the file as UTF-8\n"
       "    rmat\": \"libcook plan\", \"version\": 1, \"stages\": [{\"name\": \"r?uchern\", \"until\": "
       "{\"core\": 94}}]}\n"
       "                                                                ^"},
      {"bad_text/leading_zero.json", "plan",
       "line 1, column 72: '094' came unexpectedly; is a comma missing before it, or is it not a JSON number "
       "(digits before and after the point, no leading zeros, no plus sign)?\n"
       "    \"libcook plan\", \"version\": 1, \"stages\": [{\"until\": {\"core\": 094}}]}\n"
       "                                                                ^"},
      {"bad_text/not_a_number.json", "plan",
       "line 3, column 33: 'NaN'; a finite number is needed\n"
       "      \"stages\": [{\"until\": {\"core\": NaN}}]\n"
       "                                    ^"},
      {"bad_text/quote_open.json", "plan",
       "line 3, column 32: 'until' came unexpectedly; text and keys go in double quotes: is one missing, or "
       "one too many?\n"
       "      \"stages\": [{\"name\": \"smoke, \"until\": {\"core\": 94}}]\n"
       "                                   ^"},
      {"bad_text/quote_open_at_line_end.json", "plan",
       "line 2, column 27: a quote is still open at the end of the line\n"
       "      \"format\": \"libcook plan,\n"
       "                              ^"},
      {"bad_text/single_quotes.json", "plan",
       "line 1, column 2: text and keys go in double quotes, not single ones\n"
       "    {'format': 'libcook plan'}\n"
       "     ^"},
      {"bad_text/something_after.json", "plan",
       "line 1, column 78: '}' came unexpectedly\n"
       "    ok plan\", \"version\": 1, \"stages\": [{\"until\": {\"core\": 94}}]}}\n"
       "                                                                ^"},
      {"bad_text/unit_behind_number.json", "plan",
       "line 1, column 75: '°' came unexpectedly\n"
       "    bcook plan\", \"version\": 1, \"stages\": [{\"until\": {\"core\": 94 °C}}]}\n"
       "                                                                ^"},
  };
  return files;
}

/// The error that a plan gives; fails the test if there is none.
InvalidInput error_of(const std::string &text) {
  try {
    (void)plan_from_json(text);
  } catch (const InvalidInput &error) {
    return error;
  }
  FAIL("no error");
  return {"", ""};
}

InvalidInput outcome_error_of(const std::string &text) {
  try {
    (void)outcome_from_json(text);
  } catch (const InvalidInput &error) {
    return error;
  }
  FAIL("no error");
  return {"", ""};
}

Outcome small_outcome() {
  Outcome o;
  o.plan.stages = {Stage{}};
  o.plan.stages[0].until = {{EndKind::core, 90.0}};
  o.time = {0.0, 60.0};
  o.core = o.coldest = o.air = o.tenderness = o.mean_water = o.mean_temperature = {1.0, 2.0};
  o.position = {0.0, 0.03};
  o.node_volume = {0.5, 0.5};
  return o;
}

} // namespace

TEST_CASE("good files are read") {
  std::size_t count = 0;
  for (const auto &entry : std::filesystem::directory_iterator(plans() / "good")) {
    CAPTURE(entry.path().string());
    CHECK_NOTHROW((void)plan_from_json(text_of(entry.path())));
    ++count;
  }
  CHECK(count >= 6);
}

TEST_CASE("each bad file gets its message") {
  for (const Bad &bad : bad_files()) {
    CAPTURE(bad.file);
    const InvalidInput error = error_of(text_of(plans() / bad.file));
    CHECK(error.field() == bad.field);
    if (std::string_view(bad.file).starts_with("bad_meaning/")) {
      CHECK(error.message().starts_with(bad.message));
    } else {
      CHECK(error.message() == bad.message);
    }
  }
}

TEST_CASE("no bad file is left out") {
  std::set<std::string> listed;
  for (const Bad &bad : bad_files()) {
    listed.insert(bad.file);
  }
  std::set<std::string> found;
  for (const char *folder : {"bad_text", "bad_structure", "bad_meaning"}) {
    for (const auto &entry : std::filesystem::directory_iterator(plans() / folder)) {
      found.insert(std::string(folder) + "/" + entry.path().filename().string());
    }
  }
  CHECK(listed == found);
}

TEST_CASE("a damaged file gives a plan or an InvalidInput, whose text is UTF-8") {
  std::vector<std::string> texts;
  for (const char *file : {"good/overnight_brisket.json", "good/logged_air.json", "good/in_full.json"}) {
    const std::string text = text_of(plans() / file);
    for (std::size_t i = 0; i < text.size(); ++i) {
      texts.push_back(text.substr(0, i));
      for (const char c : {'"', '}', '[', ',', '\xff', '\n', '-', '9'}) {
        texts.push_back(text);
        texts.back()[i] = c;
      }
    }
  }
  std::size_t refused = 0;
  for (const std::string &text : texts) {
    try {
      (void)plan_from_json(text);
    } catch (const InvalidInput &error) {
      ++refused;
      REQUIRE(json::is_utf8(error.what()));
      REQUIRE_FALSE(error.field().empty());
    }
  }
  CHECK(refused > texts.size() / 2);
}

TEST_CASE("hostile texts end quickly in an error") {
  CHECK(error_of(std::string(100000, '[')).message() == "brackets nested more than 64 deep");
  std::string many = "{";
  for (int i = 0; i < 20000; ++i) {
    many += "\"k" + std::to_string(i) + "\":0,";
  }
  many += "\"end\":0}";
  CHECK(error_of(many).field() == "k0");
  const std::string key(100000, 'x');
  const InvalidInput long_key = error_of("{\"" + key + "\": 1}");
  CHECK(long_key.message().size() < 400);
  const InvalidInput long_line = error_of(R"({"format": ")" + key + R"(" 5})");
  CHECK(long_line.message().size() < 400);
}

TEST_CASE("outcomes are checked too") {
  const std::string good = to_json(small_outcome(), true);
  CHECK_NOTHROW((void)outcome_from_json(good));

  Outcome o = small_outcome();
  SUBCASE("lengths") {
    o.core.push_back(3.0);
    const InvalidInput error = outcome_error_of(to_json(o));
    CHECK(error.field() == "core");
    CHECK(error.message() == "3 values came; 2 are needed, one for each time");
  }
  SUBCASE("totals") {
    o.paths[1][static_cast<std::size_t>(FacePath::run_off)] = {1.0};
    CHECK(outcome_error_of(to_json(o)).field() == "paths[1].run_off");
  }
  SUBCASE("fields") {
    o.temperature = {1.0, 2.0, 3.0};
    const InvalidInput error = outcome_error_of(to_json(o, true));
    CHECK(error.field() == "temperature");
    CHECK(error.message() == "3 values came; 4 are needed, one for each time and position");
  }
  SUBCASE("times") {
    o.time = {60.0, 60.0};
    CHECK(outcome_error_of(to_json(o)).field() == "time[1]");
  }
  SUBCASE("its plan") {
    o.plan.stages[0].until[0].value = 200.0;
    CHECK(outcome_error_of(to_json(o)).field() == "plan.stages[0].until[0].core");
  }
  SUBCASE("a plan instead") {
    const InvalidInput error = outcome_error_of(to_json(o.plan));
    CHECK(error.field() == "meat");
  }
  SUBCASE("types and keys") {
    const auto with = [](const std::string &members) {
      return R"({"format": "libcook outcome", "version": 1, )" + members + "}";
    };
    CHECK(outcome_error_of(with(R"("core": [1, "a"])")).field() == "core[1]");
    CHECK(outcome_error_of(with(R"("ledger": {"steps": 1.5})")).message() ==
          "the number 1.5 came; a whole number is needed");
    CHECK(outcome_error_of(with(R"("ledger": {"steps": 3000000000})")).field() == "ledger.steps");
    CHECK(outcome_error_of(with(R"("face_area": [1])")).message() ==
          "a list of 1 came; a list of 2 is needed");
    CHECK(outcome_error_of(with(R"("tendernes": [])")).message() ==
          "unknown key 'tendernes'; did you mean 'tenderness'?");
    CHECK(outcome_error_of(with(R"("paths": [{}, {"latend": []}])")).field() == "paths[1].latend");
    CHECK(outcome_error_of("[").field() == "outcome");
  }
}
