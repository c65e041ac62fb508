"""Runs all checks of the best plan and writes BEST_PLAN.md."""

from __future__ import annotations

from pathlib import Path

from best_plan import optimisers, page, promises, small, speed

TRIES = 120
HERE = Path(__file__).resolve().parent


def main() -> None:
    costs = speed.measured()
    print("speed", [round(one.seconds) for one in costs], flush=True)
    found = [small.compare(case) for case in small.CASES]
    points = optimisers.measured(TRIES)
    dinners = []
    for number, known in enumerate(promises.questions()):
        dinners.append(promises.dine(known, number))
        print(known, f"{dinners[-1].seconds:.0f} s", flush=True)
    path = HERE.parent / "BEST_PLAN.md"
    path.write_text(page.page(found, points, TRIES, dinners, costs), encoding="utf-8")
    print(path)


if __name__ == "__main__":
    main()
