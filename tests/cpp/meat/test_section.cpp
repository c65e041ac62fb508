/// The cross-section: the curve through its points, the default brisket, named places, and what is refused.
#include <doctest/doctest.h>

#include "cooks.hpp"

#include <algorithm>
#include <cmath>
#include <functional>
#include <initializer_list>
#include <limits>
#include <numbers>
#include <string>

#include "cook/errors.hpp"
#include "cook/fields/parameters.hpp"
#include "cook/meat/shape.hpp"
#include "engine/grids/sections.hpp"

using namespace cook;
using namespace cook::testing;

namespace {

void refused(const std::string &field, std::initializer_list<const char *> words,
             const std::function<void(Section &)> &spoil) {
  INFO("field ", field);
  Section section = brisket_section(brisket());
  spoil(section);
  try {
    section.validate();
  } catch (const InvalidInput &error) {
    CHECK(error.field() == field);
    for (const std::string word : words) {
      INFO(error.what(), " should say ", word);
      CHECK(std::string(error.what()).find(word) != std::string::npos);
    }
    return;
  }
  FAIL_CHECK("accepted");
}

/// Simpson's rule on pieces much shorter than those of the curve.
double integral(const Section &s) {
  constexpr int n = 4000;
  double sum = 0.0;
  for (int i = 0; i <= n; ++i) {
    const double weight = i == 0 || i == n ? 1.0 : (i % 2 == 1 ? 4.0 : 2.0);
    sum += weight * s.thickness_at(s.length * i / n);
  }
  return sum * s.length / (3.0 * n);
}

} // namespace

TEST_CASE("the thickness passes the points, without overshoot between them") {
  for (const Section &s : {bumpy_section(), brisket_section(brisket())}) {
    for (std::size_t i = 0; i < s.at.size(); ++i) {
      CHECK(s.thickness_at(s.at[i]) == doctest::Approx(s.thickness[i]).epsilon(1e-13));
    }
    for (std::size_t i = 0; i + 1 < s.at.size(); ++i) {
      const double sign = s.thickness[i + 1] > s.thickness[i] ? 1.0 : -1.0;
      double last = s.thickness[i];
      for (int j = 1; j <= 200; ++j) {
        const double x = s.at[i] + (s.at[i + 1] - s.at[i]) * j / 200.0;
        CHECK(sign * (s.thickness_at(x) - last) >= -1e-15);
        last = s.thickness_at(x);
      }
    }
    CHECK(s.area() == doctest::Approx(integral(s)).epsilon(1e-10));
    CHECK(s.volume() == doctest::Approx(s.area() * s.width).epsilon(1e-15));
  }
}

TEST_CASE("slope and curvature of the thickness are continuous at the points") {
  const Section s = bumpy_section();
  constexpr double h = 1e-5;
  for (std::size_t i = 1; i + 1 < s.at.size(); ++i) {
    const auto t = [&](int n) { return s.thickness_at(s.at[i] + n * h); };
    CHECK((t(1) - t(0)) / h == doctest::Approx((t(0) - t(-1)) / h).epsilon(1e-3).scale(0.1));
    const double left = (t(0) - 2.0 * t(-1) + t(-2)) / (h * h);
    const double right = (t(2) - 2.0 * t(1) + t(0)) / (h * h);
    CHECK(std::fabs(left - right) < 0.05); // curvatures are up to 10 per m; the third derivative may jump
  }
}

TEST_CASE("points on a straight line give the line, equal ones the slab") {
  Section s = straight_section(0.03, 0.09);
  s.at = {0.0, 0.05, 0.22, 0.4};
  s.thickness = {0.03, 0.0375, 0.063, 0.09};
  for (const double x : {0.0, 0.01, 0.1, 0.22, 0.333, 0.4}) {
    CHECK(s.thickness_at(x) == doctest::Approx(0.03 + 0.15 * x).epsilon(1e-12));
    CHECK(straight_section(0.056, 0.056).thickness_at(x) == 0.056);
    CHECK(straight_section(0.03, 0.09).thickness_at(x) == doctest::Approx(0.03 + 0.15 * x).epsilon(1e-13));
  }
  CHECK(straight_section(0.056, 0.056).area() == doctest::Approx(0.0224).epsilon(1e-14));
  // A level stretch between two rises stays level.
  s.thickness = {0.03, 0.05, 0.05, 0.09};
  for (const double x : {0.05, 0.1, 0.2, 0.22}) {
    CHECK(s.thickness_at(x) == doctest::Approx(0.05).epsilon(1e-13));
  }
}

