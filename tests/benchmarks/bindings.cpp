/// @file
/// The C interface that run_benchmarks.py loads (library.py declares it in Python): all contenders of this
/// program, and the equations for those in Python. Functions return 0, or -1 with a text in
/// cook_benchmarks_error().
#include <algorithm>
#include <chrono>
#include <cmath>
#include <functional>
#include <map>
#include <memory>
#include <span>
#include <stdexcept>
#include <string>
#include <vector>

#include "benchmarks/contenders/cvode.hpp"
#include "benchmarks/contenders/odeint.hpp"
#include "benchmarks/full_model.hpp"
#include "benchmarks/reference/arithmetic.hpp"
#include "benchmarks/reference/equations.hpp"
#include "benchmarks/reference/slab_cooks.hpp"

using namespace cook;
using reference::Recipe;
using reference::Trace;

namespace {

constexpr std::size_t intervals = 60;

std::string last_error; // NOLINT: one caller, one thread

/// Runs something that may throw.
int guarded(const std::function<void()> &work) {
  try {
    work();
    return 0;
  } catch (const std::exception &error) {
    last_error = error.what();
    return -1;
  }
}

Recipe recipe_of(int index) {
  return index < 0 ? Recipe{} : reference::varied_recipe(static_cast<std::size_t>(index));
}

Trace our_slab(const Recipe &recipe, double tolerance) {
  reference::SlabOptions options;
  if (tolerance > 0.0) {
    options.accuracy = options.accuracy.times(options.accuracy.kelvin / tolerance);
  }
  return reference::cook_slabs({recipe}, options)[0];
}

/// Of the cook with an index (-1: the nominal one), at a tolerance.
using Solver = std::function<Trace(int, double)>;

const std::map<std::string, Solver> &solvers() {
  static const std::map<std::string, Solver> all{
      {"slab libcook", [](int i, double tol) { return our_slab(recipe_of(i), tol); }},
      {"slab cvode", [](int i, double tol) { return contenders::cvode_slab(recipe_of(i), intervals, tol); }},
      {"slab dopri5",
       [](int i, double tol) { return contenders::dopri5_slab(recipe_of(i), intervals, tol); }},
      {"slab rosenbrock4",
       [](int i, double tol) { return contenders::rosenbrock4_slab(recipe_of(i), intervals, tol); }},
      {"full libcook", benchmarks::simulate_full_model},
      {"full cvode",
       [](int i, double tol) {
         Equations equations = benchmarks::full_model_equations(i);
         return contenders::cvode_full_model(equations, benchmarks::full_model_end, tol);
       }},
  };
  return all;
}

double seconds_since(std::chrono::steady_clock::time_point begin) {
  return std::chrono::duration<double>(std::chrono::steady_clock::now() - begin).count();
}

/// The equations of a problem, for integrators in Python.
struct Problem {
  virtual ~Problem() = default;
  virtual std::size_t size() = 0;
  /// Entries of the Jacobian further than this from the diagonal are zero.
  virtual std::size_t bandwidth() = 0;
  virtual void set(int index, std::size_t phase) = 0;
  virtual void start(double *y) = 0;
  virtual void rates(double t, const double *y, double *f) = 0;
  virtual double middle(const double *y) = 0;
  virtual void jacobian(const double *y,
                        const std::function<void(std::size_t, std::size_t, double)> &add) = 0;
};

struct SlabProblem : Problem {
  reference::SlabEquations system{intervals};
  Recipe recipe;

  std::size_t size() override { return system.size(); }
  std::size_t bandwidth() override { return reference::SlabEquations::bandwidth; }
  void set(int index, std::size_t phase) override {
    recipe = recipe_of(index);
    system.set(recipe, phase);
  }
  void start(double *y) override { system.start(recipe, y); }
  void rates(double /*t*/, const double *y, double *f) override { system.rates(y, f); }
  double middle(const double *y) override { return y[system.middle()]; }
  void jacobian(const double *y, const std::function<void(std::size_t, std::size_t, double)> &add) override {
    system.jacobian(y, add);
  }
};

struct FullProblem : Problem {
  Equations equations = benchmarks::full_model_equations(-1);

  std::size_t size() override { return equations.size(); }
  std::size_t bandwidth() override { return static_cast<std::size_t>(equations.bandwidth()); }
  void set(int index, std::size_t /*phase*/) override { equations = benchmarks::full_model_equations(index); }
  void start(double *y) override { std::ranges::copy(equations.initial(), y); }
  void rates(double t, const double *y, double *f) override {
    equations.rhs(t, std::span<const double>(y, size()), std::span<double>(f, size()));
  }
  double middle(const double *y) override { return equations.core(std::span<const double>(y, size())); }
  void jacobian(const double * /*y*/,
                const std::function<void(std::size_t, std::size_t, double)> & /*add*/) override {
    throw std::logic_error("the full model's Jacobian is not handed out");
  }
};

std::unique_ptr<Problem> make_problem(const std::string &name) {
  if (name == "slab") {
    return std::make_unique<SlabProblem>();
  }
  if (name == "full") {
    return std::make_unique<FullProblem>();
  }
  throw std::invalid_argument("no problem '" + name + "'");
}

} // namespace

