"""Checks of `libcook.best_plan`: enumerated optima, optimisers side by side, promises on hidden cooks.

    cd validation; python -m best_plan        (a quarter of an hour of two cores) writes BEST_PLAN.md

All cooks are invented, by the library's own belief or by the five other worlds.
"""
