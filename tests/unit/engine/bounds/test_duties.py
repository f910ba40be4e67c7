"""Which joints are duties: under walls, from corners, at columns, and given ones."""

import pytest
from shapely import LineString

from kerfline.engine.bounds.duties import are_duties
from kerfline.engine.regions.region import Cut
from kerfline.model.layout import Reason
from kerfline.model.slab import Boxout, Column, Zone
from kerfline.units import MM_PER_FOOT
from unit.engine.plans import EL, box, feet, region_of, slab, wall

HALL = box(40, 30)


def cut(*points, reason=Reason.SPAN):
    return Cut(path=feet(*points), reason=reason)


def owed(plan, pieces, cuts=None):
    """Whether each piece, in feet, is a duty of a slab whose joints are those pieces or some cuts."""
    lines = [LineString(feet(*piece)) for piece in pieces]
    made = cuts if cuts is not None else [cut(*piece) for piece in pieces]
    return are_duties(region_of(plan), made, lines).tolist()


def test_a_joint_in_the_open_is_none():
    assert owed(slab(HALL), [((10, 0), (10, 30))]) == [False]


@pytest.mark.parametrize(
    ("piece", "duty"),
    [
        (((20, 0), (20, 15)), True),
        (((20.1, 0), (20.1, 15)), True),
        (((20.3, 0), (20.3, 15)), False),
        (((20, 9.6), (20, 30)), False),
        (((20, 9.4), (20, 30)), True),
        (((10, 5), (30, 5)), False),
        (((20, 2), (20, 8), (25, 8)), True),
    ],
)
def test_under_a_wall_is_what_runs_along_it_within_its_faces_by_more_than_six_inches(piece, duty):
    """A wall of 10 ft, 4 1/2 in thick; it owes the joint as far as the next, bends and all."""
    assert owed(slab(HALL, walls=(wall("W1", (20, 0), (20, 10)),)), [piece]) == [duty]


def test_a_joint_across_a_thick_wall_is_none():
    """12 in of it lie under the wall, twice a stub."""
    thick = wall("W1", (20, 0), (20, 10), thickness=304.8)
    pieces = [((10, 5), (30, 5)), ((20, 0), (20, 15))]
    assert owed(slab(HALL, walls=(thick,)), pieces) == [False, True]


def test_a_wall_that_only_wishes_owes_none():
    assert owed(slab(HALL, walls=(wall("W1", (20, 0), (20, 4)),)), [((20, 0), (20, 15))]) == [False]


def test_a_bearing_wall_on_its_strip_owes_none():
    strip = wall("W1", (20, 0), (20, 20), bearing=True, strip_width=600.0)
    assert owed(slab(HALL, walls=(strip,)), [((20, 0), (20, 15))]) == [False]


def test_from_a_corner_as_far_as_the_next_joint():
    """The corner of the L at (22, 18); the pieces beyond what they meet are free."""
    pieces = [((22, 18), (22, 9)), ((22, 9), (22, 0)), ((11, 18), (22, 18)), ((0, 18), (11, 18))]
    assert owed(slab(EL), pieces) == [True, False, True, False]


@pytest.mark.parametrize("boxout", [Boxout.NONE, Boxout.DIAMOND])
def test_a_joint_at_a_column_is_owed_from_end_to_end(boxout):
    column = Column(id="C1", at=feet((20, 15))[0], boxout=boxout, size=2 * MM_PER_FOOT)
    plan = slab(HALL, columns=(column,))
    cuts = [cut((20, 0), (20, 30)), cut((10, 0), (10, 30))]
    pieces = [((20, 0), (20, 8)), ((20, 8), (20, 15)), ((10, 0), (10, 8))]
    assert owed(plan, pieces, cuts) == [True, True, False]


@pytest.mark.parametrize(
    "reason", [Reason.PINNED, Reason.FOUND, Reason.FALL, Reason.ZONE, Reason.PATTERN]
)
def test_what_is_given_is_owed(reason):
    cuts = [cut((20, 0), (20, 30), reason=reason), cut((10, 0), (10, 30))]
    pieces = [((20, 0), (20, 8)), ((10, 0), (10, 8))]
    assert owed(slab(HALL), pieces, cuts) == [True, False]


def test_the_border_of_a_zone_is_owed_whatever_its_joint_is_called():
    zone = Zone(id="Z1", outline=box(10, 10, 10, 10), thickness=203.2)
    pieces = [((10, 10), (20, 10)), ((20, 10), (40, 10)), ((5, 0), (5, 30))]
    assert owed(slab(HALL, zones=(zone,)), pieces) == [True, False, False]


@pytest.mark.parametrize("reason", [Reason.PINNED, Reason.FOUND, Reason.FALL])
def test_where_a_given_joint_ends_in_the_open_another_is_owed_as_far_as_the_next(reason):
    """A valley from the edge to (20, 15): the joint there, not beyond where the next crosses it, nor one elsewhere."""
    cuts = [
        cut((5, 0), (20, 15), reason=reason),
        cut((20, 0), (20, 30)),
        cut((0, 20), (40, 20)),
        cut((5, 0), (5, 30)),
    ]
    pieces = [
        ((20, 0), (20, 15)),
        ((20, 15), (20, 20)),
        ((20, 20), (20, 30)),
        ((0, 20), (5, 20)),
        ((5, 0), (5, 20)),
    ]
    assert owed(slab(HALL), pieces, cuts) == [True, True, False, False, False]
    loose = [cut((5, 0), (20, 15)), *cuts[1:]]
    assert owed(slab(HALL), pieces, loose) == [False] * 5
