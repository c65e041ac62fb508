#include "engine/equations/faces_abreast.hpp"

#include <algorithm>
#include <cstddef>
#include <cstring>
#include <type_traits>

#include "engine/arithmetic/transpose.hpp"
#include "engine/arithmetic/vector_clones.hpp"
#include "engine/equations/face_balance.hpp"
#include "engine/faces/face.hpp"
#include "engine/faces/face_lanes.hpp"

namespace cook::engine {

namespace {

using C = Cell<Pack>;
using Eight = FacesAbreast::Eight;

/// Numbers of a FaceFlux, side by side.
constexpr std::size_t flux_numbers = sizeof(FaceFlux<double>) / sizeof(double);
static_assert(std::is_standard_layout_v<FaceFlux<double>> && flux_numbers % 4 == 0 &&
                  sizeof(FaceFlux<Pack>) == flux_numbers * sizeof(Pack),
              "in fours");

[[gnu::always_inline]] inline void evaluate_eight(const Eight &at, const std::array<FaceAir<double>, 2> &air,
                                                  const CellBlocks &cells, const double *y,
                                                  const double *liquid, FaceFlux<double> *flux,
                                                  Slope<double> *latent) {
  C cell;
  const auto take = [&](auto... which) __attribute__((always_inline)) {
    ((cell.*which = gathered([&](std::size_t lane) { return cells.get(which, at.node[lane]); })), ...);
  };
  take(&C::t, &C::phi, &C::juice, &C::juice_phi, &C::expressed, &C::held_mobility, &C::phi_t, &C::expressed_t,
       &C::held_mobility_t, &C::held_mobility_x);
  const Pack x = gathered([&](std::size_t lane) { return y[2 * at.node[lane] + 1]; });
  const FaceAir<Pack> beyond{gathered([&](std::size_t lane) { return air[at.side[lane]].air; }),
                             gathered([&](std::size_t lane) { return air[at.side[lane]].vapour; })};
  const Pack m =
      gathered([&](std::size_t lane) { return liquid[at.first + (lane < at.count ? lane : at.count - 1)]; });
  Row<Pack> row;
  at.table.lookup<col_saturation, columns>(cell.t, row);
  const FaceFlux<Pack> out = face_flux(at.settings, beyond, tissue_at_face(cell, row, x, at.table.solids), m);
  std::array<Pack, flux_numbers> number;
  std::memcpy(&number, &out, sizeof number);
  for (std::size_t k = 0; k < flux_numbers; k += 4) {
    store_fours(
        at.count,
        [&](std::size_t lane) { return reinterpret_cast<double *>(&flux[at.first + lane]) + k; }, // NOLINT
        number[k], number[k + 1], number[k + 2], number[k + 3]);
  }
  for (std::size_t lane = 0; lane < at.count; ++lane) {
    latent[at.first + lane] = {row.value[col_latent][lane], row.slope[col_latent][lane]};
  }
}

// A function, not a template: only those are compiled for several widths.
COOK_PACK_CLONES
void evaluate_faces(const Eight &at, const std::array<FaceAir<double>, 2> &air, const CellBlocks &cells,
                    const double *y, const double *liquid, FaceFlux<double> *flux, Slope<double> *latent) {
  evaluate_eight(at, air, cells, y, liquid, flux, latent);
}

} // namespace

FacesAbreast::FacesAbreast(const std::vector<Place> &faces) {
  for (std::size_t first = 0; first < faces.size(); first += pack_lanes) {
    Eight &eight = eights_.emplace_back();
    eight.first = first;
    eight.count = std::min(pack_lanes, faces.size() - first);
    for (std::size_t lane = 0; lane < pack_lanes; ++lane) {
      const Place &place = faces[first + std::min(lane, eight.count - 1)];
      eight.node[lane] = place.node;
      eight.setting[lane] = place.setting;
      eight.side[lane] = place.side;
      eight.table.set(lane, *place.table);
    }
  }
}

void FacesAbreast::evaluate(std::span<const FaceSetting<double>> settings,
                            const std::array<FaceAir<double>, 2> &air, const CellBlocks &cells,
                            const double *y, const double *liquid, FaceFlux<double> *flux,
                            Slope<double> *latent) {
  if (!std::equal(settings.begin(), settings.end(), known_.begin(), known_.end())) {
    for (Eight &eight : eights_) {
      eight.settings.resists_heat = false;
      for (std::size_t lane = 0; lane < pack_lanes; ++lane) {
        const FaceSetting<double> &own = settings[eight.setting[lane]];
        set_lane(eight.settings, lane, own);
        eight.settings.resists_heat = eight.settings.resists_heat || own.resists_heat;
      }
    }
    known_.assign(settings.begin(), settings.end());
  }
  for (const Eight &eight : eights_) {
    evaluate_faces(eight, air, cells, y, liquid, flux, latent);
  }
}

} // namespace cook::engine
