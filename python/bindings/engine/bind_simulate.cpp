#include "cook/engine/simulate.hpp"

#include "calls/long_call.hpp"
#include "module.hpp"
#include "records/record.hpp"

namespace cook::python {

namespace {

std::shared_ptr<Outcome> simulate_plan(const Plan &plan, const Options &options) {
  return long_call([own = plan, mine = options](const std::function<bool()> &interrupted) mutable {
    mine.interrupted = interrupted;
    return std::const_pointer_cast<Outcome>(simulate(own, mine));
  });
}

} // namespace

void bind_simulate(py::module_ &m) {
  Record<Physics>(m, "Physics", "physics", "Parts of the physics that can be turned off to see what they do.")
      .flag("evaporation", &Physics::evaporation, "Water leaves the faces as vapour.")
      .flag("squeezing", &Physics::squeezing, "Denaturing proteins express juice.")
      .flag("radiation", &Physics::radiation, "The walls radiate.")
      .flag("sinks", &Physics::sinks, "Melting fat and denaturing protein take up heat.")
      .finish();
  Record<Options>(m, "Options", "options", "How the equations are solved.")
      .choice("grid", &Options::grid, {"piece", "slab", "cross-section"}, "What the equations are solved on.")
      .count("columns", &Options::columns, "Cross-section: nodes along the length (11 to 801).")
      .count("rows", &Options::rows, "Cross-section: nodes across the thickness (odd, 9 to 401).")
      .quantity("end_spacing", &Options::end_spacing, "length",
                "Cross-section: distance of the first column from an end face [m].")
      .count("sweeps", &Options::sweeps,
             "Cross-section: passes of a step's first linear solve (1 to 20); later ones take one less.")
      .count("nodes", &Options::nodes,
             "Across the thickness (odd, 9 to 2001); half of it along a cylinder's radius.")
      .maybe("face_spacing", &Options::face_spacing, "length",
             "Distance of the first node from a face [m]; None: 0.15 mm for a slab, 0.4 mm for a section.")
      .quantity("temperature_tolerance", &Options::temperature_tolerance, "temperature_difference",
                "Local error per step [K].")
      .number("water_tolerance", &Options::water_tolerance, "Local error per step [kg/kg dry].")
      .quantity("output_every", &Options::output_every, "duration", "Spacing of the stored times [s].")
      .flag("keep_fields", &Options::keep_fields, "Store every node, not only core and faces.")
      .count("max_steps", &Options::max_steps,
             "Steps from one moment of the plan to the next, and within a day, after which it is given up.")
      .nested("physics", &Options::physics, "Switches.")
      .finish([](const Options &made) { made.validate(); });
  m.def("simulate", &simulate_plan, py::arg("plan"), py::arg("options"),
        "Run a plan with the interpreter free for other threads; Ctrl-C stops it.");
}

} // namespace cook::python
