"""The bounds of layouts, against every division of small slabs and by hand."""

import math
from functools import cache
from itertools import pairwise

import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely import LineString, Polygon, affinity

from golden.plans import PLANS
from kerfline.engine.bounds.length_bound import least_lengths
from kerfline.engine.finish import saw_passes
from kerfline.engine.regions.region import Cut
from kerfline.geometry.ring import Ring
from kerfline.model.layout import Reason
from kerfline.model.slab import Boxout, Column, GivenJoint, Slab, Wall, Zone
from kerfline.units import MM_PER_FOOT
from strategies import turned_slabs
from unit.engine import divided
from unit.engine.divided import size_of
from unit.engine.plans import (
    EL,
    FOUR_INCHES,
    HOUSE,
    box,
    feet,
    layout,
    region_of,
    ring,
    slab,
    wall,
)
from unit.engine.slabs import SHAPES
from unit.engine.slabs import slab as points_slab

UNIT = 1016.0
"""A third of the span of a slab of 4 in, 10 ft: panels are up to 3 units a side."""

LONGEST = 3

FIGURES = {
    "box": ((0, 0), (7, 0), (7, 4), (0, 4)),
    "taper": ((0, 0), (7, 0), (5, 5), (1, 5)),
    "triangle": ((0, 0), (7, 0), (0, 5)),
    "parallelogram": ((0, 0), (5, 0), (7, 4), (2, 4)),
    "lozenge": ((3, 0), (6, 3), (3, 6), (0, 3)),
    "chamfered": ((0, 0), (5, 0), (7, 2), (7, 4), (0, 4)),
    "splayed L": ((0, 0), (7, 0), (6, 3), (3, 3), (2, 6), (0, 6)),
}
WALL = {"box": ((2, 0), (2, 4)), "taper": ((1, 2), (6, 2)), "chamfered": ((0, 2), (5, 2))}
NEAR = {"taper": 0.9, "parallelogram": 0.88, "lozenge": 0.59}
"""Share of the length that the bound reaches; 0.99 elsewhere. It does not see that a joint runs on to the next, and
joints of the brute force stand at whole units only."""


def in_mm(points):
    return tuple((x * UNIT, y * UNIT) for x, y in points)


@cache
def cells_of(points):
    """The unit cells of a figure that hold concrete, from the lower left."""
    figure = Polygon(points)
    wide, high = (int(v) for v in figure.bounds[2:])
    cells = [(i, j) for j in range(high) for i in range(wide)]
    return tuple(
        c for c in cells if figure.intersection(shapely.box(*c, c[0] + 1, c[1] + 1)).area > 1e-9
    )


@cache
def inside_length(points, piece):
    """How much of a unit piece of line is inside a figure, not on its boundary."""
    figure = Polygon(points)
    line = LineString(piece)
    return line.intersection(figure).length - line.intersection(figure.boundary).length


def rim(rectangle):
    """The unit pieces of line around a rectangle."""
    x0, y0, x1, y1 = rectangle
    level = [((x, y), (x + 1, y)) for x in range(x0, x1) for y in (y0, y1)]
    return level + [((x, y), (x, y + 1)) for y in range(y0, y1) for x in (x0, x1)]


def held_apart(rectangle, duties):
    """Whether no duty runs through the inside of a rectangle."""
    inner = shapely.box(*rectangle).buffer(-0.01)
    return not any(LineString(d).intersects(inner) for d in duties)


def extent_ratio(figure):
    """How many times longer a figure is one way than the other, along the axes."""
    x0, y0, x1, y1 = figure.bounds
    return max((x1 - x0) / (y1 - y0), (y1 - y0) / (x1 - x0))


