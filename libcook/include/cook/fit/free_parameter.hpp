/// @file
/// Numbers of a plan that a log can teach: how each is called, what is believed of it beforehand, and how it
/// is written into a plan.
#pragma once

#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "cook/plan/plan.hpp"

namespace cook {

/// Whose number it is when several logs are fitted together.
enum class Scope {
  cooker, ///< shared by all logs: the cooker, its thermometers, the wrap
  meat    ///< each log's own: the piece, and where the probe went
};

/// On which scale a number is normally distributed beforehand.
enum class Scale {
  logarithmic, ///< positive numbers: `spread` is a share, 0.2 for about ±20 %
  linear       ///< `spread` is in the number's unit
};

/// A number that may be fitted.
struct FreeKind {
  std::string name;
  std::string unit; ///< SI and °C
  Scope scope = Scope::meat;
  Scale scale = Scale::logarithmic;
  double spread = 0.2; ///< standard deviation of what is believed beforehand; see `scale`
  double low = 0.0;    ///< smallest value that is tried
  double high = 0.0;   ///< largest value that is tried
  std::string meaning; ///< in words
  std::string source;  ///< of the spread

  /// Why a plan has no such number; empty where it has.
  std::string_view (*lacks)(const Plan &plan) = nullptr;
  /// The number as a plan has it; null: an offset against what the plan says, whose value is 0.
  double (*read)(const Plan &plan) = nullptr;
  /// Writes it into a plan whose number was `before`; null: it has no place in a plan.
  void (*write)(Plan &plan, double value, double before) = nullptr;
  bool writes_same = false; ///< write() is called also where the value is what was read
};

/// All numbers that may be fitted.
[[nodiscard]] const std::vector<FreeKind> &free_kinds();
/// One by name. @throws InvalidInput naming `field`, with the nearest name.
[[nodiscard]] const FreeKind &free_kind(const std::string &name, const std::string &field = "free");

/// A number to fit, and what is believed of it beforehand.
struct FreeParameter {
  std::string name;
  std::optional<double> median{}; ///< in its unit; empty: what the plan says
  std::optional<double> spread{}; ///< see Scale; empty: the kind's
  std::string source{};           ///< where median and spread come from; empty: the plan's and the kind's
};

/// The number as a plan has it. @throws InvalidInput naming `field` when the plan has no such thing, for
/// instance no wrapped stage.
[[nodiscard]] double value_in(const Plan &plan, const std::string &name, const std::string &field = "free");
/// Writes it into a plan; what value_in() has just read changes nothing, bit for bit. Thickness keeps the
/// mass, and probes their places: those that a stage follows their height above the middle, the others their
/// shares of length and thickness. Film coefficient, air flow, vapour pressure and wrap resistance keep the
/// ratios between the stages that cook. The probe's distance is that of the first stage, with later stages
/// that have it at the same height; it stays inside the meat. The offset of the meat thermometer has no place
/// in a plan: it does nothing.
void set_value(Plan &plan, const std::string &name, double value);

/// Distance from the middle of a probe that is meant to sit there [m]: median of what a tip placed by hand,
/// its height off by 5 mm (standard deviation), makes.
inline constexpr double usual_probe_distance = 0.67 * 0.005;

/// Whether a stage keeps the meat hot: its air passes 60 °C and it is no insulated box.
[[nodiscard]] bool keeps_hot(const Stage &stage);
/// Whether a stage cooks the meat: it keeps it hot and is no holding oven. That is another device: what is
/// believed or learned of the cooker (its air, vapour, draught) says nothing of it.
[[nodiscard]] bool heats(const Stage &stage);
/// The stage whose end is called done: the last one that waits for the core to warm or to become tender;
/// where there is none, the last one that heats, or the last one.
[[nodiscard]] std::size_t done_stage(const Plan &plan);

/// What a forecast leaves open unless told otherwise: everything that this plan has and a cook rarely knows.
[[nodiscard]] std::vector<FreeParameter> usual_free(const Plan &plan);

} // namespace cook
