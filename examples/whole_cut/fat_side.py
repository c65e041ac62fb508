"""Fat side up or down? Over coals in a drum, and in an offset, whose heat comes with the air."""

from __future__ import annotations

from kitchen import FLAT, HOUR, POINT, Figure, hours, lc, panels, show, smoke

QUESTION = "Fat side up or down?"

COOKERS = ("drum", "offset")


def answer() -> tuple[list[str], Figure]:
    """Compare the finish and the bark of the lean face."""
    cooks = {
        (kind, side): smoke(lc.brisket(mass="14 lb", fat=side), lc.pit(kind, air="250 °F"))
        for kind in COOKERS
        for side in ("down", "up")
    }
    lean = {key: out.bark()[1 if key[1] == "down" else 0].index for key, out in cooks.items()}
    capped = {key: out.bark()[0 if key[1] == "down" else 1].index for key, out in cooks.items()}
    sentences = []
    for kind in COOKERS:
        up, down = (kind, "up"), (kind, "down")
        sooner = cooks[down].time[-1] - cooks[up].time[-1]
        first = "up" if sooner > 0.0 else "down"
        when = f"{hours(sooner)} sooner with the fat {first}" if abs(sooner) >= 300.0 else "at the same time"
        darker = "up" if lean[up] > lean[down] else "down"
        sentences.append(
            f"In the {kind} the flat is done {when} ({hours(cooks[up].time[-1])} up, "
            f"{hours(cooks[down].time[-1])} down), the lean face has more bark with the fat {darker} (index "
            f"{lean[up]:.2f} up, {lean[down]:.2f} down), and under the fat it is {capped[up]:.2f} up and "
            f"{capped[down]:.2f} down."
        )
    figure, (left, right) = panels(1.0, 1.0, size=(9.0, 3.4))
    figure.get_layout_engine().set(w_pad=0.12)  # inches
    rows = [(kind, side) for kind in COOKERS for side in ("up", "down")]
    for y, key in enumerate(rows):
        end = cooks[key].time[-1] / HOUR
        left.barh(y, end, height=0.6, color=GREYS[key[1]])
        left.text(end - 0.15, y, f"{end:.1f} h", va="center", ha="right", color="white", fontsize=9)
        right.barh(y - 0.17, lean[key], height=0.32, color=POINT)
        right.barh(y + 0.17, capped[key], height=0.32, color=FLAT)
    for ax in (left, right):
        ax.set_ylim(len(rows) - 0.4, -0.6)
    left.set_yticks(range(len(rows)), [f"{kind}, fat {side}" for kind, side in rows])
    right.set_yticks(range(len(rows)), [""] * len(rows))
    left.set_xlabel("flat done [h]")
    right.set_xlabel("bark index at the flat [-]; at 1 it is set")
    right.axvline(1.0, color="#1F2328", lw=0.8, ls="--")
    top = max(*lean.values(), 1.0)
    right.set_xlim(0.0, 1.3 * top)
    right.text(lean[rows[0]] + 0.02 * top, -0.17, "lean face", va="center", fontsize=9, color=POINT)
    right.text(capped[rows[0]] + 0.02 * top, 0.17, "face under the fat", va="center", fontsize=9, color=FLAT)
    return sentences, figure


GREYS = {"up": "#6A6F76", "down": "#9AA0A8"}

if __name__ == "__main__":
    show("whole_cut_fat_side", QUESTION, answer)
