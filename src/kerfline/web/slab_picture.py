"""What the page draws of the slab and everything in and on it, as plain data, every text ready to be shown."""

from collections.abc import Iterable, Sequence
from typing import Any

import shapely
from shapely import LineString, Polygon

from kerfline.app.opening_edit import place_of, sizes_of
from kerfline.geometry.ring import Point, Ring
from kerfline.model.slab import Column, KeepOut, Penetration, Slab, Wall, Zone
from kerfline.units import Display, exact_length, format_depth

Data = dict[str, Any]

PLACES = 2
"""Decimals of a coordinate: a hundredth of a millimetre."""


def slab_data(slab: Slab, display: Display) -> Data:
    """The concrete and everything in and on it."""
    return {
        "outline": points_of(slab.outline.coordinates),
        "openings": [points_of(o.coordinates) for o in slab.openings],
        "rings": rings_data(slab, display),
        "thickness": format_depth(slab.thickness, display),
        "walls": [_wall(w, display) for w in slab.walls],
        "columns": [_column(c, display) for c in slab.columns],
        "penetrations": [_penetration(p, display) for p in slab.penetrations],
        "zones": [_zone(z, display) for z in slab.zones],
        "keepOuts": [_keep_out(k) for k in slab.keep_outs],
        "forbidden": [{"id": j.id, "path": points_of(j.path)} for j in slab.forbidden],
        "edges": _edges(slab),
        "corners": [point_of(c.at) for c in slab.reentrant_corners],
    }


def rings_data(slab: Slab, display: Display) -> list[Data]:
    """Everything with corners that can be moved, in the job's own coordinates; outline and openings first."""
    outline = {"what": "outline", "id": "outline", "corners": _corners(slab.outline, display)}
    openings = [_opening(slab, n, display) for n in range(1, len(slab.openings) + 1)]
    areas = [("zone", z) for z in slab.zones] + [("keep-out", k) for k in slab.keep_outs]
    corners = [
        {"what": what, "id": area.id, "corners": _corners(area.outline, display)}
        for what, area in areas
    ]
    return [outline, *openings, *corners]


def _opening(slab: Slab, number: int, display: Display) -> Data:
    """An opening: its corners, the sizes that can be changed, and how far it lies from the slab's sides."""
    ring = slab.openings[number - 1]
    left, bottom = place_of(slab, number)
    return {
        "what": "opening",
        "id": str(number),
        "corners": _corners(ring, display),
        "sizes": [
            {"field": s.field, "words": s.words, "text": exact_length(s.mm, display)}
            for s in sizes_of(ring)
        ],
        "left": exact_length(left, display),
        "bottom": exact_length(bottom, display),
    }


def _corners(ring: Ring, display: Display) -> list[Data]:
    return [
        {"at": point_of(p), "x": exact_length(p[0], display), "y": exact_length(p[1], display)}
        for p in ring.points
    ]


def _wall(wall: Wall, display: Display) -> Data:
    return {
        "id": wall.id,
        "path": points_of(wall.path),
        "outline": ring_points(wall.footprint),
        "bearing": wall.bearing,
        "thickness": format_depth(wall.thickness, display),
    }


def _column(column: Column, display: Display) -> Data:
    return {
        "id": column.id,
        "at": point_of(column.at),
        "outline": points_of(column.outline.coordinates) if column.outline else [],
        "boxout": column.boxout.value,
        "size": format_depth(column.size, display),
    }


def _penetration(penetration: Penetration, display: Display) -> Data:
    return {
        "id": penetration.id,
        "at": point_of(penetration.at),
        "radius": round(penetration.diameter / 2, PLACES),
        "kind": penetration.kind.value,
        "size": format_depth(penetration.diameter, display) if penetration.diameter else "",
    }


def _zone(zone: Zone, display: Display) -> Data:
    return {
        "id": zone.id,
        "outline": points_of(zone.outline.coordinates),
        "thickness": format_depth(zone.thickness, display),
    }


def _keep_out(keep_out: KeepOut) -> Data:
    return {
        "id": keep_out.id,
        "outline": points_of(keep_out.outline.coordinates),
        "what": keep_out.what,
    }


def _edges(slab: Slab) -> list[Data]:
    """The segments of the outline and openings that are not plain formed edges."""
    rings = (slab.outline, *slab.openings)
    out = []
    for edge in slab.edges:
        points = rings[edge.ring].points
        start, end = points[edge.segment], points[(edge.segment + 1) % len(points)]
        out.append({"kind": edge.kind.value, "path": points_of((start, end))})
    return out


def ring_points(polygon: Polygon) -> list[list[float]]:
    """The outer corners of a polygon as they are sent."""
    return points_of(list(polygon.exterior.coords)[:-1]) if not polygon.is_empty else []


def points_of(points: Iterable[Sequence[float]] | LineString) -> list[list[float]]:
    """Points as they are sent."""
    coords = shapely.get_coordinates(points) if isinstance(points, LineString) else points
    return [[round(float(p[0]), PLACES), round(float(p[1]), PLACES)] for p in coords]


def point_of(point: Point) -> list[float]:
    """A point as it is sent."""
    return [round(point[0], PLACES), round(point[1], PLACES)]
