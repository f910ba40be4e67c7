"""Charts: two families of lines that a region may be jointed along.

A chart gives every point two coordinates in mm. In the square chart they are x and y; in the round
chart they are the way around (measured on the outer arc, where the spacing rule bites) and the
distance from the centre. Joints run along lines on which one coordinate is all but constant.
Those worth a try on a piece come the likeliest first; the arcs in its boundary call for round ones.
"""

import itertools
import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Protocol

import numpy as np
import shapely
from shapely import LineString, Polygon

from kerfline.engine.problem import Problem
from kerfline.engine.regions.arcs import FULL_TURN, FoundArc, arcs_of, share_centre
from kerfline.engine.regions.directions import (
    DIGITS,
    QUARTER,
    main_directions,
    misfit,
    segments,
)
from kerfline.engine.symmetry import is_mirrored
from kerfline.geometry.arrays import Numbers
from kerfline.geometry.faces import lines_of
from kerfline.geometry.ring import Point, chord_count

AROUND = 0
"""Axis of the first coordinate."""

OUTWARD = 1
"""Axis of the second coordinate."""

ON_SEAM = 1e-7
"""Places this little (radians) before the seam lie on it: a thousandth of a millimetre at ten metres."""

AREA = 2
"""Dimensions of a shape that may lie around the centre."""

ROUND_SHARE = 0.25
"""Share of the boundary that runs along arcs of one centre, from which on radial joints are tried."""

GAP = 2.0
"""An angle (degrees) without concrete at least this wide is a gap in a ring."""

ANOTHER = 0.18
"""Share of the boundary along another direction from which on that direction is tried."""

TAPER = (3.0, 40.0)
"""Angle (degrees) between two long edges whose bisector is tried as an axis."""

LONG = 0.5
"""A long edge is at least this share of the longest."""

MOST = 4
"""Charts tried on one piece."""

MOST_LARGE = 2
"""Charts tried on a piece of many panels."""

LARGE = 12.0
"""Area, in squares of the span, from which on a piece is large."""

APART = 1.0
"""Charts turned by less than this (degrees) are one."""


class Chart(Protocol):
    """Two coordinates for every point of a region."""

    def __hash__(self) -> int:
        """What is found along a chart is kept by it."""
        ...

    def measure(self, points: Numbers) -> Numbers:
        """The chart's coordinates of points (n x 2, mm)."""
        ...

    def curve(self, stations: Sequence[Point]) -> LineString:
        """The line through points given in the chart's coordinates."""
        ...


@dataclass(frozen=True, slots=True)
class SquareChart:
    """The axes of the region's own frame, turned by an angle.

    Attributes:
        turn: Angle of the first axis in degrees, anticlockwise from the frame's x.
    """

    turn: float = 0.0

    def measure(self, points: Numbers) -> Numbers:
        """Points turned back by the chart's angle."""
        return _turned(points, -self.turn)

    def curve(self, stations: Sequence[Point]) -> LineString:
        """A straight or bent line through the stations."""
        return LineString(_turned(np.asarray(stations, dtype=float), self.turn))


@dataclass(frozen=True, slots=True)
class RoundChart:
    """Rays from a centre and arcs around it.

    Attributes:
        centre: Where the rays start, mm.
        radius: Radius on which the way around is measured: that of the outer arc.
        seam: Direction in degrees from which the way around is counted; no panel reaches across it.
    """

    centre: Point
    radius: float
    seam: float

    def measure(self, points: Numbers) -> Numbers:
        """The way around on the outer arc, and the distance from the centre."""
        offsets = points - np.asarray(self.centre)
        angles = np.arctan2(offsets[:, 1], offsets[:, 0]) - math.radians(self.seam)
        around = np.mod(angles + ON_SEAM, 2 * math.pi) - ON_SEAM
        return np.column_stack([around * self.radius, np.hypot(offsets[:, 0], offsets[:, 1])])

    def curve(self, stations: Sequence[Point]) -> LineString:
        """Rays where the way around stands still, flattened arcs where it goes on.

        Nothing runs on across the seam.
        """
        stations = [(min(max(around, 0.0), self.round), out) for around, out in stations]
        points: list[Point] = [self._place(*stations[0])]
        (x, y), start = self.centre, math.radians(self.seam)
        for (around, out), (next_around, next_out) in itertools.pairwise(stations):
            sweep = math.degrees(abs(next_around - around) / self.radius)
            steps = chord_count(max(out, next_out), sweep) if sweep else 1
            for i in range(1, steps + 1):  # as ``_place``, without a call for each of thousands
                angle = start + (around + (next_around - around) * i / steps) / self.radius
                far = max(out + (next_out - out) * i / steps, 0.0)
                points.append((x + far * math.cos(angle), y + far * math.sin(angle)))
        return LineString(points)

    @property
    def round(self) -> float:
        """The whole way around."""
        return 2 * math.pi * self.radius

    def _place(self, around: float, out: float) -> Point:
        out = max(out, 0.0)
        angle = math.radians(self.seam) + around / self.radius
        return (
            self.centre[0] + out * math.cos(angle),
            self.centre[1] + out * math.sin(angle),
        )


def _turned(points: Numbers, degrees: float) -> Numbers:
    cos, sin = math.cos(math.radians(degrees)), math.sin(math.radians(degrees))
    return np.column_stack(
        [points[:, 0] * cos - points[:, 1] * sin, points[:, 0] * sin + points[:, 1] * cos]
    )


