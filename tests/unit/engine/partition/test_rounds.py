"""On which lines a grid is searched again: beside poor panels, and a few more in each round."""

from dataclasses import replace

import numpy as np
import pytest

from flats import SICK_BAY
from kerfline.engine.effort import Effort
from kerfline.engine.lines.lattice import CLOSE, lattice
from kerfline.engine.measure.cost import cost_on
from kerfline.engine.options import Weights
from kerfline.engine.partition import on_grid, rounds
from kerfline.engine.partition.grid import grid
from kerfline.engine.partition.rectangles import Panels, joint_pieces
from kerfline.engine.partition.rounds import FRUITLESS, GAIN, MUCH, ROOM, Rounds, mending_lines
from kerfline.engine.regions.orientation import canonical
from kerfline.engine.steps import Steps
from kerfline.geometry.ring import Ring
from kerfline.model.slab import Boxout, Column, Meeting, Penetration
from kerfline.units import MM_PER_FOOT
from unit.engine.grids import grid_of
from unit.engine.plans import box, feet, region_of, slab

FOOT = MM_PER_FOOT

XS, YS = (0, 1000, 3000, 4400, 6000), (0, 2000, 4000)
BELOW, ABOVE = ((0, 1), (1, 4)), ((0, 2), (2, 4))
"""Bays of a lower and of an upper row, as pairs of lines."""


def two_rows(below=BELOW, above=ABOVE):
    """Panels in two rows on a grid of 6 by 4 m."""
    low = [(a, 0) for a, _ in below] + [(a, 1) for a, _ in above]
    high = [(b, 1) for _, b in below] + [(b, 2) for _, b in above]
    (left, bottom), (right, top) = np.array(low).T, np.array(high).T
    places = (np.array(XS, dtype=float), np.array(YS, dtype=float))
    size = (places[0][right] - places[0][left], places[1][top] - places[1][bottom])
    return Panels(low=(left, bottom), high=(right, top), size=size, span=np.full(len(left), 4500.0))


def facing_lines(net, panels):
    joints = joint_pieces(net, panels, np.arange(len(panels)))
    return tuple(rounds._facing(net.places[a], joints[a]) for a in (0, 1))


def test_two_joints_that_stop_on_one_from_either_side_might_meet_halfway():
    """At 1 m below and at 3 m above."""
    assert facing_lines(grid_of(XS, YS), two_rows()) == ((2000.0,), ())


def test_joints_that_run_on_or_are_far_apart_do_not():
    net = grid_of(XS, YS)
    assert facing_lines(net, two_rows(above=BELOW)) == ((), ())
    assert facing_lines(net, two_rows(above=((0, 3), (3, 4)))) == ((), ())


def test_of_several_the_nearest_come_first():
    found = facing_lines(grid_of(XS, YS), two_rows(((0, 1), (1, 3), (3, 4))))
    assert found == ((3700.0, 2000.0), ())


STOPS = (0, 10, 12, 20, 24, 30, 36, 40, 48, 50, 60)
TENS = [(0, 1), (1, 3), (3, 5), (5, 7), (7, 9), (9, 10)]
TWELVES = [(0, 2), (2, 4), (4, 6), (6, 8), (8, 10)]
STAGGERED = [*((a, b, 0) for a, b in TENS), *((a, b, 1) for a, b in TWELVES)]
LINED_UP = [(a, b, row) for a, b in TENS for row in (0, 1)]


def hall_rounds(bays=STAGGERED):
    """The rounds of a hall of 60 x 18 ft with some bays (first and last line, row), and how to ask for the next."""
    region = region_of(slab(box(60, 18)))
    region = replace(region, advised=replace(region.advised, aspect=1.1))
    xs, ys = np.array(STOPS) * FOOT, np.array([0, 9, 18]) * FOOT
    net = replace(grid_of(xs, ys), firm=(xs[[0, -1]], ys[[0, -1]]))
    left, right, bottom = np.array(bays).T
    size = (xs[right] - xs[left], ys[bottom + 1] - ys[bottom])
    panels = Panels(
        low=(left, bottom), high=(right, bottom + 1), size=size, span=np.full(len(left), 12 * FOOT)
    )
    ready = Rounds.on(region, Weights(), region.working.span)
    return ready, lambda: ready.asked(net, panels)


def test_the_first_round_is_wide_and_each_further_one_brings_a_few_lines_that_had_none():
    ready, ask = hall_rounds()
    wide = ask()
    assert wide.room is None
    assert wide.stay[0] == pytest.approx(
        [x * FOOT for x in (0, 10, 12, 20, 24, 30, 36, 40, 48, 50, 60)]
    )
    ready.tell(100.0, 99.0)
    seen = []
    for _ in range(3):
        asked = ask()
        assert asked.room == ROOM
        assert asked.stay == wide.stay
        assert 0 < len(asked.more[0]) <= ROOM + 1
        assert not set(asked.more[0]) & set(seen)
        seen += asked.more[0]


def test_where_all_joints_run_through_there_is_the_wide_round_alone():
    ready, ask = hall_rounds(LINED_UP)
    assert ask().room is None
    ready.tell(100.0, 99.0)
    assert ask() is None


UNEVEN = [(a, b, row) for a, b in [(0, 2), (2, 3), *TENS[2:]] for row in (0, 1)]
"""Bays of 12 and 8 ft and four of 10, the same in both rows."""


def test_where_they_run_through_in_uneven_bays_lines_that_even_them_are_tried():
    ready, ask = hall_rounds(UNEVEN)
    ready.tell(100.0, 99.0)
    found = [round(at / FOOT) for at in ask().more[0]]
    assert found == [21, 10]  # so that the 8 ft grow, at either end


