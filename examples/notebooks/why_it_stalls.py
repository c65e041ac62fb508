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
# # Why it stalls
#
# A brisket warms steadily for a few hours. Then, somewhere between 140 and 150 °F, the thermometer goes to a
# crawl. Fire and meat are as before, and still it takes hours for what took minutes. People blame melting fat,
# collagen, the pit, the moon. Here you turn each cause off, one at a time, and see which one takes the stall
# with it.

# %% jupyter={"source_hidden": true}
import matplotlib.pyplot as plt
import numpy as np
from blackboard import CAUTION, HOUR, degrees, fahrenheit, hours, table, tell

import libcook as lc

tell(CAUTION)

# %% [markdown]
# ## One cook, from cold to 200 °F
#
# An invented brisket of 14 lb in a 250 °F drum, never wrapped. Change these lines to yours.

# %% alt="Core, surface and air over the cook; the stall is shaded"
meat = lc.brisket(mass="14 lb")
pit = lc.pit("drum", air="250 °F")
plan = lc.Plan(meat, [lc.Stage("smoke", pit, until=lc.core("200 °F"), at_most="60 h")])
out = lc.simulate(plan)
out.plot(units="F")
# %% jupyter={"source_hidden": true}
stall = out.stall()
fastest = float(np.gradient(out.core, out.time).max())  # K/s
tell(
    f"It takes {hours(out.time[-1])}. For {hours(stall.duration)} of that the core creeps from "
    f"{degrees(stall.core_start)} to {degrees(stall.core_end)}; at its slowest it climbs "
    f"{1.8 * stall.slowest * HOUR:.1f} °F per hour, where it had climbed {1.8 * fastest * HOUR:.0f}. Look at the "
    "surface, too: it is barely warmer than the core, although the air around it is at 250 °F. **Something keeps "
    "the surface cool.**"
)

# %% [markdown]
# ## Follow the heat
#
# Heat reaches the top face in two ways: from the moving air (convection) and from the hot walls
# (radiation). Both are drawn upwards, stacked. What evaporation takes away is drawn downwards. The black
# line is what is left: the heat that goes on into the meat.

# %% alt="Stacked areas: convection and radiation above zero, evaporation below, what is left as a line"
out.plot_budget()
# %% jupyter={"source_hidden": true}
during = (out.heat_budget("top").time > stall.start) & (out.heat_budget("top").time < stall.end)
arrives = np.mean(
    [(out.heat_budget(f).convection + out.heat_budget(f).radiation)[during].mean() for f in out.faces]
)
leaves = np.mean([out.heat_budget(f).evaporation[during].mean() for f in out.faces])
tell(
    f"During the stall, {arrives:.0f} W reach every square metre of the meat, and evaporation takes {leaves:.0f} of "
    f"them, **{100 * leaves / arrives:.0f} %**. Most of the fire goes into drying the surface. The meat gets "
    "what is left over, and that is why the needle creeps. It is the sweat of the meat that cools it."
)

# %% [markdown]
# ## Turn the causes off, one at a time
#
# In a kitchen you cannot cook without evaporation. Here you can. Each line below is the same cook with one
# thing switched off:
#
# - **evaporation**: no water leaves as vapour;
# - **squeezing**: the proteins, as they cook, press no juice towards the surface;
# - **radiation**: the walls do not glow at the meat;
# - **melting fat**, **cooking proteins** (collagen among them): they take up no heat.

# %%
no_fat, no_protein = meat.replace(), meat.replace()
no_fat.tissue.sinks.fat_latent = 0.0
no_protein.tissue.sinks.denaturation = 0.0
cooks = {
    "as it is": out,
    "no evaporation": lc.simulate(plan, evaporation=False),
    "no squeezing": lc.simulate(plan, squeezing=False),
    "no radiation": lc.simulate(plan, radiation=False),
    "no melting fat": lc.simulate(plan.replace(meat=no_fat)),
    "no cooking proteins": lc.simulate(plan.replace(meat=no_protein)),
    "neither of the two": lc.simulate(plan, sinks=False),
}
stalls = {name: each.stall() for name, each in cooks.items()}

# %% jupyter={"source_hidden": true} alt="Core temperature with each cause switched off; only without evaporation or squeezing is there no stall"
drawn = ["as it is", "no evaporation", "no squeezing", "no radiation", "neither of the two"]
names = {"neither of the two": "no heat for fat and proteins"}
lc.plots.lines(
    None,
    {names.get(name, name): (cooks[name].time / HOUR, fahrenheit(cooks[name].core)) for name in drawn},
    "time [h]",
    "core temperature [°F]",
    xlim=(0, 22),
    ylim=(30, 212),
)
# %% jupyter={"source_hidden": true}
table(
    ["switched off", "done after", "stall", "near"],
    [
        (
            name,
            hours(each.time[-1]),
            "none" if stalls[name] is None else hours(stalls[name].duration),
            "" if stalls[name] is None else degrees(stalls[name].plateau),
        )
        for name, each in cooks.items()
    ],
)

