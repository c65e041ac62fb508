/// @file
/// Table rows of the constants inside the engine: how a face wets, boils and soaks, and what smooths a
/// corner.
/// Values stand in the structs (include/cook), ranges and sources of their members in the *_fields.hpp beside
/// them; here is what is no member of a struct.
#include "engine/air/air_balance.hpp"
#include "engine/cells/cell.hpp"
#include "engine/faces/face.hpp"
#include "engine/stages/lid.hpp"
#include "fields/parameter_rows.hpp"

namespace cook::rows {

namespace {
using enum Provenance;
} // namespace

void add_engine(std::vector<Parameter> &table) {
  const std::string lid = "common practice, no source: an opened lid and how the pit recovers";
  const std::string corner = "numerical: smooths a corner over a range too small to see";
  table.insert(
      table.end(),
      {
          {"engine.film_reference", engine::film_reference, "kg/m²", 1e-3, 0.1,
           "judgement: a film of 10 micrometres wets half of a rough face", assumed},
          {"engine.boiling_corner", engine::boiling_corner, "-", 0.9, 0.999,
           "numerical: share of the total pressure from which the Stefan logarithm goes on straight",
           assumed},
          {"engine.venting", engine::venting, "kg/(m²·s)", 5e-3, 1.0,
           "judgement: bulk vapour flow above boiling, large enough that heat limits it", assumed},
          {"engine.venting_width", engine::venting_width, "-", 1e-3, 0.1, corner, assumed},
          {"engine.convection_floor", engine::convection_floor, "K", 0.0, 1.0, corner, assumed},
          {"engine.soak_width", engine::soak_width, "kg/kg", 1e-3, 0.1, corner, assumed},
          {"engine.memory_drop", engine::memory_drop, "K", 0.1, 5.0,
           "numerical: cooling after which denaturation counts as irreversible", assumed},
          {"engine.memory_half", engine::memory_half, "K", 0.05, 5.0, corner, assumed},
          {"engine.last_water", engine::last_water, "kg/kg", 1e-4, 0.02,
           "numerical: keeps the water of a dried-out cell positive, far below any crust", assumed},
          {"engine.condensation_rate", engine::condensation_rate, "1/s", 1.0, 1e3,
           "numerical: vapour beyond saturation leaves a cooker's air at once, as far as a cook sees",
           assumed},
          {"engine.condensation_width", engine::condensation_width, "Pa", 1.0, 100.0, corner, assumed},
          {"opened_lid.fall_time", engine::lid_fall, "s", 5.0, 60.0, lid, common_practice},
          {"opened_lid.share_left", engine::lid_share, "-", 0.0, 0.9, lid, common_practice},
          {"opened_lid.recovery_time", engine::lid_recovery, "s", 60.0, 1800.0, lid, common_practice},
      });
}

} // namespace cook::rows
