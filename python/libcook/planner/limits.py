"""What a plan must never be, whatever is wished; local food-safety rules come first."""

from __future__ import annotations

from libcook._core import parameters
from libcook.words.two_scales import BOTH

HOUR = 3600.0
_KNOWN = {one.name: one for one in parameters()}
HOT_HOLDING = float(_KNOWN["safety.hot_holding"].value)  # °C, FDA Food Code 3-501.16
COME_UP = float(_KNOWN["safety.come_up_limit"].value) * HOUR  # s, USDA FSIS Appendix A, from memory
UNSAFE_SHARE = 0.02  # of the possible cooks that may break a limit: tails of a wide belief; a judgement
COOLEST_PIT, HOTTEST_PIT = 93.0, 163.5  # °C: 200 to 325 °F, what smokers and ovens hold safely; a judgement
HOTTEST_PAPER = 150.0  # °C: paper round greasy meat is kept well below where it scorches; a judgement
COOLEST_HOLD, HOTTEST_HOLD = 60.0, 80.0  # °C that a holding oven is set to: above hot holding by its swing
COOLEST_PULL, HOTTEST_PULL = 85.0, 100.0  # °C: large tough cuts are not tender below; a judgement
LONGEST_HOLD = 12 * HOUR  # s that are looked at; nobody should plan for more
KEPT_HOT = BOTH.degrees(HOT_HOLDING, 0)  # as messages say it
CAUTION = (
    "Plans are estimates, not safety advice: measure the core in its coldest part, keep hot food at "
    f"{KEPT_HOT} or above, never leave a fire alone because a computer said so, and follow your local "
    "food-safety rules and qualified advice: they come first."
)
