"""Each weight moves a slab on which what it names is at stake, one with square edges and one that has slanted ones.

``test_weights`` holds those that every floor feels. Here the slabs are small, each made for its weight. Weights for what
no panel of a rectangular grid can be (``hooked``, ``around``, ``sharp``, ``sharp_degree``), and for where parts that turn
meet (``landing``), have slanted slabs alone; a square slab alone have ``column_points``, for elsewhere a bare point of a
boxout is a corner without a joint, and ``over_joint``, which elsewhere is no price but a bar.
"""

import statistics

import pytest
import shapely
from shapely import LineString, Point

from kerfline.engine.lay_out import lay_out
from kerfline.engine.options import EngineOptions
from kerfline.engine.regions.frames import regions_of
from kerfline.geometry.corners import corners, reentrant_corners
from kerfline.geometry.ends import EndKind, chalk_lines, joint_ends
from kerfline.model.slab import Boxout, Column, GivenJoint, Meeting, Penetration
from kerfline.units import MM_PER_FOOT as FOOT
from unit.engine.plans import RULES, ring, slab, wall

SQUARE, SLANTED = "square", "slanted"
FLOOR = {
    SQUARE: ((0, 0), (27, 0), (27, 18), (0, 18)),
    SLANTED: ((0, 0), (27, 0), (28.5, 18), (0, 19)),
}
HALL = {SQUARE: FLOOR[SQUARE], SLANTED: ((0, 0), (27, 0), (27.8, 18), (0, 18.4))}
NECKED = {
    SQUARE: ((0, 0), (31, 0), (31, 2.6), (10, 2.6), (10, 10), (0, 10)),
    SLANTED: ((0, 0), (31, 0), (31, 2.4), (10, 2.9), (10.4, 10), (0, 10)),
}
FOUR_BAYS = {
    SQUARE: ((0, 0), (20.4, 0), (20.4, 20.4), (0, 20.4)),
    SLANTED: ((0, 0), (20.4, 0), (20.4, 20.4), (0, 20.2)),
}
JOGGED = {
    SQUARE: ((0, 0), (18, 0), (18, 9), (13.5, 9), (13.5, 9.35), (0, 9.35)),
    SLANTED: ((0, 0), (18, 0), (18.2, 9), (13.5, 9), (13.5, 9.6), (0, 9.9)),
}


ROW = {
    SQUARE: ((0, 0), (27, 0), (27, 10), (0, 10)),
    SLANTED: ((0, 0), (27, 0), (28.5, 10), (0, 9.6)),
}
CORNERED = {
    SQUARE: ((0, 0), (30, 0), (30, 8), (13, 8), (13, 22), (0, 22)),
    SLANTED: ((0, 0), (30, 0), (31, 8), (13, 8), (13, 22), (0, 21)),
}


def column(name, x, y, boxout=Boxout.DIAMOND):
    return Column(id=name, at=(x * FOOT, y * FOOT), boxout=boxout, size=2 * FOOT)


def pipe(x, y, meeting):
    return Penetration(
        id="P1", at=(x * FOOT, y * FOOT), diameter=101.6, meeting=meeting, clear=FOOT
    )


def forbidden(*points):
    return GivenJoint(id="G1", path=tuple((x * FOOT, y * FOOT) for x, y in points), forbidden=True)


def met_by_one(layout, at):
    """Whether joints along one axis alone meet a place."""
    near = [j.line for j in layout.joints if j.line.distance(Point(at)) < 2.0]
    upright = {abs(n.coords[-1][0] - n.coords[0][0]) < n.length / 2 for n in near}
    return len(upright) == 1


def columns_uncrossed(given, layout):
    return sum(met_by_one(layout, c.at) for c in given.columns)


def corners_passed(given, layout):
    return sum(met_by_one(layout, c.at) for c in reentrant_corners(given.gross))


def spread(given, layout):
    """How unlike the panels are in area."""
    return round(statistics.pstdev(p.area for p in layout.panels))


def along_forbidden(given, layout):
    line = LineString(given.joints[-1].path)
    return joints(layout).intersection(line.buffer(25.0)).length


def over_span(given, layout):
    span = RULES.working(given.thickness).span
    return sum(max(0.0, p.span - span - 0.5) for p in layout.panels)


def over_aspect(given, layout):
    return sum(p.aspect > 1.5 + 1e-4 for p in layout.panels)


