# ---
# jupyter:
#   jupytext:
#     text_representation:
#       extension: .py
#       format_name: percent
#   kernelspec:
#     display_name: Python 3
#     language: python
#     name: python3
# ---

# %% [markdown]
# # Read your own cook: calibrate your cooker
#
# No two cookers are alike, and the numbers that this library assumes are nobody's. But your thermometer
# wrote down last week how *yours* cooks. Here its file becomes a tuned plan; the tuned plan says, four hours
# into tonight's cook, when it will be done; and it says when to start so that dinner is at six.

# %% jupyter={"source_hidden": true}
import matplotlib.pyplot as plt
import numpy as np
from blackboard import CAUTION, HOUR, hours, pulled, table, tell

import libcook as lc
from libcook.units import format_clock

BLUE, ORANGE, INK, GREY = "#0072B2", "#D55E00", "#24292F", "#6A6F76"

tell(CAUTION)

# %% [markdown]
# ## What the thermometer wrote
#
# Both logs here are **invented**: two briskets that were never bought, simulated in a cooker whose numbers
# this notebook does not know, and written down with noise, an opened lid and a lost signal by
# `examples/data/invented_cooks.py`. They show the way; they prove nothing. Put the name of your own file in
# the next line.

# %%
log = lc.read_log("../data/last_week.csv")
print(log.report())

# %% [markdown]
# That is what was found and what was done about it; nothing else was touched. *Mended* means that a reading
# was marked as missing, never that one was made up. What the traces suggest are guesses. You were there:
# look at them, and accept those that are right.

# %%
proposed = log.propose_events()
print(*proposed, sep="\n")
log = log.with_events(proposed)

# %% jupyter={"source_hidden": true} alt="The log: pit and core over the night in °F, the opened lid and the wrap marked, the lost signal left open"
log.plot()
# %% jupyter={"source_hidden": true}
wrapped = next(event for event in log.events if event.kind == "wrapped")
missing = log.time[np.isnan(log.core)]
tell(
    f"Thin: the pit, which drops whenever the lid is open. Thick: the core. The hole after {hours(missing[0])} is the "
    f"thermometer out of reach of its receiver for {hours(missing[-1] - missing[0])} or a little more. At "
    f"{hours(wrapped.time)} the lid opens and the core then climbs faster than before: that is how a wrap gives itself "
    "away."
)

# %% [markdown]
# ## The plan, as you believe it
#
# What was cooked, and how. Only two things were measured: the weight, and with a ruler the thickness where
# the probe went in. The cooker's numbers are the library's usual ones for a drum.


# %%
def brisket(mass, thickness, start):
    """Smoke to 160 °F, wrap in paper, cook to 203 °F, rest an hour in a box."""
    pit = lc.pit("drum", air="250 °F")
    return lc.Plan(
        lc.brisket(mass=mass, thickness=thickness),
        [
            lc.Stage("smoke", pit, until=lc.core("160 °F")),
            lc.Stage("wrapped", pit, wrap="butcher paper", until=lc.core("203 °F")),
            lc.Stage("rest", lc.insulated_box("70 °F"), wrap="towels", until=lc.elapsed("1 h")),
        ],
        start=start,
    )


last_week = brisket("14 lb", "2.1 in", start="20:40")

# %% [markdown]
# ## The fit
#
# Some numbers are allowed to move. Each begins at what is believed of it and is pulled from there by the
# log: strongly where the log says much, hardly where it says nothing. How far the simple model itself may be
# wrong is part of the reckoning; the ranges would be too proud without it.

# %%
fit = lc.calibrate(
    last_week,
    log,
    free=[
        "film_coefficient",
        "vapour_pressure",
        "pit_offset",
        "wrap_resistance",
        "thickness",
        "start",
        "expressed_mobility",
        "held_mobility",
    ],
)

# %% jupyter={"source_hidden": true}
WORDS = {
    "film_coefficient": "how briskly the air heats",
    "vapour_pressure": "damp in the air",
    "pit_offset": "air at the meat, against the pit's probe",
    "wrap_resistance": "how tight the paper is",
    "thickness": "thickness at the probe",
    "start": "temperature when it went on",
    "expressed_mobility": "how fast juice is squeezed out",
    "held_mobility": "how fast the rest of the water creeps",
}
INCH = 0.0254  # m
UNITS = {
    "vapour_pressure": (1e-3, 0.0, "kPa"),
    "pit_offset": (1.8, 0.0, "°F"),
    "thickness": (1.0 / INCH, 0.0, "in"),
    "start": (1.8, 32.0, "°F"),
    "expressed_mobility": (3600e6, 0.0, "mm²/h"),
    "held_mobility": (3600e6, 0.0, "mm²/h"),
}


