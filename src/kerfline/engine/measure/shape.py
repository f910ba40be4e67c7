"""The measures of panels that cost and rules look at: of one that is drawn, and of many groups of cells at once.

The angle of a group at a corner of its cells is the sum of theirs, so that no group needs to be drawn before it is
chosen.
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass, fields
from typing import Any

import numpy as np
import shapely
from shapely import Polygon

from kerfline.engine.regions.arcs import FoundArc
from kerfline.geometry.arrays import Flags, Integers, Numbers, Shapes
from kerfline.geometry.corners import Corner, corners, turn_between
from kerfline.geometry.rectangle import enclosing_rectangle, enclosing_rectangles
from kerfline.geometry.ring import Point, tangent_at
from kerfline.geometry.span import span_of, straight_runs
from kerfline.geometry.tolerance import ARC_STEP, CORNER_TURN, DEGREES

FULL = 0.9
"""Least share of its convex hull that a panel fills and still is no L, T or hook."""

DEEP = 400.0
"""A jog this deep (mm) counts whole."""

SHALLOW = 30.0
"""A jog less deep than this (mm) is a survey's noise, not a corner."""

KNEE = 1.0
"""A corner this close (mm) to a knee is the knee."""

AT_ONCE = 4000
"""Groups that are measured together: so many fit in the memory of a small machine."""

FULL_TURN = 360.0

HALF_TURN = 180.0

ROUNDING = 1e-6
"""Angles (degrees) that differ by less are equal."""

MEASURABLE = 4
"""Points of a ring that encloses an area, its first one counted again."""


@dataclass(frozen=True, slots=True)
class Shape:
    """Measures of a panel, or of many at once, an array each.

    Attributes:
        length: Long side of the smallest enclosing rectangle, mm.
        width: Short side of it, mm.
        span: What is held against the greatest joint spacing, mm (``geometry.span``).
        fullness: Share of the convex hull that the panel fills.
        hollow: Its re-entrant corners, each by its depth under the convex hull, one that is ``DEEP`` as 1.
        deepest: Depth of the deepest of them, mm.
        sharp: Its corners under the least angle; one that is short by less than a degree counts in part, for
            the chords of a flattened arc turn that much.
        short: By how many degrees they are under it, together.
        area: Its area, mm2.
    """

    length: Any
    width: Any
    span: Any
    fullness: Any = 1.0
    hollow: Any = 0.0
    deepest: Any = 0.0
    sharp: Any = 0.0
    short: Any = 0.0
    area: Any = 0.0

    @property
    def aspect(self) -> Any:  # noqa: ANN401 - a number or an array, as the sides are
        """Length over width."""
        return self.length / np.maximum(self.width, 1e-6)


def rectangle_shape(one: Any, other: Any) -> Shape:  # noqa: ANN401 - numbers or arrays
    """The measures of a rectangle, or of many, by its sides."""
    long = np.maximum(one, other)
    return Shape(long, np.minimum(one, other), long, area=one * other)


def shape_of(
    panel: Polygon,
    least_angle: float,
    knees: Sequence[Point] = (),
    arcs: Sequence[FoundArc] = (),
) -> Shape:
    """Measures a panel.

    Args:
        panel: The panel.
        least_angle: Corners under it (degrees) are sharp.
        knees: Places where a joint bends on purpose: no corners.
        arcs: Those in its edges, along whose tangents angles are measured and not along chords, as the checks do.
    """
    box, hull, found = enclosing_rectangle(panel), hull_of(panel), corners(panel)
    depths = [
        _depth(c.at, hull, panel) for c in found if c.reentrant and not _at_one_of(c.at, knees)
    ]
    angles = [_true_angle(c, arcs) for c in found if c.angle < least_angle + ARC_STEP]
    short = [least_angle - angle for angle in angles if angle < least_angle - DEGREES]
    return Shape(
        length=box.length,
        width=box.width,
        span=span_of(panel),
        fullness=panel.area / hull.area,
        hollow=sum(hollow_of(np.asarray(depths)).tolist()),
        deepest=max(depths, default=0.0),
        sharp=sum(min(1.0, s) for s in short),
        short=sum(short),
        area=panel.area,
    )


def sharp_places(panel: Polygon, least_angle: float, arcs: Sequence[FoundArc] = ()) -> list[Point]:
    """Where a panel's corners under the least angle are; along arcs by their tangents."""
    near = (c for c in corners(panel) if c.angle < least_angle + ARC_STEP)
    return [c.at for c in near if _true_angle(c, arcs) < least_angle - DEGREES]


