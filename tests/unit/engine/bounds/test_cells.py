"""The cells of a part: their lines, their chords and what a panel reaches into, by hand."""

from itertools import pairwise

import numpy as np
import pytest
import shapely
from shapely import Polygon

from kerfline.engine.bounds.cells import MOST_CELLS, Cells, cells_of

ELL = ((0, 0), (8, 0), (8, 3), (3, 3), (3, 7), (0, 7))


def cells(ring, *joints, panels=()):
    """Those of a figure in metres with joints in it; the panels are in mm."""
    pieces = np.array([*pairwise((*ring, ring[0])), *joints], dtype=float) * 1000
    return cells_of(Polygon(np.array(ring) * 1000.0), pieces, panels)


def runs(found):
    return [(r.row, r.first, r.last) for r in found.level_runs()]


@pytest.fixture
def ell():
    return cells(ELL, panels=[shapely.box(0, 0, 8000, 1000)])


def test_a_part_with_an_edge_or_a_joint_on_the_slant_has_no_cells():
    square = ((0, 0), (9, 0), (9, 5), (0, 5))
    assert cells(((0, 0), (9, 0), (8, 5), (0, 5))) is None
    assert cells(square, ((2, 0), (3, 5))) is None
    assert cells(square, ((2, 0), (2.00002, 5))) is None
    assert cells(square, ((2, 0), (2.000005, 5))) is not None


@pytest.mark.parametrize(("columns", "kept"), [(30, True), (31, False)])
def test_a_part_of_too_many_cells_is_left(columns, kept):
    """30 columns by 50 rows are as many as there may be."""
    assert MOST_CELLS == 1500
    up = [shapely.box(x * 100, 0, x * 100 + 100, 5000) for x in range(columns)]
    across = [shapely.box(0, y * 100, columns * 100, y * 100 + 100) for y in range(50)]
    wide = columns / 10
    found = cells(((0, 0), (wide, 0), (wide, 5), (0, 5)), panels=[*up, *across])
    assert (found is not None) is kept


def test_lines_that_are_the_same_are_one():
    panels = [shapely.box(0, 0, 4000.005, 3000), shapely.box(4000, 3000.02, 8000, 5000)]
    found = cells(((0, 0), (8, 0), (8, 5), (0, 5)), panels=panels)
    assert [at.tolist() for at in found.places] == [[0, 4000, 8000], [0, 3000, 3000.02, 5000]]


def test_cells_end_chords_at_edges_and_at_joints_that_are_there():
    found = cells(ELL, ((3, 3), (3, 1)), panels=[shapely.box(0, 0, 8000, 1000)])
    assert [at.tolist() for at in found.places] == [[0, 3000, 8000], [0, 1000, 3000, 7000]]
    assert runs(found) == [(0, 0, 2), (1, 0, 1), (1, 1, 2), (2, 0, 1)]
    assert runs(found.turned) == [(0, 0, 3), (1, 0, 2)]


def test_a_joint_ends_no_chord_beyond_its_own_end():
    found = cells(ELL, ((3, 0), (3, 1)), panels=[shapely.box(0, 0, 8000, 1000)])
    assert runs(found) == [(0, 0, 1), (0, 1, 2), (1, 0, 2), (2, 0, 1)]


def test_between_two_edges_outside_there_is_no_chord():
    found = cells(((0, 0), (9, 0), (9, 5), (6, 5), (6, 3), (3, 3), (3, 5), (0, 5)))
    assert runs(found) == [(0, 0, 3), (1, 0, 1), (1, 2, 3)]


def test_cells_know_what_is_concrete_and_their_measures(ell):
    assert ell.inside.tolist() == [[True, True, True], [True, True, False]]
    assert ell.heights.tolist() == [1000, 2000, 4000]
    assert (ell.areas / 1e6).tolist() == [[3, 6, 12], [5, 10, 20]]


def test_turned_cells_have_upright_for_level(ell):
    turned = ell.turned
    assert [at.tolist() for at in turned.places] == [[0, 1000, 3000, 7000], [0, 3000, 8000]]
    assert turned.inside.tolist() == [[True, True], [True, True], [True, False]]
    assert turned.heights.tolist() == [3000, 5000]
    assert turned.stops[0] is ell.stops[1]
    assert runs(turned.turned) == runs(ell) == [(0, 0, 2), (1, 0, 2), (2, 0, 1)]


def test_a_run_lies_between_one_stop_and_the_next_on_concrete():
    """One row of four cells, the third of them no concrete, with a stop at each line but the second."""
    up = np.array([[True], [False], [True], [True], [True]])
    level = np.zeros((2, 4), dtype=bool)
    inside = np.array([[True], [True], [False], [True]])
    places = (np.arange(5) * 1000.0, np.array([0.0, 700.0]))
    assert runs(Cells(places, inside, (up, level))) == [(0, 0, 2), (0, 3, 4)]


@pytest.mark.parametrize(
    ("bounds", "reached"),
    [
        ((0, 0, 8000, 7000), [[1, 1, 1], [1, 1, 1]]),
        ((3000, 1000, 8000, 3000), [[0, 0, 0], [0, 1, 0]]),
        ((500, 1500, 2000, 2500), [[0, 1, 0], [0, 0, 0]]),
        ((2999.6, 999.6, 8000, 3000.4), [[0, 0, 0], [0, 1, 0]]),
        ((2999.4, 1000, 8000, 3000), [[0, 1, 0], [0, 1, 0]]),
        ((3000, 999.4, 8000, 3000), [[0, 0, 0], [1, 1, 0]]),
        ((3000, 1000, 8000, 3000.6), [[0, 0, 0], [0, 1, 1]]),
        ((0, 0, 3000.4, 1000), [[1, 0, 0], [0, 0, 0]]),
        ((0, 0, 3000.6, 1000), [[1, 0, 0], [1, 0, 0]]),
    ],
)
def test_a_panel_reaches_into_cells_by_more_than_a_touch(ell, bounds, reached):
    """Half a millimetre is a touch; what is no concrete between its bounds counts too."""
    assert ell.under(shapely.box(*bounds)).astype(int).tolist() == reached
