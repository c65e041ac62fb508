/// @file
/// The semi-discrete equations of a lengthwise cross-section: rates, Jacobian, and the linear solves of a
/// step.
///
/// The same cells, edges and faces as LineSystem, on an orthogonal curved mesh (section_grid.hpp). State
/// vector, N nodes and B boundary nodes:
///
///     [ eta_0, X_0, ... | film_0 ... film_(B-1) | lumped states | running totals ]
///
/// Linear solves. (s I - J) with J = J_along + J_across is replaced by the product
///
///     P = (1/s) (s I - J_along) (s I - J_across)
///
/// (approximate matrix factorisation; Hundsdorfer & Verwer, Numerical Solution of Time-Dependent
/// Advection-Diffusion-Reaction Equations, ch. IV.5), solved as block-tridiagonal lines, first along, then
/// across, and improved by corrections x += P^-1 (r - (s I - J) x). Every factor is in flux form, so
/// whatever the number of passes, the sums of water and energy are kept to rounding.
///
/// The faces at bottom and top, with their liquids and the lumped states, belong to J_across (solved last,
/// and exactly: they are the stiff ones), the end faces and their liquids to J_along.
#pragma once

#include <array>
#include <cstddef>
#include <vector>

#include "cook/plan/outcome.hpp"
#include "engine/air/drive.hpp"
#include "engine/air/lumped.hpp"
#include "engine/cells/cell.hpp"
#include "engine/cells/cells_abreast.hpp"
#include "engine/cells/edge_lines.hpp"
#include "engine/equations/face_balance.hpp"
#include "engine/equations/faces_abreast.hpp"
#include "engine/faces/face.hpp"
#include "engine/grids/section_grid.hpp"
#include "engine/linear/block_lines.hpp"

namespace cook::engine {

class SectionSystem {
public:
  using Vector = std::vector<double>;

  /// @param tables by region of the grid (region r uses tables[r])
  SectionSystem(const SectionGrid &grid, std::vector<const PropertyTable *> tables);

  // Geometry, per metre of width.
  std::vector<double> volume;
  std::array<double, 2> face_area{}; ///< bottom and top, with their halves of the end faces
  /// Conditions of the stage: bottom and top, then the end faces' lower and upper half.
  std::array<FaceSetting<double>, 4> face;
  Drive<double> drive;
  MemoryBlocks memory;
  CellBlocks cells;
  std::vector<FaceFlux<double>> flux; ///< of each boundary node
  /// Sweeps of the factorised solve of a step's first stage, one more than in the others; see above.
  int passes = 1;
  /// How far ahead linearise() looks for cells that begin to be squeezed [s]; see anticipate_squeezing().
  double look_ahead = 0.0;

  [[nodiscard]] std::size_t nodes() const { return n_; }
  [[nodiscard]] std::size_t faces() const { return boundary_.size(); }
  [[nodiscard]] std::size_t size() const { return 2 * n_ + boundary_.size() + lumped_states + totals; }
  [[nodiscard]] std::size_t face_node(std::size_t b) const { return boundary_[b].node; }
  [[nodiscard]] std::size_t face_side(std::size_t b) const { return boundary_[b].side; }
  [[nodiscard]] double area_of(std::size_t b) const { return boundary_[b].area; }
  [[nodiscard]] bool is_end(std::size_t b) const { return boundary_[b].end; }
  /// The side that is nearer to a node.
  [[nodiscard]] std::size_t side_near(std::size_t node) const { return node % nz_ < nz_ / 2 ? 0 : 1; }
  /// The side whose air a boundary node is in: an end stands in the air that the top sees.
  [[nodiscard]] std::size_t air_side(std::size_t b) const { return is_end(b) ? 1 : face_side(b); }
  [[nodiscard]] std::size_t liquid_index(std::size_t b) const { return 2 * n_ + b; }
  [[nodiscard]] std::size_t lumped_index(std::size_t q) const { return 2 * n_ + boundary_.size() + q; }
  [[nodiscard]] std::size_t total_index(std::size_t side, FacePath path) const {
    return total_index(side, static_cast<std::size_t>(path));
  }
  [[nodiscard]] std::size_t total_index(std::size_t side, std::size_t path) const {
    return first_total() + side * face_paths + path;
  }
  [[nodiscard]] std::size_t air_total_index(std::size_t path) const {
    return first_total() + 2 * face_paths + path;
  }
  /// Share of the lumped states in the square of the error's size.
  [[nodiscard]] double lumped_error(const Vector &error, double kelvin) const {
    return lumped_error_size(drive, &error[lumped_index(0)], kelvin);
  }
  [[nodiscard]] const PropertyTable &table(std::size_t node) const { return *tables_[region_[node]]; }
  [[nodiscard]] const SectionGrid &grid() const { return *grid_; }
  void set_faces(const std::array<FaceSetting<double>, 4> &settings) { face = settings; }
  /// The boundary node that stands for a side in traces: the one under (or over) the core.
  [[nodiscard]] std::size_t shown_face(std::size_t side) const { return shown_[side]; }
  /// Lets the traces of the faces be those at a distance from the flat end [m].
  void show_faces_at(double x);
  [[nodiscard]] bool varies() const { return drive.varies; }
  [[nodiscard]] FaceAir<double> air_at(std::size_t side, double time, const Vector &y) const {
    return air_beyond(drive, side, time, &y[lumped_index(0)]);
  }

