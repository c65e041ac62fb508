#include "benchmarks/contenders/cvode.hpp"

#include <cmath>
#include <span>

#include <sunlinsol/sunlinsol_band.h>
#include <sunmatrix/sunmatrix_band.h>

#include "benchmarks/contenders/cvode_handles.hpp"

namespace cook::contenders {

using reference::Recipe;
using reference::Trace;

namespace {

/// What CVODE's callbacks get.
template <class System> struct Cook {
  System *system;
  double target = 0.0; ///< of the temperature in the middle [°C]
};

template <class System> int rates(realtype /*t*/, N_Vector y, N_Vector f, void *data) {
  static_cast<Cook<System> *>(data)->system->rates(NV_DATA_S(y), NV_DATA_S(f));
  return 0;
}

template <class System> int excess(realtype /*t*/, N_Vector y, realtype *g, void *data) {
  const auto &cook = *static_cast<Cook<System> *>(data);
  g[0] = NV_DATA_S(y)[cook.system->middle()] - cook.target;
  return 0;
}

template <class System>
int jacobian(realtype /*t*/, N_Vector y, N_Vector /*f*/, SUNMatrix j, void *data, N_Vector /*w1*/,
             N_Vector /*w2*/, N_Vector /*w3*/) {
  SUNMatZero(j);
  realtype **columns = SM_COLS_B(j);
  const auto diagonal = static_cast<std::size_t>(SM_SUBAND_B(j));
  static_cast<Cook<System> *>(data)->system->jacobian(NV_DATA_S(y),
                                                      [&](std::size_t row, std::size_t column, double value) {
                                                        columns[column][row + diagonal - column] += value;
                                                      });
  return 0;
}

void add_counts(void *memory, Trace &trace) {
  long count = 0;
  CVodeGetNumSteps(memory, &count);
  trace.steps += count;
  CVodeGetNumErrTestFails(memory, &count);
  trace.rejected += count;
  CVodeGetNumRhsEvals(memory, &count);
  trace.evaluations += count;
  CVodeGetNumLinRhsEvals(memory, &count);
  trace.evaluations += count;
}

/// @param attach gives the integrator its linear solver
template <class System, class Attach>
Trace run(System &system, const Recipe &recipe, double tolerance, const Context &context, Attach attach) {
  const auto n = static_cast<sunindextype>(system.size());
  const VectorHandle y(N_VNew_Serial(n, context.get()));
  const VectorHandle absolute(N_VNew_Serial(n, context.get()));
  double *values = NV_DATA_S(y.get());
  for (std::size_t i = 0; i < system.size(); ++i) {
    NV_DATA_S(absolute.get())[i] = tolerance * (system.is_water(i) ? 0.1 : 10.0);
  }
  Cook<System> cook{&system, recipe.until[0]};
  system.set(recipe, 0);
  system.start(recipe, values);
  const IntegratorHandle memory(CVodeCreate(CV_BDF, context.get()));
  void *cv = memory.get();
  checked(CVodeInit(cv, rates<System>, 0.0, y.get()), "CVodeInit");
  checked(CVodeSetUserData(cv, &cook), "CVodeSetUserData");
  checked(CVodeSVtolerances(cv, tolerance, absolute.get()), "CVodeSVtolerances");
  checked(CVodeSetMaxNumSteps(cv, 1000000), "CVodeSetMaxNumSteps");
  checked(CVodeRootInit(cv, 1, excess<System>), "CVodeRootInit");
  attach(cv, y.get());
  Trace trace;
  trace.middle.push_back(recipe.start);
  double t = 0.0;
  double end = recipe.longest;
  std::size_t phase = 0;
  while (t < end) {
    const double next = reference::output_every * static_cast<double>(trace.middle.size());
    checked(CVodeSetStopTime(cv, end), "CVodeSetStopTime");
    const int code = checked(CVode(cv, std::fmin(next, end), y.get(), &t, CV_NORMAL), "CVode");
    if (code == CV_ROOT_RETURN) {
      trace.reached[phase] = t;
      ++phase;
      system.set(recipe, phase);
      cook.target = phase < 2 ? recipe.until[phase] : HUGE_VAL;
      if (phase == 2) {
        end = std::fmin(recipe.longest, t + recipe.rest);
      }
      add_counts(cv, trace);
      checked(CVodeReInit(cv, t, y.get()), "CVodeReInit");
    } else if (t >= next) {
      trace.middle.push_back(values[system.middle()]);
    }
  }
  add_counts(cv, trace);
  trace.end = t;
  trace.lost = recipe.water - system.mean_water(values);
  return trace;
}

/// The full model's equations behind the same callbacks.
struct FullModel {
  Equations *equations;
  std::size_t size;
};

int full_model_rates(realtype t, N_Vector y, N_Vector f, void *data) {
  const auto &model = *static_cast<FullModel *>(data);
  model.equations->rhs(t, std::span<const double>(NV_DATA_S(y), model.size),
                       std::span<double>(NV_DATA_S(f), model.size));
  return 0;
}

} // namespace

bool has_cvode() { return true; }

Trace cvode_slab(const Recipe &recipe, std::size_t intervals, double tolerance) {
  using System = reference::SlabEquations;
  System system(intervals);
  const Context context;
  MatrixHandle matrix;
  SolverHandle solver;
  return run(system, recipe, tolerance, context, [&](void *cv, N_Vector y) {
    constexpr auto width = static_cast<sunindextype>(System::bandwidth);
    matrix.reset(SUNBandMatrix(static_cast<sunindextype>(system.size()), width, width, context.get()));
    solver.reset(SUNLinSol_Band(y, matrix.get(), context.get()));
    checked(CVodeSetLinearSolver(cv, solver.get(), matrix.get()), "CVodeSetLinearSolver");
    checked(CVodeSetJacFn(cv, jacobian<System>), "CVodeSetJacFn");
  });
}

Trace cvode_full_model(Equations &equations, double end, double tolerance) {
  const Context context;
  FullModel model{&equations, equations.size()};
  const auto n = static_cast<sunindextype>(model.size);
  const VectorHandle y(N_VNew_Serial(n, context.get()));
  const VectorHandle absolute(N_VNew_Serial(n, context.get()));
  const std::vector<double> start = equations.initial();
  double *values = NV_DATA_S(y.get());
  // Films at both ends, one or two each; enthalpy and water in turn between them (equations.hpp).
  const auto films = static_cast<std::size_t>(equations.bandwidth()) / 4;
  for (std::size_t i = 0; i < model.size; ++i) {
    values[i] = start[i];
    const bool is_enthalpy = i >= films && i + films < model.size && (i - films) % 2 == 0;
    NV_DATA_S(absolute.get())[i] = tolerance * (is_enthalpy ? 10.0 : 0.1);
  }
  const IntegratorHandle memory(CVodeCreate(CV_BDF, context.get()));
  void *cv = memory.get();
  checked(CVodeInit(cv, full_model_rates, 0.0, y.get()), "CVodeInit");
  checked(CVodeSetUserData(cv, &model), "CVodeSetUserData");
  checked(CVodeSVtolerances(cv, tolerance, absolute.get()), "CVodeSVtolerances");
  checked(CVodeSetMaxNumSteps(cv, 1000000), "CVodeSetMaxNumSteps");
  const MatrixHandle matrix(SUNBandMatrix(n, equations.bandwidth(), equations.bandwidth(), context.get()));
  const SolverHandle solver(SUNLinSol_Band(y.get(), matrix.get(), context.get()));
  checked(CVodeSetLinearSolver(cv, solver.get(), matrix.get()), "CVodeSetLinearSolver");
  checked(CVodeSetStopTime(cv, end), "CVodeSetStopTime");
  Trace trace;
  double t = 0.0;
  trace.middle.push_back(equations.core(start));
  while (t < end) {
    const double next = reference::output_every * static_cast<double>(trace.middle.size());
    checked(CVode(cv, std::fmin(next, end), y.get(), &t, CV_NORMAL), "CVode");
    if (t >= next) {
      trace.middle.push_back(equations.core(std::span<const double>(values, model.size)));
    }
  }
  add_counts(cv, trace);
  trace.end = t;
  return trace;
}

} // namespace cook::contenders