def under(feet):
    def missing(given, layout):
        return sum(max(0.0, feet * FOOT - p.width) for p in layout.panels)

    return missing


def joints(layout):
    return shapely.union_all([j.line for j in layout.joints])


def away(given, layout):
    """How far the penetration lies from the nearest joint."""
    return joints(layout).distance(Point(given.penetrations[0].at))


def beside(given, layout):
    return -away(given, layout)


def bare(given, layout):
    """Length of the last wall that has no joint under it."""
    last = given.walls[-1]
    return (
        last.line.length - last.line.intersection(joints(layout).buffer(last.thickness / 2)).length
    )


def hidden(given, layout):
    return layout.hidden_length


def tees_under_walls(given, layout):
    walls = shapely.union_all([w.footprint for w in given.walls])
    ends = joint_ends(given.concrete, [j.line for j in layout.joints])
    return sum(e.kind is EndKind.TEE and walls.distance(Point(e.at)) < 2.0 for e in ends)


def lines(given, layout):
    return chalk_lines([j.line for j in layout.joints])


def corners_unmet(given, layout):
    drawn = joints(layout)
    return sum(drawn.distance(Point(c.at)) > 2.0 for c in reentrant_corners(given.gross))


def columns_unmet(given, layout):
    """Points of diamonds, and columns without a boxout, that no joint meets."""
    drawn = joints(layout)
    spots = [at for c in given.columns for at in (c.points or (c.at,))]
    return sum(drawn.distance(Point(at)) > 2.0 for at in spots)


PAIR = (column("C1", 11, 7), column("C2", 20, 7.4, Boxout.NONE))
APART = (column("C1", 8, 4.5), column("C2", 9.2, 13.5))
BOTH = (SQUARE, SLANTED)
CASES = [
    ("span_advised", 20.0, 400.0, over_span, FOUR_BAYS, {}, BOTH),
    ("over_aspect", 0.0, 200.0, over_aspect, NECKED, {}, BOTH),
    ("small", 4.0, 85.0, under(4), NECKED, {}, BOTH),
    ("width_advised", 10.0, 205.0, under(3), NECKED, {}, BOTH),
    ("too_narrow", 0.0, 300.0, under(2), {SQUARE: ((0, 0), (8, 0), (8, 9), (0, 9))},
     {"walls": (wall("W1", (0, 1.8), (8, 1.8)),)}, (SQUARE,)),
    ("corner", 0.0, 150.0, corners_unmet, JOGGED, {}, BOTH),
    ("column_inside", 0.0, 250.0, columns_unmet, FLOOR, {"columns": PAIR}, BOTH),
    ("column_side", 0.0, 200.0, columns_uncrossed, ROW, {"columns": (column("C1", 9, 5, Boxout.NONE),)}, BOTH),
    ("corner_passed", 0.0, 60.0, corners_passed, CORNERED, {}, BOTH),
    ("uneven", 0.0, 3000.0, spread, FLOOR, {"penetrations": (pipe(7.5, 7.5, Meeting.THROUGH),)}, BOTH),
    ("over_joint", 0.0, 100.0, along_forbidden, FLOOR, {"joints": (forbidden((9, 0), (9, 18)),)}, (SQUARE,)),
    ("column_points", 0.0, 60.0, columns_unmet, HALL, {"columns": APART}, (SQUARE,)),
    ("line", 1.0, 200.0, lines, HALL, {"columns": APART}, BOTH),
    ("penetration", 0.0, 60.0, away, FLOOR, {"penetrations": (pipe(11, 7, Meeting.THROUGH),)}, BOTH),
    ("penetration_auto", 1.5, 65.0, away, FLOOR, {"penetrations": (pipe(7.5, 7.5, Meeting.AUTO),)}, BOTH),
    ("penetration_near", 0.0, 125.0, beside, FLOOR, {"penetrations": (pipe(9, 9.5, Meeting.CLEAR),)}, BOTH),
    ("length_hidden", 0.8, 21.0, hidden, FLOOR, {"walls": (wall("W1", (0, 6.5), (27, 6.5)),)}, BOTH),
    ("tee_hidden", 0.0, 3.0, tees_under_walls, HALL,
     {"walls": (wall("W1", (0, 9), (27, 9)),),
      "columns": (column("C1", 7, 4), column("C2", 10.5, 14))}, (SQUARE,)),
    ("wall_bare", 0.0, 205.0, bare, FLOOR, {"walls": (wall("W1", (3, 2.4), (12, 2.4)),)}, BOTH),
    ("wall_bare_once", 0.0, 1205.0, bare, FLOOR, {"walls": (wall("W1", (3, 2.4), (12, 2.4)),)}, BOTH),
    ("wall_short", 3.0, 65.0, bare, FLOOR,
     {"walls": (wall("W1", (0, 9.6), (4, 9.6)), wall("W2", (20, 3), (20, 6.5)))}, BOTH),
]  # fmt: skip


