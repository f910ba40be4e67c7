"""Every joint says why it is where it is, in the same words on a square slab and on a slanted one."""

from dataclasses import replace

import pytest
from shapely import LineString

from kerfline.engine.options import EngineOptions
from kerfline.engine.reasons import named
from kerfline.engine.regions.frames import regions_of
from kerfline.engine.regions.region import Cut
from kerfline.model.layout import Reason
from kerfline.model.slab import Column, GivenJoint, JointKind, Penetration, PenetrationKind
from unit.engine.plans import EL, MM_PER_FOOT, RULES, box, feet, layout, ring, slab, wall

SQUARE = box(30, 20)
SLANTED = ring((0, 0), (30, 0), (37, 20), (0, 20))
"""The same with one side that runs aslant, which is laid out by the general method."""


def region_of(plan):
    (placed,) = regions_of(plan, RULES, EngineOptions())
    return placed.region


def told(plan, *points, reason=Reason.SPAN):
    """Reason and words of a joint through points, in feet."""
    (cut,) = named(region_of(plan), [Cut(path=feet(*points), reason=reason)])
    return cut.reason, cut.note


@pytest.mark.parametrize("outline", [SQUARE, SLANTED])
def test_a_joint_under_walls_names_them_in_order(outline):
    walls = (wall("W10", (10, 0), (10, 8)), wall("W2", (10, 10), (10, 20)))
    assert told(slab(outline, walls=walls), (10, 0), (10, 20)) == (
        Reason.WALL,
        "under walls W2 and W10",
    )


def test_a_quarter_of_a_wall_over_a_joint_is_a_reason_and_less_is_none():
    plan = slab(SQUARE, walls=(wall("W1", (10, 0), (10, 20)),))
    assert told(plan, (10, 0), (10, 20))[0] is Reason.WALL
    assert told(plan, (10.5, 0), (10.5, 20))[0] is Reason.SPAN
    assert told(plan, (5, 10), (15, 10))[0] is not Reason.WALL


def test_a_bent_joint_is_under_the_wall_that_one_of_its_stretches_follows():
    plan = slab(SLANTED, walls=(wall("W1", (0, 0), (14, 10)),))
    assert told(plan, (0, 0), (14, 10), (30, 10)) == (Reason.WALL, "under wall W1")


@pytest.mark.parametrize("outline", [SQUARE, SLANTED])
def test_given_joints_are_told_from_those_that_exist(outline):
    joints = (
        GivenJoint(id="G1", path=feet((10, 0), (10, 20))),
        GivenJoint(id="G2", path=feet((20, 0), (20, 20)), existing=True),
    )
    found = {j.note: j.reason for j in layout(slab(outline, joints=joints)).joints}
    assert found["pinned joint G1"] is Reason.PINNED
    assert found["existing joint G2"] is Reason.FOUND


def test_a_joint_is_divided_where_a_given_one_of_another_kind_ends():
    given = GivenJoint(id="G1", path=feet((10, 0), (10, 8)), kind=JointKind.CONSTRUCTION)
    cuts = named(region_of(slab(SQUARE, joints=(given,))), [Cut(path=feet((10, 0), (10, 20)))])
    lengths = [(c.kind, round(LineString(c.path).length / MM_PER_FOOT, 6)) for c in cuts]
    assert lengths == [(JointKind.CONSTRUCTION, 8.0), (JointKind.CONTROL, 12.0)]


def test_a_corner_and_a_corner_of_an_opening_are_told_with_their_place():
    (cut,) = named(region_of(slab(EL)), [Cut(path=feet((22, 0), (22, 18)))])
    assert (cut.reason, cut.at) == (Reason.CORNER, feet((22, 18))[0])
    pit = slab(SQUARE, openings=(box(4, 4, 12, 8),))
    assert told(pit, (12, 0), (12, 8)) == (Reason.OPENING, "corner of the opening at {at}")


def test_columns_are_named_where_the_joint_ends_at_their_boxout():
    columns = tuple(Column(id=f"C{n}", at=feet((10, 5 * n))[0]) for n in (1, 2, 3))
    plan = slab(SQUARE, columns=columns)
    assert told(plan, (10, 0), (10, 20)) == (Reason.COLUMN, "columns C1, C2 and C3")
    edge = columns[0].outline.polygon.bounds[1] / MM_PER_FOOT
    assert told(plan, (10, 0), (10, edge)) == (Reason.COLUMN, "column C1")
    assert told(plan, (10, 0), (10, edge - 0.1))[0] is Reason.SPAN


def test_of_many_columns_the_first_and_the_last_are_named():
    columns = tuple(Column(id=f"C{n}", at=feet((10, 3 * n))[0], size=300) for n in range(1, 7))
    note = told(slab(SQUARE, columns=columns), (10, 0), (10, 20))[1]
    assert note == "columns C1 to C6, 6 in all"


def test_a_joint_through_a_pipe_says_so():
    drain = Penetration(id="D1", at=feet((10, 7))[0], diameter=100, kind=PenetrationKind.DRAIN)
    assert told(slab(SQUARE, penetrations=(drain,)), (10, 0), (10, 20)) == (
        Reason.PENETRATION,
        "through drain D1",
    )


@pytest.mark.parametrize(
    ("width", "reason"), [(10.1, Reason.SPAN), (10.0, Reason.ASPECT)], ids=["beyond", "within"]
)
def test_a_free_joint_divides_a_span_or_mends_an_aspect(width, reason):
    """The free span runs from wall to edge, across the joint: 10 ft are advised at 4 in."""
    plan = slab(SQUARE, walls=(wall("W1", (30 - width, 0), (30 - width, 20)),))
    found, note = told(plan, (25, 0), (25, 20))
    assert found is reason
    assert note.startswith(
        "open floor: {3078.48} is more" if reason is Reason.SPAN else "keeps the panels within 1.5"
    )


def test_the_free_span_of_a_slanted_joint_is_measured_square_to_it():
    """A parallelogram 30 ft long whose other sides rise 20 ft over 15: those are 30 x 20 / 25 = 24 ft apart."""
    plan = slab(ring((0, 0), (30, 0), (45, 20), (15, 20)))
    reason, note = told(plan, (12, 0), (27, 20))
    assert (reason, note.split(" is ")[0]) == (Reason.SPAN, "open floor: {7315.20}")


def test_what_a_joint_was_made_for_stays():
    plan = slab(SQUARE, walls=(wall("W1", (10, 0), (10, 20)),))
    cut = Cut(path=feet((10, 0), (10, 20)), reason=Reason.PATTERN, note="pattern")
    assert named(region_of(plan), [cut]) == [cut]
    assert named(region_of(plan), [replace(cut, reason=Reason.SPAN)])[0].reason is Reason.WALL
