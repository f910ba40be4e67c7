"""Cuts in one line become saw passes whose ends lie on what they end on; joints and panels are numbered."""

from dataclasses import replace

import pytest
from shapely import LineString, box

from kerfline.engine.finish import closed, joints_of, saw_passes
from kerfline.engine.measure.score import panels_between
from kerfline.engine.regions.region import Cut
from kerfline.geometry.tolerance import TOUCH
from kerfline.model.layout import Reason
from kerfline.model.slab import JointKind, Zone
from unit.engine.plans import RULES, feet, slab, wall
from unit.engine.plans import box as floor


def cut(*path, reason=Reason.SPAN, **more):
    return Cut(path=tuple((float(x), float(y)) for x, y in path), reason=reason, note="", **more)


FIRST, SECOND = cut((0, 500), (1000, 500)), cut((1000, 500), (2500, 500))


def test_two_pieces_that_meet_end_to_end_are_one_pass():
    assert [c.path for c in saw_passes([SECOND, FIRST])] == [((0.0, 500.0), (2500.0, 500.0))]


def test_a_pass_takes_its_strongest_reason():
    under = replace(SECOND, reason=Reason.WALL)
    assert [c.reason for c in saw_passes([FIRST, under])] == [Reason.WALL]


@pytest.mark.parametrize("made_for", [Reason.PINNED, Reason.FALL, Reason.PATTERN, Reason.ZONE])
@pytest.mark.parametrize("met", [Reason.SPAN, Reason.ASPECT, Reason.WALL])
def test_what_a_pass_was_made_for_goes_before_what_it_runs_on_to(made_for, met):
    pieces = [replace(FIRST, reason=met), replace(SECOND, reason=made_for)]
    assert [c.reason for c in saw_passes(pieces)] == [made_for]


@pytest.mark.parametrize(
    "other",
    [
        replace(SECOND, kind=JointKind.CONSTRUCTION),
        replace(SECOND, depth=30.0),
        cut((1000, 500), (1000, 2000)),
        cut((1001, 500), (2500, 500)),
        cut((1000, 501), (2500, 501)),
        cut((1000, 500), (2500, 502)),
    ],
    ids=["another kind", "another depth", "square", "a gap", "beside", "aslant"],
)
def test_what_differs_stays_a_pass_of_its_own(other):
    assert len(saw_passes([FIRST, other])) == 2


def test_a_slanted_line_is_joined_as_one_along_an_axis():
    pieces = [cut((0, 0), (300, 400)), cut((300, 400), (900, 1200))]
    assert [c.path for c in saw_passes(pieces)] == [((0.0, 0.0), (900.0, 1200.0))]


FLOOR = box(0, 0, 6000, 4000)


def test_an_end_just_short_of_the_edge_is_drawn_on_to_it():
    short = cut((3000, TOUCH), (3000, 4000))
    assert closed([short], FLOOR)[0].path == ((3000.0, 0.0), (3000.0, 4000.0))


def test_an_end_just_past_another_joint_is_brought_back_to_it():
    through, stub = cut((3000, 0), (3000, 4000)), cut((0, 2000), (3000 + TOUCH, 2000))
    assert closed([through, stub], FLOOR)[1].path[1] == pytest.approx((3000.0, 2000.0))


def test_an_end_in_the_open_stays_where_it_is():
    stub = cut((0, 2000), (2500, 2000))
    assert closed([stub], FLOOR)[0].path == stub.path


def test_panels_close_where_a_joint_is_a_hair_short():
    halves = panels_between(FLOOR, [LineString([(2000, TOUCH / 2), (2000, 4000)])])
    assert [p.area for p in halves] == pytest.approx([8e6, 16e6])


def test_a_joint_that_stops_in_the_open_parts_nothing():
    assert len(panels_between(FLOOR, [LineString([(2000, 500), (2000, 4000)])])) == 1


PLAN = slab(floor(30, 20))
QUARTER = 25.4
"""The floor set cuts a 4 in slab an inch deep."""


def drawn(*points, **more):
    """A cut through points in feet."""
    return Cut(path=feet(*points), **more)


def joints(*cuts, given=PLAN):
    return joints_of(given, RULES, cuts)


def test_joints_that_run_up_come_first_from_the_left_then_those_across_from_below():
    found = joints(
        drawn((0, 10), (30, 10)),
        drawn((20, 0), (20, 20)),
        drawn((0, 5), (30, 5)),
        drawn((10, 0), (10, 20)),
    )
    assert [j.id for j in found] == ["J1", "J2", "J3", "J4"]
    starts = [j.path[0] for j in found]
    assert starts == list(feet((10, 0), (20, 0), (0, 5), (0, 10)))


def test_a_joint_starts_at_its_lower_left_end_on_rounded_places():
    (found,) = joints(Cut(path=((3048.00000004, 6096.0), (3048.0, -1e-9))))
    assert found.path == ((3048.0, 0.0), (3048.0, 6096.0))
    assert str(found.path[0][1]) == "0.0"


@pytest.mark.parametrize(
    ("more", "depth"),
    [
        ({}, QUARTER),
        ({"depth": 40.0}, 40.0),
        ({"depth": 0.0}, 0.0),
        ({"kind": JointKind.CONSTRUCTION}, 0.0),
        ({"kind": JointKind.ISOLATION, "depth": 30.0}, 30.0),
    ],
)
def test_a_sawn_joint_has_the_depth_of_the_rules_unless_the_user_gives_one(more, depth):
    (found,) = joints(drawn((10, 0), (10, 20), **more))
    assert found.depth == pytest.approx(depth)


THICK = replace(PLAN, zones=(Zone(id="Z1", outline=floor(10, 20), thickness=203.2),))
"""The left 10 ft are 8 in thick."""


@pytest.mark.parametrize(
    ("x0", "x1", "depth"),
    [(0, 5, 50.8), (0, 30, 50.8), (15, 30, QUARTER), (10, 30, QUARTER), (9.9, 30, 50.8)],
)
def test_the_thickest_concrete_that_a_joint_runs_through_gives_its_depth(x0, x1, depth):
    (found,) = joints(drawn((x0, 5), (x1, 5)), given=THICK)
    assert found.depth == pytest.approx(depth)


def test_a_joint_on_the_border_of_a_zone_is_as_deep_as_its_thicker_side_asks():
    (on_it,) = joints(drawn((10, 0), (10, 20)), given=THICK)
    assert on_it.depth == pytest.approx(50.8)
    thin = replace(PLAN, zones=(Zone(id="Z1", outline=floor(10, 20), thickness=76.2),))
    (beside,) = joints(drawn((10, 0), (10, 20)), given=thin)
    assert beside.depth == pytest.approx(QUARTER)


def test_what_lies_under_walls_is_hidden():
    (found,) = joints(
        drawn((0, 5), (30, 5)), given=replace(PLAN, walls=(wall("W1", (0, 5), (12, 5)),))
    )
    assert found.hidden == pytest.approx(12 * 304.8)


def test_a_note_tells_its_place_from_the_slabs_lower_left_corner():
    moved = slab(floor(30, 20, x=100, y=50))
    asked = drawn(
        (110, 50), (110, 70), note="corner at {at}", at=feet((110, 60))[0], reason=Reason.CORNER
    )
    (found,) = joints(asked, given=moved)
    assert found.note == "corner at ({3048.00}, {3048.00})"
    assert found.reason is Reason.CORNER
    (plain,) = joints(drawn((110, 50), (110, 70), note="even"), given=moved)
    assert plain.note == "even"
