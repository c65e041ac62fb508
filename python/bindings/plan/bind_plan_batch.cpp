#include "plan/plan_batch.hpp"

#include <optional>
#include <string>
#include <utility>
#include <variant>
#include <vector>

#include <pybind11/numpy.h>
#include <pybind11/stl.h>

#include "cook/errors.hpp"
#include "cook/plan/vary.hpp"

#include "calls/ending.hpp"
#include "calls/failures.hpp"
#include "module.hpp"
#include "records/record.hpp"

namespace cook::python {

namespace {

/// A number of a plan that can be set in thousands.
struct PlanNumber {
  std::vector<PlanStep> way;
  SetNumber set;

  [[nodiscard]] std::string text() const {
    std::string text;
    for (const PlanStep &step : way) {
      const auto *name = std::get_if<std::string>(&step);
      text +=
          name ? (text.empty() ? "" : ".") + *name : "[" + std::to_string(std::get<std::size_t>(step)) + "]";
    }
    return "PlanNumber('" + text + "')";
  }
};

std::optional<PlanNumber> find_number(const Plan &plan, const std::vector<PlanStep> &way) {
  SetNumber found = number_in(plan, way);
  return found ? std::optional(PlanNumber{way, std::move(found)}) : std::nullopt;
}

/// NOTE: Python may hold references to the stages, so their vector must not be allocated anew.
void restore(Plan &plan, const Plan &origin) {
  if (plan.stages.size() != origin.stages.size()) {
    throw InvalidInput("origin", std::to_string(origin.stages.size()) + " stages; " +
                                     std::to_string(plan.stages.size()) + " are in the plan to restore");
  }
  plan = origin;
}

/// Appends a plan for each row; those whose numbers do not go together are left out, and told why.
py::tuple vary(PlanBatch &batch, const Plan &plan, const std::vector<PlanNumber> &numbers,
               const py::array_t<double, py::array::c_style | py::array::forcecast> &table) {
  if (table.ndim() != 2 || static_cast<std::size_t>(table.shape(1)) != numbers.size()) {
    throw InvalidInput("table",
                       "its columns are not as many as the numbers; shape (cooks, numbers) is accepted");
  }
  const std::size_t rows = static_cast<std::size_t>(table.shape(0));
  const double *value = table.data();
  std::vector<Plan> made;
  std::vector<std::size_t> places;
  std::vector<std::pair<std::size_t, std::exception_ptr>> failures;
  {
    const Released released;
    const Plan origin = plan;
    made.reserve(rows);
    for (std::size_t row = 0; row < rows; ++row) {
      Plan varied = origin;
      try {
        for (const PlanNumber &number : numbers) {
          number.set(varied, *value++);
        }
      } catch (...) {
        failures.emplace_back(row, std::current_exception());
        value = table.data() + (row + 1) * numbers.size();
        continue;
      }
      places.push_back(row);
      made.push_back(std::move(varied));
    }
  }
  batch.add(std::move(made));
  py::list reasons;
  for (const auto &[row, failure] : failures) {
    const py::object error = as_python_error(failure);
    reasons.append(py::make_tuple(row, py::type::of(error).attr("__name__").cast<std::string>() + ": " +
                                           py::str(error).cast<std::string>()));
  }
  return py::make_tuple(places, reasons);
}

} // namespace

void bind_plan_batch(py::module_ &m) {
  py::class_<PlanNumber>(m, "PlanNumber", "A number of plans of one make, found by its way.")
      .def(
          "set", [](const PlanNumber &number, Plan &plan, double value) { number.set(plan, value); },
          py::arg("plan"), py::arg("value"), "Set it in one plan, in the unit of its field.")
      .def("__repr__", &PlanNumber::text);
  m.def("plan_number", &find_number, py::arg("plan"), py::arg("way"),
        "The number at the end of a way of names and places, or None: no number is there.");
  py::class_<PlanBatch>(m, "PlanBatch", "Copies of plans, made once, for `read_many`.")
      .def(py::init<>())
      .def(
          "add", [](PlanBatch &batch, const Plan &plan) { batch.add(plan); }, py::arg("plan"),
          "Append a copy.")
      .def("vary", &vary, py::arg("plan"), py::arg("numbers"), py::arg("table"),
           "Append copies of a plan with other numbers, a row of the table each, shape (cooks, numbers).\n"
           "Returns which rows were appended, and for the others (row, why not).")
      .def("__len__", [](const PlanBatch &batch) { return batch.plans()->size(); })
      .def(
          "__getitem__", [](const PlanBatch &batch, std::size_t i) { return batch.plans()->at(i); },
          py::arg("index"), "A copy of one of them.");
  m.def("restore", &restore, py::arg("plan"), py::arg("origin"),
        "Give a plan the values of another one of as many stages; references into it stay valid.");
}

} // namespace cook::python
