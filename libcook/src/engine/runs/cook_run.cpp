#include "engine/runs/cook_run.hpp"

#include "engine/equations/section_system.hpp"
#include "engine/runs/cook_run_ledger.hpp"
#include "engine/runs/cook_run_locate.hpp"
#include "engine/runs/cook_run_stages.hpp"
#include "engine/runs/cook_run_steps.hpp"

namespace cook::engine {

template class CookRun<LineSystem<double>>;
template class CookRun<PieceSystem>;
template class CookRun<SectionSystem>;

} // namespace cook::engine
