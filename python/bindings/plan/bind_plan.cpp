#include "cook/plan/plan.hpp"

#include <array>

#include "module.hpp"
#include "records/record.hpp"

namespace cook::python {

namespace {

/// Words and units of the ends, in the order of EndKind.
struct EndWord {
  const char *word;
  const char *kind; ///< of the value, a key of libcook.units.KINDS
};
constexpr std::array end_words{
    EndWord{"core", "temperature"}, EndWord{"cooled", "temperature"}, EndWord{"elapsed", "duration"},
    EndWord{"clock", "clock"},      EndWord{"bark", "dimensionless"}, EndWord{"tender", "dimensionless"},
};

py::tuple end_names() {
  py::tuple names(end_words.size());
  for (std::size_t i = 0; i < end_words.size(); ++i) {
    names[i] = end_words[i].word;
  }
  return names;
}

void bind_end(py::module_ &m) {
  Record<End> r(m, "End", "end", "One end condition of a stage. Does not change once made.");
  r.add({.name = "kind",
         .get = [](End &e, py::handle) -> py::object {
           return py::str(end_words.at(static_cast<std::size_t>(e.kind)).word);
         },
         .set =
             [](End &e, py::handle v) {
               const std::string word = read_choice(v, end_names(), "end.kind");
               for (std::size_t i = 0; i < end_words.size(); ++i) {
                 if (word == end_words.at(i).word) {
                   e.kind = static_cast<EndKind>(i);
                 }
               }
             },
         .doc = "\"core\", \"cooled\", \"elapsed\", \"clock\", \"bark\" or \"tender\".",
         .fixed = true});
  r.add({.name = "value",
         .get = [](End &e, py::handle) -> py::object { return py::float_(e.value); },
         // Fields are set in the order they are declared in, so the kind is known here.
         .set =
             [](End &e, py::handle v) {
               const EndWord &word = end_words.at(static_cast<std::size_t>(e.kind));
               e.value = read_quantity(v, word.kind, word.word);
             },
         .doc = "Temperature [°C], time [s], time of day [s after midnight], water content [kg/kg dry] or "
                "share [-].",
         .fixed = true});
  r.add({.name = "every",
         .get = [](End &e, py::handle) -> py::object { return py::float_(e.every); },
         .set = [](End &e, py::handle v) { e.every = read_quantity(v, "duration", "end.every"); },
         .doc = "Looked at only every so often, from the start of the stage on [s]; 0: all the time.",
         .fixed = true});
  r.finish({}, "end_form");
  r.cls.def("__or__", [](const End &a, const py::object &b) { return coerce("first_of", a, b); })
      .def("__ror__", [](const End &a, const py::object &b) { return coerce("first_of", b, a); });
}

void bind_events(py::module_ &m) {
  Record<Spritz>(m, "Spritz", "spritz", "Liquid sprayed on the top face at intervals.")
      .quantity("every", &Spritz::every, "duration", "Interval [s].")
      .quantity("first", &Spritz::first, "duration", "First time, after the start of the stage [s].")
      .quantity("amount", &Spritz::amount, "areal_mass", "Liquid each time [kg/m²].")
      .quantity("temperature", &Spritz::temperature, "temperature", "Of the liquid [°C].")
      .quantity("lid_open", &Spritz::lid_open, "duration", "How long the lid stays open for it [s].")
      .finish();
  Record<LidOpening>(m, "LidOpening", "lid", "The lid opened once.")
      .quantity("at", &LidOpening::at, "duration", "When, after the start of the stage [s].")
      .quantity("duration", &LidOpening::duration, "duration", "How long [s].")
      .finish();
}

} // namespace

void bind_plan(py::module_ &m) {
  bind_end(m);
  bind_events(m);

  Record<Stage> stage(m, "Stage", "stage", "One stage of a plan: where, under what, until when.");
  stage.text("name", &Stage::name, "What it is called.")
      .nested("surroundings", &Stage::surroundings, "Where the meat is.")
      .add({.name = "until",
            .get = [](Stage &s, py::handle) -> py::object { return py::tuple(py::cast(s.until)); },
            .set = [](Stage &s,
                      py::handle v) { s.until = coerce("ends", v, "stage.until").cast<std::vector<End>>(); },
            .doc = "What ends it (tuple of `End`): the first one reached. Takes one end, several joined by "
                   "``|``, or a list."})
      .nested("wrap", &Stage::wrap, "The wrap; takes its name too.", "wrap")
      .nested("spritz", &Stage::spritz, "Spritzing, or None.")
      .add(
          {.name = "lid",
           .get = [](Stage &s, py::handle) -> py::object { return py::tuple(py::cast(s.lid)); },
           .set = [](Stage &s,
                     py::handle v) { s.lid = coerce("lid", v, "stage.lid").cast<std::vector<LidOpening>>(); },
           .doc = "Lid openings (tuple); takes pairs of time after the start of the stage and duration."})
      .quantity("at_most", &Stage::at_most, "duration", "Give up after this long [s].")
      .copied(
          "probe", &Stage::probe,
          "Where the probe sits that the core and `until` follow from this stage on (a `Probe` or the name "
          "of a place), or None: as before.",
          "probe")
      .finish();

  Record<Plan> plan(m, "Plan", "plan",
                    "A cook from start to slice: a piece of meat and the stages it goes through.");
  plan.nested("meat", &Plan::meat, "The piece.")
      .add(
          {.name = "stages",
           // NOTE: references into the vector; it is never resized once the plan is made, so they stay valid.
           .get = [](Plan &p, py::handle owner) -> py::object {
             py::tuple stages(p.stages.size());
             for (std::size_t i = 0; i < p.stages.size(); ++i) {
               stages[i] = py::cast(&p.stages[i], py::return_value_policy::reference_internal, owner);
             }
             return stages;
           },
           .set =
               [](Plan &p, py::handle v) {
                 p.stages = coerce("stages", v, "plan.stages").cast<std::vector<Stage>>();
               },
           .doc = "The stages in order (tuple); each can be changed, but not how many there are (see "
                  "`replace`).",
           .fixed = true})
      .add({.name = "start",
            .get = [](Plan &p, py::handle) -> py::object { return py::cast(p.clock_start); },
            .set =
                [](Plan &p, py::handle v) {
                  p.clock_start = v.is_none()
                                      ? std::optional<double>{}
                                      : std::optional<double>{read_quantity(v, "clock", "plan.start")};
                },
            .doc = "Time of day at the start [s after midnight] or None; takes text such as \"05:30\"."})
      .add({.name = "probes",
            .get = [](Plan &p, py::handle) -> py::object { return py::tuple(py::cast(p.probes)); },
            .set =
                [](Plan &p, py::handle v) {
                  p.probes = coerce("probes", v, "plan.probes").cast<std::vector<Probe>>();
                },
            .doc = "Further probes, read all through the cook (tuple of `Probe`)."})
      .finish([](const Plan &made) { made.validate(); }, "plan_form");
  plan.cls.def("validate", &Plan::validate, "Raise `InvalidInput` naming the field that cannot be used.");
}

} // namespace cook::python
