#include "cook/plan/outcome_fields.hpp"

#include "module.hpp"
#include "records/record.hpp"

namespace cook::python {

void bind_ledger(py::module_ &m) { Record<Ledger>(m).fixed().finish(); }

} // namespace cook::python
