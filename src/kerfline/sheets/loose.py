"""Which points of the lines the running dimensions do not hold: ends and knees that want a tape of their own."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise

from shapely import LineString

from kerfline.geometry.corners import direction
from kerfline.geometry.ring import Point
from kerfline.sheets.baselines import ON_BASELINE, OUT_OF_SQUARE, Baselines, Way, way_of
from kerfline.sheets.edges import FormEdge

KNEES = 2
"""A line that bends more often than this is a curve, whose points are not taped one by one."""

FACE = 600.0
"""Least length (mm) of edge on a baseline that a tape can be squared off."""

SQUARED = 2440.0
"""How far (mm) a short square line is squared off the face that it starts on: 8 ft."""


@dataclass(frozen=True)
class Faces:
    """Whether the left and the lower baseline are edges of the concrete that a tape can be squared off.

    Attributes:
        left: Whether upright lines are held by their distance from the left one.
        lower: Whether level lines are held by theirs from the lower one.
    """

    left: bool
    lower: bool

    def holds(self, leg: LineString) -> bool:
        """Whether the running dimensions hold a leg of a line, in the baselines' coordinates."""
        way = way_of(leg)
        return (self.left and way is Way.UPRIGHT) or (self.lower and way is Way.LEVEL)

    def reaches(self, at: Point, way: Way) -> bool:
        """Whether a square line is short enough at a point to be squared off the face that it starts on."""
        x, y = at
        if way is Way.LEVEL:
            return self.left and x <= SQUARED
        return way is Way.UPRIGHT and self.lower and y <= SQUARED


def faces_of(edges: Sequence[FormEdge], base: Baselines) -> Faces:
    """Which baselines have enough straight edge on them."""
    lengths = {Way.UPRIGHT: 0.0, Way.LEVEL: 0.0}
    for leg in (leg for edge in edges for leg in pairwise(edge.points)):
        line = base.line(leg)
        way = way_of(line)
        off = line.centroid.x if way is Way.UPRIGHT else line.centroid.y
        if way in lengths and abs(off) <= OUT_OF_SQUARE:
            lengths[way] += line.length
    return Faces(left=lengths[Way.UPRIGHT] >= FACE, lower=lengths[Way.LEVEL] >= FACE)


@dataclass(frozen=True, kw_only=True)
class Loose:
    """A point of a line where a leg that is not held begins or ends.

    Attributes:
        at: Its place.
        inward: Unit vector from it into its line.
        along: Unit vector along the held leg that a knee lies on; None at an end.
    """

    at: Point
    inward: Point
    along: Point | None = None


def loose_points(line: LineString, base: Baselines, faces: Faces) -> Iterator[Loose]:
    """The ends and knees of a line (mm) that want a tape, from its start on; of a curve only its ends."""
    points = [(float(x), float(y)) for x, y in line.coords]
    if len(points) > KNEES + 2:
        yield Loose(at=points[0], inward=direction(points[0], points[1]))
        yield Loose(at=points[-1], inward=direction(points[-1], points[-2]))
        return
    legs = [base.line(leg) for leg in pairwise(points)]
    for i, at in enumerate(points):
        beside = [k for k in (i - 1, i) if 0 <= k < len(legs)]
        fast = [k for k in beside if faces.holds(legs[k])]
        squared = base.corner and all(
            faces.reaches(base.local(at), way_of(legs[k])) for k in beside
        )
        if len(fast) < len(beside) and not squared:
            yield Loose(
                at=at,
                inward=direction(at, points[i - 1] if i else points[1]),
                along=direction(points[fast[0]], points[fast[0] + 1]) if fast else None,
            )


def on_running(point: Loose, base: Baselines) -> bool:
    """Whether the running dimensions have a point: they run along the edge that it lies on."""
    return base.corner and min(map(abs, base.local(point.at))) <= ON_BASELINE
