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
# # Wrap or wait
#
# It has been creeping for an hour. Wrap now, at 150 °F, or wait until 165 °F, or never? Paper, foil, or the
# pan? Every answer buys time and pays for it: with bark, with juice, or with both. Here is the bill.

# %% jupyter={"source_hidden": true}
import matplotlib.pyplot as plt
import numpy as np
from blackboard import CAUTION, HOUR, degrees, fahrenheit, hours, pulled, sooner, table, tell

import libcook as lc

tell(CAUTION)

# %% [markdown]
# ## Seven ways to cook one brisket
#
# The same invented 14 lb brisket in the same 250 °F drum, always to 200 °F. Change these lines to yours.

# %%
MEAT = lc.brisket(mass="14 lb")
DONE = lc.core("200 °F")


def cook(wrap=None, at="150 °F", air="250 °F"):
    """Smoke, wrap once the core is at `at`, and cook until done."""
    pit = lc.pit("drum", air=air)
    smoke = lc.Stage("smoke", pit, until=DONE if wrap is None else lc.core(at))
    wrapped = [] if wrap is None else [lc.Stage("wrapped", pit, wrap=wrap, until=DONE)]
    return lc.simulate(lc.Plan(MEAT, [smoke, *wrapped]), keep_fields=False)


WAYS = {
    "never": cook(),
    "paper at 150 °F": cook("butcher paper", "150 °F"),
    "paper at 165 °F": cook("butcher paper", "165 °F"),
    "foil at 150 °F": cook("foil", "150 °F"),
    "foil at 165 °F": cook("foil", "165 °F"),
    "pan at 150 °F": cook("pan", "150 °F"),
    "pan at 165 °F": cook("pan", "165 °F"),
}

# %% jupyter={"source_hidden": true} alt="Core temperature of four ways; wrapped at 150 °F they leave the stall at different speeds"
shown = ("never", "paper at 150 °F", "foil at 150 °F", "foil at 165 °F", "pan at 150 °F")
lc.plots.lines(
    None,
    {name: (WAYS[name].time / HOUR, fahrenheit(WAYS[name].core)) for name in shown},
    "time [h]",
    "core temperature [°F]",
    xlim=(0, 17),
    ylim=(40, 212),
)


# %% jupyter={"source_hidden": true}
def spent(out, low, high):
    """Return how long the wrapped core takes from one temperature to another [s]."""
    time, core = out.time, fahrenheit(out.core)
    reached = [time[(time >= out.stage_ends[0].time) & (core >= level - 0.01)][0] for level in (low, high)]
    return reached[1] - reached[0]


def altered(wrap, at="150 °F", **changes):
    """Cook in a wrap of which something is changed, above and below."""
    sheet = lc.wrap(wrap)
    top, bottom = (side.replace(**changes) for side in (sheet.top, sheet.bottom))
    return cook(sheet.replace(top=top, bottom=bottom), at)


paper_150, foil_150 = WAYS["paper at 150 °F"], WAYS["foil at 150 °F"]
dull = altered("foil", emissivity=lc.wrap("butcher paper").top.emissivity)
tight = altered("butcher paper", vapour_resistance=lc.wrap("foil").top.vapour_resistance)
tell(
    "The lines are one until a wrap goes on. Foil lets no steam out, so evaporation stops. But it shines, and so turns "
    f"away most of the glow of the walls: were it as dull as paper, the way from 150 to 175 °F would take "
    f"{hours(spent(dull, 150, 175))} instead of {hours(spent(foil_150, 150, 175))}. Paper takes up the glow and needs "
    f"{hours(spent(paper_150, 150, 175))}; then steam that gets out through it slows the core once more, and 175 to 185 °F "
    f"takes {hours(spent(paper_150, 175, 185))} (in foil {hours(spent(foil_150, 175, 185))}, in paper as tight as foil "
    f"{hours(spent(tight, 175, 185))}). In an open pan only the underside is shut in."
)

# %% [markdown]
# ## What the time costs
#
# *Bark* is an index of ours for dry, hot and long: 1 counts as set, and more is darker. It ranks cooks; it
# does not know taste. *Juice* is what dripped or stayed in the wrap: with foil you can pour it back.

# %% jupyter={"source_hidden": true}
never = WAYS["never"]
bought = {name: pulled(never) - pulled(out) for name, out in WAYS.items()}
lost = {name: 100 * out.loss.total / out.loss.raw for name, out in WAYS.items()}
bark = {name: out.bark()[1].index for name, out in WAYS.items()}
table(
    ["wrapped", "done after", "against never", "bark, top", "steamed away", "juice", "lost of the weight"],
    [
        (
            name,
            hours(pulled(out)),
            "" if name == "never" else sooner(bought[name]),
            f"{bark[name]:.1f}",
            f"{out.loss.evaporated / 0.45359237:.1f} lb",
            f"{(out.loss.dripped + out.loss.in_wrap) / 0.45359237:.1f} lb",
            f"{lost[name]:.0f} %",
        )
        for name, out in WAYS.items()
    ],
)

