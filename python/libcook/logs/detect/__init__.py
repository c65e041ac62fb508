"""Events that the traces suggest. All of them are proposals: plausible, not proven; the cook checks them.

The limits are ours, judged on simulated cooks (invented data); no source. On other such cooks at least
nineteen of twenty events of each kind were found within a quarter of an hour, with fewer than one false alarm
in twenty logs for each kind; that a lid was opened to spritz was told for at least four of five spritzes
(``tests/python/logs/test_log_detection.py`` checks all this). A single look under the lid is often taken for
one of the spritzes around it. Real lids, probes and fires vary more than invented ones: expect worse.

What makes each kind stands in its file: `lids`, `wraps`, `probes`, `pulls`. When the wrap was opened, and
what was moved, cannot be told from these traces.
"""

from libcook.logs.detect.proposals import propose, say_proposed

__all__ = ["propose", "say_proposed"]
