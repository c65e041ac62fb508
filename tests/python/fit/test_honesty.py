"""A small, seeded piece of the study of honesty (validation/honesty.py): bounds that chance keeps."""

import honesty
import honesty_report
import numpy as np
import pytest


@pytest.fixture(scope="module")
def slab():
    return honesty.study(16, section=False, error="slab", seed=7)


def test_intervals_hold_about_as_often_as_they_say(slab):
    pooled90 = np.mean([hit for hits in slab.numbers.values() for hit in hits.in90])
    pooled50 = np.mean([hit for hits in slab.numbers.values() for hit in hits.in50])
    # 16 cooks of 8 or 9 numbers that hang together: some four standard deviations to either side.
    assert 0.70 < pooled90 <= 1.0
    assert 0.30 < pooled50 < 0.75
    finishes = [hit for hits in slab.finish.values() for hit in hits.in90]
    assert 0.70 < np.mean(finishes) <= 1.0


def test_forecasts_beat_what_a_cook_does_without(slab):
    ours = np.median(np.abs(slab.missed[0.5]))
    assert ours < 0.5 * np.median(slab.line[0.5])
    assert ours < 0.5 * np.median(slab.per_pound())


def test_forecasts_of_one_cook_tell_a_consistent_story(slab):
    # Where they drift one way, later medians lie to one side of what was told before. Two ranks a cook.
    assert len(slab.ranks) == 2 * len(slab.done)
    assert abs(np.mean(slab.ranks) - 0.5) < 3.0 * np.sqrt(1.0 / 12.0 / len(slab.done))


def test_the_report_is_written(slab):
    text = honesty_report.page([(slab, "A slab", "Invented.")], 16, 7)
    assert "All data of this part are invented" in text
    assert text.count("| thickness |") == 1
    assert "50 % of the cook" in text
    for line in text.splitlines():
        if line.startswith("|"):
            assert line.count("|") in (8, 9)