def _true_angle(corner: Corner, arcs: Sequence[FoundArc]) -> float:
    """The angle at a corner between joints, straight edges and the tangents of arcs, degrees."""
    ways = (_true_way(corner.at, way, arcs) for way in (corner.after, corner.before))
    return turn_between(*ways) if arcs else corner.angle


def _true_way(at: Point, way: Point, arcs: Sequence[FoundArc]) -> Point:
    tangents = (tangent_at(arc.centre, arc.radius, at, way) for arc in arcs)
    return next((t for t in tangents if t is not None), way)


def hollow_of(depth: Numbers) -> Numbers:
    """What re-entrant corners of a depth (mm) count as hollows."""
    return np.where(depth > SHALLOW, np.minimum(depth / DEEP, 1.0), 0.0)


def _at_one_of(at: Point, places: Sequence[Point]) -> bool:
    return any(math.dist(at, place) < KNEE for place in places)


def hull_of(panel: Polygon) -> Polygon:
    """The convex hull of a polygon that has an area."""
    hull = panel.convex_hull
    return hull if isinstance(hull, Polygon) else panel


def _depth(at: Point, hull: Polygon, panel: Polygon) -> float:
    """How deep a re-entrant corner lies under the hull; of a hole, at least the hole's size."""
    depth = float(hull.exterior.distance(shapely.Point(at)))
    for hole in panel.interiors:
        if hole.distance(shapely.Point(at)) < 1.0:
            return max(depth, math.sqrt(Polygon(hole).area))
    return depth


@dataclass(frozen=True)
class Corners:
    """The corners and sides of the cells of a net.

    Attributes:
        places: Coordinates of each distinct corner, mm.
        starts: Where each cell's corners begin in the lists that follow, and where the last's end.
        corner: Number of the corner.
        side: Number of the side that leaves it.
        angle: Angle of the cell there, degrees.
        areas: Area of each cell, mm2.
        whole: Whether each cell is without holes.
    """

    places: Numbers
    starts: Integers
    corner: Integers
    side: Integers
    angle: Numbers
    areas: Numbers
    whole: Flags


def corners_of(cells: Sequence[Polygon]) -> Corners:
    """The corners of the cells of a net, which share them exactly."""
    rings = shapely.get_exterior_ring(cells)
    rings = np.where(shapely.is_ccw(rings), rings, shapely.reverse(rings))
    every, ring = shapely.get_coordinates(rings, return_index=True)
    last = np.append(np.diff(ring) > 0, True)
    points, cell = every[~last], ring[~last]
    starts = np.searchsorted(cell, np.arange(len(cells) + 1))
    after = np.arange(len(points)) + 1
    after[starts[1:] - 1] = starts[:-1]
    before = np.empty_like(after)
    before[after] = np.arange(len(points))
    places, corner = np.unique(points, axis=0, return_inverse=True)
    corner = corner.reshape(-1)
    low, high = np.minimum(corner, corner[after]), np.maximum(corner, corner[after])
    _, side = np.unique(low * len(places) + high, return_inverse=True)
    return Corners(
        places=places,
        starts=starts,
        corner=corner,
        side=side.reshape(-1),
        angle=_angles(points[after] - points, points[before] - points),
        areas=np.asarray(shapely.area(cells)),
        whole=np.asarray(shapely.get_num_interior_rings(cells) == 0),
    )


def _angles(after: Numbers, before: Numbers) -> Numbers:
    """Anticlockwise angles from one set of steps to another, degrees, 0 to 360."""
    cross = after[:, 0] * before[:, 1] - after[:, 1] * before[:, 0]
    dot = (after * before).sum(axis=1)
    return np.asarray(np.degrees(np.arctan2(cross, dot)) % FULL_TURN)


def shapes_of(
    corners: Corners,
    groups: Sequence[Sequence[int]],
    least_angle: float,
    knees: Sequence[Point] = (),
) -> tuple[Shape, Flags]:
    """The measures of groups of cells, and which are without holes: others must be drawn.

    The span of a group that does not fill its convex hull is the hull's, which may be longer than its own.

    Args:
        corners: The corners of the cells.
        groups: The cells of each group, which hang together.
        least_angle: Corners under it (degrees) are sharp.
        knees: Points where a joint bends on purpose: no corners.
    """
    found = [
        _measured(corners, groups[first : first + AT_ONCE], least_angle, knees)
        for first in range(0, len(groups), AT_ONCE)
    ]
    rows = (
        np.concatenate([table for table, _ in found], axis=1)
        if found
        else np.zeros((len(fields(Shape)), 0))
    )
    solid = [flags for _, flags in found]
    return Shape(*rows), np.concatenate(solid) if solid else np.zeros(0, dtype=bool)


