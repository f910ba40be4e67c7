"""Curves of a page as arcs where they are arcs, else as chords."""

import math

import pytest

from kerfline.files.plan_pdf.bezier import CHORDS, pieces_of
from kerfline.geometry.ring import arc_of

KAPPA = 4 / 3 * (math.sqrt(2) - 1)
"""Where writers put the control points of a quarter circle of radius 1."""


def test_a_quarter_circle_is_one_arc():
    ((end, bulge),) = pieces_of((1, 0), [(1, KAPPA), (KAPPA, 1)], (0, 1))
    assert end == (0, 1)
    assert bulge == pytest.approx(math.tan(math.pi / 8), rel=1e-3)
    assert arc_of((1, 0), end, bulge).radius == pytest.approx(1.0, rel=1e-3)


def test_the_other_way_around_its_bulge_is_negative():
    ((_, bulge),) = pieces_of((0, 1), [(KAPPA, 1), (1, KAPPA)], (1, 0))
    assert bulge == pytest.approx(-math.tan(math.pi / 8), rel=1e-3)


def test_controls_on_the_chord_make_a_straight_line():
    assert pieces_of((0, 0), [(1, 0), (2, 0)], (3, 0)) == [((3, 0), 0.0)]
    assert pieces_of((0, 0), [(1, 0.002), (2, 0)], (3, 0)) == [((3, 0), 0.0)]
    assert len(pieces_of((0, 0), [(1, 0.004), (2, -0.004)], (3, 0))) == CHORDS


def test_a_curve_that_is_no_arc_is_chords_through_points_of_it():
    pieces = pieces_of((0, 0), [(0, 3), (3, -3)], (3, 0))
    assert len(pieces) == CHORDS
    assert all(bulge == 0.0 for _, bulge in pieces)
    middle, _ = pieces[CHORDS // 2 - 1]
    assert middle == pytest.approx((1.5, 0.0))  # (0 + 3*0 + 3*3 + 3) / 8 and (3*3 - 3*3) / 8
    assert pieces[-1][0] == pytest.approx((3, 0))


def test_a_loop_back_to_its_start_is_chords():
    pieces = pieces_of((0, 0), [(3, 3), (-3, 3)], (0, 0))
    assert len(pieces) == CHORDS
    assert pieces[CHORDS // 2 - 1][0] == pytest.approx((0, 2.25))


def test_more_than_a_half_circle_is_no_arc():
    assert len(pieces_of((1, 0), [(4, 4), (-4, 4)], (-1, 0))) == CHORDS
