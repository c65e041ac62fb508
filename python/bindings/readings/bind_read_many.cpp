#include "cook/readings/read_many.hpp"

#include <memory>
#include <mutex>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include <pybind11/numpy.h>

#include "cook/errors.hpp"

#include "calls/ending.hpp"
#include "calls/failures.hpp"
#include "module.hpp"
#include "plan/plan_batch.hpp"
#include "records/record.hpp"

namespace cook::python {

namespace {

/// Counts what the workers have done, and tells Python of it from the thread that waits for them.
class Watch {
public:
  Watch(std::size_t plans, const std::optional<py::function> &tick) : reasons_(plans), tick_(tick) {}

  /// From any thread, without the interpreter's lock.
  void note(std::size_t index, const std::exception_ptr &failure) {
    const std::lock_guard lock(mutex_);
    if (failure && !stopped_) { // once stopped, the plans that are left fail for no other reason
      failures_.emplace_back(index, failure);
    }
    ++done_;
  }

  /// From the waiting thread, without the interpreter's lock. True: stop.
  bool stop() {
    if (raised_ || ending()) {
      return true;
    }
    const py::gil_scoped_acquire held;
    const CallingPython calling;
    return look();
  }

  /// With the lock: tells how far it is, and looks for signals. What either raises is kept. True: stop.
  bool look() {
    if (!raised_) {
      try {
        if (PyErr_CheckSignals() != 0) {
          throw py::error_already_set();
        }
        tell();
      } catch (py::error_already_set &error) {
        raised_.emplace(std::move(error));
        const std::lock_guard lock(mutex_);
        stopped_ = true;
      }
    }
    return raised_.has_value();
  }

  /// Why each plan failed, empty where it did not; raises what was kept.
  py::list reasons() {
    if (raised_) {
      throw py::error_already_set(std::move(*raised_));
    }
    py::list list(reasons_.size());
    for (std::size_t i = 0; i < reasons_.size(); ++i) {
      list[i] = py::str(reasons_[i]);
    }
    return list;
  }

private:
  void tell() {
    std::size_t done = 0;
    std::vector<std::pair<std::size_t, std::exception_ptr>> fresh;
    {
      const std::lock_guard lock(mutex_);
      done = done_;
      fresh.swap(failures_);
    }
    for (const auto &[index, failure] : fresh) {
      const py::object error = as_python_error(failure);
      const auto name = py::type::of(error).attr("__name__").cast<std::string>();
      reasons_[index] = name + ": " + py::str(error).cast<std::string>();
    }
    failed_ += fresh.size();
    if (tick_ && done > told_) {
      (*tick_)(done - told_, failed_ - told_failed_);
      told_ = done;
      told_failed_ = failed_;
    }
  }

  std::vector<std::string> reasons_;
  const std::optional<py::function> &tick_;
  std::mutex mutex_; // of the three below
  std::size_t done_ = 0;
  bool stopped_ = false;
  std::vector<std::pair<std::size_t, std::exception_ptr>> failures_;
  std::size_t told_ = 0, failed_ = 0, told_failed_ = 0;
  std::optional<py::error_already_set> raised_;
};

py::tuple read_plans(const PlanBatch &batch, const Options &options, const Reader &reader, int threads,
                     const std::optional<py::function> &tick) {
  const auto plans = batch.plans();
  const Reader own = reader;
  py::array_t<double> values({plans->size(), own.width()});
  const std::span<double> filled(values.mutable_data(), plans->size() * own.width());
  Watch watch(plans->size(), tick);
  Options mine = options;
  mine.interrupted = [&watch] { return watch.stop(); };
  {
    const Released released;
    read_many(*plans, mine, threads, own, filled,
              [&watch](std::size_t i, const std::exception_ptr &failure) { watch.note(i, failure); });
  }
  watch.look(); // what came after the last look
  return py::make_tuple(values, watch.reasons());
}

py::list readings_as_tuples() {
  py::list rows;
  for (const Reading &reading : reading_table()) {
    rows.append(py::make_tuple(reading.name, reading.units, reading.long_name, reading.by_stage));
  }
  return rows;
}

py::array_t<double> read_one(const Reader &reader, const Outcome &outcome) {
  py::array_t<double> values(static_cast<py::ssize_t>(reader.width()));
  reader.read(outcome, {values.mutable_data(), reader.width()});
  return values;
}

} // namespace

void bind_read_many(py::module_ &m) {
  m.def("reading_table", &readings_as_tuples,
        "All readings of an outcome: (name, units, long name, whether there is one for each stage).");
  py::class_<Reader>(m, "Reader", "Takes readings off outcomes, by names of the table of readings.")
      .def(py::init([](const std::vector<std::string> &names, std::size_t stages, double hold) {
             return Reader(names, stages, hold);
           }),
           py::arg("names"), py::arg("stages"), py::arg("hold"),
           "For plans of so many stages; `hold` is the holding temperature [°C].")
      .def_property_readonly("width", &Reader::width, "How many numbers it reads.")
      .def("read", &read_one, py::arg("outcome"),
           "The numbers, shape (width,): one for a reading, or as many as there are stages.");
  m.def(
      "read_many", &read_plans, py::arg("plans"), py::arg("options"), py::arg("reader"),
      py::arg("threads") = 0, py::arg("tick") = py::none(),
      "Run plans side by side, read each outcome where it was made, and drop it. Returns the numbers, shape\n"
      "(plans, reader.width), NaN where a plan failed, and for each plan why it failed, or nothing.\n"
      "`tick(further, failed)` is called now and then from this thread, and may raise. Ctrl-C stops it.");
}

} // namespace cook::python
