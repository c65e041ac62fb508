#include "engine/grids/section_grid.hpp"

#include <algorithm>
#include <cmath>

#include "cook/errors.hpp"
#include "engine/grids/grid.hpp"

namespace cook::engine {

namespace {

struct Point {
  double x = 0.0, z = 0.0;
};

double distance(Point a, Point b) { return std::hypot(b.x - a.x, b.z - a.z); }

/// Nodes from 0 to `length`, graded to both ends, with the points half-way between them: 2 n - 1 values.
std::vector<double> graded_halves(double length, std::size_t n, double first) {
  const std::size_t half = (n - 1) / 2;
  std::vector<double> spacing;
  if (n % 2 == 1) {
    spacing = graded_spacings(0.5 * length, half, first);
    spacing.insert(spacing.end(), spacing.rbegin(), spacing.rend());
  } else {
    // An interval in the middle as wide as the ones beside it: graded as if there were half an interval more.
    spacing = graded_spacings(0.5 * length, half + 1, first);
    std::vector<double> mirrored(spacing.begin(), spacing.begin() + static_cast<std::ptrdiff_t>(half));
    double sum = spacing[half];
    for (const double s : mirrored) {
      sum += 2.0 * s;
    }
    spacing.insert(spacing.end(), mirrored.rbegin(), mirrored.rend());
    for (double &s : spacing) {
      s *= length / sum;
    }
  }
  std::vector<double> place{0.0};
  for (const double s : spacing) {
    const double start = place.back();
    place.push_back(start + 0.5 * s);
    place.push_back(start + s);
  }
  place.back() = length;
  return place;
}

double trajectory_slope(const ThicknessProfile &profile, double level, double x) {
  const auto [height, slope] = profile(x);
  const double rise = level * slope;
  return -rise * height / (1.0 + rise * rise);
}

/// x on the trajectory through (x, from) at another level, by the classical fourth-order Runge-Kutta method.
double follow(const ThicknessProfile &profile, double x, double from, double to) {
  constexpr double longest = 1.0 / 48.0;
  const int steps = std::max(1, static_cast<int>(std::ceil(std::fabs(to - from) / longest)));
  const double h = (to - from) / steps;
  for (int i = 0; i < steps; ++i) {
    const double level = from + h * i;
    const double k1 = trajectory_slope(profile, level, x);
    const double k2 = trajectory_slope(profile, level + 0.5 * h, x + 0.5 * h * k1);
    const double k3 = trajectory_slope(profile, level + 0.5 * h, x + 0.5 * h * k2);
    const double k4 = trajectory_slope(profile, level + h, x + h * k3);
    x += h / 6.0 * (k1 + 2.0 * k2 + 2.0 * k3 + k4);
  }
  return x;
}

/// x at each level of the trajectory that passes the middle level at `start`.
std::vector<double> trajectory(const ThicknessProfile &profile, double start,
                               const std::vector<double> &level) {
  const std::size_t middle = level.size() / 2;
  std::vector<double> x(level.size(), start);
  for (std::size_t b = middle; b + 1 < level.size(); ++b) {
    x[b + 1] = follow(profile, x[b], level[b], level[b + 1]);
  }
  for (std::size_t b = middle; b > 0; --b) {
    x[b - 1] = follow(profile, x[b], level[b], level[b - 1]);
  }
  return x;
}

/// Start of the trajectory that has as much area on either side as the line x = `end`.
double balanced_end(const ThicknessProfile &profile, double end) {
  std::vector<double> level;
  constexpr int steps = 32;
  for (int i = 0; i <= steps; ++i) {
    level.push_back(static_cast<double>(i) / steps);
  }
  const double wanted = profile.area_to(end);
  double start = end;
  for (int iteration = 0; iteration < 20; ++iteration) {
    // dA = H dx d(level), so the area between is the mean over level of the area up to x (Simpson's rule).
    const std::vector<double> x = trajectory(profile, start, level);
    double area = 0.0;
    for (std::size_t b = 0; b < x.size(); ++b) {
      const double weight = b == 0 || b + 1 == x.size() ? 1.0 : (b % 2 == 1 ? 4.0 : 2.0);
      area += weight / (3.0 * steps) * (profile.area_to(x[b]) - wanted);
    }
    const double shift = area / profile(start).height;
    start -= shift;
    if (std::fabs(shift) < 1e-13) { // m
      break;
    }
  }
  return start;
}

/// Points of a mesh twice as fine: nodes at even, corners of control volumes at odd indices.
struct FineMesh {
  std::size_t columns = 0, rows = 0;
  std::vector<Point> point;

