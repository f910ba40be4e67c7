"""Dashed lines told from lines that end."""

import numpy as np
import pytest

from kerfline.geometry.collinear import collinear_runs
from kerfline.geometry.dashes import undashed


def run_of(*spans):
    (run,) = collinear_runs(np.asarray([(a, 0, b, 0) for a, b in spans], dtype=float), 10_000)
    return run


def test_even_dashes_are_a_line():
    ((line, gaps),) = undashed(run_of(*((i * 450, i * 450 + 300) for i in range(10))), 50)
    assert line == ((0, 0), (4350, 0))
    assert gaps == pytest.approx([150] * 9)


def test_long_pieces_are_not_dashes():
    lines = undashed(run_of((0, 3000), (3300, 6000), (6300, 9000)), 50)
    assert [line for line, _ in lines] == [
        ((0, 0), (3000, 0)),
        ((3300, 0), (6000, 0)),
        ((6300, 0), (9000, 0)),
    ]


def test_two_pieces_are_not_dashes():
    assert len(undashed(run_of((0, 300), (400, 700)), 50)) == 2


def test_a_dashed_line_ends_at_a_wide_gap():
    spans = [(i * 300, i * 300 + 200) for i in range(5)] + [
        (3000 + i * 300, 3200 + i * 300) for i in range(5)
    ]
    assert len(undashed(run_of(*spans), 50)) == 2