# %% jupyter={"source_hidden": true}
holding = meat.tissue.holding
low, high = (
    holding.midpoint + side * 2.0 * holding.width for side in (-1.0, 1.0)
)  # three quarters of the juice
assert stalls["as it is"] is not None and stalls["no evaporation"] is None
tell(
    f"**Without evaporation there is no stall**, and the brisket is done in {hours(cooks['no evaporation'].time[-1])} "
    f"instead of {hours(out.time[-1])}. "
    + (
        "Without squeezing there is none either: evaporation needs a supply, and the supply is the juice that the "
        f"proteins press out as they pass {degrees(low)} to {degrees(high)}. The less of it comes, the drier and warmer the "
        "surface gets, and the stall comes to its end. "
        if stalls["no squeezing"] is None
        else "Without squeezing it still stalls. "
    )
    + f"Radiation is no brake but most of the fire: without it the cook takes {hours(cooks['no radiation'].time[-1])}."
)

# %% [markdown]
# ## And the fat? And the collagen?
#
# They do take up heat when they melt and when they cook. How much? Add it up for the whole piece, fat cap
# included, beside the heat that arrived and the heat that evaporation took.

# %%
sinks, parts = meat.tissue.sinks, meat.tissue.composition
cap = meat.fat_cap.thickness * meat.shape.extent * lc.physics.component_density("fat", 20.0)  # kg
fat = sinks.fat_latent * (parts.fat * meat.mass + cap) / 1e6  # MJ, all of it melted once
protein = sinks.denaturation * parts.protein * meat.mass / 1e6  # MJ, all the protein, cooked once
arrived = (out.ledger.convection + out.ledger.radiation) / 1e6
steam = out.ledger.latent / 1e6
share = 100 * (fat + protein) / arrived

# %% jupyter={"source_hidden": true} alt="Bars: the heat that arrived, what evaporation took, and what fat and proteins took"
_, ax = plt.subplots(figsize=(8, 2.4), layout="constrained")
names = [
    f"arrived: {arrived:.2f} MJ",
    f"evaporation: {steam:.2f} MJ",
    f"melting fat: {fat:.3f} MJ",
    f"cooking proteins: {protein:.3f} MJ",
]
ax.barh(names, [arrived, steam, fat, protein], color=["#D55E00", "#56B4E9", "#E69F00", "#CC79A7"])
ax.invert_yaxis()
ax.set_xlabel("heat over the whole cook [MJ]")
ax.spines[["top", "right"]].set_visible(False)
# %% jupyter={"source_hidden": true}
assert share < 5.0
saved = out.time[-1] - cooks["neither of the two"].time[-1]
tell(
    f"Fat and proteins together take **{share:.1f} %** of the heat that arrives; evaporation takes "
    f"{100 * steam / arrived:.0f} %. Without both the brisket would be done {hours(saved)} sooner, and it would stall "
    f"for {hours(stalls['neither of the two'].duration)} all the same. Collagen is a part of the proteins' "
    f"{100 * protein / arrived:.1f} %: it makes the meat tender, but it does not hold the needle back."
)

# %% [markdown]
# ## Where does the surface settle?
#
# At the temperature where as much heat arrives as evaporation takes. Draw both against the temperature of
# the surface: the warmer the surface, the less heat it gets from the air and the walls, and the faster its
# water goes. Where the lines cross, it stays. With the walls left out, the crossing is the *wet bulb* of
# the weather reports.

# %% jupyter={"source_hidden": true} alt="Heat arriving and heat taken by evaporation against the temperature of the surface; they cross at the wet bulb"
air, vapour = 121.1, float(pit.vapour_pressure.at(0.0))  # °C, Pa
h = 0.5 * sum(lc.physics.natural_plate(60.0, air, 0.06, facing) for facing in ("up", "down"))  # W/m²K
surface = np.linspace(30.0, 75.0, 181)
film = 0.5 * (surface + air)
convection = h * (air - surface)
radiation = meat.tissue.emissivity * 5.670374e-8 * ((air + 273.15) ** 4 - (surface + 273.15) ** 4)
taken = lc.physics.evaporation_flux(
    h * lc.physics.lewis_factor(film), film, lc.physics.saturation_pressure(surface), vapour
) * lc.physics.latent_heat(surface)
wet = lc.physics.wet_surface(air, vapour, h, emissivity=meat.tissue.emissivity).temperature
bulb = lc.physics.wet_surface(air, vapour, h, emissivity=0.0).temperature
ax = lc.plots.lines(
    fahrenheit(surface),
    {
        "from air and walls": convection + radiation,
        "from the air alone": convection,
        "taken by\nevaporation": taken,
    },
    "temperature of the wet surface [°F]",
    "heat [W/m²]",
    ylim=(0, 1500),
)
for at, level, name in (
    (wet, np.interp(wet, surface, taken), "a wet brisket"),
    (bulb, np.interp(bulb, surface, taken), "wet bulb"),
):
    ax.plot([fahrenheit(at)], [level], "o", ms=7, mfc="white", mec="#1F2328", zorder=5)
    ax.annotate(
        f"{name}\n{fahrenheit(at):.0f} °F",
        (fahrenheit(at), level),
        (-12, 16),
        textcoords="offset points",
        ha="right",
        fontsize=8.5,
    )

