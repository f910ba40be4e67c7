"""Ties: where slanting lines start, bend and end, taped straight from lettered corners of the concrete."""

import math
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from itertools import combinations, pairwise

import shapely
from shapely import LineString, MultiPolygon, Polygon

from kerfline.geometry.corners import angle_between, direction
from kerfline.geometry.ring import Point
from kerfline.geometry.tolerance import SAME, TOUCH
from kerfline.sheets.baselines import ON_BASELINE, OUT_OF_SQUARE, Baselines, Way, way_of
from kerfline.sheets.edges import FormEdge, form_edges

LETTERS = "BDEGHLMNRSTUVXY"
"""Letters of corners: A is where the baselines meet; what tags on the plan begin with and what reads as a figure
are left out."""

LEAN = 55.0
"""A tape leans against the line that it is held to by no more than this (degrees): a slip of 1/8 in on the tape
is then less than 1/4 in along the line."""

CROSSING = 45.0
"""Two tapes cross at no less than this (degrees), for the same reason."""

KNEES = 2
"""A line that bends more often than this is a curve, whose points are not taped one by one."""

FACE = 600.0
"""Least length (mm) of edge on a baseline that a tape can be squared off."""

AT_CORNER = 6.0
"""A line that ends this near (mm) to a corner ends at it."""

SQUARED = 2440.0
"""How far (mm) a short square line is squared off the face that it starts on: 8 ft."""

KNOWN = 0.5
"""A corner that has its letter already is taken where its tape is no longer than twice another's."""

MOST_CORNERS = 24
"""How many of the nearest corners are tried."""


@dataclass(frozen=True)
class Peg:
    """A corner where a tape is held.

    Attributes:
        letter: Its letter on the plan.
        at: Its place in mm.
    """

    letter: str
    at: Point


@dataclass(frozen=True, kw_only=True)
class Tie:
    """A point of a line and the tapes that find it.

    Attributes:
        line: Id of the line.
        at: The point in mm.
        tapes: Corners with their distances in mm: one where the point lies on an edge or another line, two
            where both tapes meet.
        inward: Unit vector from the point into its line.
        along: Unit vector along the edge that the point lies on, the concrete on its left; None inside.
    """

    line: str
    at: Point
    tapes: tuple[tuple[Peg, float], ...]
    inward: Point
    along: Point | None = None


@dataclass(frozen=True)
class Ties:
    """What a plan needs so that its slanting lines can be snapped.

    Attributes:
        pegs: The lettered corners, A left out.
        points: The points.
    """

    pegs: tuple[Peg, ...] = ()
    points: tuple[Tie, ...] = ()


@dataclass(frozen=True, kw_only=True)
class _Spot:
    """A point that wants a tie, with what it lies on.

    Attributes:
        line: Id of its line.
        at: Its place.
        inward: Unit vector from it into its line.
        edge: The edge that it lies on.
        carrier: Unit vector along another line, or a leg of its own, that is there before it.
    """

    line: str
    at: Point
    inward: Point
    edge: FormEdge | None = None
    carrier: Point | None = None


Line = tuple[str, LineString]


def ties(
    concrete: Polygon | MultiPolygon,
    lines: Sequence[Line],
    base: Baselines,
    others: Sequence[LineString] = (),
    corner: str = "A",
) -> Ties:
    """Ties for the lines that the running dimensions do not hold.

    Args:
        concrete: What is shown, openings and boxouts left out.
        lines: Ids and lines that are snapped, in mm.
        base: What the running dimensions start from.
        others: Further lines that lines may end on.
        corner: Name of the corner where the baselines meet.
    """
    edges = form_edges(concrete)
    spots = _spots(edges, lines, base, others)
    pegs = _Pegs(edges, base)
    found = {spot.at: pegs.on_edge(spot) for spot in _by_edge(spots)}
    points = [(s, found.get(s.at) or pegs.on_line(s) or pegs.crossing(s)) for s in spots]
    letters = pegs.lettered(corner)
    return Ties(
        pegs=tuple(p for p in letters.values() if p.letter != corner),
        points=tuple(
            Tie(
                line=spot.line,
                at=spot.at,
                tapes=tuple((letters[at], math.dist(at, spot.at)) for at in held),
                inward=spot.inward,
                along=spot.edge.way_at(spot.at) if spot.edge else None,
            )
            for spot, held in points
            if held
        ),
    )


