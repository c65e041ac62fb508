/// Conduction in a cross-section: the product of two plane walls, a steady benchmark with convection, and the
/// order of the whole time-dependent solution on the curved, graded mesh.
#include <doctest/doctest.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>
#include <string>
#include <vector>

#include "cook/engine/simulate.hpp"

using namespace cook;

namespace {

constexpr Physics conduction_only{
    .evaporation = false, .squeezing = false, .radiation = false, .sinks = false};

Section even_section(double length, double thickness) {
  Section section;
  section.length = length;
  section.width = 0.2;
  section.at = {0.0, length};
  section.thickness = {thickness, thickness};
  section.side_share = 0.0;
  return section;
}

Plan block(Section section, FixedThermal thermal, double start, double air, double film, double seconds) {
  Plan plan;
  plan.meat.tissue.fixed = thermal;
  plan.meat.fat_cap.side = FatSide::none;
  plan.meat.start = start;
  plan.meat = with_section(plan.meat, std::move(section));
  Stage stage;
  stage.surroundings = oven(air);
  stage.surroundings.bottom = stage.surroundings.top = {Convection::given, film, 0.06};
  stage.until = {{EndKind::elapsed, seconds}};
  plan.stages = {stage};
  return plan;
}

Options on_mesh(int columns, int rows, double face_spacing, double end_spacing, double tolerance) {
  Options options;
  options.grid = GridKind::cross_section;
  options.columns = columns;
  options.rows = rows;
  options.face_spacing = face_spacing;
  options.end_spacing = end_spacing;
  options.temperature_tolerance = tolerance;
  options.physics = conduction_only;
  return options;
}

/// Plane wall of half thickness 1 with a film on both faces: share of the initial excess at a place, -1 to 1.
/// Carslaw & Jaeger, Conduction of Heat in Solids, sec. 3.11.
double wall(double biot, double fourier, double place) {
  double sum = 0.0;
  for (int i = 0; i < 60; ++i) {
    double low = i * std::numbers::pi; // the root of z tan z = Bi in this branch of the tangent
    double high = low + 0.5 * std::numbers::pi - 1e-13;
    for (int k = 0; k < 90; ++k) {
      const double z = 0.5 * (low + high);
      (z * std::tan(z) < biot ? low : high) = z;
    }
    const double z = 0.5 * (low + high);
    sum +=
        4.0 * std::sin(z) / (2.0 * z + std::sin(2.0 * z)) * std::exp(-z * z * fourier) * std::cos(z * place);
  }
  return sum;
}

} // namespace

TEST_CASE("a long bar is the product of two plane walls, at every node") {
  // Carslaw & Jaeger, Conduction of Heat in Solids, sec. 1.15: Newman's product. A bar 120 mm x 80 mm.
  constexpr double length = 0.12;
  constexpr double thickness = 0.08;
  constexpr FixedThermal thermal{.conductivity = 0.5, .heat_capacity = 3.6e6};
  constexpr double start = 5.0;
  constexpr double air = 105.0;
  constexpr double film = 20.0;
  const Plan plan = block(even_section(length, thickness), thermal, start, air, film, 4.0 * 3600.0);
  Options options = on_mesh(81, 61, 0.4e-3, 0.4e-3, 1e-3);
  options.output_every = 1800.0;
  const auto out = simulate(plan, options);
  REQUIRE(out->nodes() == 81 * 61);
  const double half_length = 0.5 * length;
  const double half_thickness = 0.5 * thickness;
  const double diffusivity = thermal.conductivity / thermal.heat_capacity;
  double worst = 0.0;
  std::size_t worst_node = 0;
  std::array<double, 3> worst_at{};
  for (std::size_t i = 1; i < out->times(); ++i) {
    const double fourier_x = diffusivity * out->time[i] / (half_length * half_length);
    const double fourier_z = diffusivity * out->time[i] / (half_thickness * half_thickness);
    std::vector<double> along;
    std::vector<double> across;
    const auto rows = static_cast<std::size_t>(options.rows);
    for (std::size_t c = 0; c < out->nodes() / rows; ++c) {
      along.push_back(wall(film * half_length / thermal.conductivity, fourier_x,
                           (out->along[c * rows] - half_length) / half_length));
    }
    for (std::size_t r = 0; r < rows; ++r) {
      across.push_back(wall(film * half_thickness / thermal.conductivity, fourier_z,
                            (out->position[r] - half_thickness) / half_thickness));
    }
    for (std::size_t n = 0; n < out->nodes(); ++n) {
      const double exact = air + (start - air) * along[n / rows] * across[n % rows];
      const double error = std::fabs(out->temperature[i * out->nodes() + n] - exact);
      if (error > worst) {
        worst = error;
        worst_node = n;
      }
      const std::array places{out->nodes() / 2, out->nodes() / 2 / rows * rows, rows / 2};
      for (std::size_t k = 0; k < places.size(); ++k) {
        worst_at[k] = n == places[k] ? std::max(worst_at[k], error) : worst_at[k];
      }
    }
  }
  MESSAGE("product of two walls, half-hourly for 4 h, 100 K span: largest error in the middle ", worst_at[0],
          " K, middle of the bottom ", worst_at[1], " K, of an end ", worst_at[2], " K, of all nodes ", worst,
          " K at ", out->along[worst_node], " m, ", out->position[worst_node], " m");
  for (const double error : worst_at) {
    CHECK(error < 0.05);
  }
  CHECK(worst < 0.15);
}