@cache
def panels_on(points, duties, aspect):
    """The rectangles that may be panels, as (cells, pieces of joint around, length of those inside the figure)."""
    cells, figure = frozenset(cells_of(points)), Polygon(points)
    wide, high = (int(v) for v in figure.bounds[2:])
    found = {}
    for i, j in ((i, j) for i in range(wide) for j in range(high)):
        for x1 in range(i + 1, min(i + LONGEST, wide) + 1):
            for y1 in range(j + 1, min(j + LONGEST, high) + 1):
                own = (i, j, x1, y1)
                held = frozenset((a, b) for a in range(i, x1) for b in range(j, y1)) & cells
                part = figure.intersection(shapely.box(*own))
                if held and isinstance(part, Polygon) and extent_ratio(part) > aspect + 1e-9:
                    continue
                if held and isinstance(part, Polygon) and held_apart(own, duties):
                    cost = sum(inside_length(points, p) for p in rim(own))
                    found.setdefault(held, (cost, own))
    return tuple((held, cost, own) for held, (cost, own) in found.items())


def shortest(points, duties=(), aspect=math.inf):
    """The shortest division whose joints hold some pieces of line: its length and its rectangles."""
    order = cells_of(points)
    by_cell = {c: [p for p in panels_on(points, duties, aspect) if c in p[0]] for c in order}

    @cache
    def rest(done):
        start = next((c for c in order if c not in done), None)
        if start is None:
            return 0.0, ()
        best = (math.inf, ())
        for held, cost, own in by_cell[start]:
            if not held & done:
                more, others = rest(done | held)
                best = min(best, (cost / 2 + more, (own, *others)))
        return best

    return rest(frozenset())


def cuts_of(points, rectangles):
    """The joints between rectangles, piece by piece, in mm."""
    figure = Polygon(points)
    pieces = sorted({p for own in rectangles for p in rim(own)})
    inside = [LineString(p).intersection(figure) for p in pieces if inside_length(points, p) > 0.0]
    return [Cut(path=in_mm(part.coords)) for part in inside if isinstance(part, LineString)]


BOXES = {
    "5 x 3": ((0, 0), (5, 0), (5, 3), (0, 3)),
    "5 x 4": ((0, 0), (5, 0), (5, 4), (0, 4)),
    "7 x 5": ((0, 0), (7, 0), (7, 5), (0, 5)),
    "4 x 4": ((0, 0), (4, 0), (4, 4), (0, 4)),
    **{name: FIGURES[name] for name in ("taper", "chamfered", "splayed L")},
}
ADVISED = 1.25
"""The advised aspect of the rules of the tests."""


@pytest.mark.parametrize("aspect", [1.0, 4 / 3, 1.5, 2.0])
@pytest.mark.parametrize("name", BOXES)
def test_no_division_whose_panels_are_no_longer_for_their_width_is_shorter(name, aspect):
    """Of the shortest within an aspect, against the shortest of all within its own greatest or the advised one."""
    length, rectangles = shortest(BOXES[name], (), aspect)
    if math.isinf(length):
        return
    figure = Polygon(BOXES[name])
    own = max(extent_ratio(figure.intersection(shapely.box(*r))) for r in rectangles)
    least, _ = shortest(BOXES[name], (), max(own, ADVISED))
    plan = Slab(outline=Ring(in_mm(BOXES[name])), thickness=FOUR_INCHES)
    found = least_lengths(region_of(plan), cuts_of(BOXES[name], rectangles)).of_any / UNIT
    assert found <= least + 1e-3


def pieces_under(name):
    (x0, y0), (x1, y1) = WALL[name]
    count = abs(x1 - x0) + abs(y1 - y0)
    at = [(x0 + (x1 - x0) * n / count, y0 + (y1 - y0) * n / count) for n in range(count + 1)]
    return tuple(pairwise(at))


def bound_of(name, cuts, **more):
    plan = Slab(outline=Ring(in_mm(FIGURES[name])), thickness=FOUR_INCHES, **more)
    return least_lengths(region_of(plan), cuts).of_any / UNIT


@pytest.mark.parametrize("name", FIGURES)
def test_no_division_is_shorter_than_the_bound_and_it_is_near_the_shortest(name):
    length, rectangles = shortest(FIGURES[name])
    cuts = cuts_of(FIGURES[name], rectangles)
    assert sum(LineString(c.path).length for c in cuts) == pytest.approx(length * UNIT)
    least = bound_of(name, cuts)
    assert NEAR.get(name, 0.99) * length <= least <= length + 1e-3