def _spots(
    edges: Sequence[FormEdge], lines: Sequence[Line], base: Baselines, others: Sequence[LineString]
) -> list[_Spot]:
    """The starts, knees and ends that lie on no corner, each once."""
    corners = shapely.MultiPoint(sorted({edge.points[0] for edge in edges if edge.cornered}))
    faces = _faces(edges, base)
    drawn = [*(line for _, line in lines), *others]
    edge_tree, line_tree = shapely.STRtree([e.line for e in edges]), shapely.STRtree(drawn)
    seen: set[tuple[int, int]] = set()
    out = []
    for ref, line in lines:
        for point in _loose(line, base, faces):
            spot = shapely.Point(point.at)
            key = (round(point.at[0]), round(point.at[1]))
            if key in seen or corners.distance(spot) <= AT_CORNER or _on_running(point, base):
                continue
            seen.add(key)
            on = sorted(edge_tree.query(spot, predicate="dwithin", distance=TOUCH).tolist())
            met = sorted(line_tree.query(spot, predicate="dwithin", distance=TOUCH).tolist())
            out.append(
                _Spot(
                    line=ref,
                    at=point.at,
                    inward=point.inward,
                    edge=edges[on[0]] if on else None,
                    carrier=point.along or _carrier(line, spot, [drawn[k] for k in met]),
                )
            )
    return out


@dataclass(frozen=True)
class _Faces:
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


def _faces(edges: Sequence[FormEdge], base: Baselines) -> _Faces:
    lengths = {Way.UPRIGHT: 0.0, Way.LEVEL: 0.0}
    for edge in edges:
        line = base.line(edge.points)
        way = way_of(line)
        off = line.centroid.x if way is Way.UPRIGHT else line.centroid.y
        if edge.straight and way in lengths and abs(off) <= OUT_OF_SQUARE:
            lengths[way] += line.length
    return _Faces(left=lengths[Way.UPRIGHT] >= FACE, lower=lengths[Way.LEVEL] >= FACE)


@dataclass(frozen=True, kw_only=True)
class _Loose:
    """A point of a line where a leg that is not held begins or ends.

    Attributes:
        at: Its place.
        inward: Unit vector from it into its line.
        along: Unit vector along the held leg that a knee lies on; None at an end.
    """

    at: Point
    inward: Point
    along: Point | None = None


def _loose(line: LineString, base: Baselines, faces: _Faces) -> Iterator[_Loose]:
    points = [(float(x), float(y)) for x, y in line.coords]
    if len(points) > KNEES + 2:
        yield _Loose(at=points[0], inward=direction(points[0], points[1]))
        yield _Loose(at=points[-1], inward=direction(points[-1], points[-2]))
        return
    legs = [base.line(leg) for leg in pairwise(points)]
    for i, at in enumerate(points):
        beside = [k for k in (i - 1, i) if 0 <= k < len(legs)]
        fast = [k for k in beside if faces.holds(legs[k])]
        squared = base.corner and all(
            faces.reaches(base.local(at), way_of(legs[k])) for k in beside
        )
        if len(fast) < len(beside) and not squared:
            yield _Loose(
                at=at,
                inward=direction(at, points[i - 1] if i else points[1]),
                along=direction(points[fast[0]], points[fast[0] + 1]) if fast else None,
            )


def _on_running(point: _Loose, base: Baselines) -> bool:
    """Whether the running dimensions have a point: they run along the edge that it lies on."""
    return base.corner and min(map(abs, base.local(point.at))) <= ON_BASELINE


