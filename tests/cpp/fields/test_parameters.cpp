// The parameter table: complete, inside its ranges, sourced, and equal to what a simulation uses.
#include "cook/errors.hpp"
#include "cook/fit/fit_fields.hpp"
#include "cook/meat/kinetics_fields.hpp"
#include "cook/plan/outcome_fields.hpp"

#include <doctest/doctest.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <set>
#include <string>
#include <type_traits>

using namespace cook;

namespace {

// Converts to any number or enum: an aggregate takes as many of these as it has members, so members can be
// counted.
struct Anything {
  template <class T>
  requires(std::is_arithmetic_v<T> || std::is_enum_v<T>)
  operator T() const; // NOLINT: implicit on purpose, never defined
};

template <class T, class... Parts> constexpr std::size_t members(Parts... parts) {
  if constexpr (requires { T{parts..., Anything{}}; }) {
    return members<T>(parts..., Anything{});
  } else {
    return sizeof...(Parts);
  }
}
static_assert(members<Arrhenius>() == 2);

std::size_t entries(const std::string &prefix) {
  const auto &table = parameters();
  return static_cast<std::size_t>(std::count_if(table.begin(), table.end(), [&](const Parameter &p) {
    return p.name.starts_with(prefix) && p.name.find('.', prefix.size()) == std::string::npos;
  }));
}

} // namespace

TEST_CASE("every default is inside its range and has a source") {
  std::set<std::string> names;
  for (const Parameter &p : parameters()) {
    CAPTURE(p.name);
    CHECK(std::isfinite(p.value));
    CHECK(p.low <= p.value);
    CHECK(p.value <= p.high);
    CHECK(p.source.size() > 5);
    CHECK_FALSE(p.unit.empty());
    CHECK_FALSE(describe(p.kind).empty());
    CHECK(names.insert(p.name).second);
    // What the text says about the kind must not contradict the kind.
    if (p.kind == Provenance::published) {
      CHECK(p.source.find("judgement") == std::string::npos);
      CHECK(p.source.find("from memory") == std::string::npos);
    }
    if (p.source.find("judgement") != std::string::npos) {
      CHECK(p.kind == Provenance::assumed);
    }
  }
}

TEST_CASE("every member of the structs is in the table") {
  // A member that is added without its row fails here.
  CHECK(entries("tissue.composition.") == members<Composition>());
  CHECK(entries("pork_shoulder.tissue.composition.") == members<Composition>());
  CHECK(entries("tissue.holding.") == members<WaterHolding>());
  CHECK(entries("tissue.mobility.") == members<WaterMobility>());
  CHECK(entries("tissue.sorption.") == members<Sorption>());
  CHECK(entries("tissue.sinks.") == members<HeatSinks>());
  CHECK(entries("tissue.exudation.") == members<Exudation>());
  CHECK(entries("tissue.tenderness.") == members<Tenderness>());
  CHECK(entries("tissue.") == 2);                      // emissivity and cooked_conductivity are its own
  CHECK(entries("shape.") == members<Shape>() - 2);    // all but the kind, and the width, which is a cut's
  CHECK(entries("fat_cap.") == members<FatCap>() - 1); // all but the side
  CHECK(entries("film.") == members<Film>() - 3);      // kind and value belong to a cooker, length to a piece
  CHECK(entries("box.") == members<Box>());
  CHECK(entries("spritz.") == members<Spritz>());
  CHECK(entries("lid.") == members<LidOpening>() - 1); // when is the user's
  CHECK(entries("browning.") == members<Browning>());
  CHECK(members<WaterMobility>() == 6); // the counting itself
  CHECK(members<Covering>() == 4);
}

TEST_CASE("every member of the structs is in their list") {
  const auto listed = []<class S>(const S & /*of*/) {
    return std::tuple_size_v<decltype(fields_of<S>)> == members<S>();
  };
  CHECK(listed(Composition{}));
  CHECK(listed(WaterHolding{}));
  CHECK(listed(WaterMobility{}));
  CHECK(listed(Sorption{}));
  CHECK(listed(HeatSinks{}));
  CHECK(listed(Exudation{}));
  CHECK(listed(Tenderness{}));
  CHECK(listed(FixedThermal{}));
  CHECK(listed(FatCap{}));
  CHECK(listed(Film{}));
  CHECK(listed(Box{}));
  CHECK(listed(Spritz{}));
  CHECK(listed(LidOpening{}));
  CHECK(listed(End{}));
  CHECK(listed(Browning{}));
  CHECK(listed(ModelError{}));
  CHECK(listed(Ledger{}));
}

