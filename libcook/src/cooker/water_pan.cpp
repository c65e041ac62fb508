#include "cook/cooker/water_pan.hpp"

#include <algorithm>
#include <array>

#include "cook/cooker/cooker_fields.hpp"
#include "cook/cooker/evaporation.hpp"
#include "cook/cooker/film_coefficient.hpp"
#include "cook/cooker/humid_air.hpp"
#include "cook/errors.hpp"
#include "engine/faces/convection.hpp"
#include "engine/faces/evaporation.hpp"
#include "engine/faces/radiation.hpp"
#include "fields/check.hpp"

namespace cook {

namespace {

constexpr double coldest_film = -40.0; // °C, of the film correlations
constexpr double hottest_film = 300.0;

} // namespace

void WaterPan::validate(const std::string &field) const {
  check::members(field + ".", *this);
  if (film.kind == Convection::given) {
    check::within(field + ".film.value", film.value, 0.0, 1e3, kind::film_coefficient.unit);
  } else {
    check::within(field + ".film.length", film.length, 0.005, 5.0, "m", "a length in mm or cm?");
  }
  if (film.kind == Convection::forced) {
    check::within(field + ".film.value", film.value, 0.0, 20.0, "m/s");
  }
}

PanSetting pan_setting(const WaterPan &pan, double film_temperature, double pressure) {
  pan.validate();
  check::celsius("film_temperature", film_temperature, coldest_film, hottest_film);
  check::within("pressure", pressure, 5e4, 1.1e5, "Pa", "pressures are in Pa: 1 atm is 101325");
  PanSetting s;
  s.area = pan.area;
  switch (pan.film.kind) {
  case Convection::given:
    s.given = pan.film.value;
    break;
  case Convection::forced:
    s.given = forced_plate(pan.film.value, pan.film.length, film_temperature);
    break;
  case Convection::natural:
    // Water colder than the air lies stably under it, while the pan's cold bottom stirs the air below.
    s.surface_hot = s.bottom_cold = natural_plate_coefficient(film_temperature, pan.film.length, true);
    s.surface_cold = s.bottom_hot = natural_plate_coefficient(film_temperature, pan.film.length, false);
    break;
  }
  s.lewis = lewis_factor(film_temperature, pressure);
  s.radiation = pan.emissivity * pan.view * stefan_boltzmann;
  s.radiant_bottom = pan.radiant_bottom;
  s.heat_capacity = pan.heat_capacity;
  s.pressure = pressure;
  return s;
}

PanRates pan_rates(const PanSetting &pan, double air_temperature, double pan_temperature,
                   double vapour_pressure, double water) noexcept {
  PanRates out;
  const double gap = air_temperature - pan_temperature;
  const auto surface = engine::film_coefficient(pan.given, pan.surface_cold, pan.surface_hot, gap);
  const auto bottom = engine::film_coefficient(pan.given, pan.bottom_cold, pan.bottom_hot, gap);

  // Heat, by air and by radiation, at the surface and at the bottom.
  const double air_k = kelvin(air_temperature);
  const double pan_k = kelvin(pan_temperature);
  const double h = surface.value + bottom.value;
  const double by_gap = h + gap * (surface.slope + bottom.slope);
  const auto above = engine::fourth_power(air_k);
  const auto below = engine::fourth_power(air_k + pan.radiant_bottom);
  const auto own = engine::fourth_power(pan_k);
  out.heat.value = pan.area * (h * gap + pan.radiation * (above.value + below.value - 2.0 * own.value));
  out.heat.air = pan.area * (by_gap + pan.radiation * (above.slope + below.slope));
  out.heat.pan = -pan.area * (by_gap + 2.0 * pan.radiation * own.slope);

  // Vapour, as from a face that is wet all over, times the share of the pan that still is.
  const double left = std::max(water, 0.0);
  const double last = pan_last_film * pan.area;
  const double share = water / (left + last);
  const double share_water = last / ((left + last) * (left + last));
  const auto flow = engine::vapour_flow({surface.value * pan.lewis, surface.slope * pan.lewis}, pan.pressure,
                                        0.5 * (air_k + pan_k));
  const auto in_air = engine::stefan(vapour_pressure / pan.pressure);
  const auto leaving =
      engine::evaporation(flow.value, saturation_pressure(pan_temperature) / pan.pressure, in_air.value);
  const double share_pan = saturation_pressure_slope(pan_temperature) / pan.pressure;
  // A pan that a step has overdrawn comes back either way: what dries gives less than nothing, and on what is
  // colder than the dew point water gathers. With the share's own sign it would lose more there, ever faster.
  const double sign = water < 0.0 && leaving.value < 0.0 ? -1.0 : 1.0;
  const double wet = sign * pan.area * share;
  out.evaporation.value = wet * leaving.value;
  out.evaporation.air = wet * flow.air * leaving.by_flow;
  out.evaporation.pan = wet * (flow.surface * leaving.by_flow + leaving.by_share * share_pan);
  out.evaporation.vapour = -wet * flow.value * in_air.slope / pan.pressure;
  out.evaporation.water = sign * pan.area * share_water * leaving.value;

  // The pan's temperature.
  constexpr double step = 0.01; // K; central differences of latent_heat's cubic are good to nine digits
  const double latent = latent_heat(pan_temperature);
  const double latent_pan =
      (latent_heat(pan_temperature + step) - latent_heat(pan_temperature - step)) / (2.0 * step);
  const double per_capacity = 1.0 / (water_specific_heat * left + pan.heat_capacity);
  const PanTerm &e = out.evaporation;
  const PanTerm &q = out.heat;
  out.warming.value = (q.value - latent * e.value) * per_capacity;
  out.warming.air = (q.air - latent * e.air) * per_capacity;
  out.warming.pan = (q.pan - latent * e.pan - latent_pan * e.value) * per_capacity;
  out.warming.vapour = -latent * e.vapour * per_capacity;
  const double capacity_water = water > 0.0 ? water_specific_heat : 0.0;
  out.warming.water = (-latent * e.water - out.warming.value * capacity_water) * per_capacity;
  return out;
}

} // namespace cook