def _carrier(line: LineString, spot: shapely.Point, met: Iterable[LineString]) -> Point | None:
    """Direction of the line that a point lies on the inside of."""
    for other in met:
        if other is not line and TOUCH < other.project(spot) < other.length - TOUCH:
            legs = (LineString(leg) for leg in pairwise(other.coords))
            leg = min(legs, key=lambda leg: leg.distance(spot))
            (x0, y0), (x1, y1) = leg.coords
            return direction((x0, y0), (x1, y1))
    return None


def _by_edge(spots: Sequence[_Spot]) -> list[_Spot]:
    """The points on edges, those of the fullest edge first."""
    counts: dict[int, int] = {}
    for spot in spots:
        counts[id(spot.edge)] = counts.get(id(spot.edge), 0) + 1
    on_edges = [spot for spot in spots if spot.edge]
    return sorted(on_edges, key=lambda s: -counts[id(s.edge)])


class _Pegs:
    """The corners that tapes are held at, letters given last."""

    def __init__(self, edges: Sequence[FormEdge], base: Baselines) -> None:
        starts = [edge.points[0] for edge in edges if edge.cornered]
        self.corners = list(dict.fromkeys(starts))
        self.origin = next((c for c in starts if math.dist(c, base.origin) <= TOUCH), None)
        self.taken = {self.origin} if self.origin else set()

    def on_edge(self, spot: _Spot) -> tuple[Point, ...]:
        """The corner that a point on an edge is taped along the edge from; none on a round one."""
        edge = spot.edge
        if edge is None or not edge.cornered:
            return ()
        ends = (edge.points[0], edge.points[-1])
        fit = [c for c in ends if edge.straight or edge.grows_from(c, spot.at)]
        if not fit:
            return ()
        if edge.straight:
            return self._take(min(fit, key=lambda c: (c not in self.taken, ends.index(c))))
        return self._take(min(fit, key=lambda c: self._length(c, spot.at)))

    def on_line(self, spot: _Spot) -> tuple[Point, ...]:
        """The corner whose tape meets the line that a point lies on well."""
        if spot.carrier is None:
            return ()
        steep = [
            c for c in self._near(spot.at)
            if _between_lines(direction(c, spot.at), spot.carrier) <= LEAN
        ]  # fmt: skip
        if not steep:
            return ()
        return self._take(min(steep, key=lambda c: self._length(c, spot.at)))

    def crossing(self, spot: _Spot) -> tuple[Point, ...]:
        """The two corners whose tapes cross well at a point."""
        pairs = [
            pair
            for pair in combinations(self._near(spot.at), 2)
            if _between_lines(direction(pair[0], spot.at), direction(pair[1], spot.at)) >= CROSSING
        ]
        if not pairs:
            return ()
        best = min(pairs, key=lambda p: sum(self._length(c, spot.at) for c in p))
        return self._take(*best)

    def lettered(self, corner: str) -> dict[Point, Peg]:
        """The corners that were taken with their letters, in the order of the edges from A on."""
        start = self.corners.index(self.origin) if self.origin else 0
        names = _letters(corner.removeprefix("A"))
        out = {}
        for at in [*self.corners[start:], *self.corners[:start]]:
            if at == self.origin:
                out[at] = Peg(corner, at)
            elif at in self.taken:
                out[at] = Peg(next(names), at)
        return out

    def _take(self, *corners: Point) -> tuple[Point, ...]:
        self.taken.update(corners)
        return corners

    def _length(self, corner: Point, at: Point) -> float:
        """Length of a tape, that of one from a corner without a letter counted more."""
        return math.dist(corner, at) * (KNOWN if corner in self.taken else 1.0)

    def _near(self, at: Point) -> list[Point]:
        far = [c for c in self.corners if math.dist(c, at) > SAME]
        return sorted(far, key=lambda c: self._length(c, at))[:MOST_CORNERS]


def _between_lines(first: Point, second: Point) -> float:
    """Angle between two lines, degrees, 0 to 90."""
    angle = angle_between(first, second)
    return min(angle, 180.0 - angle)


def _letters(suffix: str) -> Iterator[str]:
    times = 1
    while True:
        for letter in LETTERS:
            yield letter * times + suffix
        times += 1
