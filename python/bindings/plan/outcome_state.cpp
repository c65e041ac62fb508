#include "plan/outcome_state.hpp"

#include <array>
#include <string>

#include "cook/plan/outcome_fields.hpp"

#include "calls/coerce.hpp"
#include "records/record.hpp"
#include "records/views.hpp"

namespace cook::python {

namespace {

using Series = std::vector<double>;

/// Every array of an outcome with a name; `each` is called with (name, array).
template <class Out, class Each> void for_each_array(Out &out, Each each) {
  const auto faces = [&](const std::string &name, auto &arrays) {
    for (std::size_t s = 0; s < 2; ++s) {
      each(name + std::to_string(s), arrays[s]);
    }
  };
  const auto one = [&]<class T>(const cook::Field<Outcome, T> &field) {
    const std::string name(field.name);
    if constexpr (std::is_same_v<T, Series>) {
      each(name, out.*(field.member));
    } else if constexpr (std::is_same_v<T, std::array<Series, 2>>) {
      faces(name, out.*(field.member));
    }
  };
  for_each_field<Outcome>(one);
  std::apply([&](const auto &...field) { (one(field), ...); }, fields_of_nodes);
  for (std::size_t s = 0; s < 2; ++s) {
    for (std::size_t p = 0; p < face_paths; ++p) {
      each("paths" + std::to_string(s) + std::to_string(p), out.paths[s][p]);
    }
  }
}

} // namespace

py::tuple outcome_state(const py::object &self) {
  const auto &out = self.cast<const Outcome &>();
  py::dict state;
  for_each_array(
      out, [&](const std::string &name, const Series &data) { state[name.c_str()] = view(self, data); });
  py::list ends;
  for (const StageEnd &end : out.stage_ends) {
    ends.append(py::make_tuple(end.name, end.start, end.time, end.core, end.reason));
  }
  py::list events;
  for (const Event &event : out.events) {
    events.append(py::make_tuple(event.time, event.what));
  }
  py::list probes;
  for (const ProbeTrace &p : out.probes) {
    probes.append(py::make_tuple(p.name, p.x, p.z, p.temperature, p.tenderness));
  }
  state["probes"] = probes;
  state["columns"] = out.columns;
  state["lines"] = out.lines;
  state["region"] = out.region;
  state["plan"] = out.plan;
  state["face_area"] = out.face_area;
  state["stage_ends"] = ends;
  state["events"] = events;
  state["notes"] = out.notes;
  state["ledger"] = out.ledger;
  return py::make_tuple(pickle_version, state);
}

std::shared_ptr<Outcome> outcome_from_state(const py::tuple &pickled) {
  const py::dict state = coerce("state", pickled, pickle_version);
  auto out = std::make_shared<Outcome>();
  for_each_array(*out, [&](const std::string &name, Series &data) {
    const auto array =
        py::array_t<double, py::array::c_style | py::array::forcecast>::ensure(state[name.c_str()]);
    if (!array) {
      throw py::error_already_set();
    }
    data.assign(array.data(), array.data() + array.size());
  });
  for (const py::handle item : state["stage_ends"]) {
    const auto end = item.cast<py::tuple>();
    out->stage_ends.push_back({end[0].cast<std::string>(), end[1].cast<double>(), end[2].cast<double>(),
                               end[3].cast<double>(), end[4].cast<std::string>()});
  }
  for (const py::handle item : state["events"]) {
    const auto event = item.cast<py::tuple>();
    out->events.push_back({event[0].cast<double>(), event[1].cast<std::string>()});
  }
  for (const py::handle item : state["probes"]) {
    const auto p = item.cast<py::tuple>();
    out->probes.push_back({p[0].cast<std::string>(), p[1].cast<double>(), p[2].cast<double>(),
                           p[3].cast<std::vector<double>>(), p[4].cast<std::vector<double>>()});
  }
  out->columns = state["columns"].cast<int>();
  out->lines = state.contains("lines") ? state["lines"].cast<int>() : 0; // older ones have none
  out->region = state["region"].cast<std::vector<int>>();
  out->plan = state["plan"].cast<Plan>();
  out->face_area = state["face_area"].cast<std::array<double, 2>>();
  out->notes = state["notes"].cast<std::vector<std::string>>();
  out->ledger = state["ledger"].cast<Ledger>();
  out->validate();
  return out;
}

} // namespace cook::python
