"""On which lines a grid is searched again."""

from dataclasses import replace

import numpy as np
import pytest

from kerfline.engine.lines.lattice import lattice
from kerfline.engine.options import Weights
from kerfline.engine.partition.grid import grid
from kerfline.engine.partition.mending import mending_lines
from kerfline.engine.partition.rectangles import Panels
from kerfline.model.slab import Boxout, Column, Meeting, Penetration
from kerfline.units import MM_PER_FOOT
from unit.engine.plans import box, feet, region_of, slab

FOOT = MM_PER_FOOT


def asked(*panels, stops=((0, 10, 20, 30), (0, 9, 18)), things=None, **advised):
    """What panels (left, bottom, right, top in stops) on a slab of 30 x 18 ft ask for, in feet."""
    region = region_of(slab(box(30, 18), **things or {}))
    region = replace(region, advised=replace(region.advised, **advised))
    net = grid(region, lattice(region, 40, region.working.span), Weights())
    places = tuple(np.array([s * FOOT for s in stop]) for stop in stops)
    left, bottom, right, top = np.array(panels).T
    size = (places[0][right] - places[0][left], places[1][top] - places[1][bottom])
    on = Panels(
        low=(left, bottom), high=(right, top), size=size, span=np.full(len(left), 10 * FOOT)
    )
    found = mending_lines(replace(net, places=places), region, on, Weights()).asked
    return tuple(
        tuple([round(float(at) / FOOT, 2) for at in axis] for axis in each)
        for each in (found.stay, found.more)
    )


EVEN = [(x, y, x + 1, y + 1) for y in (0, 1) for x in (0, 1, 2)]


def test_a_layout_that_keeps_what_is_advised_keeps_its_lines_and_asks_for_none():
    assert asked(*EVEN) == (([0, 10, 20, 30], [0, 9, 18]), ([], []))


def test_a_line_that_serves_no_panel_makes_room():
    stay, _ = asked((0, 0, 2, 1), stops=((0, 5, 10), (0, 9)))
    assert stay == ([0, 10], [0, 9])


@pytest.mark.parametrize(("aspect", "asks"), [(1.12, False), (1.11, True)])
def test_panels_that_are_warned_of_ask_for_divisions(aspect, asks):
    """Ten by nine feet are 1.111 times as long as wide."""
    stops = ((0, 10, 20, 30), (0, 9, 18))
    _, more = asked(*EVEN, stops=stops, aspect=aspect)
    assert any(more) is asks
    assert not asks or {5.0, 15.0, 25.0} <= set(more[0])


def test_lines_beside_panels_that_break_a_rule_come_before_those_of_warnings():
    """Twelve by three feet are four times as long as wide; ten by seven, apart from them, 1.43 times."""
    stops = ((0, 10, 20, 32), (0, 3, 10))
    long, warned = (2, 0, 3, 1), (0, 1, 1, 2)
    (_, alone), (_, both), (_, other) = (
        asked(*panels, stops=stops) for panels in ([long], [long, warned], [warned])
    )
    assert alone[0]
    assert both[0] == [*alone[0], *other[0]]
    assert other[0]


def hole(away, meeting=Meeting.CLEAR):
    return Penetration(
        id="N1", at=feet((5 + away, 4))[0], diameter=100.0, meeting=meeting, clear=FOOT
    )


def boxout(away, kind=Boxout.CIRCLE):
    return Column(id="C1", at=feet((5 + away, 4))[0], boxout=kind, size=2 * FOOT)


@pytest.mark.parametrize(
    ("things", "kept"),
    [
        ({}, True),
        ({"penetrations": (hole(0.9),)}, False),
        ({"penetrations": (hole(1.0),)}, True),
        ({"penetrations": (hole(0.9, Meeting.THROUGH),)}, True),
        ({"columns": (boxout(1.0),)}, False),
        ({"columns": (boxout(-1.0),)}, False),
        ({"columns": (boxout(0.0),)}, True),
        ({"columns": (boxout(1.1),)}, True),
    ],
)
def test_no_line_is_asked_for_too_near_a_pipe_or_along_the_side_of_a_boxout(things, kept):
    """The middle of a bay of 10 ft, at 5 ft; lines meet a boxout in its middle."""
    _, more = asked(*EVEN, aspect=1.11, things=things)
    assert (5.0 in more[0]) is kept
    assert 15.0 in more[0]
