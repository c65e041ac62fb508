#include "cook/fit/futures.hpp"

#include <pybind11/numpy.h>
#include <pybind11/stl.h>

#include "calls/long_call.hpp"
#include "module.hpp"
#include "records/views.hpp"

namespace cook::python {

namespace {

/// A table of a row for each cook.
py::array by_cook(const py::object &self, const std::vector<double> &data) {
  const auto &futures = self.cast<const Futures &>();
  const auto cooks = static_cast<py::ssize_t>(futures.bark.size());
  const auto size = static_cast<py::ssize_t>(data.size());
  return view(self, data, {cooks, cooks > 0 ? size / cooks : 0});
}

} // namespace

void bind_futures(py::module_ &m) {
  const auto table = [](std::vector<double> Futures::*member) {
    return [member](const py::object &self) { return by_cook(self, self.cast<const Futures &>().*member); };
  };
  const auto row = [](std::vector<double> Futures::*member) {
    return [member](const py::object &self) { return view(self, self.cast<const Futures &>().*member); };
  };
  py::class_<Futures>(m, "Futures", "Possible cooks under one plan; times since the start of the cook [s].")
      .def_readonly("why", &Futures::why, "Why the plan cannot be used; then there is nothing else.")
      .def_property_readonly("stage_end", table(&Futures::stage_end),
                             "When stages end [s] (cooks, stages); infinite: never.")
      .def_property_readonly("shown", table(&Futures::shown),
                             "What the thermometer shows at the looks [°C] (cooks, looks).")
      .def_property_readonly("bark", row(&Futures::bark), "Index of the bark while bare [-] (cooks,).")
      .def_property_readonly("come_up", row(&Futures::come_up),
                             "The coldest part's way through the danger zone [s] (cooks,).")
      .def_property_readonly("lethal_before", row(&Futures::lethal_before),
                             "By how much 6.5 decimal reductions come before the wait [s] (cooks,).")
      .def_property_readonly("kept", table(&Futures::kept), "Share of the raw weight left (cooks, waits).")
      .def_property_readonly("tenderness", table(&Futures::tenderness),
                             "Collagen converted at the core [-] (cooks, waits).")
      .def_property_readonly("coldest", table(&Futures::coldest),
                             "Lowest temperature in the meat [°C] (cooks, waits).")
      .def_property_readonly("core", table(&Futures::core), "Core [°C] (cooks, waits).");
  m.def(
      "futures",
      [](const Forecast &base, std::vector<std::vector<Stage>> plans, std::vector<std::size_t> members,
         std::vector<double> looks, std::vector<double> waits) {
        FuturesQuery query;
        query.members = std::move(members);
        query.looks = std::move(looks);
        query.waits = std::move(waits);
        return long_call([&, own = base](const std::function<bool()> &interrupted) {
          query.interrupted = interrupted;
          return futures(own, plans, query);
        });
      },
      py::arg("forecast"), py::arg("plans"), py::arg("members"), py::arg("looks"), py::arg("waits"),
      "Possible cooks of a forecast under each of the plans; Ctrl-C stops it.");
}

} // namespace cook::python
