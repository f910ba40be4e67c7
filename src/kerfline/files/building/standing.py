"""What stands on the slab of a building model, and what carries it: walls, columns, footings."""

import math
from collections.abc import Sequence
from dataclasses import replace

import shapely
from shapely import Polygon

from kerfline.files.building.bodies import Bodies, Body, largest
from kerfline.files.building.floors import ROOM, Floor
from kerfline.files.drawing.curves import Curve
from kerfline.files.drawing.walls import read_walls
from kerfline.files.drawing.wording import fine, fine_point
from kerfline.geometry.paths import Path
from kerfline.geometry.rectangle import enclosing_rectangle
from kerfline.geometry.ring import Ring
from kerfline.model.slab import Boxout, Column, Wall
from kerfline.units import Display, counted, format_length, grid_step

STANDS = 300.0
"""What begins this far (mm) above or below the slab's face and rises from there stands on it."""

OBLONG = 0.9
"""A wall that fills this share of its smallest rectangle is straight."""

LONG = 2.0
"""A footing this many times longer than wide is a strip."""

OVER = 0.8
"""Share of a wall's length that must lie over a strip for the strip to be the wall's."""

TOUCHES = 50.0
"""A footing whose top is this close (mm) to the slab's underside, or higher, is cast with it."""

USUAL_BOXOUT = 609.6
"""Side (mm, 24 in) of the usual isolation around a column (common practice)."""

CLEAR = 76.2
"""Least concrete (mm, 3 in) left between a column's corner and the edge of its isolation (common practice)."""


def walls_on(bodies: Bodies, floor: Floor, display: Display) -> tuple[tuple[Wall, ...], list[str]]:
    """The interior walls on the slab, bearing ones marked, and notes."""
    standing = [b for b in bodies.of("IfcWall", whole=True) if _stands(b, floor)]
    outline = Ring.of(floor.outline)
    walls: list[Wall] = []
    notes: list[str] = []
    for bearing in (True, False):
        own = [b for b in standing if bears(b) is bearing]
        layer = "bearing" if bearing else "other"
        curves = [c for b in own for c in _faces(b, layer)]
        found, said = read_walls(curves, outline, display)
        walls += [replace(w, bearing=bearing) for w in found]
        notes += [note for note in said if not note.startswith(layer)]
    unknown = sum(_load_bearing(b) is None for b in standing)
    if unknown:
        notes.append(
            f"{counted(unknown, 'wall')} of the model not said to be bearing or not: taken as not bearing."
        )
    return _renumbered(walls), notes


def columns_on(
    bodies: Bodies, floor: Floor, display: Display
) -> tuple[tuple[Column, ...], list[str]]:
    """The columns on the slab, each in a diamond that leaves it clear, and notes."""
    area, holes = floor.outline.buffer(1.0), floor.outline.interiors
    kept = []
    apart = 0
    for body in bodies.of("IfcColumn", whole=True):
        if not _rises(body, floor):
            continue
        middle = body.footprint.envelope.centroid
        apart += any(Polygon(ring).contains(middle) for ring in holes)
        if area.contains(middle):
            kept.append(largest(body.footprint))
    columns = [_column(section, display) for section in kept]
    columns.sort(key=lambda c: (round(c.at[1]), round(c.at[0])))
    notes = []
    if columns:
        sizes = " to ".join(
            dict.fromkeys(format_length(f(c.size for c in columns), display) for f in (min, max))
        )
        notes.append(
            f"{counted(len(columns), 'column')} read; the model shows no isolation around them, so each "
            f"has a diamond of {sizes} a side (common practice): please confirm it."
        )
    if apart:
        notes.append(
            f"{counted(apart, 'column')} in an opening of the slab: the opening isolates it."
        )
    return tuple(replace(c, id=f"C{n}") for n, c in enumerate(columns, start=1)), notes


