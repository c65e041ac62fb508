#include "cook/json/json.hpp"

#include "calls/coerce.hpp"
#include "calls/door.hpp"
#include "module.hpp"

namespace cook::python {

void bind_json(py::module_ &m) {
  auto plan = py::reinterpret_borrow<py::class_<Plan>>(m.attr("Plan"));
  plan.def(
          "to_json",
          [](const Plan &self, const py::object &indent) {
            return to_json(self, coerce("whole", indent, "indent", -1, 100).cast<int>());
          },
          py::arg("indent") = 2, "Return the plan as JSON text, every field written out.")
      .def_static("from_json", door([](const std::string &text) { return plan_from_json(text); }, {"text"}),
                  py::arg("text"),
                  "Read a plan from JSON text; raises `InvalidInput` whose field is the path in the text.");
  m.def(
      "outcome_to_json",
      [](const Outcome &outcome, bool fields, int indent) { return to_json(outcome, fields, indent); },
      py::arg("outcome"), py::arg("fields"), py::arg("indent"), "JSON text of an outcome.");
  m.def(
      "outcome_from_json",
      [](const std::string &text) { return std::make_shared<Outcome>(outcome_from_json(text)); },
      py::arg("text"), "The outcome of a JSON text.");
  m.def(
      "plan_schema", [] { return std::string(plan_schema()); }, "The JSON Schema of a plan.");
}

} // namespace cook::python
