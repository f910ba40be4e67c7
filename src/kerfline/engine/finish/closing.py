"""Brings the ends of joints onto what they end on, and the panels that then lie between them."""

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
