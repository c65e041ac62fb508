/// @file
/// The faces of a cross-section, eight abreast, as its cells are (cells_abreast.hpp): face_flux() with faces
/// for lanes. But for last digits of the logarithm what it computes face by face, in a third of the time.
/// Without fused multiply-adds, which round differently: a cook gives the same bits on every machine.
#pragma once

#include <array>
#include <cstddef>
#include <span>
#include <vector>

#include "engine/cells/cell_blocks.hpp"
#include "engine/cells/pack_table.hpp"
#include "engine/faces/face_terms.hpp"

namespace cook::engine {

class FacesAbreast {
public:
  /// A face: which cell is behind it, of which tissue, and which setting and which air it has.
  struct Place {
    const PropertyTable *table;
    std::size_t node, setting, side;
  };

  FacesAbreast() = default;
  explicit FacesAbreast(const std::vector<Place> &faces);

  /// Evaluates all faces, against cells that have been.
  /// @param y eta and X of each cell in turn  @param liquid on each face [kg m⁻²]
  /// @param latent heat of evaporation at each face [J kg⁻¹], by temperature
  void evaluate(std::span<const FaceSetting<double>> settings, const std::array<FaceAir<double>, 2> &air,
                const CellBlocks &cells, const double *y, const double *liquid, FaceFlux<double> *flux,
                Slope<double> *latent);

  /// Eight of them, of which those beyond the last are the last one again.
  struct Eight {
    std::size_t first = 0, count = 0;
    std::array<std::size_t, pack_lanes> node{}, setting{}, side{};
    PackTable table;
    FaceSetting<Pack> settings;
  };

private:
  std::vector<Eight> eights_;
  std::vector<FaceSetting<double>> known_; ///< what the eights hold
};

} // namespace cook::engine
