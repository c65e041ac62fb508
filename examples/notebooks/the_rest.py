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
# # The rest
#
# The meat is off the heat and the guests are late. How far does the core still climb? How long may it wait
# on the counter, in a box, in a holding oven? And when is waiting no longer safe?

# %% jupyter={"source_hidden": true}
import numpy as np
from blackboard import CAUTION, HOUR, degrees, fahrenheit, hours, panel, pulled, table, tell

import libcook as lc

tell(CAUTION)

# %% [markdown]
# ## Four places to rest
#
# The same invented 14 lb brisket, smoked at 250 °F, wrapped in paper at 150 °F, pulled at 203 °F, then
# twelve hours in one of four places. The insulated box is a plastic one lined with towels.

# %%
MEAT = lc.brisket(mass="14 lb")
PIT = lc.pit("drum", air="250 °F")
PLACES = {
    "counter, tented": (lc.counter("70 °F"), "foil tent"),
    "counter, in foil": (lc.counter("70 °F"), "foil"),
    "insulated box": (lc.insulated_box("70 °F"), "towels"),
    "holding oven 150 °F": (lc.holding_oven("150 °F"), "foil"),
}


def cook(pull, place, wrap, rest="12 h"):
    """Smoke, wrap, pull and rest."""
    return lc.simulate(
        lc.Plan(
            MEAT,
            [
                lc.Stage("smoke", PIT, until=lc.core("150 °F")),
                lc.Stage("wrapped", PIT, wrap="butcher paper", until=lc.core(pull)),
                lc.Stage("rest", place, wrap=wrap, until=lc.elapsed(rest)),
            ],
        )
    )


rests = {name: cook("203 °F", *where) for name, where in PLACES.items()}

# %% jupyter={"source_hidden": true} alt="Core temperature after the pull in four places, with the hot-holding limit as a line"
ax = lc.plots.lines(
    None,
    {name: ((o.time - pulled(o)) / HOUR, fahrenheit(o.core)) for name, o in rests.items()},
    "time after the pull [h]",
    "core temperature [°F]",
    xlim=(-0.5, 12),
    ylim=(70, 212),
)
ax.axhline(fahrenheit(57.0), color="#6A6F76", lw=0.9, ls=(0, (4, 3)))
ax.annotate(
    f"hot holding: {fahrenheit(57.0):.0f} °F",
    (0.99, fahrenheit(57.0)),
    (0, 4),
    ha="right",
    xycoords=("axes fraction", "data"),
    textcoords="offset points",
    fontsize=8.5,
)
# %% [markdown]
# Below the dashed line bacteria that survived, or came back, can grow. At or above it they are held in
# check, which is why regulators draw it there (FDA Food Code 3-501.16).

# %% jupyter={"source_hidden": true}
holds = {name: o.hot_hold() for name, o in rests.items()}


def after(moment, out):
    """How long after the pull."""
    return "not within 12 h" if moment is None else hours(moment - pulled(out))


def stays(moment, out):
    """How long from the pull until then."""
    return "all 12 h" if moment is None else hours(moment - pulled(out))


table(
    [
        "rest",
        "carryover",
        "peak after",
        "cool enough to slice (149 °F)",
        "coldest part stays at 135 °F or above for",
        "more collagen converted",
    ],
    [
        (
            name,
            f"{1.8 * o.carryover().rise:.1f} °F",
            hours(o.carryover().peak_at - pulled(o)),
            after(holds[name].slice_at, o),
            stays(holds[name].coldest_until, o),
            f"{100 * (o.tenderness[-1] - np.interp(pulled(o), o.time, o.tenderness)):.1f} %",
        )
        for name, o in rests.items()
    ],
)

