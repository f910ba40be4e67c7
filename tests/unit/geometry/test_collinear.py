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
