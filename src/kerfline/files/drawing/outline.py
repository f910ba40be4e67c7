"""Finds the slab's outline and openings among the curves of some layers.

The sizes and shares below are common practice, weighed on the drawings of the forge (``tests/forge``).
"""

import re
from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path

import shapely
from shapely import Polygon

from kerfline.errors import InputRefused, Mistake
from kerfline.files.drawing.curves import Curve
from kerfline.files.drawing.names import part_named
from kerfline.files.drawing.opened import MEETS
from kerfline.files.drawing.openings import HAIR, LEAST_OPENING, gap_notes, inner_rings
from kerfline.files.drawing.size import LEAST_SLAB
from kerfline.files.drawing.wall_outline import around_walls, wall_faces
from kerfline.files.drawing.wording import place, wide
from kerfline.geometry.chains import loose_gaps
from kerfline.geometry.faces import polygons_of
from kerfline.geometry.regions import Enclosed, enclosed
from kerfline.geometry.ring import Ring
from kerfline.units import Display

ITSELF = 0.02
"""A ring that differs from the outline by less than this share of it is the outline drawn again."""

SHARED = 100.0
"""Closed curves that touch along more than this (mm) are pieces of one slab."""

BY_A_HAIR = 0.98
"""A closed curve that crosses itself is taken for its largest area where that is this share of all it encloses."""

GAPS_SHOWN = 6
"""Gaps that a refusal names at most."""


@dataclass(frozen=True, kw_only=True)
class Reading:
    """The outline and what else the outline's layers hold.

    Attributes:
        outline: The slab's edge.
        openings: Rings inside it.
        notes: What was closed, joined, chosen or left out.
    """

    outline: Ring
    openings: tuple[Ring, ...]
    notes: tuple[str, ...]


def read_outline(
    path: Path, curves: Sequence[Curve], display: Display, gap: float = MEETS
) -> Reading:
    """The largest closed outline, and the rings inside it as openings.

    Args:
        path: The file, for the refusal.
        curves: Curves on the outline's layers.
        display: How lengths are written.
        gap: Widest gap to close, mm.

    Raises:
        InputRefused: Nothing on these layers closes; the refusal says where the gaps are.
    """
    if curves and all(part_named(name) == "walls" for name in {c.layer for c in curves}):
        return _around_walls(path, curves, display)
    found = enclosed([c.path for c in curves], gap)
    rings = [r for r in found.rings if r.polygon.area >= LEAST_OPENING]
    if not rings or rings[0].polygon.area < LEAST_SLAB:
        raise _not_closed(path, found, rings, display)
    _refuse_crossed(path, found, rings[0], display)
    outline, rest, joined = _outer(rings)
    openings, more = inner_rings(outline, rest, curves, display)
    notes = gap_notes(found, (outline, *openings), display)
    return Reading(outline=outline, openings=openings, notes=(*notes, *joined, *more))


def openings_beside(
    outline: Ring, curves: Sequence[Curve], display: Display, gap: float = MEETS
) -> tuple[tuple[Ring, ...], list[str]]:
    """The openings that are drawn on the layers of an outline, and what was closed or left out.

    Args:
        outline: The slab's edge.
        curves: All that is drawn on its layers.
        display: How lengths are written.
        gap: Widest gap to close, mm.
    """
    found = enclosed([c.path for c in curves], gap)
    inside = outline.polygon.buffer(HAIR)
    rest = [
        r
        for r in found.rings
        if r.polygon.area >= LEAST_OPENING
        and inside.covers(r.polygon)
        and r.polygon.symmetric_difference(outline.polygon).area > ITSELF * outline.polygon.area
    ]
    openings, notes = inner_rings(outline, rest, curves, display)
    return openings, [*gap_notes(found, (outline, *openings), display), *notes]


