"""The areas that loose linework encloses, and how rings nest in one another."""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
import shapely
from shapely import LineString, Polygon

from kerfline.geometry.chains import Gap, Joined, join
from kerfline.geometry.faces import polygons_of
from kerfline.geometry.paths import Path
from kerfline.geometry.ring import Point, Ring

EVEN_OUT = 0.05
"""Grid (mm) on which crossing linework is brought together."""


@dataclass(frozen=True, kw_only=True)
class Enclosed:
    """What linework encloses.

    Attributes:
        rings: Closed curves, largest first; arcs kept where the linework is a plain chain.
        closed: The gaps that were closed.
        open: Chains that bound nothing.
    """

    rings: tuple[Ring, ...]
    closed: tuple[Gap, ...] = ()
    open: tuple[Path, ...] = ()


def enclosed(paths: Sequence[Path], tolerance: float) -> Enclosed:
    """The rings in linework: closed paths, chains that close, and outer boundaries of crossing lines.

    Args:
        paths: Tidy paths.
        tolerance: Widest gap to close, mm.
    """
    joined = join(paths, tolerance)
    rings = [p.ring() for p in joined.rings]
    tangle, left = _tangle(joined, tolerance)
    rings = _unlike_rings([r for r in (*rings, *tangle) if r.polygon.is_valid or r in tangle])
    rings.sort(key=lambda r: (-round(r.polygon.area, 3), r.polygon.bounds))
    return Enclosed(rings=tuple(rings), closed=joined.closed, open=left)


def _tangle(joined: Joined, tolerance: float) -> tuple[list[Ring], tuple[Path, ...]]:
    """Rings of the linework that has junctions or crosses itself, and the chains outside of them."""
    crossed = [p for p in joined.rings if not p.ring().polygon.is_valid]
    chains = [*joined.open, *crossed]
    if not chains:
        return [], ()
    lines = [c.line for c in chains]
    reached = carried_to_meet(lines, tolerance)
    noded = shapely.union_all(reached, grid_size=EVEN_OUT)
    faces = [p for p in shapely.get_parts(shapely.polygonize([noded])) if p.area > 1.0]
    if not faces:
        return [], joined.open
    whole = polygons_of(shapely.union_all(faces))
    rings = [Ring.of(Polygon(r)) for p in whole for r in (p.exterior, *p.interiors)]
    boundary = shapely.union_all(faces).buffer(1.0)
    left = tuple(c for c in joined.open if not boundary.intersects(c.line))
    return rings, left


def carried_to_meet(lines: Sequence[LineString], tolerance: float) -> list[LineString]:
    """Lines with each loose end carried on to a line that it stops short of by at most the tolerance."""
    tree = shapely.STRtree(lines)
    out = []
    for index, line in enumerate(lines):
        coordinates = [(float(x), float(y)) for x, y in line.coords]
        head = _carried(coordinates[1], coordinates[0], index, lines, tree, tolerance)
        tail = _carried(coordinates[-2], coordinates[-1], index, lines, tree, tolerance)
        out.append(LineString([head, *coordinates[1:-1], tail]))
    return out


def _carried(
    inner: Point,
    at: Point,
    index: int,
    lines: Sequence[LineString],
    tree: shapely.STRtree,
    tolerance: float,
) -> Point:
    """The end, or the place that it reaches on another line."""
    spot = shapely.Point(at)
    near = [int(i) for i in tree.query(spot, predicate="dwithin", distance=tolerance)]
    others = [lines[i] for i in sorted(near) if i != index]
    if not others or min(o.distance(spot) for o in others) <= EVEN_OUT:
        return at
    dx, dy = at[0] - inner[0], at[1] - inner[1]
    size = float(np.hypot(dx, dy))
    if not size:
        return at
    reach = LineString([at, (at[0] + dx / size * tolerance, at[1] + dy / size * tolerance)])
    hits = [reach.intersection(o) for o in others]
    places = [h for hit in hits for h in shapely.get_parts(hit) if isinstance(h, shapely.Point)]
    if not places:
        return at
    nearest = min(places, key=spot.distance)
    return (float(nearest.x), float(nearest.y))


def _unlike_rings(rings: Sequence[Ring]) -> list[Ring]:
    """The rings without those that enclose the same area as an earlier one."""
    kept: list[Ring] = []
    for ring in rings:
        if not any(_alike(ring.polygon, other.polygon) for other in kept):
            kept.append(ring)
    return kept


def _alike(one: Polygon, other: Polygon) -> bool:
    bounds = np.abs(np.subtract(one.bounds, other.bounds)).max()
    return bool(bounds < 1.0 and one.symmetric_difference(other).area < 1e-4 * one.area)
