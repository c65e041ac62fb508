import json
import sys

import numpy as np
import pytest
from invented_outcome import invented_outcome

from libcook.readings.frames import to_frame, to_xarray


def test_frame_holds_every_trace_with_its_unit():
    out = invented_outcome()
    frame = to_frame(out)
    assert frame.index.name == "elapsed [h]"
    np.testing.assert_allclose(frame.index, out.time / 3600.0)
    np.testing.assert_array_equal(frame["core [°C]"], out.core)
    np.testing.assert_array_equal(frame["surface bottom [°C]"], out.surface[:, 0])
    np.testing.assert_array_equal(frame["surface top [°C]"], out.surface[:, 1])
    np.testing.assert_array_equal(frame["mean water [kg/kg dry]"], out.mean_water)
    assert all(name == "stage" or name.endswith("]") for name in frame.columns)


def test_frame_in_fahrenheit_converts_temperatures_only():
    out = invented_outcome()
    frame = to_frame(out, units="F")
    assert not [name for name in frame.columns if "°C" in name]
    assert frame["air [°F]"].iloc[0] == pytest.approx(249.8)  # 121 °C
    np.testing.assert_array_equal(frame["tenderness [share]"], out.tenderness)


def test_a_stage_holds_the_moment_at_which_it_ends():
    out = invented_outcome()
    stage = to_frame(out)["stage"]
    assert stage.iloc[0] == "smoke"
    assert stage.loc[6.0] == "smoke" and stage.loc[10.0] == "wrapped"
    assert stage[stage.index > 6.0].iloc[0] == "wrapped" and stage.iloc[-1] == "rest"
    assert list(stage.cat.categories) == ["smoke", "wrapped", "rest"]


def test_two_stages_of_one_name_share_it():
    stage = to_frame(invented_outcome(names=("hot", "cool", "hot")))["stage"]
    assert list(stage.cat.categories) == ["hot", "cool"] and stage.iloc[-1] == "hot"


def test_a_cylinder_has_one_surface():
    frame = to_frame(invented_outcome(cylinder=True))
    assert "surface [°C]" in frame and not [name for name in frame if "bottom" in name or "top" in name]
    assert list(to_xarray(invented_outcome(cylinder=True)).face.values) == ["surface"]


def test_frame_and_data_set_are_copies():
    out = invented_outcome()
    frame, data = to_frame(out), to_xarray(out)
    frame.loc[:, "core [°C]"] = -1.0
    data["core"][:] = -1.0
    assert out.core.min() == 4.0


def test_data_set_has_the_fields_on_their_axes():
    out = invented_outcome()
    data = to_xarray(out)
    assert data.temperature.dims == ("time", "node") and data.surface.dims == ("time", "face")
    np.testing.assert_array_equal(data.temperature.values, out.temperature)
    np.testing.assert_array_equal(data.position.values, out.position)
    assert float(data.surface.sel(face="top")[-1]) == out.surface[-1, 1]
    assert data.temperature.groupby("stage").mean(...).sel(stage="rest") > 60.0


def test_every_variable_and_axis_says_its_unit():
    data = to_xarray(invented_outcome())
    for name, variable in {**data.data_vars, **data.coords}.items():
        assert variable.attrs["long_name"], name
        assert name in ("stage", "face") or variable.attrs["units"], name
    assert data.core.attrs["units"] == "degC" and data.time.attrs["units"] == "s"


def test_data_set_without_fields():
    data = to_xarray(invented_outcome(fields=False))
    assert "temperature" not in data and "core" in data


def test_provenance_is_numbers_and_text():
    out = invented_outcome(clock_start=3600.0)
    for attrs in (to_xarray(out).attrs, to_frame(out).attrs):
        assert all(isinstance(value, (str, float)) for value in attrs.values())
        json.dumps(attrs)
        assert "wrapped: oven, butcher paper, from 21600 s to 36000 s (core reached 94 °C)" in attrs["stages"]
        assert "spritz at 7200 s" in attrs["events"]
        assert attrs["title"] == "Simulated cook: invented meat"
        assert attrs["raw_mass_kg"] == 6.4 and attrs["clock_start_s"] == 3600.0
        assert attrs["caution"] == out.safety().caution


@pytest.mark.parametrize(("package", "function"), [("pandas", to_frame), ("xarray", to_xarray)])
def test_a_missing_package_is_named_with_the_command(monkeypatch, package, function):
    monkeypatch.setitem(sys.modules, package, None)
    with pytest.raises(ImportError, match=rf"{package}.*pip install 'libcook\[frames\]'"):
        function(invented_outcome())


def test_unknown_unit_is_refused():
    with pytest.raises(ValueError, match="units: 'K'"):
        to_frame(invented_outcome(), units="K")
