"""The bound on the cells of a part, against every division of small ones into rectangles and by hand."""

import numpy as np
import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely import Polygon

from kerfline.engine.bounds import density_bound
from kerfline.engine.bounds.cells import cells_of
from kerfline.engine.bounds.density_bound import least_on_cells
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


def reach(ends):
    return np.full(len(ends), LONGEST * UNIT)


def bound_of(ring, boxes, aspect, *more, joints=(0.0, 0.0)):
    figure = Polygon(in_mm(ring))
    panels = [shapely.box(*(v * UNIT for v in box)) for box in boxes]
    cells = cells_of(figure, pieces(ring, *more), panels)
    known = [length * UNIT for length in joints]
    return least_on_cells(cells, (reach, reach), panels, aspect, known) / UNIT


def needed(stub):
    """The unit pieces of a joint, as the divisions count them."""
    (x0, y0), (x1, y1) = stub
    axis = 0 if x0 == x1 else 1
    low, high = sorted((y0, y1) if axis == 0 else (x0, x1))
    return frozenset((axis, x0 if axis == 0 else y0, n) for n in range(low, high))


@pytest.mark.parametrize("aspect", [1.0, 4 / 3, 1.5, 2.0])
@pytest.mark.parametrize("name", FLOORS)
def test_no_division_is_shorter(name, aspect):
    """Nor where the bound is asked of other divisions within the aspect: of squares, and of the longest panels."""
    ring = FLOORS[name]
    least, rectangles = shortest(ring, frozenset(), aspect)
    squares, small = shortest(ring, frozenset(), 1.0)
    assert least == len(pieces_of(ring, rectangles))
    assert squares >= least
    for boxes in (rectangles, small):
        assert bound_of(ring, boxes, aspect) <= least + 1e-6


@pytest.mark.parametrize("aspect", [4 / 3, 1.5])
@pytest.mark.parametrize("name", STUB)
def test_no_division_that_keeps_a_joint_is_shorter(name, aspect):
    ring, stub = FLOORS[name], STUB[name]
    least, rectangles = shortest(ring, needed(stub), aspect)
    found = bound_of(ring, rectangles, aspect, stub)
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
    least, rectangles = shortest(FLOORS[name], frozenset(), aspect)
    assert bound_of(FLOORS[name], rectangles, aspect) >= share * least - 1e-6


@given(st.lists(st.floats(0.0, 3.0), min_size=100, max_size=100), st.sampled_from(sorted(FLOORS)))
@settings(max_examples=30, deadline=None)
def test_whatever_the_prices_they_prove_no_more_than_there_is(prices, name):
    least, rectangles = shortest(FLOORS[name], frozenset(), 1.5)

    def some(starts, columns, values, asked, low):
        return np.resize(np.array(prices), len(asked))

    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(density_bound, "_prices", some)
        assert bound_of(FLOORS[name], rectangles, 1.5) <= least + 1e-6


def test_a_joint_along_asks_for_more_across_by_hand():
    """7.5 x 5 at a reach of 4 and an aspect of 1.25: rows of 2 and 3 have panels of 2.5 and 3.75, three and two of
    them: 7.5 along, 2 x 2 + 3 across. Two rows take 7.5 x 2 of width, that is 12 of height and more, less the 5."""
    ring = ((0, 0), (7.5, 0), (7.5, 5), (0, 5))
    low = [(2.5 * n, 0, 2.5 * n + 2.5, 2) for n in range(3)]
    rows = [*low, (0, 2, 3.75, 5), (3.75, 2, 7.5, 5)]
    assert bound_of(ring, rows, 1.25) == pytest.approx(7.5 + 2 * 2 + 3, rel=2e-3)
    assert bound_of(ring, rows, 1.25) <= 7.5 + 2 * 2 + 3 + 1e-6
    assert bound_of(ring, rows, 1.5) == pytest.approx(7.5 + 5)


def test_where_a_panel_is_longer_for_its_width_others_may_be_so_too():
    """A strip of 2 x 11: at 1.5 panels of 3, three joints of 2; one of 4 x 2 in it, and there they may be 4."""
    even = [(n * 2.75, 0, n * 2.75 + 2.75, 2) for n in range(4)]
    assert bound_of(FLOORS["strip"], even, 1.5) == pytest.approx(3 * 2)
    first = [(0, 0, 4, 2), (4, 0, 7, 2), (7, 0, 9, 2), (9, 0, 11, 2)]
    assert bound_of(FLOORS["strip"], first, 1.5) == pytest.approx(3 * 2)
    all_long = [(0, 0, 4, 2), (4, 0, 8, 2), (8, 0, 11, 2)]
    assert bound_of(FLOORS["strip"], all_long, 1.5) == pytest.approx(2 * 2)


def test_a_panel_that_is_no_rectangle_leaves_the_aspect_open():
    """7.5 x 5 in six panels; one of them as a hook around a smaller one, its bounds no longer for their width."""
    ring = ((0, 0), (7.5, 0), (7.5, 5), (0, 5))
    columns = ((0, 3), (3, 5.25), (5.25, 7.5))
    boxes = [(x0, y, x1, y + 2.5) for x0, x1 in columns for y in (0, 2.5)]
    hook = Polygon(in_mm(((0, 0), (3, 0), (3, 0.5), (0.5, 0.5), (0.5, 2.5), (0, 2.5))))
    panels = [
        hook,
        *(shapely.box(*(v * UNIT for v in box)) for box in ((0.5, 0.5, 3, 2.5), *boxes[1:])),
    ]
    cells = cells_of(Polygon(in_mm(ring)), pieces(ring), panels)
    open_there = least_on_cells(cells, (reach, reach), panels, 1.25) / UNIT
    assert open_there < bound_of(ring, boxes, 1.25) - 0.1


def test_what_is_known_besides_counts():
    ring = FLOORS["room"]
    rows = [(0, 0, 3, 2.5), (3, 0, 6, 2.5), (0, 2.5, 3, 5), (3, 2.5, 6, 5)]
    assert bound_of(ring, rows, 1.5) == pytest.approx(5 + 6)
    assert bound_of(ring, rows, 1.5, joints=(7.0, 0.0)) == pytest.approx(7 + 6)
    assert bound_of(ring, rows, 1.5, joints=(0.0, 8.0)) >= 5 + 8