def shown(estimate, *values):
    """Write numbers of an estimate in the unit a cook reads."""
    factor, zero, unit = UNITS.get(estimate.name, (1.0, 0.0, estimate.unit))

    def digits(x):
        whole = unit == "°F" or abs(x) >= 100.0
        return f"{x:.0f}" if whole else f"{x:.3g}"

    return " to ".join(digits(factor * value + zero) for value in values) + f" {unit}"


def learned(estimate):
    """Say how much narrower the log made what is known."""
    return f"{100 * estimate.learned:.0f} %"


table(
    ["number", "believed before", "best value now", "nine times of ten", "learned"],
    [
        (WORDS[e.name], shown(e, e.prior), shown(e, e.value), shown(e, *e.interval90), learned(e))
        for e in fit.estimates
    ],
)

# %% jupyter={"source_hidden": true} alt="Eight numbers as bars: grey what was believed before the log, blue what is known after it"
_, ax = plt.subplots(figsize=(8.0, 3.9), layout="constrained")
for row, e in enumerate(reversed(fit.estimates)):

    def moved(value, e=e):
        """Count how far from what was believed, in spreads."""
        return (np.log(value / e.prior) if e.scale == "logarithmic" else value - e.prior) / e.prior_spread

    ax.plot([-1.645, 1.645], [row, row], color="#E3E6EA", lw=15, solid_capstyle="butt")
    for interval, width in ((e.interval90, 2.0), (e.interval50, 6.0)):
        ax.plot([moved(x) for x in interval], [row, row], color=BLUE, lw=width, solid_capstyle="butt")
    ax.plot([moved(e.value)], [row], "|", color=INK, ms=11, mew=2.0)
ax.set_ylim(-0.6, len(fit.estimates) - 0.4)
ax.set_yticks(range(len(fit.estimates)), [WORDS[e.name] for e in reversed(fit.estimates)])
ax.tick_params(axis="y", length=0)
ax.axvline(0.0, color=GREY, lw=0.8)
ax.set_xlabel("away from what was believed [spreads of that belief]")
ax.spines[["top", "right", "left"]].set_visible(False)
# %% jupyter={"source_hidden": true}
most, least = (choose(fit.estimates, key=lambda e: e.learned) for choose in (max, min))
tell(
    "Grey is what was believed before, nine times of ten; blue is what is known now, nine times of ten and (thick) half "
    "of the time. A blue bar as long as the grey one has learned nothing. This log says most about "
    f"**{WORDS[most.name]}** ({learned(most)} narrower) and least about **{WORDS[least.name]}** ({learned(least)})."
)

# %% [markdown]
# ## What the log cannot tell
#
# Some pairs of numbers do nearly the same to the core. A thermometer in the meat cannot tell them apart,
# however long the night is:

# %% jupyter={"source_hidden": true}
twins = fit.correlations
pairs = sorted(
    ((abs(twins[i, j]), i, j) for i in range(len(twins)) for j in range(i)), reverse=True, key=lambda p: p[0]
)[:3]
table(
    ["pair", "bound together [-1 to 1]", "if the first were higher, the second would be"],
    [
        (
            f"{WORDS[fit.estimates[j].name]}; {WORDS[fit.estimates[i].name]}",
            f"{twins[i, j]:.2f}",
            "lower" if twins[i, j] < 0.0 else "higher",
        )
        for _, i, j in pairs
    ],
)

# %% jupyter={"source_hidden": true}
first, second = (WORDS[fit.estimates[k].name] for k in pairs[0][:0:-1])
film = fit["film_coefficient"]
notes = " ".join(f"*{note}*." for note in fit.notes)
tell(
    f"The first pair is *{first}* and *{second}*: one of them could give way if the other made up for it, and the core "
    "would do the same. The forecast knows this: it draws such numbers together, so what they do to the finish is known "
    "better than either of them. To tell them apart, measure one: hang a second thermometer beside the meat."
    + (f"\n\nThe fit has its own remarks: {notes}" if notes else "")
    + f"\n\nThe heating came out {film.value / film.prior:.1f} times as brisk as believed. Do not take that for a fact "
    "about the air. The fitted piece is as thick at one end as at the other; a real piece, and the invented one, is thin at "
    "one end and thick at the other. The number makes up for what the model leaves out, and that is what tuning is for."
)

# %% [markdown]
# ## Does it follow?

