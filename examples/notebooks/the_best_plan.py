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
# # The best plan
#
# Dinner is at six. How hot, wrapped when and in what, pulled at which core, and when do you get up? Habit has
# an answer; here the library searches for one, on possible cooks: briskets and pits as they may turn out to be.

# %% jupyter={"source_hidden": true}
from blackboard import CAUTION, degrees, hours, table, tell

import libcook as lc

tell(CAUTION)

# %% [markdown]
# ## Only the meal and the cut
#
# One invented 14 lb brisket. The habit that is to be beaten is 250 °F, paper at 165 °F, 203 °F, and an hour of
# rest. The search tries a few hundred plans; what it promises was counted on possible cooks that had no part in
# it.

# %%
best = lc.best_plan(lc.brisket("14 lb"), serve="18:00", members=120, tries=100, progress=False)
print(best)

# %% jupyter={"source_hidden": true} alt="Above: plans by their hours and the weight left, with the habit; below: the day of the chosen plan with bands of when each stage ends"
best.plot()
# %% [markdown]
# ## What each change of the habit brings
#
# The habit with one thing changed, on the same possible cooks: so chance does not blur the difference.

# %% jupyter={"source_hidden": true}
table(
    ("changed alone", "off the heat sooner", "weight left, points", "bark, index"),
    [(one.what, hours(one.sooner), f"{100 * one.kept:+.1f}", f"{one.bark:+.1f}") for one in best.reasons],
)

# %% jupyter={"source_hidden": true}
m, habit = best.measured, best.habit
tell(
    f"Together: off the heat {hours(habit.measured.pulled50 - m.pulled50)} sooner in the middle of the possible "
    f"cooks. Begun at the same time, {100 * m.on_time:.0f} % of them are on the table in time by the plan, "
    f"{100 * habit.same_start.on_time:.0f} % by the habit."
)

# %% [markdown]
# ## Rules for the day
#
# A plan made the night before need not be kept to. The rules say when to look at the thermometer, and what to
# do by what it shows. Only what somebody beside the cooker would know goes into them.

# %% jupyter={"source_hidden": true}
rules = () if best.policy is None else best.policy.rules
begin = best.serve - (best.measured if best.policy is None else best.policy.measured).room
table(
    ("look at", "if the core is", "then", "of 100 possible cooks"),
    [
        (
            lc.units.format_clock(begin + rule.at),
            ("under " if rule.under else "over ") + degrees(rule.core),
            ("foil round it, " if rule.foil else "") + f"pit to {degrees(rule.air)}",
            f"{100 * rule.share:.0f}",
        )
        for rule in rules
    ],
)

# %% jupyter={"source_hidden": true}
if best.policy is None:
    words = "No rule is worth the looks here: the plan holds by itself."
else:
    ruled, fixed = best.policy.measured, best.policy.fixed
    words = (
        f"On the same possible cooks: {100 * ruled.on_time:.0f} % on time instead of {100 * fixed.on_time:.0f} %, "
        f"and a wait of {hours(ruled.wait)} instead of {hours(fixed.wait)} in the mean."
    )
tell(words)

# %% [markdown]
# ## In the middle of it
#
# Somebody did it by habit, and at eleven the core hangs at 147 °F. What now, so that dinner is at six?

# %%
drum = lc.pit("drum", air="250 °F")
usual = lc.Plan(
    lc.brisket("14 lb"),
    [
        lc.Stage("smoke", drum, until=lc.core("165 °F")),
        lc.Stage("wrapped", drum, wrap="butcher paper", until=lc.core("203 °F")),
        lc.Stage("rest", lc.counter(), wrap="foil", until=lc.elapsed("1 h")),
    ],
    start="4:00",
)
ahead = lc.forecast(usual, {"2 h": "80 °F", "4 h": "118 °F", "6 h": "140 °F", "7 h": "147 °F"})
now = ahead.best_plan("18:00", tries=60, progress=False)
print(now)

# %% jupyter={"source_hidden": true}
tell(
    f"Going on as planned, {100 * now.habit.same_start.on_time:.0f} of 100 possible cooks are in time; with the new "
    f"plan {100 * now.measured.on_time:.0f}, and {100 * now.better:.0f} of 100 are ready sooner. Numbers are "
    "computed, of an invented cook: a probe in the coldest part and your local food-safety rules come first."
)
