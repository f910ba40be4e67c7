"""The forge: drawings in many habits, whose truth is known, are read right or asked about, never wrong in silence."""

from random import Random

import pytest

from forge.habits import HABITS
from forge.measure import UNSEEN, forged, outcome
from forge.plans import of_floor, of_footprint

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
    """The floors of ``eppy`` and the footprints of ``momepy``, drawn in every habit in turn."""
    from corpus.floors import floors
    from corpus.footprints import footprints

    plans = [of_floor(o, [(w, 115.0) for w in walls], Random(1)) for _, o, walls in floors()]
    plans += [of_footprint(outline, Random(1)) for _, outline in footprints()]
    wrong = {}
    for number, plan in enumerate(plans):
        habit = HABITS[number % len(HABITS)]
        found = outcome(habit(Random(number), plan))
        if found.verdict == "wrong":
            wrong[number, habit.__name__] = found.why
    assert not wrong
