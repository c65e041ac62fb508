"""The figure of a log: its lines, gaps and events.

All logs here are invented data.
"""

import datetime as dt
import sys

import numpy as np
import pytest
from invented_logs import invented_log

from libcook.errors import InvalidInput
from libcook.logs import Log

matplotlib = pytest.importorskip("matplotlib")
matplotlib.use("Agg")
pyplot = pytest.importorskip("matplotlib.pyplot")


@pytest.fixture(autouse=True)
def close():
    yield
    pyplot.close("all")


def made(start=None) -> Log:
    time = np.delete(np.arange(0.0, 36000.0, 60.0), np.s_[300:340])
    core = 4.0 + 8.0 * time / 3600.0
    core[50:60] = np.nan
    return Log(time, core=core, pit=np.full(time.size, 120.0), thin_end=core + 5.0, start_clock=start)


def drawn(ax):
    return {line.get_label(): line for line in ax.lines}


def words(ax):
    return [text.get_text() for text in ax.texts]


def test_every_column_is_a_line_with_its_name():
    ax = made().plot()
    assert {"core", "pit", "thin_end"} <= drawn(ax).keys()
    assert {"core", "pit", "thin end"} <= set(words(ax))
    assert ax.get_ylabel() == "temperature [°C]"
    assert ax.get_xlabel() == "time since the first reading [h]"
    pit = drawn(ax)["pit"]
    assert np.nanmin(pit.get_ydata()) == 120.0


def test_fahrenheit_and_dark_and_own_axes():
    _, own = pyplot.subplots()
    ax = made().plot("F", ax=own, theme="dark")
    assert ax is own and ax.get_ylabel() == "temperature [°F]"
    assert np.nanmax(drawn(ax)["pit"].get_ydata()) == pytest.approx(248.0)
    with pytest.raises(InvalidInput, match="units"):
        made().plot("K")
    with pytest.raises(InvalidInput, match="theme"):
        made().plot(theme="sepia")


def test_gaps_are_shaded_and_lines_break_there():
    ax = made().plot()
    (shade,) = ax.patches
    left, right = shade.get_x(), shade.get_x() + shade.get_width()
    assert (left, right) == pytest.approx((299.0 / 60.0, 340.0 / 60.0))
    assert "gap 41 min" in words(ax)
    line = drawn(ax)["pit"]
    x, y = line.get_xdata(), line.get_ydata()
    assert np.isnan(y[(x > left - 1e-9) | np.isnan(x)]).sum() == 1  # one break, at the gap
    core = drawn(ax)["core"].get_ydata()
    assert np.isnan(core).sum() == 2  # ten missing readings are longer than the limit of a gap too


def test_a_log_without_gaps_has_no_shade():
    log = Log(np.arange(0.0, 6000.0, 60.0), pit=np.full(100, 120.0))
    assert not log.plot().patches  # a constant trace, too


def test_events_are_marked_and_proposed_ones_only_when_asked():
    log = made().mark("wrapped", at="5 h").with_events([("1 h", "fed the fire with $5 of hickory wood")])
    shown = words(log.plot())
    assert "wrapped" in shown
    assert r"fed the fire with \$5 of…" in shown
    cook = invented_log(5002, spritz=True, pulled="pit falls")
    kinds = {event.kind for event in cook.log.propose_events()}
    assert kinds and not kinds & set(words(cook.log.plot()))
    assert {f"{kind}?" for kind in kinds} <= set(words(cook.log.plot(proposed=True)))


def test_no_tick_stands_beside_the_events():
    ticks = made().with_events([("1 h", "spritz"), ("2 h", "wrapped"), ("3 h", "windy")]).plot().get_yticks()
    assert min(ticks) >= 0.0 and max(ticks) <= 120.0 + 8.0


def test_the_time_of_day_stands_below_the_hours():
    ax = made(dt.time(20, 0)).plot()
    assert "and time of day" in ax.get_xlabel()
    assert "4\n00:00" in [label.get_text() for label in ax.get_xticklabels()]
    zoneinfo = pytest.importorskip("zoneinfo")
    start = dt.datetime(2024, 10, 27, 1, 0, tzinfo=zoneinfo.ZoneInfo("Europe/Berlin"))
    labels = [label.get_text() for label in made(start).plot().get_xticklabels()]
    assert labels[:4] == ["0\n01:00", "1\n02:00", "2\n02:00", "3\n03:00"]


def test_without_matplotlib(monkeypatch):
    log = made()
    monkeypatch.setitem(sys.modules, "matplotlib", None)
    monkeypatch.setitem(sys.modules, "matplotlib.pyplot", None)
    with pytest.raises(ImportError, match="needs matplotlib"):
        log.plot()