@pytest.mark.parametrize(
    ("weight", "low", "high", "measure", "outline", "things"),
    [
        pytest.param(*case[:4], case[4][edges], case[5], id=f"{case[0]}-{edges}")
        for case in CASES
        for edges in case[6]
    ],
)
def test_the_more_a_thing_costs_the_less_of_it_there_is(
    weight, low, high, measure, outline, things
):
    given = slab(ring(*outline), **things)
    cheap, dear = (
        measure(given, lay_out(given, RULES, EngineOptions(weights={weight: value})))
        for value in (low, high)
    )
    assert dear < cheap


LEAST_ANGLE = 60.0
"""Corners of panels under it are sharp, in the rules that the slabs are laid out by."""


def hooks(given, layout):
    """Panels that leave a tenth of their convex hull."""
    return sum(p.polygon.area < 0.9 * p.polygon.convex_hull.area for p in layout.panels)


def rings(given, layout):
    return sum(len(p.polygon.interiors) for p in layout.panels)


def sharpness(given, layout):
    """By how many degrees corners of panels are under the least angle, those of the slab too."""
    angles = [c.angle for p in layout.panels for c in corners(p.polygon)]
    return round(sum(max(0.0, LEAST_ANGLE - 0.1 - angle) for angle in angles), 1)


def sharp_corners(given, layout):
    return sum(c.angle < LEAST_ANGLE - 0.1 for p in layout.panels for c in corners(p.polygon))


def unmet_between_parts(given, layout):
    """Joints that stop on the line between two parts, no other joint of the far side beginning there."""
    borders = [
        LineString(cut.path)
        for part in regions_of(given, RULES, EngineOptions())
        for cut in part.borders
    ]
    ends = [Point(at) for j in layout.joints for at in (j.path[0], j.path[-1])]
    spots = [at for at in ends if any(line.distance(at) < 1.0 for line in borders)]
    return sum(sum(one.distance(other) < 3.0 for other in spots) == 1 for one in spots)


TRAPEZOID = ((0, 0), (14, 0), (28, 12), (0, 12))
STAR = ((0, 0), (14, -4), (22, 4), (20, 16), (6, 18), (-2, 8))
SPLAYED = ((0, 0), (9, 0), (10.5, 4), (4, 5.2), (5.2, 9), (0, 10))
TURNED_WING = ((0, 0), (30, 0), (50, 20), (36, 34), (22, 20), (0, 20))
PIT = ring((9, 7), (11, 7), (11, 9), (9, 9))
OF_ANY_SHAPE = [
    ("hooked", 0.0, 60.0, hooks, SPLAYED, {}, {"corner": 0.0}),
    ("around", 0.0, 250.0, rings, STAR, {"openings": (PIT,)}, {"corner": 0.0, "hooked": 0.0}),
    ("sharp", 0.0, 100.0, sharp_corners, TRAPEZOID, {}, {}),
    ("sharp_degree", 0.0, 20.0, sharpness, TRAPEZOID, {}, {"sharp": 0.0}),
    ("landing", 0.0, 5.0, unmet_between_parts, TURNED_WING, {}, {}),
]
"""The last column holds the weights beside it that would hide what it does."""


@pytest.mark.parametrize(
    ("weight", "low", "high", "measure", "outline", "things", "beside"),
    OF_ANY_SHAPE,
    ids=[case[0] for case in OF_ANY_SHAPE],
)
def test_what_no_rectangle_can_be_counts_on_slabs_of_any_shape(
    weight, low, high, measure, outline, things, beside
):
    given = slab(ring(*outline), **things)
    cheap, dear = (
        measure(given, lay_out(given, RULES, EngineOptions(weights={**beside, weight: value})))
        for value in (low, high)
    )
    assert dear < cheap
