/// @file
/// The fields of where the meat is: air, films, box, water pan, chamber, wrap.
#pragma once

#include "cook/cooker/surroundings.hpp"
#include "cook/cooker/wrap.hpp"
#include "cook/fields/field.hpp"

namespace cook {

namespace source {

inline constexpr std::string_view pits =
    "which cooker breathes more and which radiates from below; vapour pressure between the balances of a "
    "draughty and a tight cooker, 3 to 15 kPa";
inline constexpr std::string_view plain_walls = "walls at air temperature";

} // namespace source

template <>
inline constexpr About about<Signal>{
    "Signal", "signal",
    "a quantity that changes with time: straight lines between points, held before the first and after the "
    "last, plus a sinusoid as a controller makes it"};
template <>
inline constexpr auto fields_of<Signal> = std::tuple{
    field("time", &Signal::time, kind::duration, range::any,
          "times since the start of the cook; strictly increasing"),
    field("value", &Signal::value, "values, as many as times"),
    field("ripple_amplitude", &Signal::ripple_amplitude, kind::none, range::not_negative,
          "of the sinusoid, in the unit of the values"),
    field("ripple_period", &Signal::ripple_period, kind::duration, range::within(10.0, 1e6),
          "of the sinusoid"),
    field("measured", &Signal::measured,
          "whether it is a log: lid openings are in it already, so they are not applied again"),
};

template <> inline constexpr About about<Film>{"Film", "film", "how heat passes from the air to one face"};
template <>
inline constexpr auto fields_of<Film> = std::tuple{
    field("kind", &Film::kind,
          "natural: still air; forced: air moves along the face; given: the coefficient is known"),
    field("value", &Film::value, kind::film_value, range::any,
          "film coefficient that is given; of forced convection the air speed [m/s], of natural convection "
          "nothing"),
    field("length", &Film::length, kind::length, range::within(0.005, 5.0).at_times(),
          "characteristic length; area / perimeter in still air, length along the stream in forced; 0: that "
          "of the piece"),
    field("factor", &Film::factor, kind::number, range::within(0.05, 20.0).at_times(),
          "on what the correlation gives",
          {0.5, 2.0, Provenance::assumed,
           "what the correlation gives; a cooker's own draught differs from it"}),
};

template <>
inline constexpr About about<Box>{"Box", "box",
                                  "a lumped insulated box: air, liner and walls share one temperature"};
template <>
inline constexpr auto fields_of<Box> = std::tuple{
    field("heat_capacity", &Box::heat_capacity, kind::heat_capacity, range::positive,
          "of liner, towels and inner wall that warm up with it",
          {2e3, 2e4, Provenance::assumed, "judgement: 3 to 4 kg of plastic and towels"}),
    field("loss", &Box::loss, kind::conductance, range::not_negative, "to the room",
          {0.3, 3.0, Provenance::tuned, "1.2 m² of 3 to 5 cm foam make 0.6 to 1.3"}),
    field("start", &Box::start, kind::temperature, range::celsius(-20.0, 120.0),
          "temperature when the meat goes in",
          {15.0, 70.0, Provenance::assumed,
           "judgement: towels from the room or a little warmer; more if preheated"}),
};

template <> inline constexpr About about<WaterPan>{"WaterPan", "water_pan", "a water pan in a cooker"};
template <>
inline constexpr auto fields_of<WaterPan> = std::tuple{
    field("area", &WaterPan::area, kind::area, range::within(1e-4, 2.0, "an area in cm²? 500 cm² is 0.05 m²"),
          "water surface, and pan bottom", {0.01, 0.2, Provenance::common_practice, "a pan of 20 by 25 cm"}),
    field("water", &WaterPan::water, kind::mass, range::within(0.0, 50.0, "a mass in g?"),
          "water at the start", {0.5, 8.0, Provenance::common_practice, "4 cm deep"}),
    field("temperature", &WaterPan::temperature, kind::temperature, range::celsius(0.0, 100.0),
          "of the water at the start", {5.0, 100.0, Provenance::common_practice, "from the tap"}),
    field("film", &WaterPan::film, "convection at the surface, and under the bottom"),
    field("emissivity", &WaterPan::emissivity, kind::share, range::within(0.0, 1.0), "of water and pan",
          {0.9, 0.98, Provenance::from_memory,
           "water: 0.95 to 0.96, Incropera & DeWitt, table A.11 (from memory)"}),
    field("view", &WaterPan::view, kind::share, range::within(0.0, 1.0), "factor on the radiation exchange",
          {0.3, 1.0, Provenance::assumed, "judgement: walls all around"}),
    field("radiant_bottom", &WaterPan::radiant_bottom, kind::difference, range::within(-200.0, 500.0),
          "what the bottom sees, above air temperature (coals)",
          {0.0, 300.0, Provenance::assumed, "judgement: not over the coals; raise it for a pan that is"}),
    field("heat_capacity", &WaterPan::heat_capacity, kind::heat_capacity, range::within(10.0, 1e5),
          "of the empty pan", {100.0, 2000.0, Provenance::assumed, "judgement: 1 kg of steel"}),
};

template <>
inline constexpr About about<PitAir>{"PitAir", "pit_air",
                                     "how a cooker's chamber breathes: the vapour balance of its own air"};
template <>
inline constexpr auto fields_of<PitAir> = std::tuple{
    field("air_flow", &PitAir::air_flow, kind::mass_flow,
          range::within(1e-6, 0.5,
                        "a flow in kg/h? Write it as '4 kg/h'; in an airtight cooker nothing evaporates: "
                        "simulate(..., evaporation=False)"),
          "dry air through the chamber"),
    field("inlet_vapour_pressure", &PitAir::inlet_vapour_pressure, kind::pressure, range::any,
          "of water in the air that comes in"),
    field("fuel_water", &PitAir::fuel_water, kind::mass_flow,
          range::within(0.0, 0.1, "a flow in kg/h? Write it as '0.4 kg/h'"), "vapour from the fuel"),
    field("volume", &PitAir::volume, kind::volume,
          range::within(1e-3, 100.0, "a volume in litres? 60 l is 0.06 m³"), "of the chamber"),
    field("pressure", &PitAir::pressure, kind::pressure,
          range::within(5e4, 1.1e5, "pressures are in Pa: 1 atm is 101325"), "total pressure"),
    field("meat_count", &PitAir::meat_count, kind::number, range::within(0.0, 1000.0),
          "how many such pieces share the chamber"),
    field("pan", &PitAir::pan, "water pan, if there is one"),
};

template <>
inline constexpr About about<Surroundings>{
    "Surroundings", "surroundings",
    "where the meat is during a stage; times of signals count from the start of the cook"};
template <>
inline constexpr auto fields_of<Surroundings> = std::tuple{
    field("kind", &Surroundings::kind, "what it is called"),
    field("air", &Surroundings::air, kind::temperature, range::any,
          "air temperature; with a box that of the room",
          {95.0, 150.0, Provenance::common_practice, "low and slow"}),
    field("air_below", &Surroundings::air_below, kind::temperature, range::any,
          "air under the bottom face where it differs"),
    field("radiant_bottom", &Surroundings::radiant_bottom, kind::difference, range::within(-200.0, 500.0),
          "what the bottom face sees, above air temperature (coals)",
          {0.0, 100.0, Provenance::assumed, source::plain_walls}),
    field("radiant_top", &Surroundings::radiant_top, kind::difference, range::within(-200.0, 500.0),
          "what the top face sees, above air temperature",
          {0.0, 100.0, Provenance::assumed, source::plain_walls}),
    field("view", &Surroundings::view, kind::share, range::within(0.0, 1.0),
          "factor on the radiation exchange",
          {0.5, 1.0, Provenance::assumed, "a piece that is small against its cooker sees only walls"}),
    field("bottom", &Surroundings::bottom, "film of the bottom face"),
    field("top", &Surroundings::top, "film of the top face"),
    field("vapour_pressure", &Surroundings::vapour_pressure, kind::pressure, range::any,
          "of water in the air", {3e3, 1.5e4, Provenance::common_practice, source::pits}),
    field("pressure", &Surroundings::pressure, kind::pressure, range::within(5e4, 1.1e5), "total pressure",
          {7e4, 1.04e5, Provenance::published, "standard atmosphere (10th CGPM, 1954)"}),
    field("ambient", &Surroundings::ambient, kind::temperature, range::celsius(-40.0, hottest_outside),
          "temperature outside, for lid openings", {-20.0, 40.0, Provenance::common_practice, "outside air"}),
    field("box", &Surroundings::box, "insulated box around the meat, if there is one"),
    field("pit_air", &Surroundings::pit_air,
          "vapour balance of the cooker's own air; without it the vapour pressure is given"),
};

template <>
inline constexpr About about<Covering>{
    "Covering", "covering",
    "what lies between one face and the air; the numbers of each wrap, with range and source: "
    "``libcook.parameters()``, rows ``wrap.*``"};
template <>
inline constexpr auto fields_of<Covering> = std::tuple{
    field("vapour_resistance", &Covering::vapour_resistance, kind::vapour_resistance, range::within(0.0, 1e9),
          "1 / conductance for a vapour density difference"),
    field("heat_resistance", &Covering::heat_resistance, kind::heat_resistance, range::within(0.0, 10.0),
          "sheet, trapped air or steam"),
    field("emissivity", &Covering::emissivity, kind::share, range::within(0.0, 1.0),
          "of the outside; without it the meat's own"),
    field("juice_capacity", &Covering::juice_capacity, kind::areal_mass, range::within(0.0, 100.0),
          "liquid it keeps at the face before running off; without it as a bare face"),
};

template <> inline constexpr About about<Wrap>{"Wrap", "wrap", "a wrap: its coverings of the faces"};
template <>
inline constexpr auto fields_of<Wrap> = std::tuple{
    field("name", &Wrap::name, "what it is called"),
    field("bottom", &Wrap::bottom, "covering of the bottom face"),
    field("top", &Wrap::top, "covering of the top face"),
    field("ends", &Wrap::ends,
          "covering of the end faces of a cross-section; without it below as the bottom, above as the top"),
};

} // namespace cook
