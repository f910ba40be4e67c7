"""Charts: two families of lines that a region may be jointed along.

A chart gives every point two coordinates in mm. In the square chart they are x and y; in the round
chart they are the way around (measured on the outer arc, where the spacing rule bites) and the
distance from the centre. Joints run along lines on which one coordinate is all but constant.
"""

import itertools
import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Protocol

import numpy as np
import shapely
from shapely import LineString

from kerfline.engine.arrays import Numbers
from kerfline.geometry.ring import Point, chord_count

AROUND = 0
"""Axis of the first coordinate."""

OUTWARD = 1
"""Axis of the second coordinate."""

ON_SEAM = 1e-7
"""Places this little (radians) before the seam lie on it: a thousandth of a millimetre at ten metres."""

AREA = 2
"""Dimensions of a shape that may lie around the centre."""


class Chart(Protocol):
    """Two coordinates for every point of a region."""

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
        for (around, out), (next_around, next_out) in itertools.pairwise(stations):
            sweep = math.degrees(abs(next_around - around) / self.radius)
            steps = chord_count(max(out, next_out), sweep) if sweep else 1
            points.extend(
                self._place(
                    around + (next_around - around) * i / steps, out + (next_out - out) * i / steps
                )
                for i in range(1, steps + 1)
            )
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
    places = chart.measure(shapely.get_coordinates(shape))
    if near is not None and isinstance(chart, RoundChart):
        places[:, 0] -= chart.round * np.round((places[:, 0] - near) / chart.round)
    low, high = places.min(axis=0), places.max(axis=0)
    if isinstance(chart, RoundChart) and shapely.get_dimensions(shape) == AREA:
        low[OUTWARD] = shapely.distance(shape, shapely.Point(chart.centre))
    return float(low[0]), float(low[1]), float(high[0]), float(high[1])
