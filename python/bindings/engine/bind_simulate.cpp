#include "cook/engine/simulate.hpp"
#include "cook/plan/options_fields.hpp"

#include "calls/long_call.hpp"
#include "module.hpp"
#include "records/record.hpp"

namespace cook::python {

namespace {

std::shared_ptr<Outcome> simulate_plan(const Plan &plan, const Options &options) {
  return long_call([own = plan, mine = options](const std::function<bool()> &interrupted) mutable {
    mine.interrupted = interrupted;
    return std::const_pointer_cast<Outcome>(simulate(own, mine));
  });
}

} // namespace

void bind_simulate(py::module_ &m) {
  Record<Physics>(m).finish();
  Record<Options>(m).finish([](const Options &made) { made.validate(); });
  m.def("simulate", &simulate_plan, py::arg("plan"), py::arg("options"),
        "Run a plan with the interpreter free for other threads; Ctrl-C stops it.");
}

} // namespace cook::python
