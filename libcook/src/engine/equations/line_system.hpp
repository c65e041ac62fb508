/// @file
/// The semi-discrete equations of a slab or cylinder: rates, analytic Jacobian, and the linear solves of a
/// step.
///
/// Water flux between two cells, with phi = X - X_hold(T) and its expressible part P(phi) = integral of the
/// smooth step:
///
///     j = -s [D_expressed dP/dx + D_held d(phi - P)/dx]
///
/// with D_expressed of the side with the larger phi, where the juice comes from, and D_held the mean of both
/// sides, times what the giving side has to give: taken from the giving side alone, the steep fall of D_held
/// in a crust made finish times first order in the face spacing and 1 % late. This is the same continuous law
/// as -s D grad(phi) with D stepping from held to expressed, written so that only juice under pressure drives
/// the fast flow. Juice still passes through a skin that has dried (with an average of the two mobilities the
/// first dry cell would seal the meat), but a dry cell does not suck with the fast mobility, which on a grid
/// would be as stiff as it is wrong.
///
/// One line of cells is a slab or a cylinder without sides. Two lines, level by level side by side, are a
/// whole piece: the middle of its footprint and its rim, where sides and ends are (piece_grid.hpp). Cell i is
/// on line i % Lines.
///
/// State vector, n nodes:
///
///     [ eta_0, X_0, ..., eta_(n-1), X_(n-1) | liquid on faces, bottom before top | lumped states | running
///     totals ]
///
/// The Jacobian is block tridiagonal in the levels, plus the liquid on each face (eliminated into its node,
/// no fill), plus one lumped state, in each lane its own, that acts on all faces (a border), plus running
/// totals that nothing depends on. Every flux enters with the same number wherever it leaves one account for
/// another, and so do its derivatives: the method then keeps the sums of water and energy to rounding.
///
/// A face node's eta holds the enthalpy of its liquid too. The linear algebra works on what is left without
/// it, zeta = eta + liquid_heat x liquid, on which alone the temperature depends: liquid at a given
/// temperature never feeds itself, so its pivot is at least the shift. At given eta it may, for more of it is
/// then colder and evaporates less: the pivot would pass through zero at some step size, and take the
/// ledger's digits along.
#pragma once

#include <array>
#include <cstddef>
#include <type_traits>
#include <vector>

#include "cook/plan/outcome.hpp"
#include "engine/air/drive.hpp"
#include "engine/air/lumped.hpp"
#include "engine/cells/cell.hpp"
#include "engine/cells/cells_abreast.hpp"
#include "engine/cells/edge.hpp"
#include "engine/cells/edges_abreast.hpp"
#include "engine/equations/face_balance.hpp"
#include "engine/faces/face.hpp"
#include "engine/grids/grid.hpp"
#include "engine/linear/block_tridiagonal.hpp"
#include "engine/linear/paired_tridiagonal.hpp"