def with_footings(
    bodies: Bodies, floor: Floor, walls: Sequence[Wall]
) -> tuple[tuple[Wall, ...], list[str]]:
    """The walls with the strips that are cast with the slab under them, and notes on other footings."""
    below = [b for b in bodies.of("IfcFooting") if _under(b, floor)]
    strips = [b for b in below if _is_strip(largest(b.footprint))]
    taken: set[int] = set()
    out = []
    for wall in walls:
        own = next((i for i, b in enumerate(strips) if _lies_under(b, wall)), None)
        if own is not None:
            taken.add(own)
        out.append(wall if own is None else _on_strip(wall, strips[own], floor))
    left = len(below) - len(taken)
    notes = []
    if left:
        notes.append(
            f"{counted(left, 'footing')} under no interior wall left out: say under [[edge]] where the "
            "slab's edge is turned down, and under [[zone]] where it is thicker."
        )
    return tuple(out), notes


def bears(body: Body) -> bool:
    """Whether the model says that a wall carries load."""
    return _load_bearing(body) is True


def _load_bearing(body: Body) -> bool | None:
    """What the wall's or its type's common properties say of carrying load; None where nothing."""
    from ifcopenshell.util.element import get_pset

    said = get_pset(body.element, "Pset_WallCommon", prop="LoadBearing")
    return bool(said) if isinstance(said, bool) else None


def _stands(body: Body, floor: Floor) -> bool:
    return _rises(body, floor) and bool(body.footprint.intersects(floor.outline))


def _rises(body: Body, floor: Floor) -> bool:
    """Whether something goes up from the slab's face, wherever it stands."""
    return body.bottom <= floor.top + STANDS and body.top >= floor.top + STANDS


def _faces(body: Body, layer: str) -> list[Curve]:
    """The edge of a wall in plan: a straight one as the rectangle that it fills."""
    curves = []
    for part in body.footprint.geoms:
        whole = shapely.minimum_rotated_rectangle(part)
        straight = isinstance(whole, Polygon) and part.area >= OBLONG * whole.area
        drawn = whole if straight else Polygon(part.exterior)
        ring = tuple((float(x), float(y)) for x, y in drawn.boundary.coords[:-1])
        curves.append(Curve(layer=layer, kind="WALL", path=Path(ring, closed=True)))
    return curves


def _renumbered(walls: Sequence[Wall]) -> tuple[Wall, ...]:
    """The walls under names of their own, from the bottom up and from the left."""
    ordered = sorted(walls, key=lambda w: (round(w.line.bounds[1]), round(w.line.bounds[0])))
    return tuple(replace(w, id=f"W{n}") for n, w in enumerate(ordered, start=1))


def _column(section: Polygon, display: Display) -> Column:
    """A column in a diamond whose points lie on the column's own axes."""
    box = enclosing_rectangle(section)
    # The corner of the column stays clear of the diamond's side by CLEAR.
    needed = (box.length + box.width) / math.sqrt(2) + 2 * CLEAR
    step = grid_step(display)
    middle = shapely.minimum_rotated_rectangle(section).centroid
    return Column(
        id="",
        at=fine_point((middle.x, middle.y)),
        boxout=Boxout.DIAMOND,
        size=max(USUAL_BOXOUT, math.ceil(needed / step - 1e-9) * step),
        turn=fine(box.angle % 90.0) % 90.0,
    )


def _under(body: Body, floor: Floor) -> bool:
    """Whether a footing lies under the slab and not under a storey below it."""
    near = body.bottom < floor.bottom and body.top > floor.bottom - ROOM
    return near and bool(body.footprint.intersects(floor.outline))


def _is_strip(area: Polygon) -> bool:
    return enclosing_rectangle(area).aspect >= LONG


def _lies_under(strip: Body, wall: Wall) -> bool:
    over = wall.line.intersection(strip.footprint.buffer(1.0)).length
    return over >= OVER * wall.line.length


def _on_strip(wall: Wall, strip: Body, floor: Floor) -> Wall:
    """A wall that its strip carries: thickened slab where it is cast with it, else a footing apart."""
    width = enclosing_rectangle(largest(strip.footprint)).width
    if strip.top < floor.bottom - TOUCHES:
        return replace(wall, bearing=True)
    return replace(
        wall,
        bearing=True,
        strip_width=fine(width),
        strip_depth=fine(floor.top - strip.bottom),
    )
