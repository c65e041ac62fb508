/// Limits in which the equations have solutions in closed form: layers in series, radiation, two different
/// faces, a drying front, a melting front.
#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>
#include <functional>
#include <numbers>

#include "cook/cooker/humid_air.hpp"
#include "cook/engine/simulate.hpp"
#include "cook/meat/food_components.hpp"

using namespace cook;

namespace {

/// The root of a rising function.
double bisect(double low, double high, const std::function<double(double)> &rising) {
  for (int i = 0; i < 60; ++i) {
    const double middle = 0.5 * (low + high);
    (rising(middle) < 0.0 ? low : high) = middle;
  }
  return 0.5 * (low + high);
}

constexpr FixedThermal solid{.conductivity = 0.5, .heat_capacity = 3.6e6};

/// A slab of constant properties, nothing but heat, in air above and below.
Plan conduction(double thickness, double start, double air_above, double air_below, double h_above,
                double h_below, double seconds) {
  Plan plan;
  plan.meat.tissue.fixed = solid;
  plan.meat.shape = {.kind = ShapeKind::slab, .thickness = thickness, .extent = 0.1};
  plan.meat.fat_cap.side = FatSide::none;
  plan.meat.start = start;
  Stage stage;
  stage.surroundings = oven(air_above);
  stage.surroundings.air_below = Signal(air_below);
  stage.surroundings.top = {Convection::given, h_above, 0.06};
  stage.surroundings.bottom = {Convection::given, h_below, 0.06};
  stage.until = {{EndKind::elapsed, seconds}};
  stage.at_most = seconds;
  plan.stages = {stage};
  return plan;
}

Options heat_only(bool radiation = false) {
  Options options;
  options.nodes = 81;
  options.temperature_tolerance = 1e-4;
  options.output_every = 3600.0;
  options.physics = {.evaporation = false, .squeezing = false, .radiation = radiation, .sinks = false};
  return options;
}

/// A front that moves as sqrt(t), and the heat it has taken in by then.
struct Similarity {
  double front; ///< where the temperature crosses the middle of melting, per sqrt(t) [m s^-1/2]
  double heat;  ///< taken in per sqrt(t) [J m⁻² s^-1/2]
};

/// (k T')' = -u/2 (dH/dT) T' from a hot face at u = 0 down to `cold` far away.
Similarity melting_similarity(const Tissue &tissue, double hot, double cold, double middle) {
  const double water = tissue.raw_density() * tissue.composition.water;
  const auto capacity = [&](double t) {
    constexpr double step = 0.01; // K
    const auto enthalpy = [&](double at) {
      return tissue.dry_enthalpy(at) + water * component_enthalpy(Component::water, at);
    };
    return (enthalpy(t + step) - enthalpy(t - step)) / (2.0 * step);
  };
  const double far =
      8.0 * std::sqrt(mixture_conductivity(tissue.composition, cold) /
                      (tissue.raw_density() * mixture_specific_heat(tissue.composition, cold)));
  constexpr int steps = 1000;
  const double h = far / steps;
  Similarity found{0.0, 0.0};
  const auto ends_at = [&](double flux) { // temperature far away, for k T' = -flux at the face
    double t = hot;
    double f = -flux;
    const auto slope = [&](double at, double temperature, double kt, double &dt, double &df) {
      dt = kt / mixture_conductivity(tissue.composition, temperature);
      df = -0.5 * at * capacity(temperature) * dt;
    };
    for (int i = 0; i < steps && t > cold - 5.0; ++i) {
      const double u = i * h;
      double t1, f1, t2, f2, t3, f3, t4, f4;
      slope(u, t, f, t1, f1);
      slope(u + 0.5 * h, t + 0.5 * h * t1, f + 0.5 * h * f1, t2, f2);
      slope(u + 0.5 * h, t + 0.5 * h * t2, f + 0.5 * h * f2, t3, f3);
      slope(u + h, t + h * t3, f + h * f3, t4, f4);
      const double next = t + h / 6.0 * (t1 + 2.0 * t2 + 2.0 * t3 + t4);
      f += h / 6.0 * (f1 + 2.0 * f2 + 2.0 * f3 + f4);
      if (t > middle && next <= middle) {
        found.front = u + h * (t - middle) / (t - next);
      }
      t = next;
    }
    return t;
  };
  const double scale = mixture_conductivity(tissue.composition, hot) * (hot - cold) / far;
  const double flux = bisect(scale, 200.0 * scale, [&](double q) { return cold - ends_at(q); });
  ends_at(flux);           // leaves the front of the solution
  found.heat = 2.0 * flux; // integral of flux / sqrt(t)
  return found;
}

} // namespace

