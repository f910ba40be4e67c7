"""Joints bent square to what they would meet too flat, after the panels are chosen or before."""

import math
from dataclasses import replace
from itertools import pairwise

import pytest
from shapely import LineString, MultiLineString, Polygon, box

from kerfline.engine import bending
from kerfline.engine.bending import bent, places_in_use, squared
from kerfline.engine.lines.charts import RoundChart, SquareChart
from kerfline.engine.partition.on_chart import both_families, charted
from kerfline.engine.problem import PieceLayout, Problem
from kerfline.engine.regions.features import AskingLine
from kerfline.engine.regions.region import Cut
from kerfline.geometry.corners import angle_between, direction
from kerfline.geometry.tolerance import DEGREES
from kerfline.model.layout import WorkingLimits

LIMITS = WorkingLimits(span=3000.0, aspect=1.5, width=600.0, angle=60.0)
LEAST = 60.0 - DEGREES


def leaning(degrees, deep=6000.0):
    """9 m along the bottom, its right side at an angle to the level."""
    out = deep / math.tan(math.radians(degrees))
    return Polygon([(0, 0), (9000, 0), (9000 + out, deep), (0, deep)])


def problem(concrete, **more):
    return Problem(concrete=concrete, limits=LIMITS, **more)


def flattest(piece, cuts):
    """The least angle between the ends of joints and the sides that they meet."""
    ring = list(piece.exterior.coords)
    sides = [LineString(pair) for pair in pairwise(ring)]
    found = [90.0]
    for cut in cuts:
        for inner, end in ((cut.path[1], cut.path[0]), (cut.path[-2], cut.path[-1])):
            spot = LineString([end, end])
            for side in sides:
                if side.distance(spot) < 0.5:
                    turn = angle_between(direction(inner, end), direction(*side.coords))
                    found.append(min(turn, 180 - turn))
    return min(found)


def straight(given):
    return charted(given, SquareChart(), [])


def test_a_layout_that_meets_its_sides_square_stays_as_it_is():
    hall = problem(box(0, 0, 9000, 6000))
    assert bent(hall, straight(hall), []) == straight(hall)


@pytest.mark.parametrize("degrees", [50, 52, 55, 58])
def test_a_joint_that_comes_in_too_flat_is_bent_square_and_keeps_its_other_end(degrees):
    """One row of panels 3 m deep; the joint along its middle meets the slanted side."""
    given = problem(leaning(degrees, deep=3000.0))
    plain = straight(given)
    found = bent(given, plain, [])
    assert flattest(given.concrete, plain.cuts) == pytest.approx(degrees)
    assert flattest(given.concrete, found.cuts) == pytest.approx(90)
    assert found.cost < plain.cost
    assert sum(p.area for p in found.panels) == pytest.approx(given.concrete.area, rel=1e-6)
    changed = [(a, b) for a, b in zip(plain.cuts, found.cuts, strict=True) if a.path != b.path]
    assert [len(after.path) - len(before.path) for before, after in changed] == [1]
    assert all(set(before.path) & set(after.path) for before, after in changed)


def test_joints_are_bent_only_where_that_is_cheaper():
    given = problem(leaning(50))
    assert bent(given, straight(given), []) == straight(given)


def test_lines_bent_before_the_panels_meet_a_slanted_side_at_the_least_angle():
    given = problem(leaning(45))
    found = squared(given, SquareChart(), [])
    assert flattest(given.concrete, found.cuts) >= LEAST
    assert sum(p.area for p in found.panels) == pytest.approx(given.concrete.area, rel=1e-6)
    assert any(abs(c.path[0][1] - c.path[1][1]) < 1e-6 for c in found.cuts)


DIAGONALS = {
    "one": [LineString([(0, 0), (6000, 6000)])],
    "two, so that a line jogs there and back": [
        LineString([(0, 0), (6000, 6000)]),
        LineString([(12_000, 6000), (18_000, 0)]),
    ],
}


@pytest.mark.parametrize("settled", DIAGONALS.values(), ids=list(DIAGONALS))
def test_lines_in_use_that_jog_are_known_by_their_places_and_not_by_where_they_run(settled):
    """Searched again on those alone, the same layout is found."""
    given = problem(box(0, 0, 18_000, 6000))
    found = squared(given, SquareChart(), settled)
    assert any(len(c.path) > 2 for c in found.cuts)
    places = places_in_use(given, SquareChart(), settled, found.cuts)
    known = [
        {round(line.place(axis), 1) for line in lines}
        for axis, lines in enumerate(both_families(given, SquareChart()))
    ]
    assert all(set(own) <= every for own, every in zip(places, known, strict=True))
    assert sum(map(len, places)) < sum(map(len, known))
    again = squared(replace(given, stay=places), SquareChart(), settled)
    assert again.cost == pytest.approx(found.cost, abs=10.0)


def test_the_same_bent_lines_are_not_searched_again_where_they_are_remembered():
    given = replace(problem(leaning(45)), tried=set())
    assert charted(given, SquareChart(), []) is not None
    assert squared(given, SquareChart(), []) is not None
    assert squared(given, SquareChart(), []) is None


def test_where_nothing_is_to_bend_there_is_no_such_layout():
    assert squared(problem(box(0, 0, 9000, 6000)), SquareChart(), []) is None
    assert squared(problem(leaning(80)), SquareChart(), []) is None


