"""Straight pieces on one line brought together."""

import math
from itertools import pairwise

import numpy as np
import pytest

from kerfline.geometry.collinear import collinear_runs


def rows(*pieces):
    return np.asarray(pieces, dtype=float).reshape(-1, 4)


def test_pieces_in_a_row_are_one_run():
    (run,) = collinear_runs(rows((0, 0, 10, 0), (20, 0, 10, 0), (20, 0, 30, 0)), 0.5)
    assert (run.start, run.end, run.pieces) == ((0, 0), (30, 0), (0, 1, 2))
    assert (run.covered, run.doubled, run.gaps) == (30, 0, ())


def test_overlaps_and_gaps_are_measured():
    (run,) = collinear_runs(rows((0, 0, 100, 0), (60, 0, 140, 0), (150, 0, 200, 0)), 20)
    assert run.covered == 190
    assert run.doubled == 40
    assert [g.size for g in run.gaps] == [10]


@pytest.mark.parametrize(
    "other",
    [(0, 5, 100, 5), (200, 0, 300, 0), (100, 0, 200, 12), (100, 0, 100, 90)],
    ids=["beside", "far", "askew", "square"],
)
def test_other_lines_stay_apart(other):
    assert len(collinear_runs(rows((0, 0, 100, 0), other), 20)) == 2


def test_unlike_pieces_stay_apart():
    pieces = rows((0, 0, 100, 0), (100, 0, 200, 0))
    assert len(collinear_runs(pieces, 1, 1, np.asarray([100.0, 150.0]), 12)) == 2
    assert len(collinear_runs(pieces, 1, 1, np.asarray([100.0, 105.0]), 12)) == 1


def test_the_chords_of_an_arc_are_not_one_line():
    turn = [math.radians(a / 5) for a in range(200)]
    points = [(10_000 * math.cos(a), 10_000 * math.sin(a)) for a in turn]
    runs = collinear_runs(rows(*((*a, *b) for a, b in pairwise(points))), 1)
    assert len(runs) > 10


def test_no_pieces_are_no_runs():
    assert collinear_runs(rows(), 1) == []


def bending(count, turn):
    """Pieces of 100 mm, each turned by some degrees from the one before."""
    points = [(0.0, 0.0)]
    for i in range(count):
        way = math.radians(i * turn)
        points.append((points[-1][0] + 100 * math.cos(way), points[-1][1] + 100 * math.sin(way)))
    return rows(*((*a, *b) for a, b in pairwise(points)))


def test_a_line_bends_by_twice_the_allowance_and_no_more():
    """Turns of half a degree: three pieces lie 1 mm off the line through them, ten lie 11 mm off."""
    assert len(collinear_runs(bending(3, 0.5), 1.0, 1.0)) == 1
    assert len(collinear_runs(bending(10, 0.5), 1.0, 1.0)) == 10
    assert len(collinear_runs(bending(10, 0.5), 1.0, 10.0)) == 1


def test_a_piece_that_is_askew_stays_apart_however_near_it_lies():
    askew = (100, 0, 110, 10 * math.tan(math.radians(5)))
    straight = (100, 0, 110, 10 * math.tan(math.radians(1)))
    assert len(collinear_runs(rows((0, 0, 100, 0), askew), 1.0, 20.0)) == 2
    assert len(collinear_runs(rows((0, 0, 100, 0), straight), 1.0, 20.0)) == 1


@pytest.mark.parametrize(("off", "runs"), [(0.9, 1), (1.1, 2)])
def test_a_piece_beside_a_line_is_on_it_within_the_allowance(off, runs):
    assert len(collinear_runs(rows((0, 0, 100, 0), (100, off, 150, off)), 2.0)) == runs
