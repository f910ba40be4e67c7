"""What duties part a region into, and the aspect that panels may have in each part."""

import math

import numpy as np
import pytest
import shapely
from shapely import Polygon

from kerfline.engine.bounds.parts import parts_of
from kerfline.units import MM_PER_FOOT
from unit.engine.plans import EL, box, feet, region_of, slab

LEVEL = np.array([1.0, 0.0])


def panel(*points):
    return Polygon(feet(*points))


def rectangle(x0, y0, x1, y1):
    return shapely.box(*(v * MM_PER_FOOT for v in (x0, y0, x1, y1)))


def parts(panels, *joints):
    given = np.array([feet(*joint) for joint in joints], dtype=float).reshape(-1, 2, 2)
    return parts_of(region_of(slab(box(12, 12))), given, panels, LEVEL)


U_SHAPE = panel((0, 0), (12, 0), (12, 12), (8, 12), (8, 4), (4, 4), (4, 12), (0, 12))


@pytest.mark.parametrize(
    ("panels", "aspect"),
    [
        ([rectangle(0, 0, 12, 12)], 1.25),
        ([rectangle(0, 0, 12, 6), rectangle(0, 6, 12, 12)], 2.0),
        ([rectangle(0, 0, 4, 12), rectangle(4, 0, 12, 12)], 3.0),
        ([U_SHAPE, rectangle(4, 4, 8, 12)], math.inf),
        (
            [panel((0, 0), (12, 0), (12, 6), (6, 6), (6, 12), (0, 12)), rectangle(6, 6, 12, 12)],
            1.25,
        ),
        ([rectangle(0, 0, 12, 12) - rectangle(4, 4, 8, 8), rectangle(4, 4, 8, 8)], math.inf),
    ],
)
def test_the_aspect_is_the_greatest_here_or_the_advised_one(panels, aspect):
    """A U and a ring are met twice by a line: of those nothing follows from the aspect. A hook is met once."""
    (found,) = parts(panels)
    assert found.aspect == pytest.approx(aspect)


def test_each_part_has_its_own_panels():
    halves = parts([rectangle(0, 0, 4, 12), rectangle(4, 0, 12, 12)], ((4, 0), (4, 12)))
    assert [part.aspect for part in halves] == [pytest.approx(3.0), pytest.approx(1.5)]
    assert [len(part.panels) for part in halves] == [1, 1]


def test_a_joint_that_parts_nothing_ends_chords_all_the_same():
    """Over the lower 5 ft of the joint there are two level chords, over the upper 7 one; upright ones are not cut."""
    (found,) = parts([rectangle(0, 0, 12, 12)], ((4, 0), (4, 5)))
    level, upright = (crossed.chords / MM_PER_FOOT for crossed in found.across)
    assert (level, upright) == (pytest.approx(17), pytest.approx(12))


@pytest.mark.parametrize(
    ("joints", "served"),
    [
        ((), False),
        ((((22, 9), (22, 0)),), False),
        ((((22, 18), (22, 9)),), True),
        ((((10, 18), (22, 18)),), True),
        ((((22, 18), (22, 0)),), True),
    ],
)
def test_a_corner_that_no_duty_leaves_may_lie_in_a_panel(joints, served):
    """The L of 40 x 36 ft: a panel may hold its corner and be no rectangle, so that nothing follows place by place."""
    given = np.array([feet(*joint) for joint in joints], dtype=float).reshape(-1, 2, 2)
    tower = [rectangle(x, y, x + 11, y + 9) for x in (0, 11) for y in (0, 9, 18, 27)]
    whole = [*tower, *(rectangle(x, y, x + 9, y + 9) for x in (22, 31) for y in (0, 9))]
    found = parts_of(region_of(slab(EL)), given, whole, LEVEL)
    assert all(part.served for part in found) is served
    assert all(part.least_on_cells([0.0, 0.0]) > 0.0 for part in found) is served


def test_a_corner_of_duties_alone_is_no_corner_of_the_concrete():
    """Two joints that meet at a corner of theirs cut an L out of the floor."""
    joints = ((((0, 6), (6, 6))), ((6, 6), (6, 12)))
    found = parts(
        [rectangle(0, 6, 6, 12), rectangle(0, 0, 12, 6), rectangle(6, 6, 12, 12)], *joints
    )
    assert [part.served for part in found] == [True, True]
