#include "module.hpp"

#include <algorithm>
#include <cstdlib>
#include <utility>

#include "calls/ending.hpp"
#include "calls/turns.hpp"

namespace {

/// Classes, and what waits for the interpreter's end, are one for the process. pybind11 would hang in a
/// second interpreter before any code of ours runs, so this is asked before its own.
bool in_main_interpreter() {
  if (PyInterpreterState_Get() == PyInterpreterState_Main()) {
    return true;
  }
  // As Python 3.12 and later say by themselves; the package tells the reason.
  PyErr_SetString(PyExc_ImportError, "module libcook._core does not support loading in subinterpreters");
  return false;
}

/// NOTE: an object made by `__new__` alone has no struct; pybind11 gives it memory when it is first used,
/// with whatever lies there. This is where that memory is asked for.
void *refuse(std::size_t) {
  throw pybind11::type_error("this object was never made: its class was not called, only __new__");
}

newfunc make_object = nullptr; ///< pybind11's own

/// NOTE: pybind11 throws through Python's C code when its common base class is called itself, which ends the
/// process. Python's oldest forms of pickles do so.
PyObject *make_no_base(PyTypeObject *type, PyObject *arguments, PyObject *named) {
  if (pybind11::detail::all_type_info(type).empty()) {
    PyErr_Format(PyExc_TypeError, "cannot create '%.200s' instances", type->tp_name);
    return nullptr;
  }
  return make_object(type, arguments, named);
}

/// Before any class is made.
void refuse_bare_objects() {
  auto *base = reinterpret_cast<PyTypeObject *>(pybind11::detail::get_internals().instance_base);
  if (base->tp_new != make_no_base) {
    make_object = std::exchange(base->tp_new, make_no_base);
  }
}

/// The oldest forms of pickles have no place for a state, so the first that has is written instead.
pybind11::object reduce(const pybind11::object &self, int protocol) {
  const auto object = pybind11::reinterpret_borrow<pybind11::object>((PyObject *)&PyBaseObject_Type);
  return object.attr("__reduce_ex__")(self, std::max(protocol, 2));
}

/// Once all classes are made.
void finish_classes(const pybind11::module_ &m) {
  for (const auto &[name, thing] : m.attr("__dict__").cast<pybind11::dict>()) {
    if (pybind11::isinstance<pybind11::type>(thing)) {
      auto *type = reinterpret_cast<PyTypeObject *>(thing.ptr());
      if (pybind11::detail::type_info *info = pybind11::detail::get_type_info(type)) {
        info->operator_new = refuse;
        thing.attr("__reduce_ex__") =
            pybind11::cpp_function(reduce, pybind11::is_method(thing), pybind11::name("__reduce_ex__"));
      }
    }
  }
}

} // namespace

// The classes of a field are bound before the class that has it.
PYBIND11_MODULE(_core_in_main_interpreter, m, pybind11::mod_gil_not_used()) {
  using namespace cook::python;
  // Signatures are in _core.pyi, where they carry types that tools understand; its maker asks for them.
  pybind11::options options;
  if (std::getenv("LIBCOOK_SIGNATURES") == nullptr) {
    options.disable_function_signatures();
  }

  m.doc() = "The C++ core of libcook. Use it through the package libcook, which knows units.";
  m.attr("__version__") = COOK_VERSION;
  refuse_bare_objects();
  bind_errors(m);
  bind_fields(m);
  bind_food_components(m);
  bind_tissue(m);
  bind_section(m);
  bind_shape(m);
  bind_signal(m);
  bind_film(m);
  bind_pit_air(m);
  bind_surroundings(m);
  bind_wrap(m);
  bind_probe(m);
  bind_plan(m);
  bind_ledger(m);
  bind_outcome(m);
  bind_readings(m);
  bind_doneness(m);
  bind_simulate(m);
  bind_simulate_many(m);
  bind_plan_batch(m);
  bind_read_many(m);
  bind_json(m);
  bind_parameters(m);
  bind_physics(m);
  bind_components(m);
  bind_equations(m);
  bind_calibrate(m);
  bind_forecast(m);
  bind_belief(m);
  bind_schedule(m);
  bind_futures(m);
  finish_classes(m);
  take_turns(m);
  watch_for_the_end();
}

/// What Python calls for libcook._core.
PYBIND11_PLUGIN_IMPL(_core) { return in_main_interpreter() ? PyInit__core_in_main_interpreter() : nullptr; }