  [[nodiscard]] Point at(std::size_t a, std::size_t b) const { return point[a * rows + b]; }
  [[nodiscard]] double quad_area(std::size_t a, std::size_t b) const {
    const Point p = at(a, b);
    const Point q = at(a + 1, b);
    const Point r = at(a + 1, b + 1);
    const Point s = at(a, b + 1);
    return 0.5 * ((r.x - p.x) * (s.z - q.z) - (s.x - q.x) * (r.z - p.z));
  }
};

FineMesh fine_mesh(const Section &section, const ThicknessProfile &profile, std::size_t nx, std::size_t nz,
                   double face_spacing, double end_spacing) {
  FineMesh mesh{.columns = 2 * nx - 1, .rows = 2 * nz - 1, .point = {}};
  const double mean = profile.area_to(section.length) / section.length;
  const std::vector<double> level = graded_halves(1.0, nz, face_spacing / mean);
  const double first = balanced_end(profile, 0.0);
  const double last = balanced_end(profile, section.length);
  for (const double s : graded_halves(last - first, nx, end_spacing)) {
    const std::vector<double> x = trajectory(profile, first + s, level);
    for (std::size_t b = 0; b < mesh.rows; ++b) {
      mesh.point.push_back({x[b], level[b] * profile(x[b]).height});
    }
  }
  return mesh;
}

/// Volumes, and edges between nodes. Edges and distances are taken along both halves of their bent lines.
void measure(const FineMesh &mesh, SectionGrid &grid) {
  const std::size_t nx = grid.nx;
  const std::size_t nz = grid.nz;
  grid.volume.assign(nx * nz, 0.0);
  for (std::size_t a = 0; a + 1 < mesh.columns; ++a) {
    for (std::size_t b = 0; b + 1 < mesh.rows; ++b) {
      grid.volume[(a + 1) / 2 * nz + (b + 1) / 2] += mesh.quad_area(a, b);
    }
  }
  for (std::size_t i = 0; i < nx; ++i) {
    for (std::size_t k = 0; k < nz; ++k) {
      const std::size_t a = 2 * i;
      const std::size_t b = 2 * k;
      grid.x.push_back(mesh.at(a, b).x);
      grid.z.push_back(mesh.at(a, b).z);
      if (k + 1 < nz) {
        const Point centre = mesh.at(a, b + 1);
        const double edge = (i > 0 ? distance(mesh.at(a - 1, b + 1), centre) : 0.0) +
                            (i + 1 < nx ? distance(centre, mesh.at(a + 1, b + 1)) : 0.0);
        grid.across.push_back(edge / (distance(mesh.at(a, b), centre) + distance(centre, mesh.at(a, b + 2))));
      }
      if (i + 1 < nx) {
        const Point centre = mesh.at(a + 1, b);
        const double edge = (k > 0 ? distance(mesh.at(a + 1, b - 1), centre) : 0.0) +
                            (k + 1 < nz ? distance(centre, mesh.at(a + 1, b + 1)) : 0.0);
        grid.along.push_back(edge / (distance(mesh.at(a, b), centre) + distance(centre, mesh.at(a + 2, b))));
      }
    }
  }
}

/// Regions. The seam is one node thick at least wherever it runs, else a coarse mesh would lose it.
void assign_regions(const Section &section, SectionGrid &grid) {
  grid.region.assign(grid.x.size(), 0);
  if (!section.has_seam()) {
    return;
  }
  const double half = section.seam ? 0.5 * section.seam_thickness : 0.0;
  for (std::size_t i = 0; i < grid.nx; ++i) {
    double below = 0.0; // height above the seam of the node below
    for (std::size_t k = 0; k < grid.nz; ++k) {
      const std::size_t node = i * grid.nz + k;
      const double above =
          grid.z[node] - section.seam_share(grid.x[node]) * grid.profile(grid.x[node]).height;
      grid.region[node] = above > 0.0 ? 1 : 0;
      if (std::fabs(above) <= half) {
        grid.region[node] = section.seam ? 2 : grid.region[node];
      } else if (section.seam && k > 0 && above > 0.0 && below < -half) {
        grid.region[above < -below ? node : node - 1] = 2;
      }
      below = above;
    }
  }
}

void add_boundary(const FineMesh &mesh, const Section &section, SectionGrid &grid) {
  const std::size_t nx = grid.nx;
  const std::size_t nz = grid.nz;
  const auto face_part = [&](std::size_t a, std::size_t b) { // of bottom or top, from fine column a to a + 1
    const Point p = mesh.at(a, b);
    const Point q = mesh.at(a + 1, b);
    const double walls = section.side_share * grid.profile(0.5 * (p.x + q.x)).height / section.width;
    return distance(p, q) + walls * (q.x - p.x);
  };
  const auto end_part = [&](std::size_t a, std::size_t b) {
    return distance(mesh.at(a, b), mesh.at(a, b + 1));
  };
  const auto add = [&](std::size_t i, std::size_t k) {
    const std::size_t a = 2 * i;
    const std::size_t b = 2 * k;
    BoundaryNode at{.node = i * nz + k, .side = 2 * k + 1 > nz ? 1 : 0, .end = k > 0 && k + 1 < nz};
    at.x = grid.x[at.node];
    if (!at.end) {
      at.area = (i > 0 ? face_part(a - 1, b) : 0.0) + (i + 1 < nx ? face_part(a, b) : 0.0);
    }
    if (i == 0 || i + 1 == nx) {
      at.area += (k > 0 ? end_part(a, b - 1) : 0.0) + (k + 1 < nz ? end_part(a, b) : 0.0);
    }
    grid.side_area[static_cast<std::size_t>(at.side)] += at.area;
    grid.boundary.push_back(at);
  };
  for (std::size_t i = 0; i < nx; ++i) {
    add(i, 0);
  }
  for (std::size_t k = 1; k + 1 < nz; ++k) {
    add(nx - 1, k);
  }
  for (std::size_t i = nx; i-- > 0;) {
    add(i, nz - 1);
  }
  for (std::size_t k = nz - 2; k > 0; --k) {
    add(0, k);
  }
}

} // namespace

SectionGrid make_section_grid(const Section &section, int nx, int nz, double face_spacing,
                              double end_spacing) {
  check::within("nx", nx, 3.0, 1e5, "nodes");
  check::within("nz", nz, 3.0, 1e5, "nodes");
  check::positive("face_spacing", face_spacing, "m");
  check::positive("end_spacing", end_spacing, "m");
  section.validate();
  SectionGrid grid{.nx = static_cast<std::size_t>(nx),
                   .nz = static_cast<std::size_t>(nz),
                   .x = {},
                   .z = {},
                   .volume = {},
                   .across = {},
                   .along = {},
                   .region = {},
                   .boundary = {},
                   .side_area = {},
                   .width = section.width,
                   .profile = ThicknessProfile(section.at, section.thickness)};
  const FineMesh mesh = fine_mesh(section, grid.profile, grid.nx, grid.nz, face_spacing, end_spacing);
  measure(mesh, grid);
  assign_regions(section, grid);
  add_boundary(mesh, section, grid);
  return grid;
}

} // namespace cook::engine