TEST_CASE("the default cross-section is the same piece as the slab") {
  for (const double mass : {2.0, 6.0, 9.0}) {
    const Meat meat = brisket(mass);
    const Section s = brisket_section(meat);
    CHECK_NOTHROW(s.validate());
    CHECK(s.volume() == doctest::Approx(meat.shape.volume()).epsilon(1e-12));
    CHECK(s.area() / s.length == doctest::Approx(meat.shape.thickness).epsilon(1e-12));
    CHECK(s.length * s.width == doctest::Approx(meat.shape.extent).epsilon(1e-12));
    CHECK(std::is_sorted(s.thickness.begin(), s.thickness.end()));
    CHECK(s.length >= s.width);
    CHECK(s.width > s.thickness.back());
  }
  const Meat meat = brisket();
  const Section s = brisket_section(meat);
  REQUIRE(s.point);
  REQUIRE(s.seam);
  CHECK(s.point->composition.fat > meat.tissue.composition.fat);
  CHECK(s.seam->composition.fat > s.point->composition.fat);
  // What the user set on the meat goes with the other tissues.
  Meat other = meat;
  other.tissue.mobility.expressed = 3e-8;
  CHECK(brisket_section(other).point->mobility.expressed == 3e-8);
  CHECK(brisket_section(other).seam->mobility.expressed == 3e-8);
  Meat roll = meat;
  roll.shape = {.kind = ShapeKind::cylinder, .thickness = 0.1, .extent = 0.3};
  CHECK_THROWS_AS((void)brisket_section(roll), InvalidInput);
  Meat cube = meat;
  cube.shape.extent = 1e-3;
  cube.shape.width = {};
  CHECK_THROWS_WITH_AS((void)brisket_section(cube), doctest::Contains("no cross-section of a brisket"),
                       InvalidInput);
}

TEST_CASE("named places lie in the part that they name") {
  const Section s = brisket_section(brisket());
  const Section::Place flat = s.place("flat");
  CHECK(flat.x == doctest::Approx(0.57 * s.length)); // where the flat is thickest, under the seam
  CHECK(flat.z == doctest::Approx(0.5 * s.seam_share(flat.x) * s.thickness_at(flat.x)).epsilon(0.05));
  const Section::Place point = s.place("point");
  const double share = point.z / s.thickness_at(point.x);
  CHECK(point.x == doctest::Approx(0.85 * s.length));
  CHECK(share - s.seam_share(point.x) == doctest::Approx(1.0 - share).epsilon(1e-12)); // half-way
  CHECK(share > s.seam_share(point.x));
  const Section::Place seam = s.place("seam");
  CHECK(seam.z == doctest::Approx(s.seam_share(seam.x) * s.thickness_at(seam.x)));
  CHECK(s.seam_share(s.seam_from * s.length) == doctest::Approx(1.0));
  CHECK(s.seam_share(s.length) == doctest::Approx(s.seam_height_end));
  const Section plain = bumpy_section();
  CHECK(plain.place("point").z == doctest::Approx(0.5 * plain.thickness_at(0.34)));
  CHECK_THROWS_WITH_AS((void)plain.place("seam"), doctest::Contains("'seam' has no place"), InvalidInput);
  CHECK_THROWS_WITH_AS((void)s.place("middle"), doctest::Contains("known: flat, point, seam"), InvalidInput);
}

TEST_CASE("the whole piece and its cross-section finish together") {
  // Both stand for the same brick or brisket, one by two lines, the other by its long section: see
  // validation/brick for what three dimensions say of them.
  for (const double mass : {2.0, 6.0, 8.0}) {
    for (const double air : {107.0, 135.0}) {
      for (const char *covering : {"none", "butcher paper", "foil"}) {
        CAPTURE(mass);
        CAPTURE(air);
        CAPTURE(covering);
        Plan plan = testing::wrapped_cook(air, covering, 68.0);
        plan.meat = brisket(mass);
        plan.stages[1].until = {{EndKind::core, 93.0}};
        Options options;
        const double piece = simulate(plan, options)->time.back();
        options.grid = GridKind::cross_section;
        CHECK(simulate(plan, options)->time.back() == doctest::Approx(piece).epsilon(0.06));
      }
    }
  }
}

