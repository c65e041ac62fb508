#include "engine/cook_run.hpp"

#include "engine/cook_run_ledger.hpp"
#include "engine/cook_run_locate.hpp"
#include "engine/cook_run_stages.hpp"
#include "engine/cook_run_steps.hpp"
#include "engine/line_system.hpp"
#include "engine/section_system.hpp"

namespace cook::engine {

template class CookRun<LineSystem<double>>;
template class CookRun<PieceSystem>;
template class CookRun<SectionSystem>;

} // namespace cook::engine