# %% jupyter={"source_hidden": true} alt="Above the logged core as points on the curve of the tuned plan; below what is left between them, inside a grey band"
fit.plot()
# %% jupyter={"source_hidden": true}
series = fit.series[-1]
left = series.observed - series.fitted
inside = 100.0 * np.mean(np.abs(left) < 1.645 * series.deviation)
before, after = (pulled(lc.simulate(plan, keep_fields=False)) for plan in (last_week, fit.plan))
tell(
    "Above: the points are the log, thinned out; the line is the tuned plan in last week's pit. Below: what is left "
    "between them. Grey is how far a simple model and a thermometer may err: far where the core climbs fast, since a "
    "model that is a little early is then many degrees off. A line that stays in the grey is all one can "
    "ask; one that leaves it for hours says that the plan is wrong somewhere: another wrap, a probe that slipped.\n\n"
    f"Here the tuned plan follows within **{1.8 * fit.rms:.1f} °F** (root mean square), and {inside:.0f} % of the points "
    f"lie in the grey. The size of what is left against what was expected is {fit.misfit:.2f}: about 1 or less is good. "
    f"Before the fit the plan took {hours(before)} to the pull, tuned and in a steady pit it takes {hours(after)}; last "
    f"week's cook took {hours(log.duration)}."
)

# %% [markdown]
# The tuned plan is `fit.plan`, a plan like any other, and `fit.to_json()` keeps the fit for next time. With
# more logs, `lc.calibrate([plan, plan], [log, log], ...)` learns the cooker from all of them.
#
# ## Tonight, four hours in
#
# Another invented brisket, smaller, in the same cooker. It is late, the core crawls, and nobody knows
# whether there will be any sleep.

# %%
tonight = brisket("12 lb", "2 in", start="21:15")
so_far = lc.read_log("../data/tonight.csv")
ahead = fit.forecast(so_far, tonight)

# %% jupyter={"source_hidden": true} alt="Fan chart: core so far, then bands that hold 50 and 90 % of the possible cooks, and a bar above for when it is done"
ahead.plot()
# %% jupyter={"source_hidden": true}
untuned = lc.forecast(tonight, so_far)


def span(forecast, low=0.05, high=0.95):
    """Write how far the finish may be out."""
    return forecast.finish_quantile(high) - forecast.finish_quantile(low)


def at(forecast, q):
    """Write a quantile of the finish as a time of day."""
    return format_clock(forecast.plan.start + forecast.finish_quantile(q))


tell(
    f"It is {format_clock(ahead.plan.start + ahead.now)}. The library runs {len(ahead.weight)} possible cooks that agree with the log so far, each with a little other meat, "
    "cooker and pit. The dark band holds half of them, the light band nine of ten. The bar on top is when they reach "
    f"203 °F: **{at(ahead, 0.5)}** in the middle, between {at(ahead, 0.25)} and {at(ahead, 0.75)} for half of them, between "
    f"{at(ahead, 0.05)} and {at(ahead, 0.95)} for nine of ten. From the earliest to the latest of "
    f"these nine that is {hours(span(ahead))}.\n\n"
    f"Without last week's log that span would be {hours(span(untuned))}. With each reading it gets shorter: "
    "`ahead.update(log)` takes the longer log."
)

# %% [markdown]
# ## What if?
#
# Wrap it in foil now, not in paper at 160 °F? Raise the pit to 275 °F? The *same* possible cooks go on with
# the change, so luck does not blur the difference.

# %%
ways = {
    "as planned": ahead,
    "wrap in foil now": ahead.what_if(wrap="foil"),
    "pit to 275 °F now": ahead.what_if(air="275 °F"),
    "both": ahead.what_if(wrap="foil", air="275 °F"),
}

# %% jupyter={"source_hidden": true} alt="When it is done in four ways, as bars over the hours since the start: half of the cooks thick, nine of ten thin"
_, ax = plt.subplots(figsize=(8.0, 3.0), layout="constrained")
for row, (name, way) in enumerate(reversed(ways.items())):
    colour = ORANGE if name == "as planned" else BLUE
    for low, high, width in ((0.05, 0.95, 2.0), (0.25, 0.75, 8.0)):
        ends = [way.finish_quantile(q) / HOUR for q in (low, high)]
        ax.plot(ends, [row, row], color=colour, lw=width, solid_capstyle="butt")
    middle = way.finish_quantile(0.5) / HOUR
    ax.plot([middle], [row], "|", color=INK, ms=13, mew=2.0)
    ax.annotate(
        at(way, 0.5),
        (middle, row),
        (0, 9),
        textcoords="offset points",
        ha="center",
        fontsize=8.5,
    )