extern "C" {

/// What a cook left behind, in numbers.
struct CookSummary {
  double reached[2]; ///< [s]
  double end;        ///< [s]
  double lost;       ///< [kg/kg]
  long steps, rejected, evaluations;
  long minutes; ///< values in the trace
};

const char *cook_benchmarks_error() { return last_error.c_str(); }

int cook_benchmarks_has_cvode() { return contenders::has_cvode() ? 1 : 0; }

/// One cook, timed.
/// @param index of the varied cook, -1 for the nominal one
/// @param tolerance of the solver, libcook's in kelvin; 0: libcook's default
/// @param middle room for `capacity` temperatures
int cook_benchmarks_run(const char *problem, const char *solver, int index, double tolerance,
                        CookSummary *summary, double *middle, long capacity, double *seconds) {
  return guarded([&] {
    const auto found = solvers().find(std::string(problem) + " " + solver);
    if (found == solvers().end()) {
      throw std::invalid_argument("no solver '" + std::string(solver) + "' for '" + problem + "'");
    }
    const auto begin = std::chrono::steady_clock::now();
    const Trace trace = found->second(index, tolerance);
    *seconds = seconds_since(begin);
    *summary = {{trace.reached[0], trace.reached[1]},
                trace.end,
                trace.lost,
                trace.steps,
                trace.rejected,
                trace.evaluations,
                static_cast<long>(trace.middle.size())};
    if (summary->minutes > capacity) {
      throw std::length_error("a trace longer than the room for it");
    }
    std::ranges::copy(trace.middle, middle);
  });
}

/// What is varied in a slab: length, film and vapour film of the open phase, air, mobility.
void cook_benchmarks_recipe(int index, double *out) {
  const Recipe r = recipe_of(index);
  out[0] = r.length;
  out[1] = r.phases[0].film;
  out[2] = r.phases[0].vapour_film;
  out[3] = r.phases[0].air;
  out[4] = r.mobility;
}

/// The first `count` varied slabs in packs, timed; nothing kept but what was lost.
int cook_benchmarks_sweep(long count, int threads, double *lost, double *seconds) {
  return guarded([&] {
    std::vector<Recipe> recipes;
    for (long i = 0; i < count; ++i) {
      recipes.push_back(reference::varied_recipe(static_cast<std::size_t>(i)));
    }
    reference::SlabOptions options;
    options.keep = false;
    const auto begin = std::chrono::steady_clock::now();
    const auto traces = reference::cook_slabs_in_packs(recipes, options, static_cast<std::size_t>(threads));
    *seconds = seconds_since(begin);
    for (std::size_t i = 0; i < traces.size(); ++i) {
      lost[i] = traces[i].lost;
    }
  });
}

/// Variants of the full model's default cook, in batches, timed.
/// @param tolerance as in cook_benchmarks_run
int cook_benchmarks_full_sweep(long count, int threads, double tolerance, double *seconds) {
  return guarded(
      [&] { *seconds = benchmarks::sweep_full_model(static_cast<std::size_t>(count), threads, tolerance); });
}

long cook_benchmarks_slab_step_operations() { return reference::slab_step_operations(intervals); }

double cook_benchmarks_peak() { return reference::peak_operations_per_second(); }

void *cook_benchmarks_problem(const char *name) {
  Problem *made = nullptr;
  return guarded([&] { made = make_problem(name).release(); }) == 0 ? made : nullptr;
}

void cook_benchmarks_problem_free(void *problem) { delete static_cast<Problem *>(problem); }

long cook_benchmarks_size(void *problem) {
  return static_cast<long>(static_cast<Problem *>(problem)->size());
}

long cook_benchmarks_bandwidth(void *problem) {
  return static_cast<long>(static_cast<Problem *>(problem)->bandwidth());
}

void cook_benchmarks_set(void *problem, int index, int phase) {
  static_cast<Problem *>(problem)->set(index, static_cast<std::size_t>(phase));
}

void cook_benchmarks_start(void *problem, double *y) { static_cast<Problem *>(problem)->start(y); }

void cook_benchmarks_rates(void *problem, double t, const double *y, double *f) {
  static_cast<Problem *>(problem)->rates(t, y, f);
}

double cook_benchmarks_middle(void *problem, const double *y) {
  return static_cast<Problem *>(problem)->middle(y);
}

/// Banded Jacobian of the slab as SciPy's LSODA takes it: entry (i, j) at [i - j + width][j] of 2 width + 1
/// rows.
void cook_benchmarks_banded(void *problem, const double *y, double *out) {
  auto &p = *static_cast<Problem *>(problem);
  const std::size_t n = p.size();
  constexpr std::size_t width = reference::SlabEquations::bandwidth;
  std::fill_n(out, (2 * width + 1) * n, 0.0);
  p.jacobian(y, [&](std::size_t i, std::size_t j, double value) { out[(i + width - j) * n + j] += value; });
}

/// Entries of the Jacobian, places repeated; returns how many. `rows` and `columns` may be null.
long cook_benchmarks_entries(void *problem, const double *y, long *rows, long *columns, double *values) {
  long count = 0;
  static_cast<Problem *>(problem)->jacobian(y, [&](std::size_t i, std::size_t j, double value) {
    if (rows != nullptr) {
      rows[count] = static_cast<long>(i);
      columns[count] = static_cast<long>(j);
    }
    if (values != nullptr) {
      values[count] = value;
    }
    ++count;
  });
  return count;
}

} // extern "C"