# %% jupyter={"source_hidden": true}
begin, end = (np.interp(t, out.time, out.surface.mean(axis=1)) for t in (stall.start, stall.end))
tell(
    f"A surface that is fully wet would settle at {degrees(wet)}; the glow of the walls holds it "
    f"{1.8 * (wet - bulb):.0f} °F above the wet bulb. The simulated surface is at {degrees(begin)} when the stall begins "
    f"and at {degrees(end)} when it ends: warmer, for the fat cap lets less vapour through and the surface dries little "
    "by little. The core is always a little behind the surface, so it has to wait for it."
)

# %% [markdown]
# ## Humid pits and draughty pits
#
# Steam in the air slows evaporation, so the surface settles higher. A draught brings more heat *and* takes
# more vapour.

# %% jupyter={"source_hidden": true} alt="Hours to done and hours of stall against the vapour in the pit, and against the air speed"
pressures = np.linspace(3000.0, 25000.0, 12)  # Pa
speeds = np.linspace(0.2, 2.5, 12)  # m/s


def cooked(**changes):
    """Run the same plan in a pit that differs."""
    changed = pit.replace(**changes)
    return lc.simulate(plan.replace(stages=[plan.stages[0].replace(surroundings=changed)]), keep_fields=False)


damp = [cooked(vapour_pressure=p) for p in pressures]
windy = [cooked(bottom=lc.Film("forced", v, 0.3), top=lc.Film("forced", v, 0.3)) for v in speeds]
_, (left, right) = plt.subplots(1, 2, figsize=(9, 3.8), layout="constrained")
for ax, x, each, label in (
    (left, pressures / 1000, damp, "water vapour in the pit [kPa]"),
    (right, speeds, windy, "air speed over the meat [m/s]"),
):
    lc.plots.lines(
        x,
        {
            "done": [o.time[-1] / HOUR for o in each],
            "stall": [o.stall().duration / HOUR if o.stall() else 0.0 for o in each],
        },
        label,
        "hours [h]",
        ax=ax,
        marker="o",
        ylim=(0, 17),
    )

# %% jupyter={"source_hidden": true}
dry, steamy, calm, gusty = damp[0], damp[-1], windy[0], windy[-1]
tell(
    f"From {pressures[0] / 1000:.0f} to {pressures[-1] / 1000:.0f} kPa of vapour the stall begins at "
    f"{degrees(steamy.stall().core_start)} instead of {degrees(dry.stall().core_start)}, and lasts "
    f"{hours(steamy.stall().duration)} instead of {hours(dry.stall().duration)}. Only a really steamy pit is done sooner: "
    f"at {pressures[6] / 1000:.0f} kPa it still takes {hours(damp[6].time[-1])}, dry {hours(dry.time[-1])}. From {speeds[0]:.1f} to {speeds[-1]:.1f} m/s of "
    f"draught the cook shortens from {hours(calm.time[-1])} to {hours(gusty.time[-1])}: the extra heat outweighs the "
    "extra drying. A real draught also blows the steam out of the pit; move both at once to see that."
)

# %% [markdown]
# ## What to take to the pit
#
# 1. The stall is the meat sweating. Nothing is wrong with your fire.
# 2. It ends by itself when the juice that reaches the surface no longer keeps up. Foil ends it sooner, because
#    it keeps the steam in: see *Wrap or wait*.
# 3. What else makes it longer or shorter is no rule of thumb. Turned one at a time, for this brisket:

# %% jupyter={"source_hidden": true}
def stalled(cook):
    """Say how long a cook stalls, and where."""
    found = cook.stall()
    return "no stall" if found is None else f"{hours(found.duration)} near {degrees(found.plateau)}"


thick = lc.simulate(plan.replace(meat=lc.brisket(mass="14 lb", thickness=1.2 * meat.shape.thickness)), keep_fields=False)
cool = cooked(air="225 °F")
table(
    ["changed", "it stalls for", "it is done after"],
    [
        (name, stalled(each), hours(each.time[-1]))
        for name, each in {
            "nothing": out,
            "a fifth thicker": thick,
            "pit at 225 °F": cool,
            f"{pressures[0] / 1000:.0f} kPa of vapour: dry": dry,
            f"{pressures[-1] / 1000:.0f} kPa: steam": steamy,
            f"air at {speeds[-1]:.1f} m/s": gusty,
        }.items()
    ],
)

# %% [markdown]
# **How far to trust it.** How much water meat lets go, and the two speeds at which it moves, are the middle of an
# estimate from 74 measured cooks; for one of two of them the answer is off by a fifth of the time or more. The
# pit's humidity is a guess unless you measured it. The table of parameters gives every number with its
# source and range; `out.in_words(units="F")` says how much that leaves open:

# %%
tell("\n\n".join(out.in_words(units="F")))
