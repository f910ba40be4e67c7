"""The footprint of a turned-down edge: a band of concrete along some edges of the slab."""

from dataclasses import dataclass, field
from itertools import groupby

import shapely
from shapely import LineString, MultiPolygon, Polygon

from kerfline.geometry.faces import Area, polygons_of
from kerfline.geometry.ring import Point, Ring, flatten_arc
from kerfline.geometry.tolerance import TOUCH
from kerfline.model.slab import Edge, EdgeKind, Slab

MITRE = 10.0
"""How far a mitred corner may reach, in widths of the band: square corners reach 1.41."""


@dataclass(frozen=True, kw_only=True)
class EdgeBand:
    """A run of turned-down edges with one section.

    Attributes:
        ring: The outline or opening it belongs to.
        inward: Whether the concrete lies inside that ring (it is the outline).
        path: The edges, end to end; None where the band goes all round.
        depth: Total depth.
        width: Width at the bottom.
        slope: Run over rise of the inner face.
        concrete: The slab it belongs to.
    """

    ring: Ring
    inward: bool
    path: LineString | None
    depth: float
    width: float
    slope: float
    concrete: Area = field(repr=False)

    def footprint(self, width: float) -> Polygon | MultiPolygon:
        """The concrete within a width (mm) of the edges, with square corners."""
        whole = self._all_round(width) if self.path is None else self._along(self.path, width)
        return MultiPolygon(polygons_of(shapely.intersection(whole, self.concrete)))

    def _all_round(self, width: float) -> shapely.Geometry:
        polygon = self.ring.polygon
        if self.inward:
            return shapely.difference(polygon, _offset(polygon, -width))
        return shapely.difference(_offset(polygon, width), polygon)

    def _along(self, path: LineString, width: float) -> shapely.Geometry:
        """Pieces across a gap, where the slab comes back near the edge's outer side, do not count."""
        near = path.buffer(width, cap_style="flat", join_style="mitre", mitre_limit=MITRE)
        pieces = polygons_of(near.intersection(self.concrete))
        own = [p for p in pieces if p.boundary.intersection(path.buffer(TOUCH)).length > 2 * TOUCH]
        return MultiPolygon(own)


def _offset(polygon: Polygon, distance: float) -> Polygon | MultiPolygon:
    return polygon.buffer(distance, join_style="mitre", mitre_limit=MITRE)


def edge_bands(slab: Slab) -> list[EdgeBand]:
    """The turned-down edges of a slab, neighbours of one section joined so that corners mitre."""
    rings = (slab.outline, *slab.openings)
    out = []
    for index, ring in enumerate(rings):
        edges = {
            e.segment: e
            for e in slab.edges
            if e.ring == index
            and e.kind is EdgeKind.TURNDOWN
            and e.depth > slab.thickness
            and e.width > 0
        }
        out.extend(_bands_of(ring, edges, slab, inward=index == 0))
    return out


def _bands_of(ring: Ring, edges: dict[int, Edge], slab: Slab, *, inward: bool) -> list[EdgeBand]:
    count = len(ring.points)
    sections = [_section(edges.get(i)) for i in range(count)]
    if len(set(sections)) == 1:
        runs = [list(range(count))]
    else:
        first = next(i for i in range(count) if sections[i] != sections[i - 1])
        order = [(first + i) % count for i in range(count)]
        runs = [list(run) for _, run in groupby(order, key=lambda i: sections[i])]
    return [
        EdgeBand(
            ring=ring,
            inward=inward,
            path=None if len(run) == count else _path(ring, run),
            depth=section[0],
            width=section[1],
            slope=section[2],
            concrete=slab.concrete,
        )
        for run in runs
        if (section := sections[run[0]]) is not None
    ]


def _section(edge: Edge | None) -> tuple[float, float, float] | None:
    return (edge.depth, edge.width, edge.slope) if edge else None


def _path(ring: Ring, run: list[int]) -> LineString:
    points: list[Point] = [ring.points[run[0]]]
    for index in run:
        start, end = ring.points[index], ring.points[(index + 1) % len(ring.points)]
        bulge = ring.bulge(index)
        points.extend(flatten_arc(start, end, bulge)[1:] if bulge else [end])
    return LineString(points)