def test_a_joint_that_ends_under_a_wall_is_not_bent():
    """The wall stands along the whole slanted side."""
    given = leaning(45)
    side = LineString([(9000, 0), (15_000, 6000)])
    wall = AskingLine(name="W1", path=side, slack=60.0)
    assert squared(problem(given, walls=(wall,)), SquareChart(), []) is None


def test_a_round_chart_has_no_lines_that_were_bent():
    round_chart = RoundChart(centre=(0.0, 0.0), radius=9000.0, seam=0.0)
    assert places_in_use(problem(leaning(55)), round_chart, [], []) == ((), ())


def test_on_a_round_chart_no_lines_are_bent_before_the_choice():
    round_chart = RoundChart(centre=(0.0, 0.0), radius=9000.0, seam=0.0)
    assert squared(problem(leaning(55)), round_chart, []) is None


LEVEL = Cut(path=((0.0, 1000.0), (6000.0, 1000.0)))


@pytest.mark.parametrize(
    ("crossings", "tip", "room"),
    [
        ((), (0.0, 1000.0), 6000.0),
        ((2000.0, 4500.0), (0.0, 1000.0), 2000.0),
        ((2000.0, 4500.0), (6000.0, 1000.0), 1500.0),
        ((0.4, 2000.0), (0.0, 1000.0), 2000.0),  # what meets its end is no obstacle
        ((0.6, 2000.0), (0.0, 1000.0), 0.6),
    ],
)
def test_a_joint_has_room_to_bend_as_far_as_the_first_that_it_meets(crossings, tip, room):
    others = [LineString([(x, 0), (x, 3000)]) for x in crossings]
    assert bending._room(LEVEL, tip, others) == pytest.approx(room)


def test_a_joint_with_one_end_under_a_wall_or_square_on_has_no_way_to_bend():
    """Its right end comes in at 50 degrees to a slanted side; its left end is square on."""
    piece = leaning(50)
    tip = 9000 + 3000 / math.tan(math.radians(50))
    cut = Cut(path=((0.0, 3000.0), (tip, 3000.0)))
    pieces = PieceLayout(panels=(piece,), cuts=(cut,), cost=0.0)
    plain = problem(piece)
    assert list(bending._bent_paths(plain, pieces, [], 0, 0)) == []
    found = list(bending._bent_paths(plain, pieces, [], 0, -1))
    assert found
    assert all(path[0] == cut.path[0] and len(path) == 3 for path in found)
    side = LineString([(9000, 0), (9000 + 6000 / math.tan(math.radians(50)), 6000)])
    assert all(side.distance(LineString([path[-1], path[-1]])) < 0.01 for path in found)
    under = problem(piece, walls=(AskingLine(name="W1", path=side, slack=60.0),))
    assert list(bending._bent_paths(under, pieces, [], 0, -1)) == []


def test_bent_cuts_are_parted_at_what_they_cross_and_straight_ones_are_not():
    knee = Cut(path=((0.0, 0.0), (4000.0, 0.0), (4500.0, 500.0)), note="bent")
    bar = LineString([(1000, -500), (1000, 2000)])
    assert bending._parted([knee, LEVEL], []) == (knee, LEVEL)
    first, second, straight_one = bending._parted([knee, LEVEL], [bar])
    assert first.path == ((0.0, 0.0), (1000.0, 0.0))
    assert second.path == ((1000.0, 0.0), (4000.0, 0.0), (4500.0, 500.0))
    assert (first.note, second.note, straight_one) == ("bent", "bent", LEVEL)


@pytest.mark.parametrize(("at", "parts"), [(0.4, 1), (0.6, 2), (4000.0, 2)])
def test_no_crumb_of_half_a_millimetre_is_left_of_a_parted_cut(at, parts):
    knee = Cut(path=((0.0, 0.0), (5000.0, 0.0), (5500.0, 500.0)))
    bars = MultiLineString([[(at, -500), (at, 500)]])
    assert len(bending._split(knee, bars)) == parts


@pytest.mark.parametrize(("long", "endless"), [(3000.4, False), (3000.6, True)])
def test_a_layout_with_a_panel_over_the_span_has_no_price(long, endless):
    given = problem(box(0, 0, long, 2000))
    pieces = PieceLayout(panels=(given.concrete,), cuts=(), cost=0.0)
    assert math.isinf(bending._Prices(given).of(pieces)) is endless


def test_a_stretch_whose_bent_ends_would_meet_stays_straight():
    """A strip whose long sides both stand at 45 degrees to the joint: bends need room between them."""
    for wide, knees in ((6000.0, 2), (1200.0, 0)):
        piece = Polygon([(0, 0), (wide, 0), (wide + 4000, 4000), (4000, 4000)])
        path = ((2000.0, 2000.0), (2000.0 + wide, 2000.0))
        chord = bending._bent_chord(problem(piece), path)
        assert len(chord.knees) == knees
        assert len(chord.path) == (6 if knees else 2)
        assert (chord.length > wide - 1500.0) if knees else chord.length == wide


def test_a_stretch_is_read_in_the_sense_of_its_line():
    curve = LineString([(0, 0), (9000, 0)])
    assert bending._forward(curve, ((7.0, 0.0), (3.0, 0.0))) == ((3.0, 0.0), (7.0, 0.0))
    assert bending._forward(curve, ((3.0, 0.0), (7.0, 0.0))) == ((3.0, 0.0), (7.0, 0.0))


def test_lines_on_which_no_layout_is_found_are_no_proposal(monkeypatch):
    monkeypatch.setattr(bending, "best_of", lambda *_: None)
    assert squared(problem(leaning(45)), SquareChart(), []) is None
