"""Whether a slab that was read makes sense, whatever file it came from.

What leaves the concrete a little is taken as drawn: a wall may run past the edge by half of its own
thickness (it then ends at the face of the wall outside), and joints may run on, for a survey measures
them to the form. What lies outside altogether is a mistake.
"""

import math
from collections import Counter
from collections.abc import Callable, Iterable, Sequence
from typing import Protocol

import shapely
from shapely import LineString, Polygon
from shapely import Point as ShapelyPoint
from shapely.validation import explain_validity

from kerfline.errors import Mistake
from kerfline.geometry.ring import Point, Ring
from kerfline.geometry.tolerance import SAME, TOUCH
from kerfline.model.slab import Column, GivenJoint, PatternKind, Penetration, Slab, Wall
from kerfline.units import Display, format_area, format_depth, format_length

LEAST_AREA = 0.1e6
"""A slab of less than this (mm2, about 1 ft2) is drawn in another unit than the user thinks."""

GREATEST_EXTENT = 10e6
"""A slab longer than this (mm, 10 km: no runway is) is drawn in another unit than the user thinks."""

LEAST_THICKNESS = 25.0
"""No slab on ground is thinner than this (mm)."""

GREATEST_THICKNESS = 1000.0
"""No slab on ground that takes sawn joints is thicker than this (mm); 4 ft is a slip for 4 in."""

LEAST_POINTS = 3
"""Points of the simplest ring, unless arcs close it with two."""

CHECK_UNITS = "check the units"

Where = Callable[[str], str]


def check_slab(
    slab: Slab, where: Where | str = "", display: Display = Display.METRIC
) -> list[Mistake]:
    """Every mistake in the sense of a slab.

    Args:
        slab: The slab as it was read.
        where: Name of the file, or what turns a subject (``outline``, ``opening 1``, ``thickness``,
            ``edge 0/3``, an id such as ``W3``) into the place that the user is told.
        display: How lengths in the sentences are written.
    """
    judge = _Judge(_in_file(where) if isinstance(where, str) else where, display)
    mistakes = [*judge.names(slab), *judge.thicknesses(slab)]
    broken = [*judge.endless(slab), *judge.rings(slab)]
    if broken:
        return [*mistakes, *broken]
    mistakes.extend(judge.size(slab))
    mistakes.extend(judge.openings(slab))
    mistakes.extend(judge.features(slab))
    mistakes.extend(judge.edges(slab))
    if not mistakes:
        mistakes.extend(judge.concrete(slab))
    return mistakes


def _in_file(name: str) -> Where:
    return lambda subject: f"{name}, {subject}" if name else subject


class Named(Protocol):
    """Whatever lies on a slab under a name."""

    @property
    def id(self) -> str:
        """Its name on the sheets."""


