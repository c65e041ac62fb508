// Reading an outcome at a moment and at a depth.
#include <doctest/doctest.h>

#include <string>

#include "cook/errors.hpp"
#include "cook/plan/outcome.hpp"
#include "cook/readings/readings.hpp"

using namespace cook;

namespace {

/// Two moments, three depths; invented numbers.
Outcome small() {
  Outcome out;
  out.time = {0.0, 100.0};
  out.core = {4.0, 24.0};
  out.position = {0.0, 0.01, 0.03};
  out.temperature = {10.0, 20.0, 40.0, 30.0, 50.0, 90.0}; // by time, then by depth
  return out;
}

/// The message of the InvalidInput that `work` throws.
template <class Work> std::string refusal(Work work) {
  try {
    work();
  } catch (const InvalidInput &error) {
    return error.what();
  }
  return "accepted";
}

} // namespace

TEST_CASE("the core between two times, by a straight line") {
  Outcome out = small();
  CHECK(out.core_at(0.0) == 4.0);
  CHECK(out.core_at(25.0) == doctest::Approx(9.0).epsilon(1e-14));
  CHECK(out.core_at(100.0) == 24.0);
  CHECK(refusal([&] { (void)out.core_at(100.5); }) ==
        "time: 100.5 s; accepted: 0 to 100 s; outside the simulated cook");
  CHECK(refusal([&] { (void)out.core_at(-1.0); }).find("accepted: 0 to 100 s") != std::string::npos);
  out.time = {0.0};
  out.core = {4.0};
  CHECK(out.core_at(0.0) == 4.0); // stopped before the first step
  CHECK(refusal([] { (void)Outcome{}.core_at(0.0); }) == "time: the outcome is empty");
}

TEST_CASE("a probe at a depth: at a node its trace, between two a straight line") {
  const Outcome out = small();
  CHECK(out.probe(0.0) == std::vector<double>{10.0, 30.0});
  CHECK(out.probe(0.01) == std::vector<double>{20.0, 50.0});
  CHECK(out.probe(0.03) == std::vector<double>{40.0, 90.0});
  const std::vector<double> between = out.probe(0.025);
  CHECK(between[0] == doctest::Approx(35.0).epsilon(1e-13));
  CHECK(between[1] == doctest::Approx(80.0).epsilon(1e-13));
  CHECK(refusal([&] { (void)out.probe(20.0); }) == "probe: 20 m; accepted: 0 to 0.03 m; depth from the "
                                                   "bottom face, in metres: 20 mm is 0.02, or write '20 mm'");
  Outcome bare = out;
  bare.temperature.clear();
  CHECK(refusal([&] { (void)bare.probe(0.01); }) ==
        "probe: the fields were not kept; run with keep_fields on");
}

TEST_CASE("every kind of error can be caught as one, and carries its text") {
  const InvalidInput input("meat.start", "too warm");
  const Error &error = input;
  CHECK(std::string(error.what()) == "meat.start: too warm");
  const SolverFailure failure("stopped", nullptr);
  CHECK(std::string(failure.what()) == "stopped");
  CHECK(failure.outcome() == nullptr);
}