TEST_CASE("a steady plate with convection on two sides: NAFEMS T4") {
  // The Standard NAFEMS Benchmarks, 1990, test T4 (from memory): 0.6 m x 1.0 m, 52 W/(m K), left edge
  // insulated, bottom at 100 °C, 750 W/(m² K) to 0 °C at the right and on top; 18.25 °C on the right edge,
  // 0.2 m up. Here mirrored at the insulated edge, so that both ends convect, and at half the size with twice
  // the film coefficient (same Biot number), because a cut is at most 0.5 m thick. The bottom is held by a
  // film a million times better.
  constexpr double target = 18.25;
  constexpr double scale = 0.5;
  Plan plan = block(even_section(2.0 * 0.6 * scale, 1.0 * scale),
                    {.conductivity = 52.0, .heat_capacity = 1e5}, 20.0, 0.0, 750.0 / scale, 3000.0);
  plan.stages[0].surroundings.bottom.value = 1e8;
  plan.stages[0].surroundings.air_below = Signal(100.0);
  std::vector<double> found;
  for (const int n : {21, 41, 81}) { // odd, with nodes every 1/20, 1/40, 1/80 of the height: equal spacing
    Options options = on_mesh(n, n, 0.05, 0.05, 1e-3);
    options.output_every = 3000.0;
    const auto out = simulate(plan, options);
    const auto rows = static_cast<std::size_t>(n);
    const double *last = &out->temperature[(out->times() - 1) * out->nodes()];
    const std::size_t up = (rows - 1) / 5;
    CHECK(out->position[up] == doctest::Approx(0.2 * scale).epsilon(1e-6));
    found.push_back(last[out->nodes() - rows + up]);
    CHECK(last[up] == doctest::Approx(found.back()).epsilon(1e-4));                      // the mirror image
    CHECK(last[out->nodes() / 2 / rows * rows] == doctest::Approx(100.0).epsilon(1e-4)); // held
  }
  const double order = std::log2(std::fabs((found[0] - found[1]) / (found[1] - found[2])));
  MESSAGE("NAFEMS T4: ", found[0], ", ", found[1], ", ", found[2], " °C against ", target,
          "; observed order ", order);
  CHECK(std::fabs(found[2] - target) < 0.05);
}

TEST_CASE("conduction in the default section: second order in space and time together") {
  // Three meshes, each twice as fine, and what changes between them (Roache, Verification and Validation in
  // Computational Science and Engineering, 1998: observed order by Richardson). Places that are nodes of all
  // three: the middle, the faces above and below it, the middles of the ends.
  Meat meat = brisket(6.0);
  Section section = brisket_section(meat);
  section.point.reset();
  section.seam.reset();
  const Plan plan =
      block(section, {.conductivity = 0.5, .heat_capacity = 3.6e6}, 5.0, 105.0, 20.0, 2.0 * 3600.0);
  std::array<std::array<double, 6>, 3> values{};
  for (std::size_t level = 0; level < 3; ++level) {
    const double finer = std::pow(2.0, static_cast<double>(level));
    const auto cells = [&](int coarse) { return static_cast<int>(coarse * finer) + 1; };
    Options options = on_mesh(cells(30), cells(12), 0.8e-3 / finer, 6e-3 / finer, 1e-4);
    options.output_every = 7200.0;
    const auto out = simulate(plan, options);
    const auto rows = static_cast<std::size_t>(options.rows);
    const auto columns = out->nodes() / rows;
    const double *last = &out->temperature[(out->times() - 1) * out->nodes()];
    const std::size_t middle = columns / 2 * rows;
    values[level] = {last[middle + rows / 2],
                     last[middle],
                     last[middle + rows - 1],
                     last[rows / 2],
                     last[out->nodes() - rows + rows / 2],
                     out->mean_temperature.back()};
  }
  const std::array<std::string, 6> names{"middle", "bottom", "top", "flat end", "point end", "mean"};
  for (std::size_t i = 0; i < names.size(); ++i) {
    const double coarse = values[1][i] - values[0][i];
    const double fine = values[2][i] - values[1][i];
    const double order = std::log2(std::fabs(coarse / fine));
    MESSAGE(names[i], ": ", values[2][i], " °C, changes ", coarse, " and ", fine, " K, observed order ",
            order);
    CHECK(std::fabs(fine) < 0.08);
    if (std::fabs(fine) > 0.005) { // smaller changes are of the size of the error in time, or change sign
      CHECK(order > 1.7);
      CHECK(order < 2.4);
    }
  }
}
