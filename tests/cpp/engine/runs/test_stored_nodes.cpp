// What is stored of all nodes at a moment, against the same written plainly.
#include <doctest/doctest.h>

#include <cmath>
#include <vector>

#include "engine/runs/stored_nodes.hpp"

using namespace cook::engine;

namespace {

struct Nodes {
  std::vector<double> t, y, share;
  explicit Nodes(std::size_t n) : t(n), y(2 * n), share(n) {
    for (std::size_t i = 0; i < n; ++i) {
      const auto k = static_cast<double>(i);
      t[i] = 60.0 + 10.0 * std::sin(3.0 * k);
      y[2 * i] = std::cos(5.0 * k);
      y[2 * i + 1] = 2.0 + std::sin(7.0 * k);
      share[i] = (1.0 + 0.5 * std::sin(k)) / static_cast<double>(n);
    }
  }
};

} // namespace

TEST_CASE("means, the coldest node and the order of what is stored, for every number of nodes and lines") {
  for (const std::size_t lines : {1UL, 2UL}) {
    for (std::size_t n = lines; n <= 70; n += lines) {
      INFO(n, " nodes on ", lines, " lines");
      const Nodes nodes(n);
      std::vector<double> heat(n, -1.0), water(n, -1.0);
      const OverNodes over = store_nodes(n, lines, nodes.t.data(), nodes.y.data(), nodes.share.data(),
                                         heat.data(), water.data());
      double mean = 0.0;
      double wet = 0.0;
      double coldest = nodes.t[0];
      std::size_t at = 0;
      for (std::size_t line = 0; line < lines; ++line) {
        for (std::size_t i = line; i < n; i += lines, ++at) {
          CHECK(heat[at] == nodes.t[i]);
          CHECK(water[at] == nodes.y[2 * i + 1]);
          mean += nodes.share[i] * nodes.t[i];
          wet += nodes.share[i] * nodes.y[2 * i + 1];
          coldest = std::fmin(coldest, nodes.t[i]);
        }
      }
      CHECK(over.coldest == coldest);
      CHECK(over.temperature == doctest::Approx(mean).epsilon(1e-14));
      CHECK(over.water == doctest::Approx(wet).epsilon(1e-14));
      // Without fields the same means.
      const OverNodes bare =
          store_nodes(n, lines, nodes.t.data(), nodes.y.data(), nodes.share.data(), nullptr, nullptr);
      CHECK(bare.temperature == over.temperature);
      CHECK(bare.water == over.water);
      CHECK(bare.coldest == over.coldest);
    }
  }
}

TEST_CASE("temperatures between two tangents are those of the ends at the ends") {
  const std::size_t n = 13;
  const Nodes early(n);
  Nodes late(n);
  for (double &v : late.y) {
    v += 0.25;
  }
  const std::vector<double> eta(n, 0.9), x(n, -0.4);
  std::vector<double> base_a(n), base_b(n), t(n);
  take_base(n, early.t.data(), eta.data(), x.data(), early.y.data(), base_a.data());
  take_base(n, late.t.data(), eta.data(), x.data(), late.y.data(), base_b.data());
  const Tangents a{base_a.data(), eta.data(), x.data()};
  const Tangents b{base_b.data(), eta.data(), x.data()};
  blend_tangents(n, 0.0, a, b, early.y.data(), t.data());
  for (std::size_t i = 0; i < n; ++i) {
    CHECK(t[i] == doctest::Approx(early.t[i]).epsilon(1e-14));
  }
  blend_tangents(n, 1.0, a, b, late.y.data(), t.data());
  for (std::size_t i = 0; i < n; ++i) {
    CHECK(t[i] == doctest::Approx(late.t[i]).epsilon(1e-14));
  }
}
