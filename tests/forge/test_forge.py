"""The forge: drawings in many habits, whose truth is known, are read right or asked about, never wrong in silence."""

import pytest

from forge.habits import HABITS
from forge.measure import UNSEEN, corpus, forged, outcome

SAMPLE = range(1, 1 + len(HABITS))
LONG = range(1000)


@pytest.mark.parametrize("seed", SAMPLE)
def test_one_drawing_of_each_habit(seed):
    habit, drawn = forged(seed)
    found = outcome(drawn)
    assert found.verdict != "wrong", f"{habit.__name__}, seed {seed}: {found.why}"


@pytest.mark.long
def test_a_thousand_drawings():
    verdicts = {seed: outcome(forged(seed)[1]) for seed in LONG}
    wrong = {seed: o.why for seed, o in verdicts.items() if o.verdict == "wrong"}
    assert not wrong
    right = sum(o.verdict == "right" for o in verdicts.values())
    assert right >= 0.95 * len(LONG)
    assert sum(seed % UNSEEN == 0 for seed in LONG) == len(LONG) // UNSEEN


@pytest.mark.long
def test_floors_and_footprints_that_nobody_here_drew():
    """The floors of ``eppy`` in every habit, the footprints of ``momepy`` in each habit in turn."""
    found = [(name, n, o) for name, rows in corpus().items() for n, o in rows]
    wrong = {(name, n): o.why for name, n, o in found if o.verdict == "wrong"}
    assert not wrong
    assert sum(o.verdict == "right" for _, _, o in found) >= 0.9 * len(found)