def _around_walls(path: Path, curves: Sequence[Curve], display: Display) -> Reading:
    """The slab's edge along the outer faces of the walls, where only walls are drawn."""
    found = around_walls(wall_faces(curves))
    if not found:
        raise InputRefused(
            Mistake(
                what="the walls on the layers named for the outline enclose nothing",
                where=str(path),
                remedy="name the layers that the slab's edge is drawn on",
            )
        )
    polygon, gap = found[0].area, found[0].gap
    note = (
        f"The layers named for the outline hold walls: the slab's edge, {wide(polygon, display)}, was taken "
        f"along their outer faces, doors and notches up to {wide(gap, display)} wide bridged. Check it."
    )
    return Reading(outline=Ring.of(polygon), openings=(), notes=(note,))


def _refuse_crossed(path: Path, found: Enclosed, largest: Ring, display: Display) -> None:
    """Refuses an outline that crosses itself, unless it is by a hair where it closes."""
    for crossed in found.crossed:
        parts = shapely.get_parts(shapely.polygonize([shapely.node(crossed.line)]))
        areas = sorted(float(p.area) for p in parts)
        if sum(areas) < largest.polygon.area / 2 or areas[-1] > BY_A_HAIR * sum(areas):
            continue
        where = re.search(r"\[(\S+) (\S+)\]", shapely.is_valid_reason(crossed.ring().polygon))
        at = (float(where[1]), float(where[2])) if where else crossed.start
        raise InputRefused(
            Mistake(
                what="the slab's outline crosses itself",
                where=str(path),
                found=f"the crossing at {place(at, display)}",
                remedy="draw its points in order around the slab",
            )
        )


def _outer(rings: list[Ring]) -> tuple[Ring, list[Ring], list[str]]:
    """The largest ring, together with rings that share an edge or overlap with it, and the rest."""
    largest, rest = rings[0], rings[1:]
    whole, joined, left = largest.polygon, 0, []
    for ring in rest:
        if _adjoins(whole, ring.polygon):
            beside = shapely.snap(ring.polygon, whole, HAIR)
            union = polygons_of(whole.union(beside))
            if len(union) == 1 and not union[0].interiors:
                whole, joined = union[0], joined + 1
                continue
        left.append(ring)
    if not joined:
        return largest, rest, []
    note = f"The outline is {joined + 1} closed curves that adjoin one another, taken together."
    return Ring.of(whole), left, [note]


def joined_rings(rings: Sequence[Ring]) -> list[Ring]:
    """Rings with those that share an edge or overlap taken together, largest first."""
    left, whole = list(rings), []
    while left:
        ring, left, _ = _outer(left)
        whole.append(ring)
    return whole


def _adjoins(whole: Polygon, other: Polygon) -> bool:
    """Whether two figures overlap in part or share a stretch of edge, neither within the other."""
    if whole.distance(other) > HAIR or whole.covers(other.buffer(-HAIR)):
        return False
    shared = other.exterior.intersection(whole.buffer(HAIR))
    return bool(shared.length > SHARED)


def _not_closed(
    path: Path, found: Enclosed, rings: Sequence[Ring], display: Display
) -> InputRefused:
    gaps = loose_gaps(found.open)
    if gaps:
        shown = "; ".join(
            f"{wide(g.size, display)} from {place(g.start, display)} to {place(g.end, display)}"
            for g in gaps[:GAPS_SHOWN]
        )
        more = f"; and {len(gaps) - GAPS_SHOWN} more" if len(gaps) > GAPS_SHOWN else ""
        return InputRefused(
            Mistake(
                what="the slab's outline is not closed",
                where=str(path),
                found=f"{'gaps' if len(gaps) > 1 else 'a gap'} of {shown}{more}",
                remedy=f"close {'them' if len(gaps) > 1 else 'it'}, or name the layers of the missing "
                "pieces too",
            )
        )
    held = f"the largest closed curve is {wide(rings[0].polygon, display)}" if rings else "none"
    return InputRefused(
        Mistake(
            what="there is no closed outline of a slab on the layers named for it",
            where=str(path),
            found=held,
            remedy="name the layers that the slab's edge is drawn on",
        )
    )
