/// What came from outside, as messages quote it.
#include <doctest/doctest.h>

#include <algorithm>
#include <string>

#include "cook/cooker/wrap.hpp"
#include "cook/errors.hpp"
#include "cook/json/json.hpp"

using namespace cook;

TEST_CASE("text is quoted as it is, up to 200 characters") {
  CHECK(in_quotes("foil") == "'foil'");
  CHECK(in_quotes("") == "''");
  CHECK(in_quotes(std::string(200, 'x')) == "'" + std::string(200, 'x') + "'");
  CHECK(in_quotes(std::string(201, 'x')) == "'" + std::string(200, 'x') + "…' (201 characters)");
}

TEST_CASE("characters are counted, not bytes, and none is cut in two") {
  std::string degrees;
  for (int i = 0; i < 300; ++i) {
    degrees += "°";
  }
  std::string kept;
  for (int i = 0; i < 200; ++i) {
    kept += "°";
  }
  CHECK(in_quotes(degrees) == "'" + kept + "…' (300 characters)");
}

TEST_CASE("what cannot be printed is replaced") { CHECK(in_quotes("a\nb\x7f c\xff") == "'a?b? c?'"); }

TEST_CASE("a message does not repeat ten million characters") {
  const std::string long_name(10'000'000, 'y');
  for (const auto &work : {+[](const std::string &name) { (void)wrap(name); },
                           +[](const std::string &name) { (void)plan_from_json("\"" + name + "\""); },
                           +[](const std::string &name) { (void)plan_from_json(name); }}) {
    try {
      work(long_name);
      FAIL_CHECK("accepted");
    } catch (const InvalidInput &error) {
      CHECK(std::string(error.what()).size() < 1000);
    }
  }
}

TEST_CASE("durations as cooks read them") {
  CHECK(format_duration(27600.0) == "7 h 40 min");
  CHECK(format_duration(3599.0) == "1 h");
  CHECK(format_duration(59.6) == "1 min");
  CHECK(format_duration(45.0) == "45 s");
  CHECK(format_duration(0.4) == "0 s");
  CHECK(format_duration(-0.4) == "0 s");
  CHECK(format_duration(-3900.0) == "-1 h 5 min");
  CHECK(format_duration(3.6e12) == "1000000000 h");
}
