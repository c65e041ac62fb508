/// @file
/// From packs to the arrays of their lanes, and to other packs: blocks of numbers are turned in registers,
/// where lane by lane each number would be a load and a store of its own.
#pragma once

#include <array>
#include <cstddef>
#include <vector>

#include "engine/arithmetic/pack.hpp"
#include "engine/cells/cell_blocks.hpp"

namespace cook::engine {

/// Where each lane's numbers go; null: nowhere.
template <class To> using LaneTargets = std::array<To *, pack_lanes>;

/// Copies each lane's part of `from`; compiled for several widths of vectors.
void scatter(const std::vector<Pack> &from, const LaneTargets<double> &to);
/// Temperatures of cells, with their slopes, to the blocks of each lane (cell_blocks.hpp).
void scatter_temperatures(const std::vector<Cell<Pack>> &from, const LaneTargets<Cell<Pack>> &to);

/// Copies the lanes of a mask.
void replace(const PackMask &where, const std::vector<Pack> &from, std::vector<Pack> &to);

} // namespace cook::engine
