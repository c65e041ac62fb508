/// @file
/// The cells of one cook, and what they remember, in blocks of eight neighbours: a block is a pack's, so that
/// eight cells are evaluated where they are (cells_abreast.hpp), with nothing gathered or spread.
///
/// The last block's lanes beyond the last cell hold that one again.
#pragma once

#include <cstddef>
#include <vector>

#include "engine/arithmetic/pack.hpp"
#include "engine/cells/cell.hpp"

namespace cook::engine {

/// @param lane 0 to 7; of a pack in memory, where it is a load and no more
[[gnu::always_inline]] inline double lane_of(const Pack &pack, std::size_t lane) {
  return reinterpret_cast<const double *>(&pack)[lane]; // NOLINT: a vector of doubles
}
[[gnu::always_inline]] inline double &lane_of(Pack &pack, std::size_t lane) {
  return reinterpret_cast<double *>(&pack)[lane]; // NOLINT: a vector of doubles
}

/// How many blocks so many cells take.
inline std::size_t blocks_for(std::size_t cells) { return (cells + pack_lanes - 1) / pack_lanes; }

/// Cells, or memories, of one cook.
template <template <class> class Of> class Blocks {
public:
  using Block = Of<Pack>;

  explicit Blocks(std::size_t size = 0, const Block &all = {})
      : size_(size), blocks_(blocks_for(size), all) {}

  [[nodiscard]] std::size_t size() const { return size_; }
  [[nodiscard]] std::size_t blocks() const { return blocks_.size(); }
  [[nodiscard]] Block &block(std::size_t at) { return blocks_[at]; }
  [[nodiscard]] const Block &block(std::size_t at) const { return blocks_[at]; }
  [[nodiscard]] Block *data() { return blocks_.data(); }

  /// One number of one of them.
  [[nodiscard, gnu::always_inline]] double get(Pack Block::*which, std::size_t i) const {
    return lane_of(blocks_[i / pack_lanes].*which, i % pack_lanes);
  }
  /// Sets it; of the last one also where that is held again.
  void set(Pack Block::*which, std::size_t i, double value) {
    Pack &pack = blocks_[i / pack_lanes].*which;
    const std::size_t lane = i % pack_lanes;
    for (std::size_t l = lane; l < (i + 1 < size_ ? lane + 1 : pack_lanes); ++l) {
      lane_of(pack, l) = value;
    }
  }

private:
  std::size_t size_;
  std::vector<Block> blocks_;
};

class CellBlocks : public Blocks<Cell> {
public:
  using Blocks::Blocks;

  /// All of a cell; what is not read of it costs nothing.
  [[nodiscard, gnu::always_inline]] Cell<double> operator[](std::size_t i) const {
    const Block &b = block(i / pack_lanes);
    const std::size_t lane = i % pack_lanes;
    const auto of = [lane](const Pack &pack) __attribute__((always_inline)) { return lane_of(pack, lane); };
    return {of(b.t),
            of(b.t_eta),
            of(b.t_x),
            of(b.t_liquid),
            of(b.k),
            of(b.phi),
            of(b.juice),
            of(b.juice_phi),
            of(b.expressed),
            of(b.held_mobility),
            of(b.give),
            of(b.hw),
            of(b.fresh_held),
            of(b.fresh_denat),
            of(b.base_t),
            of(b.base_eta),
            of(b.base_x),
            of(b.base_liquid),
            of(b.k_t),
            of(b.k_x),
            of(b.phi_t),
            of(b.expressed_t),
            of(b.held_mobility_t),
            of(b.held_mobility_x),
            of(b.give_x),
            of(b.hw_t)};
  }
};

class MemoryBlocks : public Blocks<Memory> {
public:
  using Blocks::Blocks;

  [[nodiscard]] Memory<double> operator[](std::size_t i) const {
    return {get(&Block::peak, i), get(&Block::held_cap, i), get(&Block::denat_floor, i)};
  }
  void put(std::size_t i, const Memory<double> &memory) {
    set(&Block::peak, i, memory.peak);
    set(&Block::held_cap, i, memory.held_cap);
    set(&Block::denat_floor, i, memory.denat_floor);
  }
};

/// Before the first evaluation: any finite temperature, zero slopes.
template <class Real> Cell<Real> cell_to_begin_with() {
  Cell<Real> cell{};
  cell.t = cell.base_t = Real(20.0);
  return cell;
}
/// Nothing is remembered yet.
template <class Real> Memory<Real> empty_memory() { return {Real(-1e30), Real(0.0), Real(0.0)}; }

} // namespace cook::engine