@pytest.mark.parametrize("name", WALL)
@pytest.mark.parametrize("kind", ["wall", "given"])
def test_no_division_with_the_same_joints_there_is_shorter(name, kind):
    duties = pieces_under(name)
    length, rectangles = shortest(FIGURES[name], duties)
    cuts = cuts_of(FIGURES[name], rectangles)
    if kind == "wall":
        more = {"walls": (Wall(id="W1", path=in_mm(WALL[name]), thickness=100.0),)}
    else:
        more = {"joints": (GivenJoint(id="G1", path=in_mm(WALL[name])),)}
        under = LineString(in_mm(WALL[name])).buffer(1.0)
        cuts = [
            Cut(path=c.path, reason=Reason.PINNED) if under.covers(LineString(c.path)) else c
            for c in cuts
        ]
    least = bound_of(name, cuts, **more)
    assert NEAR.get(name, 0.99) * length <= least <= length + 1e-3


def halved(figure, draw, span):
    """A figure cut in two by a line along an axis wherever it likes, and those again, until all are in the span."""
    x0, y0, x1, y1 = figure.bounds
    if max(x1 - x0, y1 - y0) <= span:
        return []
    axis = 0 if x1 - x0 > span and (y1 - y0 <= span or draw(st.booleans())) else 1
    low, high = (x0, x1) if axis == 0 else (y0, y1)
    at = low + (high - low) * draw(st.floats(0.25, 0.75))
    far = 1e6
    line = LineString([(at, -far), (at, far)] if axis == 0 else [(-far, at), (far, at)])
    halves = [p for p in shapely.ops.split(figure, line).geoms if isinstance(p, Polygon)]
    inside = line.intersection(figure)
    own = [p for p in getattr(inside, "geoms", [inside]) if isinstance(p, LineString)]
    return own + [more for half in halves for more in halved(half, draw, span)]


def greatest(figure, lines):
    """The greatest ratio of extents of the pieces that lines cut a figure into."""
    net = shapely.union_all([figure.boundary, *lines], grid_size=1e-3)
    return max(extent_ratio(p) for p in shapely.get_parts(shapely.polygonize([net])))


@given(
    data=st.data(),
    points=st.lists(st.tuples(st.floats(0, 9), st.floats(0, 7)), min_size=3, max_size=7),
    turn=st.sampled_from((0.0, 17.0, 45.0)),
)
@settings(max_examples=25, deadline=None)
def test_two_layouts_made_at_random_never_undercut_each_others_bound(data, points, turn):
    """Convex slabs owe no corner, so any division along the same directions within the span is a rival."""
    hull = affinity.scale(shapely.MultiPoint(points).convex_hull, UNIT, UNIT, origin=(0, 0))
    if hull.area < 4 * UNIT**2:
        return
    plan = Slab(outline=Ring.of(affinity.rotate(hull, turn, origin=(0, 0))), thickness=FOUR_INCHES)
    region = region_of(plan)
    both = [halved(hull, data.draw, LONGEST * UNIT) for _ in range(2)]
    for lines, others in (both, both[::-1]):
        rivals = [lines]
        if greatest(hull, others) <= max(ADVISED, greatest(hull, lines)):
            rivals.append(others)
        lengths = [sum(line.length for line in rival) for rival in rivals]
        turned = [affinity.rotate(line, turn, origin=(0, 0)) for line in lines]
        least = least_lengths(region, [Cut(path=tuple(x.coords)) for x in turned]).of_any
        assert least <= min(lengths) + 1.0


def cuts_in_units(*paths):
    return [Cut(path=in_mm(path)) for path in paths]


def test_panels_that_reach_farther_than_the_span_are_allowed_to_the_others_too():
    """6.3 x 3 at a span of 3: two joints across, but one where panels may be 3.15 as that of a layout is."""
    outline = Ring(in_mm(((0, 0), (6.3, 0), (6.3, 3), (0, 3))))
    region = region_of(Slab(outline=outline, thickness=FOUR_INCHES))
    two = cuts_in_units(((2, 0), (2, 3)), ((4, 0), (4, 3)))
    assert least_lengths(region, two).of_any == pytest.approx(2 * 3 * UNIT)
    assert least_lengths(region, cuts_in_units(((3.15, 0), (3.15, 3)))).of_any == pytest.approx(
        3 * UNIT
    )