TEST_CASE("layers without storage act in series with the film: a fat cap, a wrap, and both") {
  // Incropera & DeWitt, Fundamentals of Heat and Mass Transfer, sec. 3.1 (resistances in series) and
  // sec. 5.5: the plane wall between equal films, here of 1/U = 1/h + R. The face looked at is the meat's,
  // under its layers.
  constexpr double half = 0.028;
  constexpr double h = 40.0;
  constexpr double excess = 100.0;
  const FatCap cap{.side = FatSide::down, .thickness = 0.008};
  for (const double fourier : {0.2, 0.5, 1.0}) {
    const double seconds = fourier * half * half * solid.heat_capacity / solid.conductivity;
    Plan plan = conduction(2.0 * half, 5.0, 5.0 + excess, 5.0 + excess, h, h, seconds);
    // As much again below as the wrap holds back above: the fat cap, then a thinner sheet under it.
    plan.meat.fat_cap = cap;
    plan.stages[0].wrap.top.heat_resistance = cap.heat_resistance() + 0.01;
    plan.stages[0].wrap.bottom.heat_resistance = 0.01;
    const auto out = simulate(plan, heat_only());

    const double u = 1.0 / (1.0 / h + cap.heat_resistance() + 0.01);
    const double bi = u * half / solid.conductivity;
    CHECK(bi < 0.8 * h * half / solid.conductivity); // the layers matter
    double core = 0.0;
    double face = 0.0;
    for (int i = 0; i < 30; ++i) { // roots of z tan z = Bi, one in each branch of the tangent
      const double z = bisect(i * std::numbers::pi + 1e-12, (i + 0.5) * std::numbers::pi - 1e-12,
                              [bi](double x) { return x * std::tan(x) - bi; });
      const double c = 4.0 * std::sin(z) / (2.0 * z + std::sin(2.0 * z)) * std::exp(-z * z * fourier);
      core += c;
      face += c * std::cos(z);
    }
    INFO("Fo ", fourier, " Bi ", bi);
    CHECK(std::fabs(5.0 + excess * (1.0 - core) - out->core.back()) < 0.03);
    CHECK(std::fabs(5.0 + excess * (1.0 - face) - out->surface[0].back()) < 0.03);
    CHECK(std::fabs(out->surface[1].back() - out->surface[0].back()) < 1e-6);
  }
}

TEST_CASE("steady heat through a slab between two different films runs on a straight line") {
  // Incropera & DeWitt, sec. 3.1: q = (T1 - T2) / (1/h1 + L/k + 1/h2).
  constexpr double thickness = 0.05;
  const auto out = simulate(conduction(thickness, 20.0, 120.0, 10.0, 25.0, 60.0, 3e5), heat_only());
  const double flux = (120.0 - 10.0) / (1.0 / 25.0 + thickness / solid.conductivity + 1.0 / 60.0);
  double worst = 0.0;
  const std::size_t last = (out->times() - 1) * out->nodes();
  for (std::size_t i = 0; i < out->nodes(); ++i) {
    const double line = 10.0 + flux * (1.0 / 60.0 + out->position[i] / solid.conductivity);
    worst = std::max(worst, std::fabs(out->temperature[last + i] - line));
  }
  MESSAGE("largest distance from the straight line ", worst, " K");
  CHECK(worst < 1e-3);
}

