"""The panels between joints, with ends closed that are a hair short."""

from collections.abc import Sequence

from shapely import LineString, Polygon

from kerfline.geometry.corners import direction
from kerfline.geometry.faces import Area, faces
from kerfline.geometry.ring import Point
from kerfline.geometry.tolerance import SAME, TOUCH


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
