/// @file
/// The fields of a plan: stages, their ends and events, probes.
#pragma once

#include "cook/cooker/cooker_fields.hpp"
#include "cook/meat/piece_fields.hpp"
#include "cook/plan/plan.hpp"

namespace cook {

inline constexpr double longest_stage = 30 * 86400.0; ///< [s]

template <>
inline constexpr About about<End>{"End", "end", "one end condition of a stage; does not change once made"};
template <>
inline constexpr auto fields_of<End> = std::tuple{
    field("kind", &End::kind, "what it waits for"),
    field("value", &End::value,
          "temperature [°C], time [s], time of day [s after midnight], index or share [-]"),
    field("every", &End::every, kind::duration, range::any,
          "looked at only every so often, from the start of the stage on; 0: all the time"),
};

template <>
inline constexpr About about<Spritz>{"Spritz", "spritz", "liquid sprayed on the top face at intervals"};
template <>
inline constexpr auto fields_of<Spritz> = std::tuple{
    field("every", &Spritz::every, kind::duration, range::within(60.0, 86400.0), "interval",
          {900.0, 7200.0, Provenance::common_practice, "hourly"}),
    field("first", &Spritz::first, kind::duration, range::within(0.0, longest_stage),
          "first time, after the start of the stage",
          {0.0, 18000.0, Provenance::common_practice, "once the surface has set"}),
    field("amount", &Spritz::amount, kind::areal_mass, range::within(0.0, 2.0, "0.05 is a light spray"),
          "liquid each time", {0.01, 0.2, Provenance::common_practice, "about 15 g on a brisket"}),
    field("temperature", &Spritz::temperature, kind::temperature, range::celsius(0.0, 95.0), "of the liquid",
          {4.0, 40.0, Provenance::common_practice, "room temperature"}),
    field("lid_open", &Spritz::lid_open, kind::duration, range::any, "how long the lid stays open for it",
          {5.0, 120.0, Provenance::common_practice, "half a minute"}),
};

template <> inline constexpr About about<LidOpening>{"LidOpening", "lid", "the lid opened once"};
template <>
inline constexpr auto fields_of<LidOpening> = std::tuple{
    field("at", &LidOpening::at, kind::duration, range::within(0.0, longest_stage),
          "when, after the start of the stage"),
    field("duration", &LidOpening::duration, kind::duration, range::within(1.0, 86400.0), "how long",
          {5.0, 600.0, Provenance::common_practice, "a look inside"}),
};

template <>
inline constexpr About about<Probe>{
    "Probe", "probe",
    "where a probe sits, and how it errs; without x and z at the place that its name says, \"flat\" or "
    "\"point\" in a cross-section, the middle of a slab"};
template <>
inline constexpr auto fields_of<Probe> = std::tuple{
    field("name", &Probe::name, "what its trace is called"),
    field("x", &Probe::x, kind::length, range::within(0.0, 3.0, "millimetres are written as '120 mm'"),
          "of the tip, from the flat end"),
    field("z", &Probe::z, kind::length, range::within(0.0, 1.0, "millimetres are written as '30 mm'"),
          "of the tip, from the bottom face"),
    field("tip", &Probe::tip, kind::length, range::within(0.0, 0.1, "length of the sensor; 5 mm is 0.005"),
          "length that the sensor averages over"),
    field("stem", &Probe::stem, kind::share,
          range::within(0.0, 0.5, "share of the difference between air and meat"),
          "share of (air - meat) that the stem conducts to the tip; see `stem_error`"),
};

template <>
inline constexpr About about<Stage>{"Stage", "stage", "one stage of a plan: where, under what, until when"};
template <>
inline constexpr auto fields_of<Stage> = std::tuple{
    field("name", &Stage::name, "what it is called"),
    field("surroundings", &Stage::surroundings, "where the meat is"),
    field("wrap", &Stage::wrap, "what covers it; takes the name of a wrap too"),
    field("until", &Stage::until, "what ends it, the first of several that is reached"),
    field("spritz", &Stage::spritz, "spritzing, if there is any"),
    field("lid", &Stage::lid, "lid openings"),
    field("at_most", &Stage::at_most, kind::duration, range::within(1.0, longest_stage),
          "give up after this long"),
    field("probe", &Stage::probe,
          "where the probe sits that the core and `until` follow from this stage on; without it as before"),
};

template <>
inline constexpr About about<Plan>{
    "Plan", "plan", "a cook from start to slice: a piece of meat and the stages it goes through"};
template <>
inline constexpr auto fields_of<Plan> = std::tuple{
    field("meat", &Plan::meat, "the piece; a brisket if left out"),
    field("clock_start", &Plan::clock_start, kind::clock, range::within(0.0, 86400.0),
          "time of day at the start; takes text such as \"05:30\"")
        .as("start"),
    field("stages", &Plan::stages, "the stages in order"),
    field("probes", &Plan::probes, "further probes, read all through the cook"),
};

} // namespace cook
