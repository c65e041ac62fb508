/// @file
/// Table rows of the rates that are read off a temperature history.
/// Values stand in the structs (include/cook), ranges and sources of their members in the *_fields.hpp beside
/// them; here is what is no member of a struct.
#include "cook/meat/kinetics_fields.hpp"
#include "fields/parameter_rows.hpp"

namespace cook::rows {

namespace {
using enum Provenance;
} // namespace

void add_kinetics(std::vector<Parameter> &table) {
  const std::string pearce =
      "Pearce et al., rat-skin collagen, from memory; beef (Machlik & Draudt 1963) half done in 11 min at "
      "58 °C, this gives 13";
  const std::string geileskey = "Geileskey et al. (1998), beef myoglobin";
  const std::string fsis = "USDA FSIS cooking guideline, Appendix A: ";
  table.insert(table.end(),
               {
                   {"collagen_denaturation.frequency_factor", collagen_denaturation.frequency_factor, "1/s",
                    1e45, 2e45, pearce, from_memory},
                   {"collagen_denaturation.activation_energy", collagen_denaturation.activation_energy,
                    "J/mol", 3.0e5, 5.2e5, pearce, from_memory},
                   {"myoglobin_denaturation.frequency_factor", myoglobin_denaturation.frequency_factor, "1/s",
                    1e42, 2e42, geileskey, published},
                   {"myoglobin_denaturation.activation_energy", myoglobin_denaturation.activation_energy,
                    "J/mol", 2.8e5, 3.0e5, geileskey, published},
                   {"lethality.range_low", lethality_range_low, "°C", 54.4, 55.0, fsis + "first row, 130 °F",
                    published},
                   {"lethality.range_high", lethality_range_high, "°C", 69.9, 71.2, fsis + "last row, 158 °F",
                    published},
                   {"lethality.z", lethality_z, "K", 5.5, 5.6,
                    fsis + "fit of its times; regression gives 10.01 °F", derived},
                   {"lethality.time_low", lethality_time_low, "s", 6720.0, 7260.0,
                    fsis + "112 min at 130 °F for 6.5 decimal reductions, 121 min for 7", published},
                   {"lethality.log_low", lethality_log_low, "-", 6.5, 7.0,
                    fsis + "6.5 for beef; older codes ask for 7", published},
               });
  add_defaults(table, "browning.", Browning{});
}

} // namespace cook::rows
