#include "cook/simulate_many.hpp"

#include <optional>
#include <utility>
#include <vector>

#include "failures.hpp"
#include "module.hpp"
#include "record.hpp"

namespace cook::python {

namespace {

py::object as_python(const Result &result) {
  return result.failure ? as_python_error(result.failure)
                        : py::cast(std::const_pointer_cast<Outcome>(result.outcome));
}

py::object run_many(const std::vector<Plan> &plans, const Options &options, int threads,
                    const std::optional<py::function> &done) {
  Options mine = options;
  std::optional<py::error_already_set> raised;
  // Asked on this thread while the workers work. What a signal handler or `done` raises is kept, and raised
  // again once they have stopped.
  mine.interrupted = [&raised] {
    const py::gil_scoped_acquire held;
    if (!raised && PyErr_CheckSignals() != 0) {
      raised.emplace();
    }
    return raised.has_value();
  };
  std::vector<Result> results(plans.size());
  const auto deliver = [&](std::size_t index, Result result) {
    if (!done) {
      results[index] = std::move(result);
      return;
    }
    const py::gil_scoped_acquire held;
    if (raised) {
      return;
    }
    try {
      (*done)(index, as_python(result));
    } catch (py::error_already_set &error) {
      raised.emplace(std::move(error));
    }
  };
  {
    const py::gil_scoped_release released;
    simulate_many(plans, mine, threads, deliver);
  }
  if (raised) {
    throw py::error_already_set(std::move(*raised));
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