def test_they_are_allowed_to_the_others_on_the_same_chords_alone():
    """6.3 x 6 in two rows: the lower has two joints across, the upper one, between panels of 3.15; one of 6.3 along."""
    lower = cuts_in_units(((2, 0), (2, 3)), ((4, 0), (4, 3)), ((0, 3), (6.3, 3)))
    upper = cuts_in_units(((3.15, 3), (3.15, 6)))
    found = least_lengths(plain(6.3, 6), [*lower, *upper]).of_any
    assert found == pytest.approx((2 * 3 + 3 + 6.3) * UNIT)


def plain(wide, high):
    outline = Ring(in_mm(((0, 0), (wide, 0), (wide, high), (0, high))))
    return region_of(Slab(outline=outline, thickness=FOUR_INCHES))


def test_joints_on_the_slant_count_as_they_are_where_they_are_few():
    """A box of 6 x 6, quartered: the last 0.5 of one joint bends by 0.4; then half of all on the slant."""
    bent = cuts_in_units(((3, 0), (3, 5.5), (2.6, 6)), ((0, 3), (6, 3)))
    found = least_lengths(plain(6, 6), bent).of_any
    assert found == pytest.approx((6 + 5.5 + math.hypot(0.4, 0.5)) * UNIT, rel=0.05)
    assert found <= sum(LineString(c.path).length for c in bent) + 1.0
    third = cuts_in_units(((3, 0), (3, 6)), ((0, 3), (3, 3)), ((3, 3), (6, 5)), ((3, 1), (6, 1.5)))
    assert least_lengths(plain(6, 6), third).of_any == 0.0
    star = cuts_in_units(((0, 3), (6, 3)), ((3, 3), (5, 6)), ((3, 3), (5, 0)))
    assert least_lengths(plain(6, 6), star).of_any == 0.0


def test_joints_a_little_off_their_direction_count_for_both_at_their_slope():
    """5.9 x 3: a joint along it, and one across of 3 that is off by a thousandth."""
    other = ((0, 1.5), (5.9, 1.5))
    found = least_lengths(plain(5.9, 3), cuts_in_units(other, ((2.95, 0), (2.953, 3)))).of_any
    assert found == pytest.approx(3 * UNIT / 1.001, rel=1e-5)


def test_no_joint_no_bound():
    assert least_lengths(region_of(slab(box(8, 8))), []).of_any == 0.0


def test_each_zone_has_its_own_span_where_its_border_is_a_joint():
    """50 x 40 ft, a zone of 8 in with a span of 15 ft on the left 20: two across 30 ft and one across 20, 40 each, the
    border 40; three along the 30 ft and two along the 20. Where no joint is at its border, and a panel of
    20 x 10 ft lies over it, 15 ft hold everywhere, and the 20 of that panel."""
    plan = slab(box(50, 40), zones=(Zone(id="Z1", outline=box(20, 40), thickness=203.2),))
    region = region_of(plan)
    assert region.zones[0].working.span == pytest.approx(15 * MM_PER_FOOT)
    left = [((0, y), (20, y)) for y in (13, 26)]
    right = [((20, y), (50, y)) for y in (10, 20, 30)]
    up = [((x, 0), (x, 40)) for x in (10, 30, 40)]
    cuts = [Cut(path=feet(*path)) for path in (*left, *right, *up, ((20, 0), (20, 40)))]
    expected = 2 * 40 + 40 + 40 + 3 * 30 + 2 * 20
    assert least_lengths(region, cuts).of_any == pytest.approx(expected * MM_PER_FOOT)
    over = [((0, y), (50, y)) for y in (10, 20, 30)] + up
    found = least_lengths(region, [Cut(path=feet(*path)) for path in over]).of_any
    assert found == pytest.approx((2 * 40 + 2 * 50) * MM_PER_FOOT)


@pytest.mark.parametrize(
    ("name", "share"), [("bay window", 0.95), ("tapered drive", 0.85), ("triangle", 0.75)]
)
def test_it_is_near_the_length_of_a_layout_where_the_slab_is_not_square(name, share):
    """Of layouts that spend no joint on squarer panels, of which the bound knows nothing."""
    found = layout(SHAPES[name], effort=0.5, weights={"warned": 0.0, "aspect_advised": 0.0})
    assert share * found.joint_length <= found.solution.length_bound <= found.joint_length + 1.0


