#include "cook/plan/plan_fields.hpp"

#include "module.hpp"
#include "records/record.hpp"

namespace cook::python {

namespace {

void bind_end(py::module_ &m) {
  Record<End> r(m);
  // Fields are set in the order they are listed in, so the kind is known here.
  r.of("value").set = [](End &e, py::handle v) {
    e.value = read_quantity(v, known(e.kind).value.name.data(), std::string(known(e.kind).word));
  };
  r.of("value").takes = "Quantity";
  r.fixed().finish({}, "end_form");
  py::dict kinds; // kind of quantity, its unit, and what an axis calls it
  for (const KnownEnd &end : known_ends) {
    kinds[end.word.data()] =
        py::make_tuple(std::string(end.value.name), std::string(end.value.unit), std::string(end.axis));
  }
  m.attr("END_KINDS") = kinds;
  r.cls.def("__or__", [](const End &a, const py::object &b) { return coerce("first_of", a, b); })
      .def("__ror__", [](const End &a, const py::object &b) { return coerce("first_of", b, a); });
}

} // namespace

void bind_plan(py::module_ &m) {
  bind_end(m);
  Record<Spritz>(m).finish();
  Record<LidOpening>(m).finish();
  Record<Stage>(m, {{"until", "ends", "End | Sequence[End]"},
                    {"wrap", "wrap", "Wrap | str | None"},
                    {"lid", "lid", "Sequence[LidOpening | tuple[Any, Any]]"},
                    {"probe", "probe", "Probe | str"}})
      .before("until", "wrap")
      .finish();

  Record<Plan> plan(m, {{"stages", "stages", "Sequence[Stage] | Stage"},
                        {"probes", "probes", "Sequence[Probe] | Probe | str"}});
  // NOTE: references into the vector; it is never resized once the plan is made, so they stay valid.
  plan.of("stages").get = [](Plan &p, py::handle owner) -> py::object {
    py::tuple stages(p.stages.size());
    for (std::size_t i = 0; i < p.stages.size(); ++i) {
      stages[i] = py::cast(&p.stages[i], py::return_value_policy::reference_internal, owner);
    }
    return stages;
  };
  plan.of("stages").fixed = true;
  plan.of("stages").doc += " Each can be changed, but not how many there are (see `replace`).";
  plan.before("stages", "start").finish([](const Plan &made) { made.validate(); }, "plan_form");
  plan.cls.def("validate", &Plan::validate, "Raise `InvalidInput` naming the field that cannot be used.");
}

} // namespace cook::python
