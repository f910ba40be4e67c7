"""The bound on the cells of a part, against every division of small ones into rectangles and by hand."""

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely import Polygon

from kerfline.engine.bounds import density
from kerfline.engine.bounds.chords import chords_of
from kerfline.engine.bounds.density import coupled, fewest, least_on_cells
from unit.engine.divided import LONGEST, pieces_of, shortest

UNIT = 1000.0
FLOORS = {
    "box": ((0, 0), (9, 0), (9, 5), (0, 5)),
    "strip": ((0, 0), (11, 0), (11, 2), (0, 2)),
    "room": ((0, 0), (6, 0), (6, 5), (0, 5)),
    "L": ((0, 0), (8, 0), (8, 3), (3, 3), (3, 7), (0, 7)),
    "T": ((0, 0), (9, 0), (9, 3), (6, 3), (6, 6), (3, 6), (3, 3), (0, 3)),
    "walk": ((0, 0), (9, 0), (9, 2), (2, 2), (2, 7), (0, 7)),
}
STUB = {"box": ((4, 0), (4, 3)), "L": ((3, 3), (3, 0)), "room": ((0, 2), (4, 2))}
"""A joint that all divisions keep, in part of the floor only."""


def in_mm(points):
    return np.array(points, dtype=float) * UNIT


def pieces(ring, *more):
    closed = in_mm((*ring, ring[0]))
    lines = [np.stack([closed[:-1], closed[1:]], axis=1)]
    return np.concatenate([*lines, *(in_mm(m)[None] for m in more)])


def chords(ring, *more):
    """The level chords of a figure with joints in it, and the upright ones."""
    figure, lines = Polygon(in_mm(ring)), pieces(ring, *more)
    return tuple(chords_of(lines, figure, axis) for axis in (0, 1))


def bound_of(ring, aspect, *more, joints=(0.0, 0.0), longest=LONGEST):
    """In units; for panels no longer than some units."""
    seen = chords(ring, *more)
    reach = tuple(np.full(len(own.high), longest * UNIT) for own in seen)
    known = tuple(length * UNIT for length in joints)
    return least_on_cells(known, seen, reach, aspect) / UNIT


def needed(stub):
    """The unit pieces of a joint, as the divisions count them."""
    (x0, y0), (x1, y1) = stub
    axis = 0 if x0 == x1 else 1
    low, high = sorted((y0, y1) if axis == 0 else (x0, x1))
    return frozenset((axis, x0 if axis == 0 else y0, n) for n in range(low, high))


@pytest.mark.parametrize("aspect", [1.0, 4 / 3, 1.5, 2.0])
@pytest.mark.parametrize("name", FLOORS)
def test_no_division_is_shorter(name, aspect):
    ring = FLOORS[name]
    least, rectangles = shortest(ring, frozenset(), aspect)
    assert least == len(pieces_of(ring, rectangles))
    assert bound_of(ring, aspect) <= least + 1e-6
    assert sum(coupled((0.0, 0.0), chords(ring), aspect)) / UNIT <= least + 1e-6


@pytest.mark.parametrize("aspect", [4 / 3, 1.5])
@pytest.mark.parametrize("name", STUB)
def test_no_division_that_keeps_a_joint_is_shorter(name, aspect):
    ring, stub = FLOORS[name], STUB[name]
    least, _ = shortest(ring, needed(stub), aspect)
    found = bound_of(ring, aspect, stub)
    assert 0.6 * (least - len(needed(stub))) <= found <= least - len(needed(stub)) + 1e-6


@pytest.mark.parametrize(
    ("name", "aspect", "share"),
    [
        ("box", 1.5, 1.0),
        ("strip", 1.5, 1.0),
        ("walk", 1.5, 1.0),
        ("L", 1.5, 0.9),
        ("T", 1.5, 0.9),
        ("room", 4 / 3, 0.8),
    ],
)
def test_it_is_near_the_shortest(name, aspect, share):
    least, _ = shortest(FLOORS[name], frozenset(), aspect)
    assert bound_of(FLOORS[name], aspect) >= share * least - 1e-6