# %% jupyter={"source_hidden": true} alt="Each way as a point: time bought to the right, bark upwards"
_, ax = plt.subplots(figsize=(8, 4.2), layout="constrained")
for name in WAYS:
    colour = {"never": "#D55E00", "paper": "#0072B2", "foil": "#009E73", "pan": "#E69F00"}[name.split()[0]]
    x, y = bought[name] / HOUR, bark[name]
    ax.plot([x], [y], "o", color=colour, ms=7, mfc="white" if "165" in name else colour)
    below = name == "paper at 165 °F"  # beside "never"
    ax.annotate(name, (x, y), (7, -13 if below else 5), textcoords="offset points", fontsize=8.5)
ax.set_xlim(-0.6, max(bought.values()) / HOUR + 1.0)
ax.set_ylim(0.0, 1.15 * max(bark.values()))
ax.set_xlabel("time bought [h]")
ax.set_ylabel("bark index of the top [-]")
ax.spines[["top", "right"]].set_visible(False)
# %% jupyter={"source_hidden": true}
best = max(bought, key=bought.get)
low, high = (degrees(t) for t in (never.stall().core_start, never.stall().core_end))
tell(
    f"Full points are wrapped at 150 °F, open ones at 165 °F. The most time is bought by **{best}**: "
    f"{hours(bought[best])}. At 165 °F foil buys {hours(bought['foil at 165 °F'])}: the stall runs from "
    f"{low} to {high} in this brisket, and so there is less left of it to skip. Paper at 150 °F is done "
    f"{sooner(bought['paper at 150 °F'])} and keeps {100 * bark['paper at 150 °F'] / bark['never']:.0f} % of the bark "
    f"index; foil keeps {100 * bark['foil at 150 °F'] / bark['never']:.0f} %. Paper at 165 °F is done "
    f"{sooner(bought['paper at 165 °F'])} than never wrapped: see below. The weight "
    f"that is lost, {min(lost.values()):.0f} to {max(lost.values()):.0f} %, differs less than what steams away: what "
    "does not is in part squeezed out as juice."
)

# %% [markdown]
# ## Why does paper at 165 °F buy so little?
#
# A sheet of paper does four things: it keeps some steam in, it holds back a little heat, it soaks up juice
# that has to dry again, and it takes up the glow of the walls. Switch them off, one at a time:

# %% jupyter={"source_hidden": true}
resistance = next(row for row in lc.parameters() if row.name == "wrap.butcher paper.top.vapour_resistance")
SHEETS = {
    "as it is": {},
    "holds back no heat": {"heat_resistance": 0.0},
    "soaks up no juice": {"juice_capacity": None},
    "neither of the two": {"heat_resistance": 0.0, "juice_capacity": None},
    "takes up the glow as bare meat does": {"emissivity": None},
    "keeps no steam in": {"vapour_resistance": 0.0},
    "as loose as we think paper can be": {"vapour_resistance": resistance.low},
    "as tight as we think paper can be": {"vapour_resistance": resistance.high},
}
sheets = {
    name: [pulled(never) - pulled(altered("butcher paper", at, **change)) for at in ("150 °F", "165 °F")]
    for name, change in SHEETS.items()
}
table(
    ["paper that", "at 150 °F, against never", "at 165 °F, against never"],
    [(name, *(sooner(gain) for gain in gains)) for name, gains in sheets.items()],
)

# %% jupyter={"source_hidden": true}
early, late = ({name: gains[i] for name, gains in sheets.items()} for i in (0, 1))
usual, free = late["as it is"], late["neither of the two"]
loose, close = late["as loose as we think paper can be"], late["as tight as we think paper can be"]
paper_165 = WAYS["paper at 165 °F"]
wrapped_at = paper_165.stage_ends[0].time
before, after = wrapped_at - 60.0, wrapped_at + HOUR


def top(trace, moment):
    """Read a trace of the faces at the top."""
    return np.interp(moment, paper_165.time, trace[:, -1])


def lost_as(path, name):
    """Write what was lost in a way."""
    return f"{sum(getattr(WAYS[name].loss, each) for each in path) / 0.45359237:.1f} lb"