ax.axvline(ahead.now / HOUR, color=GREY, lw=0.8)
ax.annotate(
    "now", (ahead.now / HOUR, 3.45), (4, 0), textcoords="offset points", va="top", fontsize=8.5, color=GREY
)
ax.set_yticks(range(len(ways)), list(reversed(ways)))
ax.tick_params(axis="y", length=0)
ax.set_ylim(-0.5, 3.5)
ax.set_xlabel("time since the start [h]")
ax.spines[["top", "right", "left"]].set_visible(False)
# %% jupyter={"source_hidden": true}
table(
    ["from now on", "done at", "nine of ten", "gained", "gained, nine of ten"],
    [
        (
            name,
            at(way, 0.5),
            f"{at(way, 0.05)} to {at(way, 0.95)}",
            "" if way is ahead else hours(way.gain_quantile(0.5)),
            "" if way is ahead else " to ".join(hours(way.gain_quantile(q)) for q in (0.05, 0.95)),
        )
        for name, way in ways.items()
    ],
)

# %% jupyter={"source_hidden": true}
gain = {name: way.gain_quantile(0.5) for name, way in ways.items() if way is not ahead}
tell(
    f"Each bar is one way to go on; the tick is its middle. Foil now buys {hours(gain['wrap in foil now'])}, a hotter pit "
    f"{hours(gain['pit to 275 °F now'])}, both together {hours(gain['both'])}"
    + (
        ": less than the sum, since each shortens the time in which the other could help"
        if gain["both"] < gain["wrap in foil now"] + gain["pit to 275 °F now"]
        else ""
    )
    + ". Foil also ends the bark: see *Wrap or wait* for that side of the bill."
)

# %% [markdown]
# ## Dinner at six
#
# Next time, begin from the end. `start_by` runs the tuned cooker through the whole plan, rest included, and
# finds the latest start that has dinner ready in nine cooks of ten. With `remedies=False` nobody touches the cook;
# left out, it says when a late one is to be hurried, by foil and a hotter pit, and starts later.

# %%
dinner = lc.start_by(tonight, serve="18:00", confidence=0.9, fit=fit, remedies=False)

# %% jupyter={"source_hidden": true} alt="Chance that dinner is late over the time of the start, for the tuned plan and for the untuned one"
blind = lc.start_by(tonight, serve="18:00", confidence=0.9, remedies=False)
begin = np.linspace(blind.latest - 3.0 * HOUR, dinner.latest + 5.0 * HOUR, 400)


def late(schedule):
    """Chance of being late for each start [%]."""
    possible = schedule.forecast
    return [100.0 * possible.weight[possible.ready > schedule.serve - start].sum() for start in begin]


ax = lc.plots.lines(
    None,
    {"with last week's log": (begin / HOUR, late(dinner)), "without a log": (begin / HOUR, late(blind))},
    "start [time of day]",
    "chance that dinner is late [%]",
    ylim=(0, 100),
)
ticks = np.arange(2 * np.ceil(begin[0] / HOUR / 2), begin[-1] / HOUR, 2)
ax.set_xticks(ticks, [format_clock(tick * HOUR) for tick in ticks])
ax.axhline(10.0, color=GREY, lw=0.8, ls=(0, (4, 3)))
for schedule in (dinner, blind):
    ax.plot([schedule.start / HOUR], [100.0 * schedule.chance_late], "o", color=INK, ms=5, zorder=5)
# %% jupyter={"source_hidden": true}
tell(
    f"**Start at {dinner.start_clock}.** Read the curve from left to right: the later the start, the likelier it is that the "
    "guests wait. The dots are where one dinner in ten is late.\n\n"
    f"The plan takes {hours(dinner.duration50)} in the middle; {hours(dinner.duration)} are allowed for, so the buffer is "
    f"{hours(dinner.duration - dinner.duration50)}. The chance of being late is then **{100 * dinner.chance_late:.0f} %**. In "
    f"the middle case the meat waits {hours(dinner.hold50)} for the guests, in one cook of twenty {hours(dinner.hold95)} or "
    f"longer. Without a log of this cooker the start would have to be {hours(dinner.start - blind.start)} earlier, at "
    f"{blind.start_clock}: that is what last week's file is worth."
)

# %% [markdown]
# Nobody likes that hour? This is what a change of plan would do for the start:

# %% jupyter={"source_hidden": true}
table(
    ["instead", "sooner by", "start at"],
    [(a.what, hours(a.sooner), format_clock(a.start, days=True)) for a in dinner.alternatives],
)

# %% jupyter={"source_hidden": true}
remarks = "\n".join(f"- {warning}" for warning in dinner.warnings)
tell(
    "What else it has to say:\n\n"
    + remarks
    + f"\n\n**{dinner.caution}** A forecast does not know whether meat is safe; only a thermometer in its "
    "coldest part does. And a fire that burns through the night wants someone near it."
)
