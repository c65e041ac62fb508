#include "benchmarks/reference/equations.hpp"

#include "engine/arithmetic/vector_clones.hpp"

namespace cook::reference {

namespace {

COOK_PACK_CLONES
void slab_rates(SlabSystem<double> &system, const double *y, double *f) { system.rhs(0.0, y, f); }

COOK_PACK_CLONES
void slab_linearise(SlabSystem<double> &system, const double *y, double *f) { system.linearise(0.0, y, f); }

} // namespace

void SlabEquations::rates(const double *y, double *f) { slab_rates(system_, y, f); }

void SlabEquations::linearise(const double *y) { slab_linearise(system_, y, scratch_.data()); }

} // namespace cook::reference