budget = paper_165.heat_budget("top")
steam_takes = [abs(np.interp(moment, budget.time, budget.evaporation)) for moment in (before, after)]
STEAM, JUICE = ("evaporated",), ("dripped", "in_wrap")
tell(
    f"Holding back heat costs {hours(late['holds back no heat'] - usual)} at 165 °F and drying the soaked paper "
    f"{hours(late['soaks up no juice'] - usual)}: without both it would be done {sooner(free)} than never wrapped, instead "
    f"of {sooner(usual)}. At 150 °F the same two brakes are on, and paper gains "
    f"{hours(early['as it is'])}. The difference is the water. Paper does not end the evaporation, it makes it hotter: under "
    f"it the top gets wet again (from {top(paper_165.surface_water, before):.1f} to "
    f"{top(paper_165.surface_water, after):.1f} kg of water per kg of dry meat within an hour), warms from "
    f"{degrees(top(paper_165.surface, before))} to {degrees(top(paper_165.surface, after))}, and then steam gets out "
    f"through the sheet at {steam_takes[1]:.0f} W/m² instead of {steam_takes[0]:.0f}. What paper can save is the "
    "juice that runs off, and so need not be boiled away. At 150 °F more of the squeezing is still to come: "
    f"{lost_as(JUICE, 'paper at 150 °F')} of juice run off, and {lost_as(STEAM, 'paper at 150 °F')} turn to steam "
    f"over the whole cook. At 165 °F {lost_as(JUICE, 'paper at 165 °F')} run off, and "
    f"{lost_as(STEAM, 'paper at 165 °F')} turn to steam, nearly as never wrapped ({lost_as(STEAM, 'never')}).\n\n"
    "**Do not trust this too far.** Common practice, without a source, is that paper shortens a cook at 160 to 165 °F, too, "
    f"though less than foil; measured cooks in paper have the core stand still for hours, or fall, after such a wrap. Here "
    f"it gains little, whether it is as loose ({sooner(loose)}) or as tight ({sooner(close)}) as we think paper can be. No "
    "measurement of butcher paper itself was found; paper soaked with fat may be tighter, and more juice may run off. Your "
    'own log knows better: `lc.calibrate` fits the paper to it (`"wrap_resistance"`).'
)

# %% [markdown]
# ## The whole map
#
# One brisket is one point. Now wrap at every core temperature from 130 to 185 °F, in every pit from 215 to
# 300 °F. The numbers on the lines are the hours that wrapping buys there, against never wrapping in the
# same pit.

# %%
wrap_at = np.arange(130.0, 186.0, 2.5)  # °F
pits = np.arange(215, 301, 5)  # °F
bare = {air: pulled(cook(air=f"{air} °F")) for air in pits}
maps = {
    wrap: np.array(
        [[(bare[air] - pulled(cook(wrap, f"{at} °F", f"{air} °F"))) / HOUR for air in pits] for at in wrap_at]
    )
    for wrap in ("butcher paper", "foil")
}

# %% jupyter={"source_hidden": true} alt="Two maps, paper and foil: hours bought over the pit's temperature and the temperature at wrapping"
_, axes = plt.subplots(1, 2, figsize=(9.6, 4.2), layout="constrained", sharey=True)
for ax, (wrap, field) in zip(axes, maps.items(), strict=True):
    lc.plots.contours(
        pits,
        wrap_at,
        field,
        "pit [°F]",
        "core when it is wrapped [°F]",
        f"{wrap}: hours bought [h]",
        ax=ax,
        levels=[-1, 0, 0.5, 1, 2, 3, 4, 5, 6, 7, 8, 10, 12, 14, 16, 18, 20],
    )
axes[1].set_ylabel("")
# %% jupyter={"source_hidden": true}
foil, paper = maps["foil"], maps["butcher paper"]
cool, hot = foil[:, 0].max(), foil[:, -1].max()
at, column = list(wrap_at), list(pits).index(250)
tell(
    f"Read it like a weather map. Wrapping buys most in cool pits, where the stall is long: up to {cool:.0f} h in foil at "
    f"{pits[0]} °F, up to {hot:.0f} h at {pits[-1]} °F. Going up, the lines say what each degree of waiting costs: in a "
    f"250 °F pit, foil at 150 °F buys {foil[at.index(150), column]:.1f} h, at 165 °F "
    f"{foil[at.index(165), column]:.1f} h, at 180 °F {foil[at.index(180), column]:.1f} h. Paper follows the "
    f"same pattern with about {100 * paper.max() / foil.max():.0f} % of the gain at its best. **Late in the stall, paper "
    "is for the bark's colour and the juice, not for the clock; foil still saves time.**"
)

# %% [markdown]
# ## How sure is that?
#
# Thickness, the speed of the squeezed juice and the tightness of the paper are not known well: no figure
# for the paper's tightness was found, see the table of parameters. Here is the range that this leaves for
# one of the ways:

# %%
tell("\n\n".join(WAYS["paper at 150 °F"].in_words(units="F")[:2]))
