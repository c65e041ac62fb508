/// @file
/// The parts that the parameter table is put together from.
#pragma once

#include <string>
#include <vector>

#include "cook/fields/parameters.hpp"

namespace cook::rows {

/// Closes the source of a number that was estimated together with others from measured cooks.
inline const std::string tuning = "; value: from the joint tuning on measured cooks, cooling, rests and "
                                  "losses (validation/population.py)";

void add_tissue(std::vector<Parameter> &table);       ///< tissue and its sub-structs
void add_piece(std::vector<Parameter> &table);        ///< shapes, fat cap, other meats, rendered fat
void add_section(std::vector<Parameter> &table);      ///< cross-section: seam, default shape and tissues
void add_surroundings(std::vector<Parameter> &table); ///< cookers, counter, box, spritz, lid
void add_wraps(std::vector<Parameter> &table);        ///< coverings
void add_engine(std::vector<Parameter> &table);   ///< constants inside the engine: film, boiling, memory, lid
void add_kinetics(std::vector<Parameter> &table); ///< rates read off the temperature history
void add_readings(std::vector<Parameter> &table); ///< limits of safety rules, what counts as a stall
void add_fuels(std::vector<Parameter> &table);    ///< what fuels are made of
void add_pit_air(std::vector<Parameter> &table);  ///< chambers, their air, the water pan
void add_free(std::vector<Parameter> &table);     ///< what is believed of a number before a fit
void add_fit(std::vector<Parameter> &table);      ///< model error, pit outlook, limits of words

} // namespace cook::rows