@dataclass(frozen=True)
class _Rims:
    """The corners on the rims of groups.

    Attributes:
        group: The group of each, in order.
        corner: Its number.
        angle: The group's angle there, degrees.
        solid: For each group whether it is without holes.
    """

    group: Integers
    corner: Integers
    angle: Numbers
    solid: Flags


def _measured(
    corners: Corners,
    groups: Sequence[Sequence[int]],
    least_angle: float,
    knees: Sequence[Point],
) -> tuple[Numbers, Flags]:
    """The fields of ``Shape``, a row each, and which groups are without holes."""
    count = len(groups)
    sizes = np.array([len(g) for g in groups])
    cells = np.fromiter((c for g in groups for c in g), dtype=np.int64, count=int(sizes.sum()))
    owners = np.repeat(np.arange(count), sizes)
    rims = _rims(corners, owners, cells, sizes)
    points = corners.places[rims.corner]
    hulls = np.asarray(shapely.convex_hull(shapely.multipoints(points, indices=rims.group)))
    solid = rims.solid & (shapely.get_num_coordinates(hulls) >= MEASURABLE)
    table = np.zeros((len(fields(Shape)), count))
    table[0, solid], table[1, solid] = enclosing_rectangles(hulls[solid])
    table[2, solid] = np.maximum(table[0, solid], straight_runs(hulls[solid]))
    areas = _sums(owners, corners.areas[cells], count)
    table[3] = areas / np.where(solid, shapely.area(hulls), 1.0)
    table[4], table[5] = _hollows(rims, points, hulls, knees)
    short = np.where(rims.angle < least_angle - DEGREES, least_angle - rims.angle, 0.0)
    table[6] = _sums(rims.group, np.minimum(short, 1.0), count)
    table[7] = _sums(rims.group, short, count)
    table[8] = areas
    return table, solid


def _rims(corners: Corners, owners: Integers, cells: Integers, sizes: Integers) -> _Rims:
    """The corners on the rims of groups, and by Euler's count whether each is without holes."""
    count = len(sizes)
    lengths = corners.starts[cells + 1] - corners.starts[cells]
    owner = np.repeat(owners, lengths)
    shift = np.repeat(corners.starts[cells] - np.cumsum(lengths) + lengths, lengths)
    term = np.arange(len(owner)) + shift
    key, which = np.unique(owner * len(corners.places) + corners.corner[term], return_inverse=True)
    angle = _sums(which.reshape(-1), corners.angle[term], len(key))
    group, corner = np.divmod(key, len(corners.places))
    most = int(corners.side.max()) + 1
    sides = np.unique(owner * most + corners.side[term]) // most
    euler = np.bincount(group, minlength=count) - np.bincount(sides, minlength=count) + sizes
    holes = np.bincount(owners[~corners.whole[cells]], minlength=count)
    rim = angle < FULL_TURN - ROUNDING
    return _Rims(group[rim], corner[rim], angle[rim], (euler == 1) & (holes == 0))


def _sums(owners: Integers, values: Numbers, count: int) -> Numbers:
    """The sum of the values of each of so many owners."""
    return np.asarray(np.bincount(owners, weights=values, minlength=count), dtype=float)


def _hollows(
    rims: _Rims, points: Numbers, hulls: Shapes, knees: Sequence[Point]
) -> tuple[Numbers, Numbers]:
    """For each group its re-entrant corners, each by how deep it lies under the hull, and the deepest."""
    inward = rims.solid[rims.group] & (rims.angle > HALF_TURN + CORNER_TURN)
    for x, y in knees:
        inward &= np.hypot(points[:, 0] - x, points[:, 1] - y) >= KNEE
    group = rims.group[inward]
    around = shapely.get_exterior_ring(hulls[group])
    depth = shapely.distance(around, shapely.points(points[inward]))
    deepest = np.zeros(len(rims.solid))
    np.maximum.at(deepest, group, depth)
    return _sums(group, hollow_of(depth), len(rims.solid)), deepest
