/// @file
/// The fields of the rates that are read off a temperature history.
#pragma once

#include "cook/fields/field.hpp"
#include "cook/meat/kinetics.hpp"

namespace cook {

namespace source {

inline constexpr std::string_view heuristic = "judgement: a heuristic index, not measured";

} // namespace source

template <>
inline constexpr auto fields_of<Browning> = std::tuple{
    field("rate_dry", &Browning::rate_dry, kind::rate, range::positive,
          "rate of the dry surface at the reference temperature",
          {1e-4, 1e-3, Provenance::assumed, source::heuristic,
           ": bark sets 3 to 6 h after meat went on at 107 to 135 °C (common practice)"}),
    field("reference_temperature", &Browning::reference_temperature, kind::temperature,
          range::celsius(50.0, 250.0), "of a face that has dried in the stall",
          {60.0, 130.0, Provenance::assumed, source::heuristic}),
    field("activation_energy", &Browning::activation_energy, kind::molar_energy, range::within(0.0, 5.0e5),
          "activation energy",
          {6e4, 1.6e5, Provenance::from_memory, "order of Maillard browning, from memory"}),
    field("dry_activity", &Browning::dry_activity, kind::share,
          range::within(0.0, 0.99, "a value in per cent?"),
          "water activity up to which the surface counts as dry",
          {0.5, 0.95, Provenance::assumed, source::heuristic}),
    field("wet_factor", &Browning::wet_factor, kind::share, range::within(0.0, 1.0, "a value in per cent?"),
          "share of the rate that is left on a wet surface, of water activity 1",
          {0.0, 0.5, Provenance::assumed, source::heuristic}),
};

} // namespace cook
