"""Whether the rings of a slab enclose something, and lie as rings of a slab must."""

from collections import Counter
from collections.abc import Iterable, Sequence

import shapely
from shapely import Polygon
from shapely.validation import explain_validity

from kerfline.errors import Mistake
from kerfline.files.sense_teller import CHECK_UNITS, Teller
from kerfline.geometry.ring import Point, Ring
from kerfline.geometry.tolerance import FARTHEST, SAME
from kerfline.model.slab import Slab

LEAST_AREA = 0.1e6
"""A slab of less than this (mm2, about 1 ft2) is drawn in another unit than the user thinks."""

GREATEST_EXTENT = 10e6
"""A slab longer than this (mm, 10 km: no runway is) is drawn in another unit than the user thinks."""

LEAST_POINTS = 3
"""Points of the simplest ring, unless arcs close it with two."""

NO_AREA = 1.0
"""A ring that encloses less than this (mm2) encloses nothing."""


OFF_EARTH = "a coordinate is not finite, or farther away than any site"


def on_earth(points: Iterable[Point]) -> bool:
    """Whether every coordinate is a number that a site can have."""
    return all(abs(c) <= FARTHEST for point in points for c in point)


def rings(teller: Teller, slab: Slab) -> list[Mistake]:
    """Rings that enclose nothing or cross themselves."""
    return [m for subject, ring in _rings_of(slab) if (m := _ring(teller, subject, ring))]


def _rings_of(slab: Slab) -> Iterable[tuple[str, Ring]]:
    yield "outline", slab.outline
    yield from ((f"opening {i}", ring) for i, ring in enumerate(slab.openings, start=1))
    yield from ((zone.id, zone.outline) for zone in slab.zones)
    yield from ((keep_out.id, keep_out.outline) for keep_out in slab.keep_outs)
    yield from ((pattern.id, pattern.area) for pattern in slab.patterns)
    yield from ((fall.id, fall.area) for fall in slab.falls)


def _ring(teller: Teller, subject: str, ring: Ring) -> Mistake | None:
    count = len(ring.points)
    if not count and subject == "outline":
        return teller.mistake(
            subject,
            "there is no outline",
            remedy="give the slab's corners as [x, y] points, or a drawing that holds them",
        )
    if not on_earth(ring.points):
        return teller.mistake(subject, OFF_EARTH, remedy=CHECK_UNITS)
    if count < LEAST_POINTS and not (count > 1 and ring.has_arcs):
        return teller.mistake(
            subject,
            "a closed line needs three points or more",
            found=f"{count} different points",
        )
    return _crossing(teller, subject, ring.polygon)


def _crossing(teller: Teller, subject: str, polygon: Polygon) -> Mistake | None:
    if polygon.convex_hull.area < NO_AREA:
        return teller.mistake(
            subject,
            "the line encloses no area: all its points lie on one line",
            remedy="give the corners in order along the edge",
        )
    if not polygon.is_valid:
        spot = explain_validity(polygon).partition("[")[2].rstrip("]").split()
        at = f" at {teller.point((float(spot[0]), float(spot[1])))}" if spot else ""
        return teller.mistake(
            subject,
            f"the line crosses or touches itself{at}",
            remedy="put its points in order along the edge",
        )
    return None


def size(teller: Teller, slab: Slab) -> list[Mistake]:
    """Slabs too small or too large to be meant."""
    outline = slab.outline.polygon
    x0, y0, x1, y1 = outline.bounds
    if outline.area < LEAST_AREA:
        return [
            teller.mistake(
                "outline",
                "this is too small for a slab",
                found=f"{teller.length(x1 - x0)} by {teller.length(y1 - y0)}",
                allowed=f"{teller.area(LEAST_AREA)} or more",
                remedy=CHECK_UNITS,
            )
        ]
    extent = max(x1 - x0, y1 - y0)
    if extent > GREATEST_EXTENT:
        return [
            teller.mistake(
                "outline",
                "this is too large for a slab",
                found=teller.length(extent),
                allowed=f"{teller.length(GREATEST_EXTENT)} or less",
                remedy=CHECK_UNITS,
            )
        ]
    return []


def openings(teller: Teller, slab: Slab) -> list[Mistake]:
    """Openings that cross or touch the edge or each other."""
    outline = slab.outline.polygon
    polygons = [o.polygon for o in slab.openings]
    mistakes = [
        teller.mistake(
            f"opening {i}",
            "the opening crosses or touches the slab's edge or lies outside",
            remedy="keep it inside, or draw the notch as part of the outline",
        )
        for i, polygon in enumerate(polygons, start=1)
        if not _well_inside(outline, polygon)
    ]
    mistakes.extend(
        teller.mistake(
            f"opening {second + 1}",
            f"the opening overlaps or touches opening {first + 1}",
            remedy="draw them as one",
        )
        for first, second in _touching(polygons)
    )
    return mistakes


def _well_inside(outline: Polygon, opening: Polygon) -> bool:
    return outline.contains(opening) and outline.exterior.distance(opening) > SAME


def _touching(polygons: Sequence[Polygon]) -> list[tuple[int, int]]:
    """Pairs of polygons that overlap or touch, in order."""
    tree = shapely.STRtree(polygons)
    found: list[tuple[int, int]] = []
    for second, polygon in enumerate(polygons):
        near = tree.query(polygon, predicate="dwithin", distance=SAME)
        found.extend((int(first), second) for first in sorted(near) if first < second)
    return found


def edges(teller: Teller, slab: Slab) -> list[Mistake]:
    """Edge kinds for segments that there are not, or twice for one."""
    every = (slab.outline, *slab.openings)
    mistakes = [
        teller.mistake(
            f"edge {edge.ring}/{edge.segment}",
            "there is no such segment",
            found=f"ring {edge.ring}, segment {edge.segment}",
            allowed=_segments_allowed(edge.ring, every),
        )
        for edge in slab.edges
        if edge.ring >= len(every) or edge.segment >= len(every[edge.ring].points)
    ]
    counts = Counter((edge.ring, edge.segment) for edge in slab.edges)
    mistakes.extend(
        teller.mistake(
            f"edge {ring}/{segment}",
            f"segment {segment} of ring {ring} is described {count} times",
            remedy="keep one",
        )
        for (ring, segment), count in counts.items()
        if count > 1
    )
    return mistakes


def _segments_allowed(ring: int, every: Sequence[Ring]) -> str:
    if ring < len(every):
        return f"segment 0 to {len(every[ring].points) - 1}"
    if len(every) == 1:
        return "ring 0 for the outline; there are no openings"
    return f"ring 0 for the outline, 1 to {len(every) - 1} for openings"
