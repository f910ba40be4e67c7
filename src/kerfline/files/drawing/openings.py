"""Finds the slab's openings among closed curves, and says which closed curves are none.

The sizes and shares below are common practice, weighed on the drawings of the forge (``tests/forge``).
"""

from collections.abc import Sequence

import shapely
from shapely import LineString

from kerfline.files.drawing.curves import Curve
from kerfline.files.drawing.names import outline_rank, part_named
from kerfline.files.drawing.opened import MEETS
from kerfline.files.drawing.wall_pieces import pairs_of
from kerfline.files.drawing.wording import place, wide
from kerfline.geometry.regions import Enclosed, enclosed
from kerfline.geometry.ring import Ring
from kerfline.units import Display, counted

LEAST_OPENING = 1e4
"""Closed curves smaller than this (mm2, 0.1 m square) are marks, not openings."""

EDGE_LINE = 0.6
"""A ring that encloses more than this share of the outline is a line along the edge, not an opening."""

HAIR = 1.0
"""Closed curves this close (mm) touch."""


FACES = 0.9
"""A ring that runs along the faces of walls for this share of its length is a wall."""

MOST_UNNAMED = 12
"""More closed curves than this on a layer whose name does not speak of the slab are a floor pattern or
fittings, not openings."""

WALLS = 5_000.0
"""On a layer with walls of this length (mm) closed curves are rooms and bodies of walls."""

RIM = 0.1
"""Share of an opening's width along its edge in which a curb or angle may be drawn."""

MOST_INSIDE = 3
"""An opening may be crossed out (two lines) or hold a label's leader; more lines in it draw a thing."""


def read_openings(
    curves: Sequence[Curve], outline: Ring | None, display: Display, gap: float = MEETS
) -> tuple[tuple[Ring, ...], tuple[str, ...]]:
    """The rings on the openings' own layers that lie in the slab, and notes on the others."""
    found = enclosed([c.path for c in curves], gap)
    inside: list[Ring] = []
    notes = []
    for ring in found.rings:
        polygon = ring.polygon
        if polygon.area < LEAST_OPENING:
            notes.append(
                f"Left out: a closed curve of {wide(polygon, display)} on an opening's layer."
            )
        elif outline and not outline.polygon.intersects(polygon):
            notes.append(
                f"Left out: an opening at {place(polygon, display)}, which lies outside the slab."
            )
        elif any(r.polygon.contains(polygon) for r in inside):
            notes.append(
                f"Left out: a closed curve at {place(polygon, display)} within an opening."
            )
        else:
            inside.append(ring)
    return tuple(inside), (*gap_notes(found, inside, display), *notes)


def inner_rings(
    outline: Ring, rings: Sequence[Ring], curves: Sequence[Curve], display: Display
) -> tuple[tuple[Ring, ...], list[str]]:
    """The rings on the outline's own layers that are openings, and sentences on the ones left out.

    Args:
        outline: The slab's edge.
        rings: The other closed outlines on its layers.
        curves: All that is drawn on these layers.
        display: How lengths are written.
    """
    rings, walls = _off_walls(curves, rings)
    nested, notes = _nested(outline, rings, display)
    notes += walls
    if all(outline_rank(c.layer) is not None for c in curves):
        return tuple(nested), notes
    if sum(p.line.length for p in pairs_of(curves)) > WALLS:
        notes += _unmarked(nested)
        return (), notes
    drawn = shapely.STRtree([c.path.line for c in curves])
    bare = [ring for ring in nested if _is_bare(ring, drawn)]
    openings = bare if len(bare) <= MOST_UNNAMED else []
    return tuple(openings), notes + _unmarked(nested[len(openings) :] if openings else nested)


def _unmarked(left: Sequence[Ring]) -> list[str]:
    """A sentence on closed curves that may be anything."""
    if not left:
        return []
    count = counted(len(left), "closed curve")
    words = (
        f"Left out: {count} inside the outline, taken for rooms, a floor pattern or things that stand on the "
        "slab, since the layer's name does not speak of the slab. Cross the openings out, or draw them on a "
        "layer of their own and name it with --openings."
    )
    return [words]


def _is_bare(ring: Ring, drawn: shapely.STRtree) -> bool:
    """Whether next to nothing is drawn in a ring but along its edge: a hole holds no furniture."""
    x0, y0, x1, y1 = ring.polygon.bounds
    inside = ring.polygon.buffer(-RIM * min(x1 - x0, y1 - y0))
    return len(drawn.query(inside, "intersects")) <= MOST_INSIDE


def _off_walls(curves: Sequence[Curve], rings: Sequence[Ring]) -> tuple[list[Ring], list[str]]:
    """The rings that are not the faces of walls standing on the slab, and a sentence on those that are."""
    lines = [c.path.line for c in curves if part_named(c.layer) == "walls"]
    if not lines:
        return list(rings), []
    faces = shapely.union_all(lines).buffer(HAIR)
    kept = [
        r
        for r in rings
        if r.polygon.exterior.intersection(faces).length < FACES * r.polygon.exterior.length
    ]
    walls = len(rings) - len(kept)
    if not walls:
        return kept, []
    return kept, [f"Left out: {counted(walls, 'closed curve')} of walls, no openings."]


def _nested(outline: Ring, rings: Sequence[Ring], display: Display) -> tuple[list[Ring], list[str]]:
    """The rings just inside the outline as openings, and sentences on the ones left out."""
    openings: list[Ring] = []
    notes = []
    area = outline.polygon.area
    outside = 0
    for ring in rings:
        polygon = ring.polygon
        if not outline.polygon.covers(polygon.buffer(-HAIR)):
            outside += 1
            if outside == 1:
                notes.append(
                    f"There is another closed outline, {wide(polygon, display)} at "
                    f"{place(polygon, display)}; the largest one was taken."
                )
        elif polygon.area > EDGE_LINE * area:
            notes.append(
                f"Left out: a closed curve of {wide(polygon, display)} just inside the outline, taken "
                "for a line along the edge."
            )
        elif outline.polygon.exterior.distance(polygon) <= HAIR:
            notes.append(
                f"Left out: a closed curve of {wide(polygon, display)} at {place(polygon, display)}, which "
                "lies against the slab's edge and so is no opening."
            )
        elif any(o.polygon.distance(polygon) <= HAIR for o in openings):
            notes.append(
                f"Left out: a closed curve at {place(polygon, display)} in, over or against an opening."
            )
        else:
            openings.append(ring)
    if outside > 1:
        notes.append(f"{outside} closed outlines beside the largest one were left out in all.")
    return openings, notes


def gap_notes(found: Enclosed, rings: Sequence[Ring], display: Display) -> list[str]:
    """A sentence for each gap that was closed in the rings that are used."""
    edges = shapely.union_all([r.polygon.exterior for r in rings])
    return [
        f"Closed a gap of {wide(g.size, display)} in an outline at {place(g.start, display)}."
        for g in found.closed
        if edges.distance(LineString([g.start, g.end])) <= g.size
    ]
