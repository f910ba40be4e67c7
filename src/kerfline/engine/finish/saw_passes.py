"""Joins cuts in one line into saw passes, brings their ends onto what they end on, and finds the panels between."""

import math
from collections.abc import Sequence
from dataclasses import replace

import shapely
from shapely import LineString, Polygon

from kerfline.engine.regions.region import Cut
from kerfline.geometry.corners import direction
from kerfline.geometry.faces import Area, faces, rings_of
from kerfline.geometry.ring import Point
from kerfline.geometry.tolerance import SAME, TOUCH
from kerfline.model.layout import Reason

STRAIGHT = 2
"""Points of a straight cut."""

IN_LINE = 1e-3
"""Sine of the angle under which two cuts that meet are one pass."""

STRENGTH = tuple(Reason)
"""Reasons from the strongest: a pass takes the strongest of its cuts' reasons."""


def saw_passes(cuts: Sequence[Cut]) -> list[Cut]:
    """The cuts with those joined that meet end to end in one line and are of one kind."""
    long = [c for c in cuts if LineString(c.path).length > TOUCH]
    out = [c for c in long if len(c.path) != STRAIGHT]
    for row in _rows([c for c in long if len(c.path) == STRAIGHT]):
        passes: list[Cut] = []
        for cut in sorted(row, key=lambda c: c.path):
            passes = _joined(passes, cut)
        out.extend(passes)
    return out


def _rows(cuts: Sequence[Cut]) -> list[list[Cut]]:
    """Cuts along the axes in rows of one line each; all others in one row."""
    slanted: list[Cut] = []
    along: tuple[list[Cut], list[Cut]] = ([], [])
    for cut in cuts:
        flat = [abs(cut.path[0][axis] - cut.path[1][axis]) <= TOUCH for axis in (0, 1)]
        (along[flat.index(True)] if any(flat) else slanted).append(cut)
    rows = [slanted]
    for axis in (0, 1):
        last = -math.inf
        for cut in sorted(along[axis], key=lambda c: c.path[0][axis]):
            if cut.path[0][axis] - last > TOUCH:
                rows.append([])
            rows[-1].append(cut)
            last = cut.path[0][axis]
    return rows


def _joined(passes: list[Cut], cut: Cut) -> list[Cut]:
    """The passes with one more cut, which may join two of them."""
    rest = []
    for other in passes:
        path = _common(other, cut)
        if path is None:
            rest.append(other)
        else:
            strong = min((other, cut), key=lambda c: STRENGTH.index(c.reason))
            cut = replace(strong, path=path, kind=cut.kind, depth=cut.depth)
    return [*rest, cut]


def _common(one: Cut, other: Cut) -> tuple[Point, Point] | None:
    """The path of two straight cuts that meet or overlap in one line; None where they do not."""
    if len(one.path) != STRAIGHT or (one.kind, one.depth) != (other.kind, other.depth):
        return None
    ends = [*one.path, *other.path]
    a, b = direction(*one.path), direction(*other.path)
    if abs(a[0] * b[1] - a[1] * b[0]) > IN_LINE:
        return None
    start = one.path[0]
    off = [abs((p[0] - start[0]) * a[1] - (p[1] - start[1]) * a[0]) for p in other.path]
    if max(off) > TOUCH:
        return None
    along = sorted((p[0] - start[0]) * a[0] + (p[1] - start[1]) * a[1] for p in one.path)
    others = sorted((p[0] - start[0]) * a[0] + (p[1] - start[1]) * a[1] for p in other.path)
    if others[0] > along[1] + TOUCH or others[1] < along[0] - TOUCH:
        return None
    order = sorted(ends, key=lambda p: (p[0] - start[0]) * a[0] + (p[1] - start[1]) * a[1])
    return order[0], order[-1]


REACH = 2 * TOUCH
"""How far (mm) from a line an end may lie and still be meant to end on it."""


def closed(cuts: Sequence[Cut], concrete: Area) -> list[Cut]:
    """The cuts with each end brought onto the edge or the joint that it all but meets.

    Ends drift by fractions of a millimetre when frames are turned back and when cuts in one line
    become one pass; a gap of that size would leave two panels unparted.
    """
    lines = [LineString(c.path) for c in cuts]
    shapes: list[LineString] = [*lines, *(LineString(r.coords) for r in rings_of(concrete))]
    tree = shapely.STRtree(shapes)
    out = []
    for number, cut in enumerate(cuts):
        path = list(cut.path)
        path[0] = _landed(path[1], path[0], number, shapes, tree)
        path[-1] = _landed(path[-2], path[-1], number, shapes, tree)
        out.append(replace(cut, path=tuple(path)))
    return out


def _landed(
    inner: Point, end: Point, own: int, shapes: Sequence[LineString], tree: shapely.STRtree
) -> Point:
    """An end on the line that crosses its last stretch, else on the nearest one within reach."""
    way = direction(inner, end)
    spot = shapely.Point(end)
    near = sorted(int(i) for i in tree.query(spot.buffer(REACH)) if int(i) != own)
    close = [shapes[i] for i in near if shapes[i].distance(spot) <= REACH]
    if not close:
        return end
    last = LineString([_along(end, way, -REACH), _along(end, way, REACH)])
    hits = [h for line in close for h in shapely.get_coordinates(line.intersection(last)).tolist()]
    if hits:
        x, y = min(hits, key=lambda p: (round(math.dist(p, end), 6), p))
        return (float(x), float(y))
    line = min(close, key=lambda c: round(c.distance(spot), 6))
    foot = line.interpolate(line.project(spot))
    return (float(foot.x), float(foot.y))


def _along(at: Point, way: Point, step: float) -> Point:
    return (at[0] + way[0] * step, at[1] + way[1] * step)


def panels_between(concrete: Area, joints: Sequence[LineString]) -> list[Polygon]:
    """The pieces that joints cut the concrete into, in reading order.

    An end within ``TOUCH`` of what it ends on counts as ending there: every joint is drawn out by that
    much, and what sticks out beyond the other joint or the edge cuts nothing.
    """
    return faces(concrete, [_drawn_out(j) for j in joints])


def _drawn_out(joint: LineString) -> LineString:
    points = [(float(x), float(y)) for x, y in joint.coords]
    if joint.length <= SAME:
        return joint
    return LineString([_beyond(points[1], points[0]), *points, _beyond(points[-2], points[-1])])


def _beyond(inner: Point, end: Point) -> Point:
    way = direction(inner, end)
    return (end[0] + TOUCH * way[0], end[1] + TOUCH * way[1])
