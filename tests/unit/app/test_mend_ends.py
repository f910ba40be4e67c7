"""Ends of added joints lie exactly on what they meet."""

from dataclasses import replace

from shapely import LineString

from checked import box_ring, feet, joint
from kerfline.app.mend_ends import landed
from kerfline.checks.given import given_layout
from kerfline.model.slab import Slab


def test_an_addition_ends_exactly_on_what_it_meets():
    """An end drawn 0.4 mm short or over is set on the line: at a joint, at the edge, and end to end."""
    slab = box_ring(0, 0, 20, 20)
    lines = [LineString(feet((10, 0), (10, 20))), LineString(feet((10, 5), (20, 5)))]
    short, over, in_line = (
        ((0.4, 3000.0), (3048.0 - 0.4, 3000.0)),
        ((-0.4, 4000.0), (3048.0 + 0.4, 4000.0)),
        ((3048.0 - 0.4, 1524.0 + 0.1), (0.0, 1524.0)),
    )
    given = given_layout(Slab(outline=slab, thickness=101.6, joints=(joint("G", (0, 1), (1, 1)),)))
    drawn = [replace(given.joints[0], path=path) for path in (short, over, in_line)]
    set_ = landed(slab.polygon, lines, drawn)
    assert [j.path for j in set_] == [
        ((0.0, 3000.0), (3048.0, 3000.0)),
        ((0.0, 4000.0), (3048.0, 4000.0)),
        ((3048.0, 1524.0), (0.0, 1524.0)),
    ]


def test_an_end_that_meets_nothing_stays():
    slab = box_ring(0, 0, 20, 20)
    given = given_layout(Slab(outline=slab, thickness=101.6, joints=(joint("G", (0, 1), (1, 1)),)))
    loose = replace(given.joints[0], path=((1000.0, 1000.0), (2000.0, 1500.0)))
    assert landed(slab.polygon, [], [loose])[0].path == loose.path


def test_additions_end_on_each_other():
    """The second is set on the first as that lies after it was set itself."""
    slab = box_ring(0, 0, 20, 20)
    given = given_layout(Slab(outline=slab, thickness=101.6, joints=(joint("G", (0, 1), (1, 1)),)))
    across = replace(given.joints[0], path=((0.3, 3000.0), (6096.2, 3000.0)))
    tee = replace(given.joints[0], path=((2000.0, 0.2), (2000.0, 2999.7)))
    first, second = landed(slab.polygon, [], [across, tee])
    assert first.path == ((0.0, 3000.0), (6096.0, 3000.0))
    assert second.path == ((2000.0, 0.0), (2000.0, 3000.0))