class _Judge:
    """Holds how places and lengths are written; each method looks at one side of a slab."""

    def __init__(self, where: Where, display: Display) -> None:
        self.where = where
        self.display = display

    def names(self, slab: Slab) -> list[Mistake]:
        """Two things with one name."""
        things: tuple[Named, ...] = (
            *slab.walls, *slab.columns, *slab.penetrations, *slab.zones, *slab.keep_outs,
            *slab.joints, *slab.patterns,
        )  # fmt: skip
        counts = Counter(thing.id for thing in things)
        return [
            Mistake(
                what=f"{count} things are called {name}",
                where=self.where(name),
                remedy="give each an id of its own",
            )
            for name, count in counts.items()
            if count > 1
        ]

    def thicknesses(self, slab: Slab) -> list[Mistake]:
        """Thicknesses that no slab has."""
        thick = [("thickness", slab.thickness), *((z.id, z.thickness) for z in slab.zones)]
        return [m for name, mm in thick if (m := self._thickness(name, mm))]

    def endless(self, slab: Slab) -> list[Mistake]:
        """Coordinates that are no numbers, outside rings."""
        return [self._endless(name) for name, points in _points_of(slab) if not _finite(points)]

    def _endless(self, subject: str) -> Mistake:
        return Mistake(what="a coordinate is not finite", where=self.where(subject))

    def _thickness(self, subject: str, mm: float) -> Mistake | None:
        if LEAST_THICKNESS <= mm <= GREATEST_THICKNESS:
            return None
        least, greatest = (
            format_depth(t, self.display) for t in (LEAST_THICKNESS, GREATEST_THICKNESS)
        )
        return Mistake(
            what="this is no thickness of a slab on ground",
            where=self.where(subject),
            found=format_depth(mm, self.display) if math.isfinite(mm) else str(mm),
            allowed=f"{least} to {greatest}",
            remedy=CHECK_UNITS,
        )

    def rings(self, slab: Slab) -> list[Mistake]:
        """Rings that enclose nothing or cross themselves."""
        return [m for subject, ring in _rings_of(slab) if (m := self._ring(subject, ring))]

    def _ring(self, subject: str, ring: Ring) -> Mistake | None:
        if not ring.points and subject == "outline":
            return Mistake(
                what="there is no outline",
                where=self.where(subject),
                remedy="give the slab's corners as [x, y] points, or a drawing that holds them",
            )
        if not _finite(ring.points):
            return self._endless(subject)
        if len(ring.points) < LEAST_POINTS and not (len(ring.points) > 1 and ring.has_arcs):
            return Mistake(
                what="a closed line needs three points or more",
                where=self.where(subject),
                found=f"{len(ring.points)} different points",
            )
        return self._crossing(subject, ring.polygon)

    def _crossing(self, subject: str, polygon: Polygon) -> Mistake | None:
        if not polygon.is_valid:
            spot = explain_validity(polygon).partition("[")[2].rstrip("]").split()
            at = f" at {self._point((float(spot[0]), float(spot[1])))}" if spot else ""
            return Mistake(
                what=f"the line crosses or touches itself{at}",
                where=self.where(subject),
                remedy="put its points in order along the edge",
            )
        if polygon.area < 1.0:
            return Mistake(what="the line encloses no area", where=self.where(subject))
        return None

    def size(self, slab: Slab) -> list[Mistake]:
        """Slabs too small or too large to be meant."""
        outline = slab.outline.polygon
        x0, y0, x1, y1 = outline.bounds
        extent = max(x1 - x0, y1 - y0)
        if outline.area < LEAST_AREA:
            return [
                Mistake(
                    what="the slab is too small to be one",
                    where=self.where("outline"),
                    found=f"{format_length(x1 - x0, self.display)} by {format_length(y1 - y0, self.display)}",
                    allowed=f"{format_area(LEAST_AREA, self.display)} or more",
                    remedy=CHECK_UNITS,
                )
            ]
        if extent > GREATEST_EXTENT:
            return [
                Mistake(
                    what="the slab is too large to be one",
                    where=self.where("outline"),
                    found=format_length(extent, self.display),
                    allowed=f"{format_length(GREATEST_EXTENT, self.display)} or less",
                    remedy=CHECK_UNITS,
                )
            ]
        return []

    def openings(self, slab: Slab) -> list[Mistake]:
        """Openings that cross or touch the edge or each other."""
        outline = slab.outline.polygon
        polygons = [o.polygon for o in slab.openings]
        mistakes = [
            Mistake(
                what="the opening crosses or touches the slab's edge or lies outside",
                where=self.where(f"opening {i}"),
                remedy="keep it inside, or draw the notch as part of the outline",
            )
            for i, polygon in enumerate(polygons, start=1)
            if not _well_inside(outline, polygon)
        ]
        mistakes.extend(
            Mistake(
                what=f"the opening overlaps or touches opening {first + 1}",
                where=self.where(f"opening {second + 1}"),
                remedy="draw them as one",
            )
            for first, second in _touching(polygons)
        )
        return mistakes

    def features(self, slab: Slab) -> list[Mistake]:
        """Things that lie off the slab."""
        outline = slab.outline.polygon
        found: list[Mistake | None] = [self._wall(outline, wall) for wall in slab.walls]
        found.extend(self._column(slab, column) for column in slab.columns)
        found.extend(self._penetration(outline, p) for p in slab.penetrations)
        found.extend(self._joint(outline, joint) for joint in slab.joints)
        areas = [
            *((z.id, "zone", z.outline) for z in slab.zones),
            *((k.id, "keep-out", k.outline) for k in slab.keep_outs),
            *((p.id, "pattern's area", p.area) for p in slab.patterns),
        ]
        found.extend(self._area(outline, *area) for area in areas)
        found.extend(
            Mistake(
                what="an aligned pattern needs a line to follow",
                where=self.where(pattern.id),
                remedy="add along = [[x, y], [x, y]]",
            )
            for pattern in slab.patterns
            if pattern.kind is PatternKind.ALIGNED and not pattern.along
        )
        return [mistake for mistake in found if mistake]

    def _wall(self, outline: Polygon, wall: Wall) -> Mistake | None:
        if len(wall.path) < 2:  # noqa: PLR2004 -- a line has two ends
            return self._no_length(wall.id, "wall")
        if wall.thickness <= 0:
            return Mistake(
                what="the wall's thickness must be above zero",
                where=self.where(wall.id),
                found=format_depth(wall.thickness, self.display),
            )
        reach = wall.thickness / 2 + TOUCH
        outside = [p for p in wall.path if outline.distance(ShapelyPoint(p)) > reach]
        inside = outline.buffer(reach, join_style="mitre")
        if not outside and wall.line.difference(inside).length <= TOUCH:
            return None
        far = max(wall.path, key=lambda p: outline.distance(ShapelyPoint(p)))
        if not outline.distance(ShapelyPoint(far)):
            return Mistake(
                what=f"wall {wall.id} leaves the slab between its ends",
                where=self.where(wall.id),
                remedy="break it where it leaves the concrete",
            )
        by = format_length(outline.distance(ShapelyPoint(far)), self.display)
        return Mistake(
            what=f"wall {wall.id} lies outside the slab: its point {self._point(far)} is {by} off",
            where=self.where(wall.id),
            remedy="move it inside or extend the outline",
        )

    def _column(self, slab: Slab, column: Column) -> Mistake | None:
        foot = column.outline.polygon if column.outline else ShapelyPoint(column.at)
        if slab.gross.distance(foot) <= SAME and foot.intersects(slab.gross):
            return None
        return Mistake(
            what=f"column {column.id} stands off the concrete at {self._point(column.at)}",
            where=self.where(column.id),
            remedy="move it onto the slab or leave it out",
        )

    def _penetration(self, outline: Polygon, penetration: Penetration) -> Mistake | None:
        if outline.distance(ShapelyPoint(penetration.at)) <= SAME:
            return None
        return Mistake(
            what=f"penetration {penetration.id} lies outside the slab at {self._point(penetration.at)}",
            where=self.where(penetration.id),
            remedy="move it inside or leave it out",
        )

    def _joint(self, outline: Polygon, joint: GivenJoint) -> Mistake | None:
        if len(joint.path) < 2:  # noqa: PLR2004 -- a line has two ends
            return self._no_length(joint.id, "joint")
        if LineString(joint.path).intersection(outline).length > TOUCH:
            return None
        return Mistake(
            what=f"joint {joint.id} does not lie on the slab",
            where=self.where(joint.id),
            remedy="move it onto the slab or leave it out",
        )

    def _area(self, outline: Polygon, name: str, kind: str, ring: Ring) -> Mistake | None:
        if ring.polygon.intersection(outline).area > 1.0:
            return None
        return Mistake(
            what=f"the {kind} {name} does not lie on the slab",
            where=self.where(name),
            remedy="move it onto the slab or leave it out",
        )

    def _no_length(self, name: str, kind: str) -> Mistake:
        return Mistake(
            what=f"{kind} {name} has no length",
            where=self.where(name),
            remedy="give it two different points",
        )

    def edges(self, slab: Slab) -> list[Mistake]:
        """Edge kinds for segments that there are not, or twice for one."""
        rings = (slab.outline, *slab.openings)
        mistakes = [
            Mistake(
                what="there is no such segment",
                where=self.where(f"edge {edge.ring}/{edge.segment}"),
                found=f"ring {edge.ring}, segment {edge.segment}",
                allowed=_segments_allowed(edge.ring, rings),
            )
            for edge in slab.edges
            if edge.ring >= len(rings) or edge.segment >= len(rings[edge.ring].points)
        ]
        counts = Counter((edge.ring, edge.segment) for edge in slab.edges)
        mistakes.extend(
            Mistake(
                what=f"segment {segment} of ring {ring} is described {count} times",
                where=self.where(f"edge {ring}/{segment}"),
                remedy="keep one",
            )
            for (ring, segment), count in counts.items()
            if count > 1
        )
        return mistakes

    def concrete(self, slab: Slab) -> list[Mistake]:
        """Slabs of which openings and boxouts leave nothing."""
        left = slab.gross.difference(shapely.union_all(slab.boxouts))
        if left.area >= LEAST_AREA / 2:
            return []
        return [
            Mistake(
                what="openings and boxouts leave no concrete",
                where=self.where("outline"),
                remedy="check their sizes",
            )
        ]

    def _point(self, point: Point) -> str:
        return f"({format_length(point[0], self.display)}, {format_length(point[1], self.display)})"