def test_joints_that_end_a_hair_off_still_part_the_floor():
    """A floor that falls to a drain: valleys and their border part it, though the joints of the engine reach a hair
    beyond what they end on. In the walk of 6 ft around it the aspect then asks for every joint."""
    found = layout(PLANS["floor-that-falls-to-a-drain"])
    assert 0.99 * found.joint_length <= found.solution.length_bound <= found.joint_length


def test_what_sticks_out_beyond_another_joint_is_no_joint_that_ends_in_the_open():
    """Joints across 12 x 6 drawn 0.4 mm beyond or short of the edges and of each other run through even so: one along,
    and four where three would do. The bound is less by what they are drawn out, twice a touch each."""
    off = 0.4 / UNIT
    along = [((-off, 3), (6 + off, 3)), ((6 - off, 3), (12 - off, 3))]
    across = [((x, off), (x, 6 + off)) for x in (2.4, 4.8, 7.2, 9.6)]
    found = least_lengths(plain(12, 6), cuts_in_units(*along, *across))
    least = (12 + 3 * 6) * UNIT
    assert least - 2 * 6 <= found.of_through <= least


def test_joints_that_are_drawn_out_are_told_no_longer_than_they_are():
    """An H of 40 x 36 ft, whose joints end on corners and on one another: none of its layouts is under its bound."""
    for weights in ({}, {"tee": 0.0, "tee_hidden": 0.0}, {"line": 0.0, "tee": 0.0, "square": 8.0}):
        found = layout(PLANS["aitch"], weights=weights)
        assert found.solution.length_bound <= found.joint_length


QUARTER = 762.0
"""A quarter of the span of 10 ft, the unit of the floors of unit squares."""

FLOOR = ((0, 0), (9, 0), (9, 5), (0, 5))
ELL = ((0, 0), (8, 0), (8, 3), (3, 3), (3, 7), (0, 7))
TEE = ((0, 0), (9, 0), (9, 3), (6, 3), (6, 6), (3, 6), (3, 3), (0, 3))
REENTRANT = {FLOOR: (), ELL: ((3, 3),), TEE: ((6, 3), (3, 3))}

CASES = {
    "plain": (FLOOR, {}),
    "wall": (FLOOR, {"walls": ((3, 0), (3, 5))}),
    "wall in the open": (FLOOR, {"walls": ((2, 2), (7, 2))}),
    "column": (FLOOR, {"columns": (3, 2)}),
    "column off the bays": (FLOOR, {"columns": (5, 1)}),
    "given joint": (FLOOR, {"joints": ((0, 2), (9, 2))}),
    "L": (ELL, {}),
    "L with a wall": (ELL, {"walls": ((3, 0), (3, 3))}),
    "T": (TEE, {}),
    "T with a column": (TEE, {"columns": (4, 2)}),
}
SHARE = {"column off the bays": 0.85, "T with a column": 0.9}
"""Share of the length that the bound reaches; all of it elsewhere. What of a joint a column does not ask for may
be left out, but the bound does not see that panels beside it must then be small."""


def floor_of(ring, given_ones):
    """A floor of unit squares with one of a wall, a column and a given joint."""

    def at(*points):
        return tuple((x * QUARTER, y * QUARTER) for x, y in points)

    kinds = {
        "walls": lambda path: Wall(id="W1", path=at(*path), thickness=100.0),
        "columns": lambda spot: Column(id="C1", at=at(spot)[0], size=100.0, boxout=Boxout.NONE),
        "joints": lambda path: GivenJoint(id="G1", path=at(*path)),
    }
    made = {kind: (kinds[kind](what),) for kind, what in given_ones.items()}
    return Slab(outline=Ring(at(*ring)), thickness=FOUR_INCHES, **made)


