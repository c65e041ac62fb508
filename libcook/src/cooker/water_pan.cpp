#include "cook/cooker/water_pan.hpp"

#include <algorithm>
#include <array>

#include "cook/cooker/cooker_fields.hpp"
#include "cook/cooker/film_coefficient.hpp"
#include "cook/cooker/humid_air.hpp"
#include "cook/errors.hpp"
#include "engine/faces/face.hpp"
#include "fields/check.hpp"

namespace cook {

namespace {

constexpr double coldest_film = -40.0; // °C, of the film correlations
constexpr double hottest_film = 300.0;

/// Film coefficient of one side, with its slope by the difference air - pan.
engine::Slope<double> film_at(double given, double cold, double hot, double gap) {
  engine::FaceSetting<double> face;
  face.h_given = given;
  face.natural_cold = cold;
  face.natural_hot = hot;
  return engine::film_coefficient(face, gap);
}

double cube(double x) { return x * x * x; }

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
  const auto surface = film_at(pan.given, pan.surface_cold, pan.surface_hot, gap);
  const auto bottom = film_at(pan.given, pan.bottom_cold, pan.bottom_hot, gap);

  // Heat, by air and by radiation, at the surface and at the bottom.
  const double air_k = kelvin(air_temperature);
  const double below_k = air_k + pan.radiant_bottom;
  const double pan_k = kelvin(pan_temperature);
  const double film = surface.value + bottom.value;
  const double by_gap = film + gap * (surface.slope + bottom.slope);
  const double fourth_powers = air_k * cube(air_k) + below_k * cube(below_k) - 2.0 * pan_k * cube(pan_k);
  out.heat.value = pan.area * (film * gap + pan.radiation * fourth_powers);
  out.heat.air = pan.area * (by_gap + 4.0 * pan.radiation * (cube(air_k) + cube(below_k)));
  out.heat.pan = -pan.area * (by_gap + 8.0 * pan.radiation * cube(pan_k));

  // Vapour, as from a face that is wet all over, times the share of the pan that still is.
  const double held = std::max(water, 0.0);
  const double last = pan_last_film * pan.area;
  const double share = water / (held + last);
  const double share_water = last / ((held + last) * (held + last));
  const double film_k = 0.5 * (air_k + pan_k);
  const double flow = surface.value * pan.lewis * pan.pressure / (gas_constant_water * film_k);
  const double flow_gap = surface.slope * pan.lewis * pan.pressure / (gas_constant_water * film_k);
  const double flow_film = -0.5 * flow / film_k;
  const double ratio = saturation_pressure(pan_temperature) / pan.pressure;
  const double ratio_pan = saturation_pressure_slope(pan_temperature) / pan.pressure;
  const auto at_water = engine::stefan(ratio);
  const auto in_air = engine::stefan(vapour_pressure / pan.pressure);
  const auto vent = engine::smooth_plus(ratio - 1.0, engine::venting_width);
  const double drive = at_water.value - in_air.value;
  const double flux = flow * drive + engine::venting * vent.value;
  // A pan that a step has overdrawn comes back either way: what dries gives less than nothing, and on what is
  // colder than the dew point water gathers. With the share's own sign it would lose more there, ever faster.
  const double sign = water < 0.0 && flux < 0.0 ? -1.0 : 1.0;
  const double wet = sign * pan.area * share;
  out.evaporation.value = wet * flux;
  out.evaporation.air = wet * (flow_gap + flow_film) * drive;
  out.evaporation.pan = wet * ((flow_film - flow_gap) * drive +
                               (flow * at_water.slope + engine::venting * vent.slope) * ratio_pan);
  out.evaporation.vapour = -wet * flow * in_air.slope / pan.pressure;
  out.evaporation.water = sign * pan.area * share_water * flux;

  // The pan's temperature.
  constexpr double step = 0.01; // K; central differences of latent_heat's cubic are good to nine digits
  const double latent = latent_heat(pan_temperature);
  const double latent_pan =
      (latent_heat(pan_temperature + step) - latent_heat(pan_temperature - step)) / (2.0 * step);
  const double per_capacity = 1.0 / (water_specific_heat * held + pan.heat_capacity);
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
