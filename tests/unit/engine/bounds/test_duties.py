"""The stretches of a layout's joints: how they run, which are duties (under walls, from corners, given), which run through."""

import numpy as np
import pytest
import shapely
from shapely import LineString

from kerfline.engine.bounds.duties import Stretches, are_duties, duties_run_on, stretches_of
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


def found(*paths, plan=None):
    return stretches_of(region_of(plan or slab(box(40, 30))), [cut(*path) for path in paths])


def in_feet(stretches):
    """Their ends, those left out by which a joint is drawn out."""
    ends = np.sort((stretches.ends / MM_PER_FOOT)[stretches.length > 1.0].round(2), axis=1)
    return sorted((*one, *other) for one, other in ends.tolist())


def test_joints_are_cut_where_they_meet_and_at_their_bends():
    own = found(((10, 0), (10, 30)), ((0, 15), (20, 15), (30, 20)))
    assert in_feet(own) == [
        (0, 15, 10, 15),
        (10, 0, 10, 15),
        (10, 15, 10, 30),
        (10, 15, 20, 15),
        (20, 15, 30, 20),
    ]
    assert own.length.sum() == pytest.approx((30 + 20 + 5**0.5 * 5) * MM_PER_FOOT, rel=1e-3)


def test_a_joint_within_a_touch_of_another_meets_it_and_is_told_no_longer_than_it_is():
    """0.4 mm short of the upright joint, and 0.4 mm beyond the edge."""
    off = 0.4 / MM_PER_FOOT
    own = found(((10, 0), (10, 30)), ((10 + off, 15), (40 + off, 15)))
    assert in_feet(own) == [(10, 0, 10, 15), (10, 15, 10, 30), (10, 15, 40, 15)]
    assert own.length.sum() - own.over == pytest.approx((30 + 30 - off) * MM_PER_FOOT, abs=1e-3)


def test_no_joints_have_no_stretches():
    own = found()
    assert (len(own.ends), len(own.duty), own.over) == (0, 0, 0.0)


def test_they_know_which_are_duties():
    plan = slab(box(40, 30), walls=(wall("W1", (20, 0), (20, 10)),))
    own = found(((20, 0), (20, 30)), ((0, 15), (40, 15)), plan=plan)
    under = own.ends[own.duty] / MM_PER_FOOT
    assert sorted(under.reshape(-1, 2).round(2).tolist()) == [[20, 0], [20, 15]]


def stretches(*paths, duty=""):
    flags = np.array([str(n) in duty for n in range(len(paths))])
    return Stretches(ends=lines(*paths), duty=flags)


def lines(*paths):
    return np.array([[feet(*path)[0], feet(*path)[1]] for path in paths], dtype=float)


@pytest.mark.parametrize(
    ("duty", "way"),
    [("", (0, 1)), ("0", (0.6, 0.8)), ("012", (0.6, 0.8)), ("0123", (0, 1)), ("13", (0, 1))],
)
def test_they_run_along_and_across_the_longest_of_those_that_are_free(duty, way):
    """20 ft up, 10 ft on the slant twice, 12 ft level: those square to each other count together."""
    own = stretches(
        ((0, 0), (0, 20)), ((5, 0), (11, 8)), ((9, 0), (15, 8)), ((0, 3), (12, 3)), duty=duty
    )
    if duty == "012":
        way = (1, 0)
    assert own.way.tolist() == pytest.approx(way)


def test_slopes_are_those_off_the_nearer_direction():
    own = stretches(((0, 0), (0, 20)), ((0, 0), (20, 1)), ((0, 0), (1, 20)), ((0, 0), (3, 4)))
    slope = own.slopes(np.array([1.0, 0.0]))
    off = 1 / 401**0.5
    assert slope.tolist() == pytest.approx([0, off, off, 0.6])


EDGE = shapely.box(0, 0, 40 * MM_PER_FOOT, 30 * MM_PER_FOOT).boundary


@pytest.mark.parametrize(
    ("paths", "duty", "expected"),
    [
        (
            [((10, 0), (10, 15)), ((10, 15), (10, 30)), ((0, 15), (10, 15)), ((10, 15), (40, 15))],
            "",
            "",
        ),
        ([((10, 0), (10, 15)), ((0, 15), (10, 15)), ((10, 15), (40, 15))], "", None),
        ([((10, 0), (10, 15)), ((0, 15), (10, 15)), ((10, 15), (40, 15))], "1", "12"),
        (
            [((10, 0), (10, 15)), ((10, 15), (10, 30)), ((0, 15), (10, 15)), ((10, 15), (40, 15))],
            "0",
            "01",
        ),
        (
            [((10, 0), (10, 15)), ((10, 15), (10, 30)), ((0, 15), (10, 15)), ((10, 15), (40, 15))],
            "02",
            "02",
        ),
        ([((10, 0), (10, 15)), ((10, 15), (20, 30))], "", None),
        ([((10, 0), (10, 15))], "", None),
    ],
)
def test_joints_that_run_through_and_the_duties_that_run_on(paths, duty, expected):
    """A crossing; a tee; one on a duty; a duty that ends at a crossing goes on; two that end on each other; a bend; an
    end in the open."""
    given_ones = np.array([str(n) in duty for n in range(len(paths))])
    found = duties_run_on(lines(*paths), given_ones, EDGE)
    assert (None if found is None else "".join(map(str, np.flatnonzero(found)))) == expected