def better(at, *, held=(0.0, 20.0), most=12.0, least=2.0):
    """Where the line between two panels on 20 ft by 10 would better lie, feet; it lies at a place, some places are held."""
    region = region_of(slab(box(20, 10)))
    working = replace(region.working, span=most * FOOT, width=least * FOOT)
    price = cost_on(replace(region, working=working, stretch=1.0), Weights())
    xs, ys = np.array([0, at, 20]) * FOOT, np.array([0, 10]) * FOOT
    net = replace(grid_of(xs, ys), firm=(np.array(held) * FOOT, ys))
    panels = Panels(
        low=(np.array([0, 1]), np.array([0, 0])),
        high=(np.array([1, 2]), np.array([1, 1])),
        size=(np.diff(xs), np.full(2, 10 * FOOT)),
        span=np.full(2, most * FOOT),
    )
    found = rounds._better_places(net, panels, 0, price, Steps(0.0, 25.4))
    return [pytest.approx(x / FOOT) for x in found]


def test_a_line_lies_better_where_both_panels_are_square():
    assert better(8.5) == [10.0]
    assert better(11.5) == [10.0]


def test_no_other_place_is_better_where_it_gains_less_than_a_tenth_of_a_foot_of_joint():
    """A foot of joint for a quarter of aspect, twice: 0.16 ft at 9.8 ft and 0.08 ft at 9.9 ft."""
    assert better(9.8) == [10.0]
    assert better(9.9) == []
    assert better(10.0) == []


def test_a_place_is_looked_for_two_feet_to_either_side():
    assert better(7.5, most=15.0) == [9.5]
    assert better(12.5, most=15.0) == [10.5]


def test_a_line_that_something_holds_stays():
    assert better(8.5, held=(0.0, 8.5, 20.0)) == []
    assert better(8.5, held=(0.0, 8.6, 20.0)) == []
    assert better(8.5, held=(0.0, 8.7, 20.0)) == [10.0]


def test_no_place_is_better_where_a_panel_is_too_narrow_or_too_long():
    assert better(8.5, least=9.6, most=10.4) == [10.0]
    assert better(8.5, most=9.9) == []
    assert better(8.5, least=10.2) == []


def test_lines_of_a_symmetric_floor_come_with_their_images():
    ready, ask = hall_rounds()
    ready.tell(100.0, 99.0)
    found = ask().more[0]
    assert len(found) > 1
    assert all(min(abs(60 * FOOT - at - other) for other in found) < 1.0 for at in found)


UNLIKE = [
    *((a, b, 0) for a, b in [(0, 1), (1, 3), (3, 4), (4, 5), (5, 7), (7, 9), (9, 10)]),
    *((a, b, 1) for a, b in [(0, 2), (2, 5), (5, 6), (6, 8), (8, 10)]),
]
"""Bays that are no images of one another, on lines that are."""


def test_so_do_those_of_the_wide_round_and_none_crowds_another():
    found = hall_rounds(UNLIKE)[1]().more[0]
    assert len(found) > 1
    assert all(min(abs(60 * FOOT - at - other) for other in found) < 1.0 for at in found)
    every = sorted((*found, *(x * FOOT for x in STOPS)))
    assert min(np.diff(every)) > CLOSE


@pytest.mark.parametrize(("after", "wide"), [(100 * MUCH, False), (100 * MUCH + 1, False)])
def test_where_no_rule_is_broken_there_is_one_wide_round(after, wide):
    ready, ask = hall_rounds()
    assert ask().room is None
    ready.tell(100.0, after)
    assert (ask().room is None) is wide


@pytest.mark.parametrize(("after", "wide"), [(100 * MUCH, True), (100 * MUCH + 1, False)])
def test_where_rules_are_broken_wide_rounds_go_on_as_long_as_much_is_gained(after, wide):
    ready, ask = hall_rounds()
    ready.region = replace(ready.region, working=replace(ready.region.working, aspect=1.15))
    assert ask().room is None
    ready.tell(100.0, after)
    assert (ask().room is None) is wide


def test_after_some_rounds_without_a_gain_there_are_no_more():
    ready, ask = hall_rounds()
    ready.tell(100.0, 100.0)
    for _ in range(FRUITLESS - 1):
        ready.tell(100.0, 100 * GAIN + 0.1)
    assert ask() is not None
    ready.tell(100.0, 100 * GAIN)
    assert ready.fruitless == 0
    for _ in range(FRUITLESS):
        ready.tell(100.0, 100 * GAIN + 0.1)
    assert ask() is None


def test_with_little_effort_there_are_wide_rounds_only():
    ready, ask = hall_rounds()
    ready.wide_only = True
    assert ask().room is None
    ready.tell(100.0, 99.0)
    assert ask() is None


def test_no_line_is_tried_beside_edges_that_share_one():
    """A jog of 150 mm: lines beside it would make another figure of the slab."""
    outline = Ring(((0, 0), (9000, 0), (9000, 150), (18000, 150), (18000, 5500), (0, 5500)))
    ready = Rounds.on(region_of(slab(outline)), Weights(), 3600.0)
    edge = ready.ragged[1]
    assert len(edge) == 1
    stay = (0.0, 2800.0, 5500.0)
    near, far = edge[0] + 2 * 203.2, edge[0] + 2 * 203.2 + 1
    assert ready._next(1, stay, (near, far), ((),)) == (far,)


def test_further_rounds_better_a_floor_of_many_stubs(monkeypatch):
    region, _ = canonical(region_of(SICK_BAY))

    def cost():
        return on_grid.solve_exact(region, Weights(), Effort(5.0)).answer.cover.cost

    patient = cost()
    monkeypatch.setattr(rounds, "FRUITLESS", 0)
    assert patient < 0.99 * cost()


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
