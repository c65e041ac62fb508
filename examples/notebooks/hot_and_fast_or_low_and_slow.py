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
# # Hot and fast, or low and slow?
#
# 225 °F overnight or 300 °F by lunch? Comparing both at one core temperature is unfair: tenderness is time *and*
# temperature. Here every cook goes on until the same share of the collagen at the core has turned to
# gelatin, so all are equally tender there, and you can compare what that costs.

# %% jupyter={"source_hidden": true}
import matplotlib.pyplot as plt
import numpy as np
from blackboard import CAUTION, HOUR, degrees, fahrenheit, hours, table, tell

import libcook as lc

tell(CAUTION)

# %% [markdown]
# ## Nine pits, one tenderness
#
# The same invented 14 lb brisket from 225 to 302 °F (107 to 150 °C): bare, and wrapped in paper at 150 °F.
# Each cook ends when 90 % of the collagen at the core is converted; beside it, the usual end at 200 °F.
# Change these to yours.

# %%
MEAT = lc.brisket(mass="14 lb")
PITS = np.linspace(107.0, 150.0, 9)  # °C
TENDER = lc.tender(0.9)


def cook(air, until, wrap=True):
    """Cook in one pit until an end is met."""
    pit = lc.pit("drum", air=air)
    stages = [lc.Stage("smoke", pit, until=lc.core("150 °F") if wrap else until, at_most="60 h")]
    if wrap:
        stages.append(lc.Stage("paper", pit, wrap="butcher paper", until=until, at_most="60 h"))
    return lc.simulate(lc.Plan(MEAT, stages))


bare = [cook(air, TENDER, wrap=False) for air in PITS]
paper = [cook(air, TENDER) for air in PITS]
at_200 = [cook(air, lc.core("200 °F")) for air in PITS]

# %% jupyter={"source_hidden": true} alt="Time to tender over the pit's temperature, bare and in paper, and the time to 200 °F in paper"
lc.plots.lines(
    fahrenheit(PITS),
    {
        "tender, bare": [o.time[-1] / HOUR for o in bare],
        "tender, in paper": [o.time[-1] / HOUR for o in paper],
        "200 °F, in paper": [o.time[-1] / HOUR for o in at_200],
    },
    "pit [°F]",
    "time on the heat [h]",
    marker="o",
    ylim=(0, 1.05 * max(bare[0].time[-1], at_200[0].time[-1]) / HOUR),
)
# %% jupyter={"source_hidden": true}
gain = bare[0].time[-1] - bare[-1].time[-1]
stalled = [0.0 if o.stall() is None else o.stall().duration for o in (bare[0], bare[-1])]
part = (stalled[0] - stalled[1]) / gain
share = "all is" if part > 0.95 else f"{100 * part:.0f} % is"
tell(
    f"Equally tender takes {hours(bare[0].time[-1])} at {degrees(PITS[0])} and {hours(bare[-1].time[-1])} at "
    f"{degrees(PITS[-1])} bare; in paper {hours(paper[0].time[-1])} and {hours(paper[-1].time[-1])}. Of the "
    f"{hours(gain)} saved bare, {share} stall: it lasts {hours(stalled[0])} in "
    f"the coolest pit and {hours(stalled[1])} in the hottest."
)

# %% [markdown]
# ## The core temperature at which it is tender
#
# Collagen turns to gelatin slowly at 160 °F and fast at 205 °F. A slow cook has turned much of it on the
# way, so it is done at a lower temperature. A fast one has to go further up. That is why "200 °F" is a
# habit and not a law: probe it.

