#include "cook/cooker/cooker_fields.hpp"

#include "module.hpp"
#include "records/record.hpp"

namespace cook::python {

void bind_wrap(py::module_ &m) {
  Record<Covering>(m).finish();
  Record<Wrap>(m).finish([](const Wrap &made) { made.validate("wrap"); });
  m.def("wrap", &wrap, py::arg("name"), "A wrap by name.");
  m.def("wrap_names", &wrap_names, "Names that `wrap` takes.");
}

} // namespace cook::python