def told_of(ring, given_ones, pieces):
    """The bound of a division into those unit pieces, in units."""
    pinned = needed(given_ones) if "joints" in given_ones else ()
    cuts = []
    for axis, line, n in sorted(pieces):
        ends = ((line, n), (line, n + 1)) if axis == 0 else ((n, line), (n + 1, line))
        path = tuple((x * QUARTER, y * QUARTER) for x, y in ends)
        reason = Reason.PINNED if (axis, line, n) in pinned else Reason.SPAN
        cuts.append(Cut(path=path, reason=reason))
    whole = saw_passes(cuts)
    return least_lengths(region_of(floor_of(ring, given_ones)), whole).of_any / QUARTER


def needed(given_ones):
    """The unit pieces that a wall or a given joint covers."""
    found = set()
    for kind in {"walls", "joints"} & given_ones.keys():
        (x0, y0), (x1, y1) = given_ones[kind]
        axis = 0 if x0 == x1 else 1
        low, high = sorted((y0, y1) if axis == 0 else (x0, x1))
        found |= {(axis, x0 if axis == 0 else y0, n) for n in range(low, high)}
    return frozenset(found)


def cross(ring, given_ones):
    """The whole lines through a column."""
    (wide, high), cells, found = size_of(ring), divided.cells_of(ring), set()
    if "columns" in given_ones:
        x, y = given_ones["columns"]
        found |= {(0, x, n) for n in range(high) if {(x - 1, n), (x, n)} <= cells}
        found |= {(1, y, n) for n in range(wide) if {(n, y - 1), (n, y)} <= cells}
    return frozenset(found)


def onward(pieces, axis, at, *, crossed):
    """The joint through a place on an axis, both ways: to its ends, or as far as another meets it."""
    line, node = at[axis], at[1 - axis]
    for way in (-1, 1):
        piece = node if way > 0 else node - 1
        while (axis, line, piece) in pieces:
            yield axis, line, piece
            piece += way
            if crossed and met_at(pieces, axis, line, piece if way > 0 else piece + 1):
                break


def met_at(pieces, axis, line, node):
    return {(1 - axis, node, line - 1), (1 - axis, node, line)} & pieces


def duties_of(ring, given_ones, pieces):
    """What a division must keep: joints under walls, through columns, from corners, as far as they are owed."""
    found = set(needed(given_ones))
    for axis in (0, 1):
        if "columns" in given_ones:
            found |= set(onward(pieces, axis, given_ones["columns"], crossed=False))
        for corner in REENTRANT[ring]:
            found |= set(onward(pieces, axis, corner, crossed=True))
    for start, end in (given_ones["walls"],) if "walls" in given_ones else ():
        axis = 0 if start[0] == end[0] else 1
        for at in (start, end):
            if not met_at(pieces, axis, at[axis], at[1 - axis]):
                found |= set(onward(pieces, axis, at, crossed=True))
    return frozenset(found)


@pytest.mark.parametrize("aspect", [1.0, 4 / 3, 1.5])
@pytest.mark.parametrize("name", CASES)
def test_no_division_with_the_same_duties_is_shorter_than_the_bound(name, aspect):
    """Of the shortest within an aspect, against all within its own greatest or the advised one."""
    ring, given_ones = CASES[name]
    length, rectangles = divided.shortest(
        ring, needed(given_ones) | cross(ring, given_ones), aspect
    )
    pieces = divided.pieces_of(ring, rectangles)
    assert length == len(pieces)
    own = max(max((c - a) / (d - b), (d - b) / (c - a)) for a, b, c, d in rectangles)
    least, _ = divided.shortest(ring, duties_of(ring, given_ones, pieces), max(own, ADVISED))
    assert told_of(ring, given_ones, pieces) <= least + 1e-3


@pytest.mark.parametrize("name", CASES)
def test_the_bound_of_a_square_floor_is_near_the_shortest(name):
    ring, given_ones = CASES[name]
    length, rectangles = divided.shortest(ring, needed(given_ones) | cross(ring, given_ones))
    told = told_of(ring, given_ones, divided.pieces_of(ring, rectangles))
    assert told >= SHARE.get(name, 1.0) * length - 1e-3