TEST_CASE("a slab whose hot face radiates and convects settles at the roots of two quartics") {
  // The balance of each face with conduction between them, solved by bisection; grey face to black walls at
  // the air's temperature plus an offset (Incropera & DeWitt, sec. 1.2.3).
  constexpr double thickness = 0.03;
  constexpr double emissivity = 0.9;
  constexpr double offset = 80.0;
  Plan plan = conduction(thickness, 20.0, 150.0, 15.0, 8.0, 1e4, 2e5);
  plan.meat.tissue.emissivity = emissivity;
  plan.stages[0].surroundings.radiant_top = offset;
  const auto out = simulate(plan, heat_only(true));

  const auto fourth = [](double celsius) { return std::pow(celsius + 273.15, 4.0); };
  constexpr double sigma = 5.670374419e-8; // CODATA 2018
  const double conductance = solid.conductivity / thickness;
  const auto cold_face = [&](double hot) { // takes conduction, gives to film and walls below
    return bisect(0.0, hot, [&](double t) {
      return 1e4 * (t - 15.0) + emissivity * sigma * (fourth(t) - fourth(15.0)) - conductance * (hot - t);
    });
  };
  const double hot = bisect(15.0, 230.0, [&](double t) {
    return conductance * (t - cold_face(t)) - 8.0 * (150.0 - t) -
           emissivity * sigma * (fourth(150.0 + offset) - fourth(t));
  });
  MESSAGE("hot face ", hot, " °C, differs by ", out->surface[1].back() - hot, " K");
  CHECK(hot > 60.0);
  CHECK(std::fabs(out->surface[1].back() - hot) < 2e-3);
  CHECK(std::fabs(out->surface[0].back() - cold_face(hot)) < 2e-3);
}

TEST_CASE(
    "early drying follows the error function: water content across, and loss with the square root of time") {
  // Crank, The Mathematics of Diffusion, 2nd ed., sec. 3.3: half-space, surface held at a concentration,
  // (X - Xs) / (X0 - Xs) = erf(x / (2 sqrt(D t))), loss 2 (X0 - Xs) sqrt(D t / pi). The surface is held by a
  // fast stream of air at the activity of Xs; heat stays out of it by a conductive body whose film makes up
  // for evaporation. Water that creeps, for days, asks little of the film: it may be one that air can have.
  constexpr double diffusivity = 1e-10;
  constexpr double at = 40.0; // °C
  constexpr double surface = 0.6;
  Plan plan = conduction(0.1, at, at, at, 1e3, 1e3, 120.0 * 3600.0);
  Tissue &tissue = plan.meat.tissue;
  tissue.fixed = FixedThermal{.conductivity = 500.0, .heat_capacity = 3.6e6};
  tissue.mobility.held = diffusivity;
  tissue.mobility.held_activation = 0.0;
  tissue.mobility.dry_floor = 1.0;
  plan.stages[0].surroundings.vapour_pressure =
      Signal(tissue.sorption.water_activity(surface) * saturation_pressure(at));
  Options options = heat_only();
  options.physics.evaporation = true;
  options.output_every = 86400.0;
  options.nodes = 121;
  options.face_spacing = 0.05e-3;
  options.temperature_tolerance = 1e-3;
  options.water_tolerance = 1e-4;
  const auto out = simulate(plan, options);

  const double start = tissue.raw_water_content();
  double worst = 0.0;
  double coldest = at;
  for (std::size_t k = 1; k < out->times(); ++k) {
    const double reach = 2.0 * std::sqrt(diffusivity * out->time[k]);
    for (std::size_t i = 0; i < out->nodes(); ++i) {
      if (out->position[i] < 0.5 * 0.1) {
        const double exact = surface + (start - surface) * std::erf(out->position[i] / reach);
        worst = std::max(worst, std::fabs(out->water[k * out->nodes() + i] - exact) / (start - surface));
      }
      coldest = std::min(coldest, out->temperature[k * out->nodes() + i]);
    }
    const double loss = 2.0 * tissue.solids_density() * (start - surface) *
                        std::sqrt(diffusivity * out->time[k] / std::numbers::pi);
    const double ours = out->paths[1][static_cast<std::size_t>(FacePath::evaporated)][k];
    MESSAGE("after ", out->time[k] / 3600.0, " h: loss ", ours, " kg/m², differs by ",
            100.0 * (ours / loss - 1.0), " %");
    CHECK(ours == doctest::Approx(loss).epsilon(0.01));
  }
  MESSAGE("largest difference ", worst, " of the fall in water content; coldest ", coldest, " °C");
  CHECK(coldest > at - 1.0);
  // The mobility falls off only with the last water in a cell: by a third of a per cent at the surface here.
  CHECK(worst < 0.008);
}

