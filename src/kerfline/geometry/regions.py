"""The areas that loose linework encloses, and how rings nest in one another."""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
import shapely
from shapely import LineString, Polygon

from kerfline.geometry.chains import Gap, join, places
from kerfline.geometry.faces import polygons_of
from kerfline.geometry.near import clusters, near_pairs, spots
from kerfline.geometry.paths import Path
from kerfline.geometry.ring import Point, Ring
from kerfline.geometry.smooth import end_of

EVEN_OUT = 1e-3
"""Grid (mm) on which crossing linework is brought together."""

ALIKE = 1.0
"""Rings whose extents agree within this (mm) may be one ring drawn twice."""

SAME_AREA = 1e-4
"""They are where the areas that only one of them encloses are under this share."""


@dataclass(frozen=True, kw_only=True)
class Enclosed:
    """What linework encloses.

    Attributes:
        rings: Closed curves, largest first; arcs kept where the linework is a plain chain.
        closed: The gaps that were closed.
        open: Chains that bound nothing.
        crossed: Closed curves that cross themselves; ``rings`` holds the areas they make.
        woven: Those of ``rings`` that are outer boundaries of lines that meet and cross, not drawn as such.
    """

    rings: tuple[Ring, ...]
    closed: tuple[Gap, ...] = ()
    open: tuple[Path, ...] = ()
    crossed: tuple[Path, ...] = ()
    woven: tuple[Ring, ...] = ()


def enclosed(paths: Sequence[Path], tolerance: float, least: float = 0.0) -> Enclosed:
    """The rings in linework: closed paths, chains that close, and outer boundaries of crossing lines.

    Args:
        paths: Tidy paths.
        tolerance: Widest gap to close, mm.
        least: Linework that hangs together over less area than this (mm2) is left out.

    Raises:
        Crowded: So much is drawn on one spot, or so many lines cross, that it would take minutes.
    """
    joined = join(_of_size(paths, tolerance, least) if least else paths, tolerance)
    sound = [p for p in joined.rings if p.ring().polygon.is_valid]
    crossed = [p for p in joined.rings if not p.ring().polygon.is_valid]
    tangle, left = _tangle(joined.open, crossed, sound, tolerance)
    rings = _unlike_rings([*(p.ring() for p in sound), *tangle])
    rings.sort(key=lambda r: (-round(r.polygon.area, 3), r.polygon.bounds))
    made = set(map(id, tangle))
    return Enclosed(
        rings=tuple(rings),
        closed=joined.closed,
        open=left,
        crossed=tuple(crossed),
        woven=tuple(r for r in rings if id(r) in made),
    )


def _of_size(paths: Sequence[Path], tolerance: float, least: float) -> list[Path]:
    """The paths that with those they touch or nearly do reach over some area."""
    reach = np.asarray([p.reach for p in paths]).reshape(-1, 4)
    area = (reach[:, 2] - reach[:, 0]) * (reach[:, 3] - reach[:, 1])
    loose = [i for i, p in enumerate(paths) if not p.closed]
    # What closes by itself and is small takes part in nothing larger, unless a loose line runs on it.
    kept = set(np.flatnonzero(area >= least).tolist())
    lines: list[shapely.Geometry] = [paths[i].line for i in loose]
    groups: dict[int, list[int]] = {}
    for i, root in zip(loose, clusters(len(loose), *near_pairs(lines, tolerance)), strict=True):
        groups.setdefault(root, []).append(i)
    for members in groups.values():
        own = reach[members]
        x0, y0 = own[:, :2].min(axis=0)
        x1, y1 = own[:, 2:].max(axis=0)
        if (x1 - x0) * (y1 - y0) >= least:
            kept.update(members)
    return [p for i, p in enumerate(paths) if i in kept]