namespace cook::engine {

/// Running totals at the end of the state vector: per side those of FacePath, then those of the surroundings.
inline constexpr std::size_t totals = 2 * face_paths + air_totals;

template <class Real, class Table = PropertyTable, std::size_t Lines = 1> class LineSystem {
public:
  static_assert(Lines == 1 || Lines == 2);
  using Vector = std::vector<Real>;
  static constexpr std::size_t lines = Lines;
  static constexpr std::size_t face_count = 2 * Lines;
  /// Of one cook the cells are lanes, of a pack the cooks.
  static constexpr bool one_cook = std::is_same_v<Table, PropertyTable>;

  LineSystem(const Grid &grid, const Table &table)
      : table_(&table), n_(grid.nodes()), abreast_(make_abreast(n_, table)), edges_(make_edges(grid)),
        matrix_(n_) {
    liquid_.assign(one_cook ? n_ : 0, 0.0);
    volume.resize(n_);
    per_volume.resize(n_);
    for (std::size_t i = 0; i < n_; ++i) {
      set_volume(i, Real(grid.volume[i]));
    }
    for (std::size_t i = 0; i + Lines < n_; ++i) {
      conductance.push_back(Real(grid.edge_area[i] / grid.edge_spacing[i]));
    }
    if constexpr (Lines == 2) {
      for (const double g : grid.across) {
        across.push_back(Real(g));
      }
    }
    std::array<Real, face_count> areas;
    for (std::size_t f = 0; f < face_count; ++f) {
      areas[f] = Real(grid.face_area[f]);
    }
    set_areas(areas);
    using Lane = std::conditional_t<one_cook, Pack, Real>;
    cells = Cells(n_, cell_to_begin_with<Lane>());
    memory = Memories(n_, empty_memory<Lane>());
    time_rates_.assign(size(), Real(0.0));
    border_.assign(2 * n_, Real(0.0));
  }

  // Geometry, per unit of footprint or length, or of the whole piece; a pack may hold a different size in
  // each lane.
  std::vector<Real> volume, per_volume; ///< and 1 / volume; see set_volume()
  std::vector<Real> conductance;        ///< edge area / spacing, from cell i to the next on its line
  std::vector<Real> across;          ///< the same from the middle to the rim at each level; empty on one line
  std::array<Real, face_count> area; ///< of each face; see set_areas()
  std::array<Real, 2> face_area;     ///< of each side: their sums
  // Conditions of the stage and segment.
  std::array<FaceSetting<Real>, face_count> face;
  Drive<Real> drive;
  /// How far ahead linearise() looks for cells that begin to be squeezed [s]; see anticipate_squeezing().
  Real look_ahead{0.0};
  // Memory of denaturation and the latest evaluation of the cells.
  using Cells = std::conditional_t<one_cook, CellBlocks, std::vector<Cell<Real>>>;
  using Memories = std::conditional_t<one_cook, MemoryBlocks, std::vector<Memory<Real>>>;
  Memories memory;
  Cells cells;
  std::array<FaceFlux<Real>, face_count> flux;

  void set_volume(std::size_t node, Real value) {
    volume[node] = value;
    per_volume[node] = 1.0 / value;
  }
  void set_areas(const std::array<Real, face_count> &areas) {
    area = areas;
    for (std::size_t side = 0; side < 2; ++side) {
      face_area[side] = areas[side * Lines];
      if constexpr (Lines == 2) {
        face_area[side] = face_area[side] + areas[side * Lines + 1];
      }
    }
  }
  [[nodiscard]] std::size_t nodes() const { return n_; }
  [[nodiscard]] std::size_t size() const { return first_total() + totals; }
  [[nodiscard]] std::size_t liquid_index(std::size_t f) const { return 2 * n_ + f; }
  /// Lumped state of the surroundings (lumped.hpp).
  [[nodiscard]] std::size_t lumped_index(std::size_t state) const { return 2 * n_ + face_count + state; }
  [[nodiscard]] std::size_t box_index() const { return lumped_index(box_temperature); }
  [[nodiscard]] std::size_t total_index(std::size_t side, FacePath path) const {
    return total_index(side, static_cast<std::size_t>(path));
  }
  [[nodiscard]] std::size_t total_index(std::size_t side, std::size_t path) const {
    return first_total() + side * face_paths + path;
  }
  [[nodiscard]] std::size_t air_total_index(std::size_t total) const {
    return first_total() + 2 * face_paths + total;
  }
  [[nodiscard]] std::size_t face_node(std::size_t f) const { return f < Lines ? f : n_ - face_count + f; }
  // The same questions as of a cross-section, whose sides have many faces.
  [[nodiscard]] static constexpr std::size_t faces() { return face_count; }
  [[nodiscard]] static constexpr std::size_t face_side(std::size_t f) { return f / Lines; }
  [[nodiscard]] Real area_of(std::size_t f) const { return area[f]; }
  /// The face of the middle.
  [[nodiscard]] static constexpr std::size_t shown_face(std::size_t side) { return side * Lines; }
  /// The side that is nearer to a node; a cylinder has one.
  [[nodiscard]] std::size_t side_near(std::size_t node) const {
    return node < n_ / 2 && !face_is_absent(0) ? 0 : 1;
  }
  [[nodiscard]] const Table &table(std::size_t /*node*/) const { return *table_; }
  /// Conditions beyond a side at a time [°C, Pa].
  [[nodiscard, gnu::always_inline]] FaceAir<Real> air_at(std::size_t side, Real time, const Vector &y) const {
    return air_beyond(drive, side, time, &y[lumped_index(0)]);
  }
  /// @param settings bottom, top, and the rim's lower and upper half
  void set_faces(const std::array<FaceSetting<Real>, 4> &settings) {
    for (std::size_t f = 0; f < face_count; ++f) {
      face[f] = settings[2 * (f % Lines) + face_side(f)];
    }
  }
  /// Share of the lumped states in the square of the error's size.
  [[nodiscard, gnu::always_inline]] Real lumped_error(const Vector &error, double kelvin) const {
    return lumped_error_size(drive, &error[lumped_index(0)], kelvin);
  }
  [[nodiscard]] const Table &table() const { return *table_; }
  [[nodiscard]] bool varies() const { return drive.varies; }

  /// dy/dt at a time [s].
  /// Slopes are left as linearise() took them.
  void rhs(Real time, const Vector &y, Vector &f) {
    evaluate_cells<Slopes::no>(y);
    evaluate_faces(time, y);
    assemble_rates(time, y, f);
  }

  /// Rates, and everything that factorise() and solve() need at this state.
  void linearise(Real time, const Vector &y, Vector &f) {
    evaluate_cells<Slopes::yes>(y);
    evaluate_faces(time, y);
    assemble_rates(time, y, f);
    if (drive.varies) {
      assemble_time_rates(time, y);
    }
    if (all(look_ahead > Real(0.0))) {
      anticipate(time, y, f);
    }
    assemble_jacobian(time, y);
  }

  /// Partial derivative of the rates by time at the linearised state.
  [[nodiscard]] const Vector &time_rates() const { return time_rates_; }

  /// Prepares solves with (shift I - J).
  void factorise(Real shift);
  /// Solves (shift I - J) x = x in place, over the whole state vector.
  void solve(Vector &x) const;

  /// J x, for checks.
  void multiply(const Vector &x, Vector &out) const;

  /// Remembers the highest temperature each node has seen; call after each accepted step with cells at that
  /// state. Cells and rates stay valid: at its own peak a cell does not feel its memory.
  /// @param counted lanes that have made a step
  void remember(MaskOf<Real> counted = every_lane<Real>());

  template <Slopes slopes = Slopes::no> void evaluate_cells(const Vector &y) {
    if constexpr (one_cook) {
      for (std::size_t f = 0; f < face_count; ++f) {
        liquid_[face_node(f)] = liquid_per_volume(face_node(f), y);
      }
      abreast_.evaluate(slopes, y.data(), liquid_.data(), memory, cells, edges_.cells);
    } else {
      for (std::size_t i = 0; i < n_; ++i) {
        evaluate_cell<slopes>(*table_, y[2 * i], y[2 * i + 1], liquid_per_volume(i, y), memory[i], cells[i]);
      }
    }
  }

private:
  /// Derivatives of something by the unknowns of a face node: zeta, X, liquid, and the coupled lumped state.
  struct Partial {
    Real eta{0.0}, x{0.0}, m{0.0}, b{0.0};
  };

  [[nodiscard]] Real liquid_per_volume(std::size_t i, const Vector &y) const {
    if (i < Lines) {
      return y[liquid_index(i)] * area[i] / volume[i];
    }
    if (i + Lines >= n_) {
      const std::size_t f = i + face_count - n_;
      return y[liquid_index(f)] * area[f] / volume[i];
    }
    return Real(0.0);
  }
  [[nodiscard]] Partial chain(const FaceTerm<Real> &term, std::size_t f) const {
    const Cell<Real> &cell = cells[face_node(f)];
    return {term.t * cell.t_eta, term.x + term.t * cell.t_x, term.m,
            term.a * by_acting_.air + term.v * by_acting_.vapour};
  }
  /// Whether a lumped state acts on the faces, of one cook or in any lane.
  [[nodiscard]] bool is_coupled() const { return lumped_acts(drive); }
  [[nodiscard]] std::size_t first_total() const { return 2 * n_ + face_count + lumped_states; }

  [[gnu::always_inline]] void evaluate_faces(Real time, const Vector &y);
  [[gnu::always_inline]] void anticipate(Real time, const Vector &y, const Vector &f);
  [[nodiscard]] bool face_is_absent(std::size_t f) const { return all(area[f] == Real(0.0)); }

  [[gnu::always_inline]] void assemble_rates(Real time, const Vector &y, Vector &f);
  [[gnu::always_inline]] void assemble_time_rates(Real time, const Vector &y);
  [[gnu::always_inline]] void assemble_jacobian(Real time, const Vector &y);
  [[gnu::always_inline]] void assemble_edges();
  [[gnu::always_inline]] void assemble_face(std::size_t f);
  template <class Of> [[gnu::always_inline]] void face_rates(std::size_t f, const Of &of, Vector &out) const;
  [[nodiscard]] Real share_of_side(std::size_t f) const { return area[f] / face_area[face_side(f)]; }

  struct None {};
  using Abreast = std::conditional_t<one_cook, CellsAbreast, None>;
  static Abreast make_abreast(std::size_t nodes, const Table &table) {
    if constexpr (one_cook) {
      return CellsAbreast(nodes, [&table](std::size_t) -> const PropertyTable & { return table; });
    } else {
      return {};
    }
  }

  using Edges = std::conditional_t<one_cook, EdgesAbreast, None>;
  static Edges make_edges(const Grid &grid) {
    if constexpr (one_cook) {
      return EdgesAbreast(grid.nodes(), Lines, grid.across);
    } else {
      return {};
    }
  }

  const Table *table_;
  std::size_t n_;
  [[no_unique_address]] Abreast abreast_;
  [[no_unique_address]] Edges edges_;
  std::vector<double> liquid_; ///< per volume, of each cell of one cook
  std::conditional_t<Lines == 1, BlockTridiagonal<Real>, PairedTridiagonal<Real>> matrix_;
  Vector time_rates_;
  std::array<Slope<Real>, face_count> latent_{};

  // Coupling of the cells to liquids and lumped state, set by assemble_jacobian().
  struct FaceCoupling {
    Real liquid_heat{0.0};               ///< zeta - eta, by liquid
    Real liquid_own{0.0};                ///< liquid rate by liquid
    Partial liquid{};                    ///< liquid rate by zeta, X (and lumped)
    Real cell_eta{0.0}, cell_x{0.0};     ///< node rates by liquid
    Real lumped_eta{0.0}, lumped_x{0.0}; ///< node rates by the coupled lumped state
    Partial lumped{};                    ///< its rate by zeta, X, liquid
    ByPath<Partial> paths{};
    Real inverse{0.0}; ///< 1 / (shift - liquid_own)
    Real through{0.0}; ///< node's row by liquid, with what turns its eta into zeta
    Block<Real> own{}; ///< unmodified Jacobian block of the node
  };
  std::array<FaceCoupling, face_count> coupling_;

  /// An edge's fluxes by the unknowns of its cells a and b.
  struct EdgeBlocks {
    Block<Real> from_a, from_b;
  };
  [[nodiscard, gnu::always_inline]] EdgeFluxOf<Real> edge_flow(std::size_t from, std::size_t to,
                                                               const Real &g) const;
  [[nodiscard, gnu::always_inline]] EdgeBlocks edge_blocks(std::size_t from, std::size_t to,
                                                           const Real &g) const;

  ChamberRatesOf<Real> chamber_{}; ///< at the latest rates
  FaceAir<Real> by_acting_{};      ///< how the air beyond the faces follows the state that acts
  LumpedSlopesOf<Real> lumped_;
  LumpedMatrixOf<Real> lumped_inverse_{};
  Real shift_{0.0};
  Vector border_; ///< (shift I - J)^-1 of the coupled state's column
};

/// A whole piece: its middle and its rim.
using PieceSystem = LineSystem<double, PropertyTable, 2>;

} // namespace cook::engine

#include "engine/equations/line_system_assembly.hpp"
#include "engine/equations/line_system_evaluate.hpp"
#include "engine/equations/line_system_solve.hpp"