def bounds_in(
    chart: Chart, shape: shapely.Geometry, near: float | None = None
) -> tuple[float, float, float, float]:
    """Least and greatest coordinates of a shape in a chart, read at its vertices.

    The middle of a round shape has none: its distance from the centre is measured.

    Args:
        chart: The chart.
        shape: The shape.
        near: First coordinate of a point of the shape: vertices on the seam of a round chart are
            counted from the side on which it lies.
    """
    return boxes_in(chart, [shape], None if near is None else np.asarray([near]))[0]


def boxes_in(
    chart: Chart, shapes: Sequence[shapely.Geometry], near: Numbers | None = None
) -> list[tuple[float, float, float, float]]:
    """The same of many shapes."""
    points, shape = shapely.get_coordinates(shapes, return_index=True)
    places = chart.measure(points)
    if near is not None and isinstance(chart, RoundChart):
        beside = near[shape]
        places[:, 0] -= chart.round * np.round((places[:, 0] - beside) / chart.round)
    first = np.flatnonzero(np.diff(shape, prepend=-1))
    low, high = np.minimum.reduceat(places, first), np.maximum.reduceat(places, first)
    if isinstance(chart, RoundChart):
        areas = shapely.get_dimensions(shapes) == AREA
        away = shapely.distance(shapes, shapely.Point(chart.centre))
        low[:, OUTWARD] = np.where(areas, away, low[:, OUTWARD])
    return [(u0, v0, u1, v1) for u0, v0, u1, v1 in np.hstack([low, high]).tolist()]


def round_charts(piece: Polygon) -> list[RoundChart]:
    """The round chart of the boundary's main centre; none where little of it is round."""
    arcs = arcs_of(piece)
    if not arcs:
        return []
    main = max(arcs, key=lambda a: (round(_shared(a, arcs)), round(a.radius), a.centre))
    if _shared(main, arcs) < ROUND_SHARE * piece.exterior.length:
        return []
    radius = max(a.radius for a in arcs if share_centre(a, main))
    return [RoundChart(main.centre, radius, _seam(piece, main.centre, radius))]


def seam_of(piece: Polygon, chart: RoundChart) -> list[LineString]:
    """The ray from which a round chart counts, where it runs through the piece: a joint."""
    ray = chart.curve([(0.0, 0.0), (0.0, 2 * chart.radius + 1.0)])
    return [part for part in lines_of(ray.intersection(piece)) if part.length > 1.0]


def _shared(arc: FoundArc, arcs: Sequence[FoundArc]) -> float:
    return sum(a.length for a in arcs if share_centre(a, arc))


def _seam(piece: Polygon, centre: Point, radius: float) -> float:
    """The middle of the widest gap around the centre; the ray through a corner where there is none."""
    places = shapely.get_coordinates(piece.exterior)
    angles = np.degrees(np.arctan2(places[:, 1] - centre[1], places[:, 0] - centre[0]))
    ordered = np.unique(np.round(angles, 6) % FULL_TURN)
    gaps = np.diff(np.append(ordered, ordered[0] + FULL_TURN))
    for index in np.argsort(-np.round(gaps, 3), kind="stable"):
        middle = float(ordered[index] + gaps[index] / 2) % FULL_TURN
        if gaps[index] < GAP:
            break
        ray = RoundChart(centre, radius, middle).curve([(0.0, 0.0), (0.0, 2 * radius)])
        if not ray.intersection(piece).length:
            return middle
    return float(ordered[0])


def likely_charts(problem: Problem) -> list[Chart]:
    """Square charts along the main directions and bisectors, and the round chart of its arcs.

    On a symmetric piece only those remain in which a layout can be symmetric.
    """
    directions = main_directions(
        problem.concrete, [line.path for line in (*problem.lines, *problem.walls)]
    )
    turns = [0.0, *_tapers(problem), *(d.angle for d in directions if d.share >= ANOTHER)]
    kept: list[float] = []
    for turn in turns:
        if all(misfit(turn, other) >= APART for other in kept):
            kept.append(turn)
    if is_mirrored(problem.concrete, 0.0):
        kept = [turn for turn in kept if is_mirrored(problem.concrete, turn)]
    large = problem.concrete.area > LARGE * problem.limits.span**2
    squares: list[Chart] = [SquareChart(_small(turn)) for turn in kept]
    return [squares[0], *round_charts(problem.concrete), *squares[1:]][
        : MOST_LARGE if large else MOST
    ]


def _small(turn: float) -> float:
    """The same axes, turned by no more than 45 degrees."""
    return turn - QUARTER if turn > QUARTER / 2 else turn


def _tapers(problem: Problem) -> list[float]:
    """Bisectors of long edges that all but face each other."""
    angles, lengths = segments([problem.concrete.exterior])
    if not lengths.size:
        return []
    long = lengths >= LONG * lengths.max()
    whole = np.unique(np.round(angles[long], 3))
    out = []
    for i, first in enumerate(whole):
        for second in whole[i + 1 :]:
            gap = misfit(float(first), float(second))
            if TAPER[0] <= gap <= TAPER[1]:
                mean = np.angle(
                    np.exp(4j * math.radians(first)) + np.exp(4j * math.radians(second))
                )
                out.append(round(math.degrees(float(mean)) / 4, DIGITS) % QUARTER)
    return out