def _tangle(
    loose: Sequence[Path], crossed: Sequence[Path], sound: Sequence[Path], tolerance: float
) -> tuple[list[Ring], tuple[Path, ...]]:
    """Rings of the linework that has junctions or crosses itself, and the chains outside of them."""
    chains = [*loose, *crossed, *_touched(loose, sound, tolerance)]
    if not chains:
        return [], ()
    gathered = _gathered(chains)
    near_pairs(gathered, tolerance)  # too many crossings are refused before they are worked out
    reached = carried_to_meet(gathered, tolerance)
    noded = shapely.union_all(reached, grid_size=EVEN_OUT)
    faces = [p for p in shapely.get_parts(shapely.polygonize([noded])) if p.area > 1.0]
    if not faces:
        return [], tuple(loose)
    merged = shapely.union_all(faces)
    rings = [Ring.of(Polygon(r)) for p in polygons_of(merged) for r in (p.exterior, *p.interiors)]
    within = merged.buffer(1.0)
    shapely.prepare(within)  # asked once for every line
    left = tuple(c for c in loose if not within.intersects(c.line))
    return rings, left


def _gathered(chains: Sequence[Path]) -> list[LineString]:
    """The chains as lines, ends that meet put on the very same point."""
    points = [list(c.coordinates) for c in chains]
    ends = [p[i] for p in points for i in (0, -1)]
    for end, first in enumerate(places(ends)):
        points[end // 2][0 if end % 2 == 0 else -1] = ends[first]
    return [LineString(p) for p in points]


def _touched(loose: Sequence[Path], sound: Sequence[Path], tolerance: float) -> list[Path]:
    """The sound rings that a chain ends on or crosses: what the chain parts of them is still theirs."""
    if not sound or not loose:
        return []
    asked = np.asarray([c.line for c in loose], dtype=object)
    tree = shapely.STRtree([p.line for p in sound])
    found = tree.query(asked, predicate="dwithin", distance=tolerance)
    return [sound[i] for i in sorted(set(found[1].tolist()))]


def carried_to_meet(lines: Sequence[LineString], tolerance: float) -> list[LineString]:
    """Lines with each loose end carried on to a line that it stops short of by at most the tolerance."""
    points = [tuple((float(x), float(y)) for x, y in line.coords) for line in lines]
    ends = [end_of(points, e) for e in range(2 * len(points))]
    asked = np.asarray(spots([at for at, _ in ends]), dtype=object)
    near = shapely.STRtree(lines).query(asked, predicate="dwithin", distance=tolerance)
    others: dict[int, list[LineString]] = {}
    for end, index in sorted(zip(*near.tolist(), strict=True)):
        if index != end // 2:
            others.setdefault(end, []).append(lines[index])
    for end, targets in others.items():
        at, path = _carried(ends[end], targets, tolerance), points[end // 2]
        points[end // 2] = (at, *path[1:]) if end % 2 == 0 else (*path[:-1], at)
    return [LineString(p) for p in points]


def _carried(end: tuple[Point, Point], others: Sequence[LineString], tolerance: float) -> Point:
    """The end, or the place that it reaches on another line."""
    at, (dx, dy) = end
    spot = shapely.Point(at)
    if min(o.distance(spot) for o in others) <= EVEN_OUT:
        return at
    reach = LineString([at, (at[0] + dx * tolerance, at[1] + dy * tolerance)])
    hits = [h for o in others for h in shapely.get_parts(reach.intersection(o))]
    places = [h for h in hits if isinstance(h, shapely.Point) and not h.is_empty]
    if not places:
        return at
    nearest = min(places, key=spot.distance)
    return (float(nearest.x), float(nearest.y))


def _unlike_rings(rings: Sequence[Ring]) -> list[Ring]:
    """The rings without those that enclose the same area as an earlier one."""
    corners = [(b[0], b[1]) for b in (r.polygon.bounds for r in rings)]
    first, second = near_pairs(spots(corners), ALIKE)
    doubles = {
        j
        for i, j in zip(first.tolist(), second.tolist(), strict=True)
        if _alike(rings[i].polygon, rings[j].polygon)
    }
    return [ring for i, ring in enumerate(rings) if i not in doubles]


def _alike(one: Polygon, other: Polygon) -> bool:
    apart = np.abs(np.subtract(one.bounds, other.bounds)).max()
    return bool(apart < ALIKE and one.symmetric_difference(other).area < SAME_AREA * one.area)