  void rhs(double time, const Vector &y, Vector &f);
  void linearise(double time, const Vector &y, Vector &f);
  [[nodiscard]] const Vector &time_rates() const { return time_rates_; }
  /// After a step from (time, y) that failed: linearises there again, with the squeezing that the failed step
  /// has found. False when it has found no more than was known.
  bool learn(double time, const Vector &y);
  void factorise(double shift);
  void solve(Vector &x);
  /// J x, of the exact Jacobian.
  void multiply(const Vector &x, Vector &out);
  void remember();
  template <Slopes slopes = Slopes::no> void evaluate_cells(const Vector &y);

private:
  static constexpr std::size_t none = static_cast<std::size_t>(-1);

  /// Derivatives of something by the unknowns of a boundary node: zeta, X, liquid. As in LineSystem, zeta is
  /// eta without the enthalpy of the liquid.
  struct Partial {
    double eta = 0.0, x = 0.0, m = 0.0;
  };
  struct Pair {
    double heat = 0.0, water = 0.0; ///< rates of eta and X
  };
  /// A boundary node: where it is, and how its liquid couples.
  struct Boundary {
    std::size_t node = 0, side = 0;
    bool end = false;
    double area = 0.0;
    double share = 0.0;                      ///< area / area of the side
    double per_volume = 0.0;                 ///< area / volume of the node
    std::size_t before = none, after = none; ///< neighbours along the face
    // set by assemble_jacobian()
    double liquid_heat = 0.0; ///< zeta - eta, by liquid
    double liquid_own = 0.0;
    Partial liquid; ///< liquid rate by zeta, X
    Pair own;       ///< rates of the node by liquid
    Pair through;   ///< its rows by liquid, with what turns its eta into zeta; set by factorise()
    Pair own_beside, at_before, at_after; ///< by liquid, through the edges along the face (the other factor)
    ByPath<Partial> paths{};              ///< of the side's totals
    std::array<Pair, coupled_states> by_lumped{}; ///< node rates by box temperature and vapour
    std::array<double, coupled_states> liquid_by_lumped{};
    std::array<std::array<double, coupled_states>, face_paths> paths_by_lumped{};
    std::array<Partial, coupled_states> lumped{}; ///< lumped rates by zeta, X, liquid
    std::array<std::array<double, coupled_states>, coupled_states> lumped_own{}; ///< and by lumped states
    double inverse = 0.0;                                                        ///< 1 / (shift - liquid_own)
    Block4 kept_own{}; ///< unmodified Jacobian block of the node
  };

  [[nodiscard]] std::size_t first_total() const { return 2 * n_ + boundary_.size() + lumped_states; }
  [[nodiscard]] bool acts(std::size_t state) const { return acts_ && state == acting_state(drive); }
  static constexpr std::size_t totals = 2 * face_paths + air_totals;
  [[nodiscard]] std::size_t index(std::size_t i, std::size_t k) const { return i * nz_ + k; }
  /// Place of a node in the arrays of the lines across.
  [[nodiscard]] std::size_t turned(std::size_t node) const { return node % nz_ * nx_ + node / nz_; }

  void anticipate(double time, const Vector &y, const Vector &f);
  void evaluate_faces(double time, const Vector &y);
  void assemble_rates(double time, const Vector &y, Vector &f);
  void assemble_time_rates(double time, const Vector &y);
  void assemble_jacobian(double time, const Vector &y);
  void couple_liquid();
  void assemble_face(Boundary &b, std::size_t at);
  void couple_lumped(Boundary &b, std::size_t at, const std::array<FaceAir<double>, coupled_states> &air);
  /// @param by what of each term counts: its value, or its rate
  template <class By> void add_face_rates(By by, Vector &out) const;
  [[nodiscard]] ByPath<FaceTerm<double>> path_terms(std::size_t b) const;
  void solve_once(Vector &x);
  void multiply_edges(const Vector &x, Vector &out);
  /// Unknowns of the cells apart, in the layout of the lines along.
  void split(const Vector &x);
  /// The same in the layout of the lines across.
  void turn(const std::vector<double> &first, const std::vector<double> &second);

  const SectionGrid *grid_;
  std::vector<const PropertyTable *> tables_;
  std::size_t n_, nx_, nz_;
  std::array<std::size_t, 2> shown_{};
  std::vector<std::uint8_t> region_;
  std::vector<double> per_heat_, per_water_; ///< 1/(c_ref V), 1/(s V) of each node
  CellArrays arrays_,
      turned_arrays_; ///< the cells for the edges along, and in the layout of the lines across
  CellsAbreast abreast_;
  FacesAbreast faces_abreast_;
  std::vector<double> across_g_, turned_across_g_, turned_per_heat_, turned_per_water_;
  /// Through the edges before every node: across at p, along at p; those after it at p + 1 and p + nz.
  std::vector<double> heat_across_, water_across_, heat_along_, water_along_;
  std::vector<Boundary> boundary_;
  std::vector<std::size_t> at_boundary_; ///< of every node its boundary node, or none
  std::vector<double> liquid_;           ///< liquid per volume, of every node
  std::vector<Slope<double>> latent_;
  BlockLines along_, across_;
  bool acts_ = false; ///< a lumped state acts on the faces
  Vector time_rates_;
  std::vector<double> learned_; ///< juice_phi of each cell in the failed step; empty: nothing to learn
  double shift_ = 1.0;
  int solves_ = 0; ///< since factorise()
  LumpedMatrix lumped_jacobian_{}, lumped_inverse_{};
  std::array<std::array<double, lumped_states>, air_totals> air_slopes_{};
  std::array<std::vector<double>, coupled_states> border_first_, border_second_; ///< turned layout
  std::vector<double> first_, second_, turned_first_, turned_second_;
  std::vector<double> product_first_, product_second_, turned_product_first_, turned_product_second_;
  Vector right_, residual_, product_;
};

} // namespace cook::engine