def _segments_allowed(ring: int, rings: Sequence[Ring]) -> str:
    if ring >= len(rings):
        return (
            f"ring 0 for the outline, 1 to {len(rings) - 1} for openings"
            if len(rings) > 1
            else ("ring 0 for the outline; there are no openings")
        )
    return f"segment 0 to {len(rings[ring].points) - 1}"


def _touching(polygons: Sequence[Polygon]) -> list[tuple[int, int]]:
    """Pairs of polygons that overlap or touch, in order."""
    tree = shapely.STRtree(polygons)
    found: list[tuple[int, int]] = []
    for second, polygon in enumerate(polygons):
        near = tree.query(polygon, predicate="dwithin", distance=SAME)
        found.extend((int(first), second) for first in sorted(near) if first < second)
    return found


def _finite(points: Iterable[Point]) -> bool:
    return all(math.isfinite(c) for point in points for c in point)


def _well_inside(outline: Polygon, opening: Polygon) -> bool:
    return outline.contains(opening) and outline.exterior.distance(opening) > SAME


def _rings_of(slab: Slab) -> Iterable[tuple[str, Ring]]:
    yield "outline", slab.outline
    for i, opening in enumerate(slab.openings, start=1):
        yield f"opening {i}", opening
    for zone in slab.zones:
        yield zone.id, zone.outline
    for keep_out in slab.keep_outs:
        yield keep_out.id, keep_out.outline
    for pattern in slab.patterns:
        yield pattern.id, pattern.area


def _points_of(slab: Slab) -> Iterable[tuple[str, Sequence[Point]]]:
    yield from ((wall.id, wall.path) for wall in slab.walls)
    yield from ((joint.id, joint.path) for joint in slab.joints)
    yield from ((column.id, (column.at,)) for column in slab.columns)
    yield from ((penetration.id, (penetration.at,)) for penetration in slab.penetrations)
