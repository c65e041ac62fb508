"""Answer "wrap at 150 °F or at 165 °F, in paper or foil, or not at all?" for one brisket in three pits.

One pit runs at 225 °F, one at 275 °F, and of one the temperature was logged. Prints a table and the answer in
words, and writes the figures. The brisket and the log are invented.

    python examples/wrap_or_wait.py [--units F|C] [--figures FOLDER]
"""

from __future__ import annotations

import argparse
from pathlib import Path

import matplotlib

matplotlib.use("Agg")  # figures go to files; no screen is needed
import matplotlib.pyplot as plt
from matplotlib.figure import Figure

import libcook as lc
from libcook import plots
from libcook.units import format_duration, format_mass, format_temperature

HERE = Path(__file__).resolve().parent

# Change these to your own cook.
MEAT = lc.brisket(mass="14 lb")  # invented; give thickness="2.5 in" if you measured it: nothing matters more
DONE = lc.core("200 °F")
REST = lc.Stage("rest", lc.counter("70 °F"), wrap="foil", until=lc.cooled("140 °F"))
LOG = lc.read_log(HERE / "data" / "pit_log.csv")  # invented
PITS = {"225 °F": "225 °F", "logged 250 °F": LOG, "275 °F": "275 °F"}
WAYS = {
    "never wrapped": None,
    "paper at 150 °F": ("butcher paper", "150 °F"),
    "paper at 165 °F": ("butcher paper", "165 °F"),
    "foil at 150 °F": ("foil", "150 °F"),
    "foil at 165 °F": ("foil", "165 °F"),
}


def plan(air: object, way: tuple[str, str] | None) -> lc.Plan:
    """Smoke, wrap or not, and rest in foil on the counter until it is ready to slice."""
    pit = lc.pit("drum", air=air)
    if way is None:
        return lc.Plan(MEAT, [lc.Stage("smoke", pit, until=DONE), REST])
    wrap, core = way
    return lc.Plan(
        MEAT,
        [
            lc.Stage("smoke", pit, until=lc.core(core)),
            lc.Stage("wrapped", pit, wrap=wrap, until=DONE),
            REST,
        ],
    )


def answer(pit: str, cooks: lc.Comparison, units: str) -> str:
    """Say what each way of wrapping changes in one pit."""
    mass = "lb" if units == "F" else "kg"
    bare = cooks.facts["never wrapped"]
    lines = [f"Pit {pit}: never wrapped, it comes off after {format_duration(bare.pulled_at)}"]
    if bare.stall is not None:
        low, high = (format_temperature(t, units, 0) for t in (bare.stall.core_start, bare.stall.core_end))
        lines[0] += f" and stalls for {format_duration(bare.stall.duration)}, from {low} to {high}"
    lines[0] += ". Wrapped:"
    for way, facts in cooks.facts.items():
        if way == "never wrapped":
            continue
        sooner = bare.pulled_at - facts.pulled_at
        when = "no sooner" if sooner < 300.0 else f"{format_duration(sooner)} sooner"
        steam, unwrapped = (format_mass(one.evaporated, mass) for one in (facts, bare))
        lines.append(
            f"  {way}: {when}; {steam} steams away instead of {unwrapped}, and "
            f"{100.0 * facts.lost:.0f} % of the weight is lost instead of {100.0 * bare.lost:.0f} %"
        )
    return "\n".join(lines)


def draw(pits: dict[str, lc.Comparison]) -> Figure:
    """Draw how long each cook takes: a bar for each, lighter once it is wrapped, with its stall marked."""
    figure, ax = plt.subplots(figsize=(8.0, 5.2), layout="constrained")
    colours = {"never": "#6A6F76", "paper": "#D55E00", "foil": "#0072B2"}
    rows: list[tuple[float, str]] = []
    y = 0.0
    for pit, cooks in pits.items():
        ax.text(0.0, y - 0.65, f"pit {pit}", fontsize=9, fontweight="bold", va="center")
        for way, facts in cooks.facts.items():
            colour = colours[way.split()[0]]
            ends = [end.time / 3600.0 for end in cooks.outcomes[way].stage_ends[:-1]]  # without the rest
            ax.barh(y, ends[0], height=0.7, color=colour)
            ax.barh(y, ends[-1] - ends[0], left=ends[0], height=0.7, color=colour, alpha=0.35)
            if facts.stall is not None:
                start, length = facts.stall.start / 3600.0, facts.stall.duration / 3600.0
                ax.barh(
                    y, length, left=start, height=0.7, color="none", edgecolor="white", hatch="////", lw=0
                )
            ax.text(
                ends[-1], y, f"  {ends[-1]:.1f} h, {100.0 * facts.lost:.0f} % lost", fontsize=8.5, va="center"
            )
            rows.append((y, way))
            y += 1.0
        y += 0.9
    ax.set_yticks([at for at, _ in rows], [way for _, way in rows], fontsize=8.5)
    ax.set_ylim(y - 1.2, -1.3)
    ax.set_xlim(
        0.0, 1.16 * max(facts.pulled_at for cooks in pits.values() for facts in cooks.facts.values()) / 3600.0
    )
    ax.set_xlabel(
        "time on the heat [h]\nfull colour: bare    light: wrapped    hatched: stall    lost: of the weight"
    )
    ax.spines[["top", "right"]].set_visible(False)
    return figure


def main() -> None:
    """Simulate all, print the table and the answer, write the figures."""
    parser = argparse.ArgumentParser(
        description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter
    )
    parser.add_argument("--units", choices=("F", "C"), default="F", help="of the table and the figures")
    parser.add_argument(
        "--figures", type=Path, default=HERE / "output", help="folder that they are written to"
    )
    told = parser.parse_args()

    print("An invented brisket of 14 lb, fat side down, and an invented pit log.")
    print(f"  {LOG}")
    for finding in LOG.summary:
        print(f"  {finding}")

    outcomes = {
        pit: {way: lc.simulate(plan(air, wrap)) for way, wrap in WAYS.items()} for pit, air in PITS.items()
    }
    everything = {f"{pit}, {way}": out for pit, cooks in outcomes.items() for way, out in cooks.items()}
    print()
    print(lc.compare(everything, units=told.units))
    print("\npull: off the heat. peak, held: after the pull, resting in foil on the counter.\n")

    pits = {pit: lc.compare(cooks, units=told.units) for pit, cooks in outcomes.items()}
    for pit, cooks in pits.items():
        print(answer(pit, cooks, told.units))

    chosen = outcomes["logged 250 °F"]["paper at 150 °F"]
    print("\nOne of them in words, in the logged pit, paper at 150 °F:")
    for sentence in lc.sentences(chosen, units=told.units):
        print(f"  {sentence}")
    print(f"\n{chosen.safety().caution}")
    for warning in sorted({text for out in everything.values() for text in out.safety().warnings}):
        print(f"Warning: {warning}")

    figures = {
        "wrap_or_wait": draw(pits),
        **{f"core_{pit.split()[0]}": cooks.plot() for pit, cooks in pits.items()},
        "logged_pit": chosen.plot(units=told.units),
        "where_the_heat_goes": plots.plot_budget(outcomes["logged 250 °F"]["never wrapped"]),
        "inside_the_meat": plots.plot_profiles(chosen, ["1 h", "3 h", "6 h", "9 h"], units=told.units),
    }
    for name, figure in figures.items():
        for ending in ("png", "svg"):
            print(f"wrote {plots.savefig(figure, told.figures / f'{name}.{ending}')}")


if __name__ == "__main__":
    main()
