#include "cook/plan/outcome_fields.hpp"

#include <array>

#include "cook/errors.hpp"
#include "cook/plan/words.hpp"

#include "module.hpp"
#include "plan/outcome_state.hpp"
#include "records/record.hpp"
#include "records/views.hpp"

namespace cook::python {

namespace {

/// The faces there are: a cylinder has the second one only.
std::vector<std::size_t> faces(const Outcome &out) {
  return out.plan.meat.shape.kind == ShapeKind::cylinder ? std::vector<std::size_t>{1}
                                                         : std::vector<std::size_t>{0, 1};
}

std::vector<std::string> face_names(const Outcome &out) {
  return out.plan.meat.shape.kind == ShapeKind::cylinder ? std::vector<std::string>{"surface"}
                                                         : std::vector<std::string>{"bottom", "top"};
}

/// One column a face. The faces are stored apart, so this is the one kind of array that is put together when
/// asked for.
py::array by_face(const Outcome &out, const std::array<std::vector<double>, 2> &series) {
  const auto which = faces(out);
  for (const std::size_t face : which) { // an outcome from elsewhere may lack a face
    if (series[face].size() != out.times()) {
      throw InvalidInput("outcome", "it has no traces of its faces");
    }
  }
  py::array_t<double> array({out.times(), which.size()});
  auto cells = array.mutable_unchecked<2>();
  for (std::size_t k = 0; k < which.size(); ++k) {
    for (std::size_t i = 0; i < out.times(); ++i) {
      cells(static_cast<py::ssize_t>(i), static_cast<py::ssize_t>(k)) = series[which[k]][i];
    }
  }
  array.attr("flags").attr("writeable") = false;
  return array;
}

using Class = py::class_<Outcome, std::shared_ptr<Outcome>>;

/// How an array of the list is handed out: numbers over time or over the nodes, faces in columns.
void series(Class &cls, const cook::Field<Outcome, std::vector<double>> &one) {
  const bool of_nodes = one.words.find("node") != std::string_view::npos;
  cls.def_property_readonly(one.name.data(), view_of(one.member),
                            sentence(words_and_unit(one) + (of_nodes ? " (nodes,)" : " (times,)")).c_str());
}

void series(Class &cls, const cook::Field<Outcome, std::array<std::vector<double>, 2>> &one) {
  cls.def_property_readonly(
      one.name.data(), [member = one.member](const Outcome &out) { return by_face(out, out.*member); },
      sentence(words_and_unit(one) + " (times, faces)").c_str());
}

/// Lists that are handed out by hand.
template <class T> void series(Class & /*cls*/, const cook::Field<Outcome, T> & /*one*/) {}

void node_field(Class &cls, const cook::Field<Outcome, std::vector<double>> &one) {
  cls.def_property_readonly(
      one.name.data(),
      [member = one.member](const py::object &self) {
        const auto &out = self.cast<const Outcome &>();
        const auto &data = out.*member;
        const auto rows = static_cast<py::ssize_t>(data.empty() ? 0 : out.times());
        return view(self, data, {rows, static_cast<py::ssize_t>(out.nodes())});
      },
      sentence(words_and_unit(one) + " (times, nodes); no rows when the fields were not kept").c_str());
}

} // namespace

void bind_outcome(py::module_ &m) {
  Class cls(m, "Outcome", "What a simulation computed; does not change.");
  // NOTE: shares the C++ object, so that the Python class derived from this one costs no copy.
  cls.def(py::init([](const std::shared_ptr<Outcome> &other) { return other; }), py::arg("other"));
  cls.def(py::pickle(&outcome_state, &outcome_from_state));

  for_each_field<Outcome>([&](const auto &one) { series(cls, one); });
  std::apply([&](const auto &...one) { (node_field(cls, one), ...); }, fields_of_nodes);
  cls.def_property_readonly(
         "lines", [](const Outcome &out) { return std::max(out.lines, out.columns > 0 ? 0 : 1); },
         "Lines of nodes side by side: 2 on a whole piece, the nodes of its middle first, then those of its "
         "rim; 1 on "
         "a slab or cylinder, 0 on a cross-section.")
      .def_property_readonly(
          "columns", [](const Outcome &out) { return out.columns; },
          "Nodes along the length of a cross-section; node = column * rows + row. 0 in 1-D.")
      .def_property_readonly(
          "region", [](const Outcome &out) { return array_of(out.region); },
          "Of the nodes of a cross-section: 0 flat, 1 point, 2 seam (nodes,); empty in 1-D.")
      .def("_probes", [](const py::object &self) {
        const auto &out = self.cast<const Outcome &>();
        py::list probes;
        for (const ProbeTrace &p : out.probes) {
          probes.append(
              py::make_tuple(p.name, p.x, p.z, view(self, p.temperature), view(self, p.tenderness)));
        }
        return probes;
      });

  cls.def_property_readonly(
         "faces", [](const Outcome &out) { return py::tuple(py::cast(face_names(out))); },
         "Names of the faces: (\"bottom\", \"top\"), of a cylinder (\"surface\",).")
      .def_property_readonly(
          "face_area",
          [](const Outcome &out) {
            std::vector<double> areas;
            for (const std::size_t s : faces(out)) {
              areas.push_back(out.face_area[s]);
            }
            return areas;
          },
          "Areas of the faces [m²].")
      .def_property_readonly(
          "paths",
          [](const py::object &self) {
            const auto &out = self.cast<const Outcome &>();
            const auto which = faces(out);
            const auto names = face_names(out);
            py::dict all;
            for (std::size_t k = 0; k < which.size(); ++k) {
              py::dict one;
              for (std::size_t p = 0; p < face_paths; ++p) {
                one[words(FacePath{})[p].data()] = view(self, out.paths[which[k]][p]);
              }
              all[names[k].c_str()] = one;
            }
            return all;
          },
          "Running totals per face area, by face and path: heat [J/m²], into the meat; water [kg/m²], out of "
          "it.")
      .def_property_readonly(
          "plan", [](const Outcome &out) { return out.plan; }, "The plan that was run (a copy).")
      .def_property_readonly(
          "ledger", [](const Outcome &out) { return out.ledger; }, "Totals and residuals.")
      .def_property_readonly(
          "notes", [](const Outcome &out) { return out.notes; }, "What a user should know.")
      .def_property_readonly(
          "events",
          [](const Outcome &out) {
            std::vector<std::pair<double, std::string>> events;
            for (const Event &event : out.events) {
              events.emplace_back(event.time, event.what);
            }
            return events;
          },
          "What happened: (time [s], \"spritz\" or \"lid\").")
      .def("_stage_ends",
           [](const Outcome &out) {
             py::list ends;
             for (const StageEnd &end : out.stage_ends) {
               ends.append(py::make_tuple(end.name, end.time, end.core, end.start, end.reason));
             }
             return ends;
           })
      .def("_core_at", &Outcome::core_at, py::arg("seconds"))
      .def(
          "_probe", [](const Outcome &out, double position) { return array_of(out.probe(position)); },
          py::arg("position"))
      .def(
          "_probe_at", [](const Outcome &out, double x, double z) { return array_of(out.probe(x, z)); },
          py::arg("x"), py::arg("z"));
}

} // namespace cook::python
