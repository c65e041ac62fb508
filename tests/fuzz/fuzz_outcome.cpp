/// @file
/// Any bytes as an outcome: an Outcome, which is written and read back bit by bit and can be read for stall,
/// loss and safety, or InvalidInput.
#include <cstddef>
#include <cstdint>
#include <string>
#include <string_view>

#include "cook/errors.hpp"
#include "cook/json/json.hpp"
#include "cook/readings/readings.hpp"
#include "outcome_checks.hpp"
#include "require.hpp"

using namespace cook;

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t *data, std::size_t size) {
  const std::string_view text(reinterpret_cast<const char *>(data), size);
  Outcome outcome;
  try {
    outcome = outcome_from_json(text);
  } catch (const InvalidInput &refusal) {
    fuzz::require(std::string_view(refusal.what()).size() > 10, "a refusal says why");
    return 0;
  }
  const std::string written = to_json(outcome, true);
  fuzz::require(to_json(outcome_from_json(written), true) == written,
                "what is written is read back bit by bit");
  // Its numbers may be anything finite, so the readings promise no more than an answer or a refusal.
  const auto ask = [](const auto &reading) {
    try {
      reading();
    } catch (const InvalidInput &) {
      return;
    }
  };
  ask([&] { (void)find_stall(outcome); });
  ask([&] { (void)carryover(outcome); });
  ask([&] { (void)falls_to(outcome, 60.0); });
  ask([&] { (void)time_above(outcome, 60.0); });
  ask([&] { (void)loss(outcome); });
  ask([&] { (void)safety(outcome); });
  ask([&] { (void)heat_budget(outcome, 1); });
  ask([&] { (void)outcome.core_at(100.0); });
  ask([&] { (void)fuzz::read_all(outcome); });
  return 0;
}
