"""Points that a candidate line should pass through: corners, targets, ends of joints and walls."""

import itertools
import math
from collections.abc import Iterator
from dataclasses import dataclass, replace

import numpy as np
import shapely
from shapely import LinearRing, Polygon

from kerfline.engine.arrays import Numbers
from kerfline.engine.lines.charts import Chart, SquareChart, bounds_in
from kerfline.engine.lines.divisions import ROW
from kerfline.engine.measure.shape import hull_of
from kerfline.engine.problem import Problem
from kerfline.engine.regions.region import NEAR_AXIS
from kerfline.geometry.corners import Corner, direction, reentrant_corners
from kerfline.geometry.faces import lines_of, polygons_of
from kerfline.geometry.ring import Point
from kerfline.geometry.tolerance import CORNER_TURN
from kerfline.model.layout import Reason

TILT = math.tan(math.radians(2.5))
"""A joint between two corners may run this far off its axis (rise over run): survey noise."""

BESIDE = 30.0
"""A joint that goes round a keep-out stays this far (mm) from it."""

LANDING = 3000.0
"""Weight of the end of a neighbour's joint among the marks; a corner weighs its depth in mm."""

ASKED = 1e6
"""Weight of the ends of a settled joint: more than any corner's, so that joints run on in line with it."""

BESIDE_WEIGHT = 300.0
"""Weight of a place beside a barred area: less than a landing, as the joint may as well pass farther off."""

BROAD = 1e4
"""Smaller barred areas (mm2) are forbidden lines, which joints run beside anyway."""


@dataclass(frozen=True, slots=True)
class Mark:
    """A point that a candidate line should pass through, in the chart's coordinates.

    Attributes:
        at: The point.
        weight: What it is worth.
        reason: Why.
        ends: Far ends of the edges at a corner that all but run along the line: it follows them, or it
            would leave slivers between itself and the edge.
        room: Features no closer than this (mm) get lines of their own beside it, as the joint here may
            yield to them; None where none lies near.
    """

    at: Point
    weight: float
    reason: Reason
    ends: tuple[Point, ...] = ()
    room: float | None = None


def marks(problem: Problem, chart: Chart, axis: int, jog: float) -> list[Mark]:
    """Re-entrant corners, targets, walls along the other axis and the neighbour's joint ends.

    Args:
        problem: The piece.
        chart: The chart.
        axis: Number of the axis on which the lines through the marks are all but constant.
        jog: A re-entrant corner less deep than this (mm) gets no line of its own.
    """
    hull = hull_of(problem.concrete).exterior
    out = []
    for corner in reentrant_corners(problem.concrete):
        depth = _jog(corner.at, hull, problem.concrete)
        if depth > jog:
            ends = tuple(_edge_ends(problem.concrete, chart, axis, corner))
            out.append(Mark(_place(chart, corner.at), depth, Reason.CORNER, ends))
    points = [(t.at, max(t.weight, 1000.0), t.reason) for t in problem.targets]
    points += [(p, LANDING, Reason.SPAN) for p in problem.landings]
    out += [Mark(_place(chart, at), weight, reason) for at, weight, reason in points]
    out += _beside_barred(problem, chart)
    for line in problem.lines:
        for part in lines_of(line.path.intersection(problem.concrete)):
            places = chart.measure(shapely.get_coordinates(part))
            out += [*_line_marks(places, axis, line.reason), *_knee_marks(places)]
    for wall in problem.walls:
        places = chart.measure(shapely.get_coordinates(wall.path))
        found = _line_marks(places, axis, Reason.WALL)
        out += [replace(found[0], ends=(found[1].at,), room=wall.slack)] if found else []
    return out


def _edge_ends(piece: Polygon, chart: Chart, axis: int, corner: Corner) -> Iterator[Point]:
    """Far ends of the edges of a corner beside which a straight line would run on in the concrete."""
    if not isinstance(chart, SquareChart):
        return
    at = _place(chart, corner.at)
    for way in (corner.before, corner.after):
        far = _place(chart, _far_end(piece, corner.at, way))
        run, drift = abs(far[1 - axis] - at[1 - axis]), abs(far[axis] - at[axis])
        if not 1.0 < drift <= NEAR_AXIS * run:
            continue
        middle = (at[1 - axis] + far[1 - axis]) / 2
        beside = (at[axis], middle) if axis == 0 else (middle, at[axis])
        spot = chart.curve([at, beside]).coords[-1]
        if piece.contains(shapely.Point(spot)):
            yield far


def _far_end(piece: Polygon, at: Point, way: Point) -> Point:
    """The other end of the edge that leaves a corner in a direction."""
    ring = min(
        (piece.exterior, *piece.interiors), key=lambda r: float(r.distance(shapely.Point(at)))
    )
    points = shapely.get_coordinates(ring)[:-1]
    index = int(np.argmin(np.hypot(*(points - at).T)))
    ends = [points[index - 1], points[(index + 1) % len(points)]]
    first, second = ((float(x), float(y)) for x, y in ends)
    return first if _lead(at, way, first) >= _lead(at, way, second) else second


def _lead(at: Point, way: Point, end: Point) -> float:
    """The cosine between a direction and that of an end as seen from a point, to nine digits."""
    onward = direction(at, end)
    return round(way[0] * onward[0] + way[1] * onward[1], 9)


def _beside_barred(problem: Problem, chart: Chart) -> list[Mark]:
    """Places just beside areas where no joint may go."""
    out = []
    for area in polygons_of(problem.barred):
        if area.area < BROAD:
            continue
        low_u, low_v, high_u, high_v = bounds_in(chart, area)
        for u, v in ((low_u - BESIDE, low_v - BESIDE), (high_u + BESIDE, high_v + BESIDE)):
            out.append(Mark((u, v), BESIDE_WEIGHT, Reason.SPAN))
    return out


def _line_marks(points: Numbers, axis: int, reason: Reason) -> list[Mark]:
    """The ends of the stretches of a settled joint that run along an axis."""
    out = []
    for start, end in itertools.pairwise(points):
        run, drift = abs(end[1 - axis] - start[1 - axis]), abs(end[axis] - start[axis])
        if run > ROW and drift <= 2 * TILT * run:
            out += [Mark((float(p[0]), float(p[1])), ASKED, reason) for p in (start, end)]
    return out


def _knee_marks(points: Numbers) -> list[Mark]:
    """Places where a settled joint turns: a joint that meets it there leaves no hooked panel."""
    steps = np.diff(points, axis=0)
    turns = np.abs(np.diff(np.degrees(np.arctan2(steps[:, 1], steps[:, 0]))))
    bends = np.minimum(turns, 360.0 - turns) > CORNER_TURN
    return [
        Mark((float(u), float(v)), LANDING, Reason.SPAN)
        for (u, v), bend in zip(points[1:-1], bends, strict=True)
        if bend
    ]


def _place(chart: Chart, at: Point) -> Point:
    u, v = chart.measure(np.asarray([at], dtype=float))[0]
    return float(u), float(v)


def _jog(at: Point, hull: LinearRing, shape: Polygon) -> float:
    for hole in shape.interiors:
        if hole.distance(shapely.Point(at)) < 1.0:
            return math.sqrt(Polygon(hole).area)
    return float(hull.distance(shapely.Point(at)))
