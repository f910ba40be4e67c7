"""Which joints of two states are one line: the same, longer or shorter along an axis, or none of it."""

import numpy as np
import pytest
from shapely import LineString, box

from kerfline.checks.changed_lines import GONE, Lines, changed_lines
from kerfline.checks.parting import parted, parted_again


def lines(*paths):
    """Joints drawn as they meet."""
    drawn = [LineString(path) for path in paths]
    return Lines(drawn, drawn)


def compared(before, now):
    """The numbers now, and the stretches as points."""
    found = changed_lines(lines(*before), lines(*now))
    return found.moved.tolist(), sorted(tuple(s.coords) for s in found.stretches)


LEVEL, UPRIGHT = [(0, 5), (30, 5)], [(7, 0), (7, 20)]


def test_what_is_drawn_alike_is_the_same_joint_wherever_it_stands():
    assert compared([LEVEL, UPRIGHT], [UPRIGHT, LEVEL]) == ([1, 0], [])
    assert not changed_lines(lines(LEVEL, UPRIGHT), lines(UPRIGHT, LEVEL)).in_order
    assert changed_lines(lines(LEVEL, UPRIGHT), lines(LEVEL)).in_order


def test_of_equal_lines_each_stays_itself():
    assert compared([LEVEL, LEVEL], [LEVEL]) == ([0, GONE], [((0, 5), (30, 5))] * 2)


@pytest.mark.parametrize("end", [40, 20])
def test_a_joint_along_an_axis_becomes_longer_or_shorter(end):
    stretch = ((30, 5), (end, 5))
    assert compared([LEVEL], [[(0, 5), (end, 5)]]) == ([0], [stretch, stretch])
    back = [LEVEL[::-1]], [[(end, 5), (0, 5)]]
    assert compared(*back) == ([0], [stretch, stretch])


@pytest.mark.parametrize(
    "now",
    [
        [(0, 5), (30, 5.01)],
        [(0, 5), (15, 5), (30, 5)],
        [(0.1, 5), (31, 5)],
        [(0, 5), (-30, 5)],
        [(30, 5), (0, 5)],
    ],
    ids=["turned", "bent", "moved at both ends", "the other way", "drawn the other way"],
)
def test_any_other_line_is_another_joint(now):
    moved, stretches = compared([LEVEL], [now])
    assert moved == [GONE]
    assert stretches == sorted([tuple(map(tuple, p)) for p in (LEVEL, LEVEL, now, now)])


def test_a_joint_aslant_that_becomes_longer_is_another_joint():
    """Where it is crossed may be rounded otherwise."""
    assert compared([[(0, 0), (3, 1)]], [[(0, 0), (6, 2)]])[0] == [GONE]


def test_what_is_met_counts_as_well_as_what_is_drawn():
    drawn, short, long = (LineString([(0, 5), (x, 5)]) for x in (30, 30.5, 31))
    found = changed_lines(Lines([drawn], [short]), Lines([drawn], [long]))
    assert found.moved.tolist() == [0]
    assert [tuple(s.coords) for s in found.stretches] == [((30.5, 5), (31, 5))]


def test_a_cut_whose_joints_changed_places_is_made_anew():
    """A piece belongs to the first of the joints on it."""
    slab = box(0, 0, 3000, 3000)
    one, two = LineString([(0, 1000), (3000, 1000)]), LineString([(500, 1000), (2000, 1000)])
    far, near = LineString([(0, 2500), (3000, 2500)]), LineString([(0, 2400), (3000, 2400)])
    before = parted(slab, [one, two, far])
    again, anew = parted_again(before, slab, [two, one, near]), parted(slab, [two, one, near])
    owned = [
        sorted(zip([p.wkb for p in cut.net.pieces], cut.net.owners, strict=True))
        for cut in (again, anew)
    ]
    assert owned[0] == owned[1]
    assert np.unique(anew.net.owners).tolist() == [-1, 0, 1, 2]