def joints_every(far, wide, high, *, along=True):
    """Cuts across a hall at equal bays no longer than that, and along it."""
    across, level = math.ceil(wide / far), math.ceil(high / far) if along else 1
    up = [((wide * n / across, 0), (wide * n / across, high)) for n in range(1, across)]
    return [
        Cut(path=feet(*path))
        for path in (
            *up,
            *(((0, high * n / level), (wide, high * n / level)) for n in range(1, level)),
        )
    ]


@pytest.mark.parametrize(
    ("wide", "deep", "length"),
    [
        (40, 30, 3 * 30 + 2 * 40),
        (40.001, 30, 3 * 30 + 2 * 40.001),
        (40.01, 30, 4 * 30 + 2 * 40.01),
        (10, 10, 0),
        (40, 6, 5 * 6),
        (60, 3, 15 * 3),
    ],
)
def test_a_hall_by_hand(wide, deep, length):
    """A joint for each full 10 ft and half a millimetre; in a strip of 6 ft for each 7 1/2 at the advised aspect."""
    found = least_lengths(
        region_of(slab(box(wide, deep))), joints_every(min(10, 1.25 * deep), wide, deep)
    )
    assert found.of_any == pytest.approx(length * MM_PER_FOOT)


def test_boxouts_save_what_joints_need_not_cross():
    """40 x 30 ft, a boxout of 2 ft in the middle: its lines, and bays of 15 ft two each, 20 ft one more."""
    column = Column(id="C1", at=feet((20, 15))[0], boxout=Boxout.SQUARE, size=2 * MM_PER_FOOT)
    region = region_of(slab(box(40, 30), columns=(column,)))
    cuts = [*joints_every(10, 40, 30, along=False)]
    cuts += [Cut(path=feet((0, y), (40, y))) for y in (7.5, 15, 22.5)]
    assert least_lengths(region, cuts).of_any == pytest.approx((3 * 30 + 3 * 40 - 4) * MM_PER_FOOT)


@pytest.mark.parametrize("rise", [0.002, 0.004, 0.02])
def test_a_surveyed_outline_is_never_asked_for_more_than_its_own_chords(rise):
    """An upper edge that rises from 30 ft by a hair: the chords that are longer than 30 ft and three times
    half a millimetre, what a tape reads, need a third joint, the others two."""
    strayed = slab(ring((0, 0), (40, 0), (40, 30 + rise), (0, 30)))
    long = max(0.0, 1.0 - 1.5 / (rise * MM_PER_FOOT)) * 40
    up = [((x, 0), (x, 30 + rise * x / 40)) for x in (8, 16, 24, 32)]
    cuts = [Cut(path=feet(*path)) for path in (*up, *(((0, y), (40, y)) for y in (7.5, 15, 22.5)))]
    told = least_lengths(region_of(strayed), cuts).of_any / MM_PER_FOOT
    assert told == pytest.approx(3 * 30 + 1.5 * rise + 2 * 40 + long, abs=0.1)


OCTAGON = [math.radians(angle) for angle in range(7, 367, 45)]

FOUND = {
    **{
        name: SHAPES[name] for name in ("tapered drive", "bay window", "ring walk", "diagonal wall")
    },
    "house": HOUSE,
    "L": slab(EL),
    "walled": slab(EL, walls=(wall("W1", (0, 18), (22, 18)),)),
    "strip": slab(box(47, 4)),
    "octagon": points_slab(*((32 * math.cos(a), 32 * math.sin(a)) for a in OCTAGON)),
}
"""Slabs of each kind: slanted, turned in part, round, walled."""


@pytest.mark.parametrize("name", FOUND)
def test_never_above_the_length_found_and_no_less_than_a_fifth(name):
    found = layout(FOUND[name], effort=0.5)
    assert found.joint_length / 5 < found.solution.length_bound <= found.joint_length + 1.0


@given(some=turned_slabs(most_boxes=1))
@settings(max_examples=6)
def test_never_above_the_length_found_on_any_slab(some):
    found = layout(some, effort=0.5)
    assert found.solution.length_bound <= found.joint_length + 1.0


def test_along_rays_and_rings_it_is_that_of_the_strip():
    found = layout(SHAPES["ring walk"])
    assert 0.8 * found.joint_length < found.solution.length_bound <= found.joint_length