@given(st.lists(st.floats(0.0, 3.0), min_size=100, max_size=100), st.sampled_from(sorted(FLOORS)))
@settings(max_examples=30, deadline=None)
def test_whatever_the_prices_they_prove_no_more_than_there_is(prices, name):
    least, _ = shortest(FLOORS[name], frozenset(), 1.5)

    def some(starts, columns, values, asked, low):
        return np.resize(np.array(prices), len(asked))

    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(density, "_prices", some)
        assert bound_of(FLOORS[name], 1.5) <= least + 1e-6


def test_a_joint_along_asks_for_more_across_by_hand():
    """7.5 x 5 at a reach of 4 and an aspect of 1.25: rows of 2 and 3 have panels of 2.5 and 3.75, three and two of
    them: 7.5 along, 2 x 2 + 3 across. Two rows take 7.5 x 2 of width, that is 12 of height and more, less the 5."""
    ring = ((0, 0), (7.5, 0), (7.5, 5), (0, 5))
    assert bound_of(ring, 1.25) == pytest.approx(7.5 + 2 * 2 + 3, rel=2e-3)
    assert bound_of(ring, 1.25) <= 7.5 + 2 * 2 + 3 + 1e-6
    assert bound_of(ring, 1.5) == pytest.approx(7.5 + 5)


def test_what_one_direction_asks_of_the_other_by_hand():
    """The same over the whole: 7.5 of joint along and of width, that is 12 of height, less the 5 of the level chords."""
    seen = chords(((0, 0), (7.5, 0), (7.5, 5), (0, 5)))
    assert coupled((5.0 * UNIT, 7.5 * UNIT), seen, 1.25) == ((15.0 / 1.25 - 5.0) * UNIT, 7.5 * UNIT)
    assert coupled((5.0 * UNIT, 7.5 * UNIT), seen, 1.5) == (5.0 * UNIT, 7.5 * UNIT)
    assert coupled((5.0 * UNIT, 7.5 * UNIT), seen, np.inf) == (5.0 * UNIT, 7.5 * UNIT)
    assert coupled((30.0 * UNIT, 0.0), seen, 2.0) == (30.0 * UNIT, (35.0 / 2.0 - 7.5) * UNIT)


def test_where_panels_may_be_longer_fewer_joints_are_asked_for():
    """A strip of 2 x 11 at an aspect of 2: two joints where panels may be 4; in bays of 4, 3 and 4, five bays of 2.2."""
    assert bound_of(FLOORS["strip"], 2.0) == pytest.approx(2 * 2)
    assert bound_of(FLOORS["strip"], 2.0, longest=2.2) == pytest.approx(4 * 2)
    joints = (((4, 0), (4, 2)), ((7, 0), (7, 2)))
    assert bound_of(FLOORS["strip"], 2.0, *joints) == 0.0
    assert bound_of(FLOORS["strip"], 1.5, *joints) == pytest.approx(2 * 2)


def test_what_is_known_besides_counts():
    ring = FLOORS["room"]
    assert bound_of(ring, 1.5) == pytest.approx(5 + 6)
    assert bound_of(ring, 1.5, joints=(7.0, 0.0)) == pytest.approx(7 + 6)
    assert bound_of(ring, 1.5, joints=(0.0, 8.0)) >= 5 + 8


@pytest.mark.parametrize(("most", "told"), [(4, True), (3, False)])
def test_a_part_of_too_many_cells_is_left(most, told, monkeypatch):
    """The walk has three cells, and one more where a joint of its foot ends."""
    monkeypatch.setattr(density, "MOST_CELLS", most)
    assert (bound_of(FLOORS["walk"], 1.5, ((4, 0), (4, 2))) > 0.0) is told


@pytest.mark.parametrize(
    ("places", "limits", "count"),
    [
        ((0, 4), (4,), 1),
        ((0, 4000.4), (4000,), 1),
        ((0, 4000.6), (4000,), 2),
        ((0, 8000), (4000,), 2),
        ((0, 3000, 8000), (1000, 5000), 4),
        ((0, 5000, 8000), (5000, 1000), 4),
        ((0, 5000, 6000, 10000), (5000, 1000, 5000), 3),
        ((0, 4000, 4500, 8500), (9000, 500, 9000), 3),
        ((0, 4000, 4600, 8600), (9000, 500, 9000), 4),
    ],
)
def test_the_fewest_panels_that_fill_a_chord(places, limits, count):
    """A panel is no longer than the limit at any place of it: one stops short of a stretch whose limit is less."""
    assert fewest(np.array(places, dtype=float), np.array(limits, dtype=float)) == count
