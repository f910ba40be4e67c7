"""What duties part a region into, and the aspect that panels may have in each part."""

import math

import numpy as np
import pytest
import shapely
from shapely import Polygon

from kerfline.engine.bounds.parts import parts_of
from kerfline.units import MM_PER_FOOT
from unit.engine.plans import box, feet, region_of, slab

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
