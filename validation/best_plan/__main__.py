"""Runs all checks of the best plan and writes BEST_PLAN.md; with --hidden only its first part anew.

cd validation; python -m best_plan            half an hour on two cores
cd validation; python -m best_plan --hidden   a third of that
"""

from __future__ import annotations

import os
import sys
from concurrent.futures import ProcessPoolExecutor
from pathlib import Path

from best_plan import optimisers, page, promises, small, speed

TRIES = 120
HERE = Path(__file__).resolve().parent
NEXT = "## The search finds"  # what follows the hidden cooks on the page


def hidden_dinners() -> list[promises.Dinner]:
    """Every question in a process of its own, as many as there are cores."""
    questions = promises.questions()
    with ProcessPoolExecutor(os.cpu_count()) as pool:
        return list(pool.map(promises.dine, questions, range(len(questions))))


def main() -> None:
    path = HERE.parent / "BEST_PLAN.md"
    if "--hidden" in sys.argv[1:]:
        _, mark, rest = path.read_text(encoding="utf-8").partition(NEXT)
        text = "\n".join([page.INTRO, *page.hidden_cooks(hidden_dinners()), mark]) + rest
    else:
        costs = speed.measured()
        found = [small.compare(case) for case in small.CASES]
        points = optimisers.measured(TRIES)
        text = page.page(found, points, TRIES, hidden_dinners(), costs)
    path.write_text(text, encoding="utf-8")
    print(path)


if __name__ == "__main__":
    main()
