#include "cook/engine/simulate_many.hpp"

#include <atomic>
#include <optional>
#include <utility>
#include <vector>

#include "calls/failures.hpp"
#include "calls/long_call.hpp"
#include "module.hpp"
#include "records/record.hpp"

namespace cook::python {

namespace {

py::object as_python(const Result &result) {
  return result.failure ? as_python_error(result.failure)
                        : py::cast(std::const_pointer_cast<Outcome>(result.outcome));
}

py::object run_many(const std::vector<Plan> &plans, const Options &options, int threads,
                    const std::optional<py::function> &done) {
  Options mine = options;
  Raised raised;
  std::optional<py::error_already_set> refusal; // what `done` has raised
  std::atomic<bool> refused{false};
  // Asked on this thread while the workers work.
  mine.interrupted = [&] { return refused || raised.stop(); };
  std::vector<Result> results(plans.size());
  const auto deliver = [&](std::size_t index, Result result) {
    if (!done) {
      results[index] = std::move(result);
    } else if (!refused && !ending()) {
      const CallingFromWorker calling;
      try {
        (*done)(index, as_python(result));
      } catch (...) {
        refusal.emplace(as_python_exception(std::current_exception()));
        refused = true;
      }
    }
  };
  {
    const Released released;
    simulate_many(plans, mine, threads, deliver);
  }
  raised.raise();
  if (refusal) {
    throw py::error_already_set(std::move(*refusal));
  }
  if (done) {
    return py::none();
  }
  py::list list(results.size());
  for (std::size_t i = 0; i < results.size(); ++i) {
    list[i] = as_python(results[i]);
    results[i] = {};
  }
  return list;
}

} // namespace

void bind_simulate_many(py::module_ &m) {
  m.def("simulate_many", &run_many, py::arg("plans"), py::arg("options"), py::arg("threads") = 0,
        py::arg("done") = py::none(),
        "Run plans side by side, in packs and on all threads. A list of outcomes, an exception in place of "
        "those "
        "that failed; with `done`, each goes to done(index, outcome or exception) instead. Ctrl-C stops it.");
}

} // namespace cook::python
