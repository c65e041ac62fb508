"""Answer all the questions about the whole cut: six scripts beside this one, each with a figure.

python examples/whole_cut/all.py [--figures FOLDER]
"""

import fat_side
import flat_first
import hold
import probe_place
import tender_yet
import water_pan
from kitchen import show

QUESTIONS = (flat_first, water_pan, fat_side, probe_place, hold, tender_yet)

if __name__ == "__main__":
    for one in QUESTIONS:
        show(f"whole_cut_{one.__name__}", one.QUESTION, one.answer)
