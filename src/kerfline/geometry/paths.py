"""Open and closed curves of straight and arc segments, as they are drawn before anyone knows what they are."""

import math
from collections.abc import Iterator
from dataclasses import dataclass
from functools import cached_property

from shapely import LineString

from kerfline.geometry.ring import Point, Ring, flatten_arc
from kerfline.geometry.tolerance import SAME

LEAST_RING = 3
"""Points of the simplest ring of straight segments."""


@dataclass(frozen=True, slots=True)
class Segment:
    """One straight or arc segment; the bulge as in ``Ring``."""

    start: Point
    end: Point
    bulge: float = 0.0


@dataclass(frozen=True)
class Path:
    """A curve from its first point to its last, or around and back.

    Attributes:
        points: Points in mm, in order; the first is not repeated where the path is closed.
        bulges: Bulge of the segment that leaves each point, as in ``Ring``; empty means all straight.
        closed: Whether a segment leads from the last point back to the first.
    """

    points: tuple[Point, ...]
    bulges: tuple[float, ...] = ()
    closed: bool = False

    @property
    def start(self) -> Point:
        """The first point."""
        return self.points[0]

    @property
    def end(self) -> Point:
        """The last point; of a closed path the first."""
        return self.points[0] if self.closed else self.points[-1]

    @property
    def has_arcs(self) -> bool:
        """Whether any segment is an arc."""
        return any(self.bulges)

    def bulge(self, index: int) -> float:
        """The bulge of the segment that leaves point ``index``."""
        return self.bulges[index] if self.bulges else 0.0

    def segments(self) -> Iterator[Segment]:
        """The segments in order."""
        count = len(self.points)
        for i in range(count if self.closed else count - 1):
            yield Segment(self.points[i], self.points[(i + 1) % count], self.bulge(i))

    @cached_property
    def coordinates(self) -> tuple[Point, ...]:
        """The path flattened to chords; of a closed path the first point again at the end."""
        out: list[Point] = [self.points[0]]
        for segment in self.segments():
            if segment.bulge and segment.start != segment.end:
                out.extend(flatten_arc(segment.start, segment.end, segment.bulge)[1:])
            else:
                out.append(segment.end)
        return tuple(out)

    @cached_property
    def line(self) -> LineString:
        """The flattened path as a line; of no length where it has a single point."""
        coordinates = self.coordinates
        return LineString(coordinates if len(coordinates) > 1 else coordinates * 2)

    @property
    def length(self) -> float:
        """Length in mm, arcs measured as flattened."""
        return float(self.line.length)

    def reversed(self) -> "Path":
        """The same curve run the other way."""
        points = self.points[::-1]
        if not self.bulges:
            return Path(points, (), self.closed)
        count = len(self.points) - (0 if self.closed else 1)
        turned = tuple(-b for b in self.bulges[:count][::-1])
        # The closing segment stays the last one: it leaves the old first point.
        bulges = turned[1:] + turned[:1] if self.closed else (*turned, 0.0)
        return Path(points, bulges, self.closed)

    def ring(self) -> Ring:
        """The closed path as a ring."""
        return self._ring

    @cached_property
    def _ring(self) -> Ring:
        return Ring(self.points, self.bulges if self.has_arcs else ())

    @property
    def reach(self) -> tuple[float, float, float, float]:
        """Extents (mm) that hold the path, of one with arcs somewhat more than its own."""
        xs, ys = zip(*self.points, strict=True)
        x0, y0, x1, y1 = min(xs), min(ys), max(xs), max(ys)
        if not self.bulges:
            return (x0, y0, x1, y1)
        # An arc rises above its chord by half the chord times its bulge, and a full one is wider than it.
        most = max(map(abs, self.bulges))
        out = max(most, 1.0) * math.hypot(x1 - x0, y1 - y0)
        return (x0 - out, y0 - out, x1 + out, y1 + out)


def tidy(path: Path, tolerance: float = SAME) -> Path | None:
    """A path without repeated points, closed where its ends coincide.

    Args:
        path: The path.
        tolerance: Points closer than this (mm) to the one before are left out.

    Returns:
        The path, or None where nothing of any length is left. Two points with hardly a bulge between them are
        a line, not a ring.
    """
    points: list[Point] = []
    bulges: list[float] = []
    for i, point in enumerate(path.points):
        if points and math.dist(points[-1], point) <= tolerance:
            bulges[-1] = path.bulge(i) if i < len(path.bulges) else 0.0
            continue
        points.append(point)
        bulges.append(path.bulge(i) if i < len(path.bulges) else 0.0)
    closed = path.closed
    if len(points) > LEAST_RING - 1 and math.dist(points[0], points[-1]) <= tolerance:
        points.pop()
        bulges.pop()
        closed = True
    least = 2 if not closed or any(bulges) else LEAST_RING
    if len(points) < least:
        return None
    if closed and len(points) < LEAST_RING:
        closed = len(Ring(tuple(points), tuple(bulges)).coordinates) >= LEAST_RING
    if not closed:
        bulges[-1] = 0.0
    return Path(tuple(points), tuple(bulges) if any(bulges) else (), closed)
