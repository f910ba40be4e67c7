"""Pairs of parallel lines as strips."""

import numpy as np
import pytest

from kerfline.geometry.parallel import paired


def rows(*lines):
    return np.asarray(lines, dtype=float).reshape(-1, 4)


def test_a_strip_is_where_the_lines_face_one_another():
    found = paired(rows((0, 0, 5000, 0), (6000, 120, 1000, 120)), 50, 500)
    (strip,) = found.strips
    assert (strip.start, strip.end) == ((1000, 60), (5000, 60))
    assert strip.thickness == 120
    assert found.left == pytest.approx([1000, 1000])


def test_near_pairs_are_taken_before_wide_ones():
    # faces at 0 and 100, and at 400 and 500: the 300 between is a room
    found = paired(rows(*((0, y, 4000, y) for y in (0, 100, 400, 500))), 50, 500)
    assert sorted(s.start[1] for s in found.strips) == [50, 450]


def test_each_place_is_a_face_once():
    found = paired(rows((0, 0, 9000, 0), (0, 100, 3000, 100), (3500, 100, 9000, 100)), 50, 500)
    assert sorted(round(s.length) for s in found.strips) == [3000, 5500]
    assert found.left == pytest.approx([500, 0, 0])


def test_too_close_too_far_askew_and_short_are_no_pairs():
    assert paired(rows((0, 0, 4000, 0), (0, 20, 4000, 20)), 50, 500).strips == ()
    assert paired(rows((0, 0, 4000, 0), (0, 600, 4000, 600)), 50, 500).strips == ()
    assert paired(rows((0, 0, 4000, 0), (0, 100, 4000, 300)), 50, 500).strips == ()
    assert paired(rows((0, 0, 4000, 0), (3950, 100, 8000, 100)), 50, 500).strips == ()
    assert paired(rows(), 50, 500).strips == ()


def test_the_middle_line_of_a_strip_that_tapers_lies_midway_at_both_ends():
    """Faces 100 mm apart at one end and 104 at the other; the shorter face begins 1 m later."""
    (strip,) = paired(rows((0, 0, 6000, 0), (1000, 100, 5000, 104)), 50, 500).strips
    ends = sorted([strip.start, strip.end])
    assert ends[0] == pytest.approx((1000, 50))
    assert ends[1] == pytest.approx((5000, 52))


def test_a_strip_lies_along_its_longer_face_whichever_is_given_first():
    long, short = (0, 0, 6000, 0), (4000, 100, 1000, 100)
    for given in ((long, short), (short, long)):
        (strip,) = paired(rows(*given), 50, 500).strips
        assert strip.faces == (given.index(long), given.index(short))
        assert sorted([strip.start, strip.end]) == [
            pytest.approx((1000, 50)),
            pytest.approx((4000, 50)),
        ]