TEST_CASE("a number is told with its unit before what follows a semicolon") {
  CHECK(words_and_unit(told_of(&Box::start)) == "temperature when the meat goes in [°C]");
  CHECK(words_and_unit(told_of(&Covering::emissivity)) == "of the outside [-]; without it the meat's own");
  CHECK(words_and_unit(told_of(&Wrap::name)) == "what it is called");
  CHECK(told_of(&Plan::clock_start).called == "start");
}

TEST_CASE("every cooker and wrap is in the table, with all that it sets") {
  for (const std::string &kind : pit_kinds()) {
    CAPTURE(kind);
    CHECK(entries("pit." + kind + ".") == 3);
  }
  for (const std::string &name : wrap_names()) {
    CAPTURE(name);
    for (const bool top : {false, true}) {
      const Covering covering = top ? wrap(name).top : wrap(name).bottom;
      const std::size_t set = 2 + (covering.emissivity ? 1 : 0) + (covering.juice_capacity ? 1 : 0);
      CHECK(entries("wrap." + name + (top ? ".top." : ".bottom.")) == set);
    }
  }
}

TEST_CASE("looking a default up") {
  CHECK(parameter("tissue.mobility.expressed").value == brisket_tissue().mobility.expressed);
  CHECK(parameter("tissue.mobility.expressed").kind == Provenance::tuned);
  CHECK(parameter("wrap.foil.top.emissivity").value == *wrap("foil").top.emissivity);
  CHECK(parameter("pit.drum.vapour_pressure").value == pit("drum", Signal(110.0)).vapour_pressure.at(0.0));
  CHECK(parameter("counter.relative_humidity").value == doctest::Approx(0.5));
  CHECK_THROWS_WITH_AS(
      (void)parameter("mobility.expressed"),
      doctest::Contains(
          "parameter: 'mobility.expressed' is not in the table; close: tissue.mobility.expressed"),
      InvalidInput);
  CHECK_THROWS_WITH_AS((void)parameter("qqq"),
                       "parameter: 'qqq' is not in the table; parameters() lists the names", InvalidInput);
}

TEST_CASE("ranges agree with what validation accepts") {
  // Both ends of each tissue range must be usable, else the range is not one that a user or a fit may
  // explore.
  struct Member {
    const char *name;
    double *value;
  };
  Tissue tissue = brisket_tissue();
  const std::array members{
      Member{"tissue.holding.final_share", &tissue.holding.final_share},
      Member{"tissue.holding.midpoint", &tissue.holding.midpoint},
      Member{"tissue.holding.width", &tissue.holding.width},
      Member{"tissue.mobility.expressed", &tissue.mobility.expressed},
      Member{"tissue.mobility.held", &tissue.mobility.held},
      Member{"tissue.mobility.held_activation", &tissue.mobility.held_activation},
      Member{"tissue.mobility.dry_below", &tissue.mobility.dry_below},
      Member{"tissue.mobility.dry_floor", &tissue.mobility.dry_floor},
      Member{"tissue.mobility.switch_width", &tissue.mobility.switch_width},
      Member{"tissue.sorption.monolayer", &tissue.sorption.monolayer},
      Member{"tissue.sorption.c", &tissue.sorption.c},
      Member{"tissue.sorption.k", &tissue.sorption.k},
      Member{"tissue.sinks.fat_latent", &tissue.sinks.fat_latent},
      Member{"tissue.sinks.denaturation", &tissue.sinks.denaturation},
      Member{"tissue.exudation.path", &tissue.exudation.path},
      Member{"tissue.exudation.bare_film", &tissue.exudation.bare_film},
      Member{"tissue.exudation.run_off_time", &tissue.exudation.run_off_time},
      Member{"tissue.tenderness.rate_90", &tissue.tenderness.rate_90},
      Member{"tissue.tenderness.activation", &tissue.tenderness.activation},
      Member{"tissue.emissivity", &tissue.emissivity},
  };
  for (const Member &member : members) {
    CAPTURE(member.name);
    const Parameter &p = parameter(member.name);
    const double kept = *member.value;
    CHECK(kept == p.value);
    for (const double end : {p.low, p.high}) {
      *member.value = end;
      CHECK_NOTHROW(tissue.validate());
    }
    *member.value = kept;
  }
}