TEST_CASE("the defaults of the cross-section are in the table of parameters") {
  const Section s = brisket_section(brisket());
  CHECK(parameter("section.seam_from").value == s.seam_from);
  CHECK(parameter("section.seam_height_end").value == s.seam_height_end);
  CHECK(parameter("section.seam_thickness").value == s.seam_thickness);
  CHECK(parameter("brisket_section.point.composition.fat").value == s.point->composition.fat);
  CHECK(parameter("brisket_section.seam.composition.fat").value == s.seam->composition.fat);
  // Relative to the mean of the curve, which is within 1 % of that of the points' trapezia.
  const double mean = s.area() / s.length;
  const double scale = parameter("brisket_section.profile.half").value * mean / s.thickness[2];
  CHECK(scale == doctest::Approx(1.0).epsilon(0.01));
  CHECK(parameter("brisket_section.profile.point_end").value /
            parameter("brisket_section.profile.flat_end").value ==
        doctest::Approx(s.thickness[4] / s.thickness[0]).epsilon(1e-12));
  // Both ends of a range can be used.
  for (const char *name : {"seam_from", "seam_height_end", "seam_thickness"}) {
    for (const bool high : {false, true}) {
      const Parameter &p = parameter(std::string("section.") + name);
      Section other = s;
      (name[5] == 'f'   ? other.seam_from
       : name[5] == 'h' ? other.seam_height_end
                        : other.seam_thickness) = high ? p.high : p.low;
      CHECK_NOTHROW(other.validate());
    }
  }
}

TEST_CASE("bad cross-sections are refused by name, with the likely slip") {
  refused("meat.section.length", {"387 m", "0.02 to 2 m", "400 mm is 0.4"},
          [](Section &s) { s.length = 387.0; });
  refused("meat.section.length", {"0 m"}, [](Section &s) { s.length = 0.0; });
  refused("meat.section.width", {"240 m", "in metres"}, [](Section &s) { s.width = 240.0; });
  refused("meat.section.width", {"finite"},
          [](Section &s) { s.width = std::numeric_limits<double>::quiet_NaN(); });
  refused("meat.section.thickness", {"5 distances but 4 thicknesses"},
          [](Section &s) { s.thickness.pop_back(); });
  refused("meat.section.at", {"1 points", "2 to 1000"}, [](Section &s) {
    s.at = {0.0};
    s.thickness = {0.05};
  });
  refused("meat.section.at", {"0 points"}, [](Section &s) { s.at = s.thickness = {}; });
  refused("meat.section.thickness[2]", {"52 m", "66 mm is 0.066"}, [](Section &s) { s.thickness[2] = 52.0; });
  refused("meat.section.thickness[0]", {"-0.04 m"}, [](Section &s) { s.thickness[0] = -0.04; });
  refused("meat.section.thickness[4]", {"nan", "finite"},
          [](Section &s) { s.thickness[4] = std::numeric_limits<double>::quiet_NaN(); });
  refused("meat.section.at[1]", {"inf", "finite"},
          [](Section &s) { s.at[1] = std::numeric_limits<double>::infinity(); });
  refused("meat.section.at[0]", {"0.05 m", "the first distance is 0"}, [](Section &s) { s.at[0] = 0.05; });
  refused("meat.section.at[2]", {"must increase"}, [](Section &s) { std::swap(s.at[1], s.at[2]); });
  refused("meat.section.at[2]", {"must increase", "repeated"}, [](Section &s) { s.at[2] = s.at[1]; });
  refused("meat.section.at[4]", {"0.36 m", "meat.section.length", "the last distance is the length"},
          [](Section &s) { s.at[4] = 0.36; });
  refused("meat.section.at[4]", {"in millimetres?"}, [](Section &s) {
    for (double &x : s.at) {
      x *= 1000.0;
    }
  });
  refused("meat.section.thickness[1]", {"within 0.01 m", "step"}, [](Section &s) {
    s.at[1] = 0.01;
    s.thickness[1] = 0.06;
  });
  refused("meat.section.seam_from", {"50", "half-way is 0.5"}, [](Section &s) { s.seam_from = 50.0; });
  refused("meat.section.seam_height_end", {"-0.1"}, [](Section &s) { s.seam_height_end = -0.1; });
  refused("meat.section.side_share", {"55", "1 is all"}, [](Section &s) { s.side_share = 55.0; });
  refused("meat.section.seam_thickness", {"8 m", "8 mm is 0.008"},
          [](Section &s) { s.seam_thickness = 8.0; });
  refused("meat.section.point.composition.water", {"59.96"},
          [](Section &s) { s.point->composition.water = 59.96; });
  refused("meat.section.seam.emissivity", {"0 to 1"}, [](Section &s) { s.seam->emissivity = 2.0; });
  // The curve itself is safe to ask for before anything is validated.
  CHECK_THROWS_AS((void)Section{}.thickness_at(0.1), InvalidInput);
  CHECK_THROWS_AS((void)Section{}.volume(), InvalidInput);
}
