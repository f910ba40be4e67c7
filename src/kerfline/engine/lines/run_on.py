"""Runs a settled line on to the next edge or joint: straight, or along an axis where that comes in too flat."""

import math
from collections.abc import Iterator, Sequence
from dataclasses import replace

import numpy as np
import shapely
from shapely import LineString, Polygon

from kerfline.engine.lines.bends import arrival
from kerfline.engine.regions.region import Region, parts_in
from kerfline.geometry.corners import ahead, direction
from kerfline.geometry.faces import rings_of
from kerfline.geometry.ring import Point
from kerfline.geometry.tolerance import DEGREES, SAME, TOUCH
from kerfline.model.slab import Wall

AXES = ((1.0, 0.0), (0.0, 1.0), (-1.0, 0.0), (0.0, -1.0))
"""The directions along the axes of a frame."""

ONWARD = 0.1
"""An axis leads on from a line's end where the cosine of the turn into it is at least this."""


ABUTS = 25.4
"""A wall that ends this close (mm, an inch) to the face of another abuts it."""


def run_on(
    concrete: Polygon, path: Sequence[Point], others: Sequence[LineString]
) -> tuple[Point, ...]:
    """A line whose ends are run straight on to the next edge or other line."""
    stops = [concrete.boundary, *others]
    head = onward(concrete, path[1], path[0], stops)
    foot = onward(concrete, path[-2], path[-1], stops)
    return tuple(_tidied([head, *path[1:-1], foot]))


def onward(
    concrete: Polygon,
    inner: Point,
    end: Point,
    stops: Sequence[shapely.Geometry],
    near: float = SAME,
) -> Point:
    """Where a line that ends in the open next meets something, straight on; its end where it does not end there.

    Args:
        concrete: Where it lies.
        inner: A point before its end.
        end: Its end.
        stops: What it may end on.
        near: How near to one of those it may end already, mm.
    """
    spot = shapely.Point(end)
    if inner == end or not concrete.contains(spot) or shapely.distance(stops, spot).min() <= near:
        return end
    return hit(concrete, end, direction(inner, end), stops) or end


def _tidied(points: Sequence[Point]) -> list[Point]:
    """Points of a line without repeats."""
    out = [points[0]]
    for point in points[1:]:
        if max(abs(point[0] - out[-1][0]), abs(point[1] - out[-1][1])) > SAME:
            out.append(point)
    return out


def wall_paths(
    region: Region, wall: Wall, others: Sequence[LineString], barred: shapely.Geometry
) -> list[tuple[Point, ...]]:
    """The joints that serve a wall: under it, and from its ends to the next edges or joints.

    A joint that leaves a wall's open end runs straight on; where it would come in too flat it turns along
    an axis of the frame; where neither can be sawn, a joint square to the wall meets it there.

    Args:
        region: The region.
        wall: The wall.
        others: Joints that are settled already.
        barred: Where no joint may lie.

    Returns:
        The paths; none where the joint would cross a barred area.
    """
    paths: list[tuple[Point, ...]] = []
    for part in parts_in(region.concrete, wall.path):
        if LineString(part).intersection(barred).length > TOUCH:
            return []
        own = [*others, *(LineString(p) for p in paths)]
        head = _tail(region, part[1], part[0], own, barred)
        foot = _tail(region, part[-2], part[-1], own, barred)
        if head is None or foot is None:
            return []
        paths.append(tuple(_tidied([*reversed(head[0]), *part, *foot[0]])))
        paths += [cross for cross in (head[1], foot[1]) if cross]
    return paths


Tail = tuple[list[Point], tuple[Point, ...]]
"""Points beyond an end, and the joint across it; either may be missing."""