TEST_CASE("a melting front advances with the square root of time, as the similarity solution has it") {
  // Half-space of fat at the start of its melting range, face held hot. With u = x / sqrt(t) the equation
  // becomes (k T')' = -u/2 (dH/dT) T', exact for melting over a range and for properties that vary (Crank,
  // The Mathematics of Diffusion, sec. 7.2, Boltzmann's transformation); solved here by Runge-Kutta and
  // shooting. For a melting point and constant properties it turns into Neumann's solution (Carslaw & Jaeger,
  // Conduction of Heat in Solids, sec. 11.2): front at 2 lambda sqrt(a t), lambda exp(lambda^2) erf(lambda) =
  // Ste / sqrt(pi). A composition needs some water and solids, and the property table some kelvins of melting
  // range, so that limit is met only roughly.
  constexpr double solidus = 40.0;
  constexpr double liquidus = 45.0;
  constexpr double hot = 110.0;
  Plan plan = conduction(0.1, solidus, hot, hot, 1e5, 1e5, 4.0 * 3600.0);
  Tissue &tissue = plan.meat.tissue;
  tissue.fixed.reset();
  tissue.composition = {.water = 0.001, .protein = 0.02, .fat = 0.979, .carbohydrate = 0.0, .ash = 0.0};
  tissue.sinks.fat_melt_start = solidus;
  tissue.sinks.fat_melt_end = liquidus;
  tissue.sinks.denaturation = 0.0;
  tissue.cooked_conductivity = 1.0;
  Options options = heat_only();
  options.physics.sinks = true;
  options.nodes = 201;
  options.face_spacing = 0.1e-3;
  options.temperature_tolerance = 0.01;
  const auto out = simulate(plan, options);

  constexpr double middle = 0.5 * (solidus + liquidus);
  const Similarity exact = melting_similarity(tissue, hot, solidus, middle);

  constexpr double mean = 0.5 * (middle + hot);
  const double k = mixture_conductivity(tissue.composition, mean);
  const double c = tissue.raw_density() * mixture_specific_heat(tissue.composition, mean);
  const double latent = tissue.fat_density() * tissue.sinks.fat_latent + c * (middle - solidus);
  const double ste = c * (hot - middle) / latent;
  const double lambda = bisect(1e-6, 2.0, [ste](double x) {
    return x * std::exp(x * x) * std::erf(x) - ste / std::sqrt(std::numbers::pi);
  });
  MESSAGE("Ste ", ste, ": front at ", 1e3 * exact.front * 60.0, " mm after an hour by similarity, ",
          2e3 * lambda * std::sqrt(k / c) * 60.0, " mm by Neumann");
  CHECK(2.0 * lambda * std::sqrt(k / c) == doctest::Approx(exact.front).epsilon(0.05));
  for (std::size_t j = 1; j < out->times(); ++j) {
    const double root = std::sqrt(out->time[j]);
    const double ours = out->paths[1][static_cast<std::size_t>(FacePath::convection)][j];
    std::size_t i = 0;
    const double *t = &out->temperature[j * out->nodes()];
    while (t[i + 1] > middle) {
      ++i;
    }
    const double share = (t[i] - middle) / (t[i] - t[i + 1]);
    const double front = out->position[i] + share * (out->position[i + 1] - out->position[i]);
    MESSAGE("after ", out->time[j] / 3600.0, " h: front at ", 1e3 * front, " mm, differs by ",
            100.0 * (front / (exact.front * root) - 1.0), " %, heat by ",
            100.0 * (ours / (exact.heat * root) - 1.0), " %");
    CHECK(front == doctest::Approx(exact.front * root).epsilon(0.02));
    CHECK(ours == doctest::Approx(exact.heat * root).epsilon(0.01));
  }
}
