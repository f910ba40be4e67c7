"""Joints and panels numbered in reading order, with depth, hidden length and words."""

from dataclasses import replace

import pytest
from kerfline.engine.finish.naming import joints_of, panels_of

from kerfline.engine.regions.region import Cut
from kerfline.model.layout import Reason
from kerfline.model.slab import JointKind, Zone
from unit.engine.plans import RULES, box, feet, slab, wall

FLOOR = slab(box(30, 20))
QUARTER = 25.4
"""The floor set cuts a 4 in slab an inch deep."""


def cut(*points, **more):
    return Cut(path=feet(*points), **more)


def joints(*cuts, given=FLOOR):
    return joints_of(given, RULES, cuts)


def test_joints_that_run_up_come_first_from_the_left_then_those_across_from_below():
    found = joints(
        cut((0, 10), (30, 10)), cut((20, 0), (20, 20)), cut((0, 5), (30, 5)), cut((10, 0), (10, 20))
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
    (found,) = joints(cut((10, 0), (10, 20), **more))
    assert found.depth == pytest.approx(depth)


THICK = replace(FLOOR, zones=(Zone(id="Z1", outline=box(10, 20), thickness=203.2),))
"""The left 10 ft are 8 in thick."""


@pytest.mark.parametrize(
    ("x0", "x1", "depth"),
    [(0, 5, 50.8), (0, 30, 50.8), (15, 30, QUARTER), (10, 30, QUARTER), (9.9, 30, 50.8)],
)
def test_the_thickest_concrete_that_a_joint_runs_through_gives_its_depth(x0, x1, depth):
    (found,) = joints(cut((x0, 5), (x1, 5)), given=THICK)
    assert found.depth == pytest.approx(depth)


def test_a_joint_on_the_border_of_a_zone_is_as_deep_as_its_thicker_side_asks():
    (on_it,) = joints(cut((10, 0), (10, 20)), given=THICK)
    assert on_it.depth == pytest.approx(50.8)
    thin = replace(FLOOR, zones=(Zone(id="Z1", outline=box(10, 20), thickness=76.2),))
    (beside,) = joints(cut((10, 0), (10, 20)), given=thin)
    assert beside.depth == pytest.approx(QUARTER)


def test_what_lies_under_walls_is_hidden():
    (found,) = joints(
        cut((0, 5), (30, 5)), given=replace(FLOOR, walls=(wall("W1", (0, 5), (12, 5)),))
    )
    assert found.hidden == pytest.approx(12 * 304.8)


def test_a_note_tells_its_place_from_the_slabs_lower_left_corner():
    moved = slab(box(30, 20, x=100, y=50))
    asked = cut(
        (110, 50), (110, 70), note="corner at {at}", at=feet((110, 60))[0], reason=Reason.CORNER
    )
    (found,) = joints(asked, given=moved)
    assert found.note == "corner at ({3048.00}, {3048.00})"
    assert found.reason is Reason.CORNER
    (plain,) = joints(cut((110, 50), (110, 70), note="even"), given=moved)
    assert plain.note == "even"


def test_panels_are_those_between_the_joints_from_the_lower_left():
    found = panels_of(FLOOR, joints(cut((0, 10), (30, 10)), cut((10, 0), (10, 20))))
    assert [p.id for p in found] == ["P1", "P2", "P3", "P4"]
    areas = [round(p.area / 304.8**2) for p in found]
    assert areas == [100, 200, 100, 200]
    assert sum(p.area for p in panels_of(FLOOR, ())) == pytest.approx(FLOOR.concrete.area)
