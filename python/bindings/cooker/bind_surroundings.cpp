#include "cook/cooker/surroundings.hpp"

#include "calls/door.hpp"
#include "module.hpp"
#include "records/record.hpp"

namespace cook::python {

namespace {

/// A signal-valued field, which takes a number, text, a schedule, a log: whatever libcook._coerce.signal
/// reads.
Field<Surroundings> signal(const char *name, Signal Surroundings::*member, const char *kind,
                           const char *doc) {
  return {.name = name,
          .get = [member](Surroundings &s, py::handle) { return py::cast(s.*member); },
          .set = [member, kind, field = std::string("surroundings.") + name](
                     Surroundings &s, py::handle v) { s.*member = read_signal(v, kind, field); },
          .doc = doc};
}

/// The same, or None.
Field<Surroundings> maybe_signal(const char *name, std::optional<Signal> Surroundings::*member,
                                 const char *kind, const char *doc) {
  return {.name = name,
          .get = [member](Surroundings &s, py::handle) { return py::cast(s.*member); },
          .set =
              [member, kind, field = std::string("surroundings.") + name](Surroundings &s, py::handle v) {
                s.*member = v.is_none() ? std::optional<Signal>{}
                                        : std::optional<Signal>{read_signal(v, kind, field)};
              },
          .doc = doc};
}

} // namespace

void bind_film(py::module_ &m) {
  Record<Film>(m, "Film", "film", "How heat passes from the air to one face.")
      .choice("kind", &Film::kind, {"given", "natural", "forced"},
              "\"given\": `value` is the film coefficient; \"natural\": still air; \"forced\": `value` is "
              "the air speed.")
      .number("value", &Film::value,
              "Film coefficient [W/(m²·K)] or air speed [m/s]; unused for \"natural\".")
      .quantity("length", &Film::length, "length",
                "Characteristic length [m]: area / perimeter in still air, length along the stream in "
                "forced; 0: that of "
                "the piece.")
      .number("factor", &Film::factor, "On what the correlation gives [-].")
      .finish();
}

void bind_surroundings(py::module_ &m) {
  Record<Box>(m, "Box", "box", "A lumped insulated box: air, liner and walls share one temperature.")
      .number("heat_capacity", &Box::heat_capacity,
              "Of liner, towels and inner wall that warm up with it [J/K].")
      .number("loss", &Box::loss, "To the room [W/K].")
      .quantity("start", &Box::start, "temperature", "Temperature when the meat goes in [°C].")
      .finish();

  Record<Surroundings> r(
      m, "Surroundings", "surroundings",
      "Where the meat is during a stage. Times of signals count from the start of the cook.");
  r.text("kind", &Surroundings::kind, "What it is called.")
      .add(signal("air", &Surroundings::air, "temperature", "Air temperature; with a box: the room's [°C]."))
      .add(maybe_signal("air_below", &Surroundings::air_below, "temperature",
                        "Air under the bottom face where it differs [°C], or None."))
      .quantity("radiant_bottom", &Surroundings::radiant_bottom, "temperature_difference",
                "What the bottom face sees, above air temperature (coals) [K].")
      .quantity("radiant_top", &Surroundings::radiant_top, "temperature_difference",
                "What the top face sees, above air temperature [K].")
      .quantity("view", &Surroundings::view, "dimensionless", "Factor on the radiation exchange [-].")
      .nested("bottom", &Surroundings::bottom, "Film of the bottom face.", "film")
      .nested("top", &Surroundings::top, "Film of the top face.", "film")
      .add(signal("vapour_pressure", &Surroundings::vapour_pressure, "pressure", "Of water in the air [Pa]."))
      .quantity("pressure", &Surroundings::pressure, "pressure", "Total pressure [Pa].")
      .quantity("ambient", &Surroundings::ambient, "temperature", "Outside, for lid openings [°C].")
      .nested("box", &Surroundings::box, "Insulated box around the meat, or None.")
      .nested("pit_air", &Surroundings::pit_air,
              "Vapour balance of the cooker's own air, or None: the vapour pressure is given.");
  r.finish();
  r.cls.def(
      "validate",
      door([](const Surroundings &s, const std::string &field) { s.validate(field); }, {"self", "field"}),
      py::arg("field") = "surroundings", "Raise `InvalidInput` naming the field that is out of range.");

  m.def("pit_kinds", &pit_kinds, "Kinds of cooker that `pit` knows.");
  m.def("pit", &pit, py::arg("kind"), py::arg("air"), "A generic cooker.");
  m.def("oven", &oven, py::arg("air"), py::arg("fan"), "A kitchen oven.");
  m.def("holding_oven", &holding_oven, py::arg("air"), py::arg("humidity"), "An oven that holds meat.");
  m.def("counter", &counter, py::arg("room"), "A kitchen counter.");
  m.def("insulated_box", &insulated_box, py::arg("room"), py::arg("box"), "A towel-lined insulated box.");
}

} // namespace cook::python