# %% jupyter={"source_hidden": true} alt="Left: core temperature when tender over the pit's temperature. Right: collagen converted when the core is at 200 °F"
_, (left, right) = plt.subplots(1, 2, figsize=(9.4, 3.8), layout="constrained")
lc.plots.lines(
    fahrenheit(PITS),
    {"bare": [fahrenheit(o.core[-1]) for o in bare], "in paper": [fahrenheit(o.core[-1]) for o in paper]},
    "pit [°F]",
    "core when tender [°F]",
    ax=left,
    marker="o",
)
lc.plots.lines(
    fahrenheit(PITS),
    {"in paper": [100 * o.tenderness[-1] for o in at_200]},
    "pit [°F]",
    "collagen converted at 200 °F [%]",
    ax=right,
    marker="o",
)
# %% jupyter={"source_hidden": true}
slow, fast = 100 * at_200[0].tenderness[-1], 100 * at_200[-1].tenderness[-1]
tell(
    f"In paper the core is at {degrees(paper[0].core[-1])} when it is tender in the coolest pit, and at "
    f"{degrees(paper[-1].core[-1])} in the hottest. Pulled at 200 °F instead, the slow one has {slow:.0f} % of its collagen "
    f"converted and the fast one {fast:.0f} %. The rates behind this are trade equivalences, not measurements: trust the "
    "direction, and your probe for the last degrees."
)

# %% [markdown]
# ## What it costs
#
# Hot pits dry the outside sooner, slow pits have longer to dry. Lost weight, and how dry the outermost 5 mm
# are when the core is tender:

# %% jupyter={"source_hidden": true}


def rim(out):
    """Water in the outer 5 mm of both faces at the end [kg/kg dry solids]."""
    near = np.minimum(out.position, out.position[-1] - out.position) <= 0.005
    return float(np.average(out.water[-1][near], weights=out.node_volume[near]))


table(
    [
        "pit",
        "bare: lost",
        "in paper: lost",
        "bare: water in the rim",
        "in paper: water in the rim",
        "bark index, in paper",
    ],
    [
        (
            degrees(air),
            f"{100 * b.loss.total / b.loss.raw:.0f} %",
            f"{100 * p.loss.total / p.loss.raw:.0f} %",
            f"{rim(b):.2f} kg/kg",
            f"{rim(p):.2f} kg/kg",
            f"{p.bark()[1].index:.1f}",
        )
        for air, b, p in zip(PITS, bare, paper, strict=True)
    ],
)

# %% jupyter={"source_hidden": true} alt="Temperature and water through the middle of the meat at the end, in the coolest and in the hottest pit"
_, (left, right) = plt.subplots(1, 2, figsize=(9.4, 3.8), layout="constrained")
ends = {f"{fahrenheit(PITS[0]):.0f} °F pit": paper[0], f"{fahrenheit(PITS[-1]):.0f} °F pit": paper[-1]}
middle = slice(len(paper[0].position) // paper[0].lines)  # the nodes of the rim come behind
depth = 1000 * paper[0].position[middle]
lc.plots.lines(
    depth,
    {name: fahrenheit(o.temperature[-1][middle]) for name, o in ends.items()},
    "height above the bottom face [mm]",
    "temperature when tender [°F]",
    ax=left,
)
lc.plots.lines(
    depth,
    {name: o.water[-1][middle] for name, o in ends.items()},
    "height above the bottom face [mm]",
    "water [kg/kg dry solids]",
    ax=right,
)
# %% jupyter={"source_hidden": true}
wetter = rim(paper[-1]) - rim(paper[0])
rim_is = "as wet" if abs(wetter) < 0.05 else "wetter" if wetter > 0.0 else "drier"
spread = [
    fahrenheit(o.temperature[-1].max()) - fahrenheit(o.temperature[-1].min()) for o in (paper[0], paper[-1])
]
tell(
    f"From rim to core there are {spread[0]:.0f} °F in the cool pit and {spread[1]:.0f} °F in the hot one: low and slow cooks "
    f"more evenly. The hot one's rim is {rim_is}: it had less time to dry, and more heat to dry it. The weight lost is {100 * paper[0].loss.total / paper[0].loss.raw:.0f} % against "
    f"{100 * paper[-1].loss.total / paper[-1].loss.raw:.0f} % in paper. So the choice is between your night and an even slice, "
    "and not between tough and tender."
)

# %% [markdown]
# **What is left out.** Taste, smoke, and how a hot fire is kept even. Rendering of fat is an estimate.
# Above about
# 300 °F the rim may scorch before the core is done; browning here is an index and says nothing about burnt sugar.