def _tail(
    region: Region,
    inner: Point,
    end: Point,
    others: Sequence[LineString],
    barred: shapely.Geometry,
) -> Tail | None:
    """How a joint goes on beyond a wall's end; None where it cannot."""
    stops = [*rings_of(region.concrete), *others]
    if shapely.distance(np.asarray(stops, dtype=object), shapely.Point(end)).min() <= SAME:
        return [], ()
    ways = list(_ways_on(direction(inner, end)))
    tips = [hit(region.concrete, end, way, stops) for way in ways]
    open_ = [
        tip for tip in tips if tip and LineString([end, tip]).intersection(barred).length <= TOUCH
    ]
    least = region.working.angle - DEGREES
    square = [tip for tip in open_ if (arrival(stops, end, tip) or 0.0) >= least]
    if open_:
        return [(square or open_)[0]], ()
    cross = _across(region, end, ways[0], stops)
    if LineString(cross).intersection(barred).length > TOUCH:
        return None
    return [], cross


def _ways_on(way: Point) -> Iterator[Point]:
    """Straight on, then along the axes that lead on, the least turn first."""
    yield way
    turned = [(way[0] * x + way[1] * y, (x, y)) for x, y in AXES]
    for cosine, axis in sorted(turned, reverse=True):
        if ONWARD < cosine < 1.0 - SAME / 1e3:
            yield axis


def _across(
    region: Region, end: Point, way: Point, stops: Sequence[shapely.Geometry]
) -> tuple[Point, ...]:
    """A joint through an end along the axis that lies most across it, from stop to stop."""
    axis = AXES[1] if abs(way[0]) >= abs(way[1]) else AXES[0]
    sides = ((-axis[0], -axis[1]), axis)
    ends = (hit(region.concrete, end, side, stops) for side in sides)
    return tuple(at for at in ends if at)


def hit(
    concrete: Polygon, end: Point, way: Point, stops: Sequence[shapely.Geometry]
) -> Point | None:
    """Where a ray from a point first meets an edge or a joint."""
    x0, y0, x1, y1 = concrete.bounds
    size = 2 * (x1 - x0 + y1 - y0)
    ray = LineString([end, ahead(end, way, size)])
    met = shapely.intersection(ray, np.asarray(stops, dtype=object))
    hits = [(float(x), float(y)) for x, y in shapely.get_coordinates(met)]
    if not hits:
        return None
    return min(hits, key=lambda p: (round(math.dist(p, end), 6), p))


def onto_lines(wall: Wall, others: Sequence[Wall]) -> Wall:
    """A wall whose ends that abut the faces of others are drawn on to their centre lines."""
    first, second, *_ = wall.path
    *_, before, last = wall.path
    half = wall.thickness / 2
    head, foot = _onto_line(second, first, half, others), _onto_line(before, last, half, others)
    return replace(wall, path=(head, *wall.path[1:-1], foot))


def _onto_line(inner: Point, end: Point, half: float, others: Sequence[Wall]) -> Point:
    way, spot = direction(inner, end), shapely.Point(end)
    hits = []
    for other in others:
        if SAME < other.line.distance(spot) <= other.thickness / 2 + half + ABUTS:
            reach = 2 * (other.thickness + half + ABUTS)
            ray = LineString([end, ahead(end, way, reach)])
            hits += shapely.get_coordinates(ray.intersection(other.line)).tolist()
    x, y = min(hits, key=lambda p: (round(math.dist(p, end), 6), p), default=end)
    return (float(x), float(y))


def onto_ends(path: tuple[Point, ...], walls: Sequence[Wall]) -> tuple[Point, ...]:
    """A joint whose ends lie on the ends of walls that they all but meet."""
    return (_onto_end(path[0], walls), *path[1:-1], _onto_end(path[-1], walls))


def _onto_end(at: Point, walls: Sequence[Wall]) -> Point:
    near = [
        end
        for wall in walls
        for end in (wall.path[0], wall.path[-1])
        if TOUCH < math.dist(at, end) <= wall.thickness / 2
    ]
    return min(near, key=lambda end: (round(math.dist(at, end), 6), end), default=at)
