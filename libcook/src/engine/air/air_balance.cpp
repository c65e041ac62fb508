#include "engine/air/air_balance.hpp"

#include <utility>

#include "cook/cooker/humid_air.hpp"
#include "engine/arithmetic/smooth.hpp"

namespace cook::engine {

ChamberRates chamber_rates(const AirBalance &balance, const ChamberState &state) {
  const PitAir &air = balance.air;
  const double per_capacity = 1.0 / chamber_vapour_capacity(air.volume, state.temperature);
  const double pressure = state.vapour * per_capacity;
  ChamberRates rates;
  rates.in.value = vapour_inflow(air);
  const VapourTerm out = vapour_outflow(air, pressure);
  rates.out = {.value = out.value, .vapour = out.slope * per_capacity};
  if (state.open > 0.0) {
    // The lid lets outside air in as if the vents drew more.
    const double more =
        state.open * lid_exchange_rate *
        chamber_dry_air(air.volume, state.temperature, air.inlet_vapour_pressure, air.pressure) /
        air.air_flow;
    rates.in.value += more * air.air_flow * humidity_ratio(air.inlet_vapour_pressure, air.pressure);
    rates.out.value *= 1.0 + more;
    rates.out.vapour *= 1.0 + more;
  }
  constexpr double never = 100.0; // °C: above it the air holds any vapour there may be
  if (state.temperature < never) {
    const Slope<double> excess =
        smooth_plus(pressure - saturation_pressure(state.temperature), condensation_width);
    const double rate = condensation_rate / per_capacity;
    rates.out.value += rate * excess.value;
    rates.out.vapour += rate * excess.slope * per_capacity;
  }
  if (balance.pan) {
    const PanRates pan =
        pan_rates(*balance.pan, state.temperature, state.pan_temperature, pressure, state.pan_water);
    const auto term = [&](const PanTerm &t) {
      return ChamberRates::Term{t.value, t.vapour * per_capacity, t.pan, t.water};
    };
    rates.pan = term(pan.evaporation);
    rates.warming = term(pan.warming);
  }
  return rates;
}

ChamberRatesOf<Pack> chamber_rates(const BalanceOf<Pack> &balance, const ChamberStateOf<Pack> &state,
                                   const PackMask &where) {
  ChamberRatesOf<Pack> rates;
  for (std::size_t lane = 0; lane < pack_lanes; ++lane) {
    if (!where[lane] || !balance[lane]) {
      continue;
    }
    const ChamberRates own = chamber_rates(*balance[lane], {.temperature = state.temperature[lane],
                                                            .vapour = state.vapour[lane],
                                                            .open = state.open[lane],
                                                            .pan_temperature = state.pan_temperature[lane],
                                                            .pan_water = state.pan_water[lane]});
    const auto set = [lane](ChamberRatesOf<Pack>::Term &to, const ChamberRates::Term &from) {
      to.value.set(lane, from.value);
      to.vapour.set(lane, from.vapour);
      to.pan_temperature.set(lane, from.pan_temperature);
      to.pan_water.set(lane, from.pan_water);
    };
    set(rates.in, own.in);
    set(rates.out, own.out);
    set(rates.pan, own.pan);
    set(rates.warming, own.warming);
  }
  return rates;
}

void set_balance(Drive<double> &drive, BalancePtr balance) {
  drive.balanced = balance != nullptr;
  if (balance) {
    drive.chamber_volume = balance->air.volume;
    drive.pieces = balance->air.meat_count * drive.extent;
    drive.pan_area = balance->pan ? balance->pan->area : 0.0;
  }
  drive.balance = std::move(balance);
}

} // namespace cook::engine
