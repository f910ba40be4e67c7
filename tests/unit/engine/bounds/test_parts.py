"""What duties part a region into, and the aspect that panels may have in each part."""

import math

import numpy as np
import pytest
import shapely
from shapely import LineString, Polygon

from kerfline.engine.bounds.parts import duty_parts, seen_along
from kerfline.model.slab import Zone
from kerfline.units import MM_PER_FOOT
from unit.engine.plans import EL, box, feet, region_of, slab

LEVEL = np.array([1.0, 0.0])


def panel(*points):
    return Polygon(feet(*points))


def rectangle(x0, y0, x1, y1):
    return shapely.box(*(v * MM_PER_FOOT for v in (x0, y0, x1, y1)))


def parts(panels, *joints):
    given = np.array([feet(*joint) for joint in joints], dtype=float).reshape(-1, 2, 2)
    return duty_parts(region_of(slab(box(12, 12))), given, panels, LEVEL)


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
    level, upright = (own.high.sum() / MM_PER_FOOT for own in found.chords)
    assert (level, upright) == (pytest.approx(17), pytest.approx(12))


@pytest.mark.parametrize(
    ("panels", "square"),
    [
        ([rectangle(0, 0, 12, 6), rectangle(0, 6, 12, 12)], True),
        ([rectangle(0, 0, 12, 12) - rectangle(0, 0, 0.003, 12), rectangle(0, 0, 0.003, 12)], True),
        ([panel((0, 0), (12, 0), (12, 12.001), (0, 12))], True),
        ([panel((0, 0), (12, 0), (12, 12.02), (0, 12))], False),
        ([rectangle(0, 0, 12, 12) - rectangle(0, 0, 4, 4), rectangle(0, 0, 4, 4)], False),
        ([panel((0, 0), (12, 0), (0, 12)), panel((12, 0), (12, 12), (0, 12))], False),
    ],
)
def test_a_part_is_square_where_all_panels_are_rectangles(panels, square):
    assert parts(panels)[0].square is square


def test_a_part_is_not_square_where_an_edge_or_a_duty_is_on_the_slant():
    halves = [rectangle(0, 0, 6, 12), rectangle(6, 0, 12, 12)]
    assert [part.square for part in parts(halves, ((6, 0), (6, 12)))] == [True, True]
    assert [part.square for part in parts(halves, ((4, 0), (6, 6)))] == [False]


def test_a_corner_that_no_duty_leaves_may_lie_in_a_panel():
    """The L of 40 x 36 ft: where a panel holds its corner it is no rectangle, and nothing follows place by place."""
    tower = [rectangle(x, y, x + 11, y + 9) for x in (0, 11) for y in (0, 9, 18, 27)]
    foot = [rectangle(x, y, x + 9, y + 9) for x in (22, 31) for y in (0, 9)]
    hook = panel((11, 9), (31, 9), (31, 18), (22, 18), (22, 27), (11, 27))
    hooked = [p for p in (*tower, *foot) if not hook.covers(p)]
    none = np.zeros((0, 2, 2))
    region = region_of(slab(EL))
    assert [part.square for part in duty_parts(region, none, [*tower, *foot], LEVEL)] == [True]
    assert [part.square for part in duty_parts(region, none, [*hooked, hook], LEVEL)] == [False]


def test_a_panel_beyond_the_span_reaches_so_far_on_the_chords_that_meet_it():
    """One of 11 x 3 ft at a span of 10 ft: on level chords over its height as far as that, elsewhere and along upright
    ones to the span."""
    long = rectangle(0, 4, 11, 7)
    (found,) = parts([long, rectangle(0, 0, 12, 4), rectangle(0, 7, 9, 12)])
    level, upright = found.chords
    told = dict(zip((level.heights[:, 0] / MM_PER_FOOT).tolist(), found.reach[0], strict=True))
    assert {round(at): round(far / MM_PER_FOOT, 3) for at, far in told.items()} == {
        0: 12.0,
        4: 11.0,
        7: 10.0,
    }
    assert (found.reach[1] / MM_PER_FOOT).tolist() == pytest.approx([10.0] * len(upright.high))


@pytest.mark.parametrize("lean", [0, 1])
@pytest.mark.parametrize(("wide", "reach"), [(10.001, 10.0), (10.003, 10.003)])
def test_beyond_the_span_is_more_than_half_a_millimetre(wide, reach, lean):
    (found,) = parts([panel((0, 0), (wide, 0), (wide + lean, 12), (lean, 12))])
    assert found.reach[0].max() == pytest.approx(reach * MM_PER_FOOT, abs=0.02)


@pytest.mark.parametrize(("first", "at"), [(14, 12), (5, 18)])
def test_a_panel_far_along_a_chord_is_not_on_it(first, at):
    """A joint from the lower edge to 6 ft: a panel of 11 ft lies on the chords of one side of it alone."""
    given = np.array([feet((at, 0), (at, 6))], dtype=float)
    long = [rectangle(first, 1, first + 11, 5)]
    (found,) = duty_parts(region_of(slab(box(30, 12))), given, long, LEVEL)
    middle = found.chords[0].heights.mean(axis=1)
    low = found.reach[0][middle < 5 * MM_PER_FOOT]
    assert sorted(np.round(low / MM_PER_FOOT, 3).tolist()) == [10, 10, 10, 11]


def zoned(*zones):
    """A floor of 50 x 40 ft with zones of 8 in, whose span is 15 ft, or of 3, with 7 1/2, and a joint up at 20 ft."""
    made = [
        Zone(id=f"Z{n}", outline=outline, thickness=inches * 25.4, joint_at_border=joint)
        for n, (outline, inches, joint) in enumerate(zones)
    ]
    given = np.array([feet((20, 0), (20, 40))], dtype=float)
    panels = [rectangle(x, 0, x + 10, 40) for x in range(0, 50, 10)]
    found = duty_parts(region_of(slab(box(50, 40), zones=tuple(made))), given, panels, LEVEL)
    return [round(part.span / MM_PER_FOOT, 3) for part in found]


def test_the_span_is_that_of_the_zone_or_the_greatest_in_the_part():
    assert zoned() == [10, 10]
    assert zoned((box(20, 40), 8, True)) == [15, 10]
    assert zoned((box(20, 40), 3, True)) == [7.5, 10]
    assert zoned((box(15, 40), 3, True)) == [10, 10]
    assert zoned((box(15, 40), 8, True)) == [15, 10]
    assert zoned((box(20, 40, 20, 0), 8, False)) == [10, 15]


def test_seen_along_a_direction_it_is_level():
    turned = seen_along(LineString([(0, 0), (3, 4)]), np.array([0.6, 0.8]))
    assert shapely.get_coordinates(turned).ravel().tolist() == pytest.approx([0, 0, 5, 0])