# %% jupyter={"source_hidden": true}
rise = {name: 1.8 * o.carryover().rise for name, o in rests.items()}
counter, box = "counter, tented", "insulated box"
tell(
    f"**Carryover is small**: {min(rise.values()):.1f} to {max(rise.values()):.1f} °F. A brisket that cooked for "
    f"{hours(pulled(rests[counter]))} is nearly even inside, and its wet surface cools it as soon as it leaves the pit. The "
    "stories of 10 °F and more come from fast-roasted joints with a hot rim. "
    f"**The place decides how long it waits**: {stays(holds[counter].coldest_until, rests[counter])} on the counter under a tent, "
    f"{stays(holds[box].coldest_until, rests[box])} in the box, and in the oven all of the twelve hours "
    "computed here, at the price of slicing later."
)

# %% [markdown]
# ## Pull early and let the oven finish
#
# In a holding oven the collagen goes on converting. How much earlier can you pull if it then sits in the
# oven for the night, and still be as tender in the end?

# %%
usual = rests["counter, tented"].tenderness[-1]  # what the counter gives
pulls = np.arange(170, 205, 5)  # °F
held = {
    f"{oven} °F": [cook(f"{pull} °F", lc.holding_oven(f"{oven} °F"), "foil", "10 h") for pull in pulls]
    for oven in (150, 165)
}

# %% jupyter={"source_hidden": true} alt="Collagen converted after ten hours in a holding oven, over the temperature at the pull"
ax = lc.plots.lines(
    pulls,
    {f"oven at {oven}": [100 * o.tenderness[-1] for o in each] for oven, each in held.items()},
    "core when it is pulled [°F]",
    "collagen converted after 10 h [%]",
    marker="o",
)
ax.axhline(100 * usual, color="#6A6F76", lw=0.9, ls=(0, (4, 3)))
ax.annotate(
    "pulled at 203 °F, counter",
    (0.02, 100 * usual),
    (0, 4),
    xycoords=("axes fraction", "data"),
    textcoords="offset points",
    fontsize=8.5,
)
# %% jupyter={"source_hidden": true}
words = []
for oven, each in held.items():
    enough = [(pull, o) for pull, o in zip(pulls, each, strict=True) if o.tenderness[-1] >= usual - 0.02]
    if enough:
        pull, out = enough[0]
        words.append(
            f"with the oven at {oven} you can pull at {pull} °F, {hours(pulled(rests[counter]) - pulled(out))} sooner"
        )
    else:
        words.append(
            f"with the oven at {oven} even a pull at {pulls[-1]} °F falls short by more than two points"
        )
tell(
    "Within two points of the usual tenderness: "
    + "; ".join(words)
    + ". The rates of collagen are trade equivalences "
    "without a source, so try it once before you bet a dinner on it. The oven must keep the *coldest* part above your "
    "local limit all the time; check the oven's own thermometer."
)

# %% [markdown]
# ## The limits, for this piece
#
# A safety panel comes with every cook: `print(out)` has it, and a notebook shows it for `out` alone. The
# counter's, in °F:

# %% jupyter={"source_hidden": true}
panel(rests["counter, tented"])

# %% [markdown]
# ## Leftovers
#
# A whole brisket in the refrigerator cools far too slowly. Slice it, spread it out, cool it in shallow
# pans. The numbers, for the whole piece put away at once:

# %%
cold = lc.simulate(
    lc.Plan(
        MEAT,
        [
            lc.Stage("cook", PIT, until=lc.core("203 °F")),
            lc.Stage("fridge", lc.counter("3 °C"), until=lc.elapsed("30 h")),
        ],
    )
)
for warning in cold.safety().warnings:
    print(warning)

# %% jupyter={"source_hidden": true}
start = cold.safety().cooling_start
first, second = (cold.falls_to(t) for t in (21.0, 5.0))
tell(
    f"From {degrees(57)} it takes {hours(first - start)} to {degrees(21)}, where the FDA Food Code (3-501.14) allows 2 h, and "
    + (
        f"{hours(second - start)} to {degrees(5)}"
        if second
        else f"more than {hours(cold.time[-1] - start)} to {degrees(5)}"
    )
    + ", where it allows 6 h in all. **Your local rules come first.**"
)

# %% [markdown]
# **How far to trust it.** Towels, box and counter are the middle of an estimate from measured rests, and no two boxes
# are alike: log yours. The piece here is as thick at one end as at the other; a thin flat is cold sooner.
