"""What stands on the slab or goes through it: columns with their boxouts, penetrations, keep-outs.

The sizes and shares below are common practice, weighed on the drawings of the forge (``tests/forge``).
"""

import re
from collections.abc import Sequence

import shapely
from shapely import Point as ShapelyPoint
from shapely import Polygon

from kerfline.files.drawing.curves import Curve, Spot
from kerfline.files.drawing.figures import Figure, Form, figures, small_figure
from kerfline.files.drawing.joint_kinds import kind_in
from kerfline.files.drawing.layers import own_name
from kerfline.files.drawing.opened import MEETS
from kerfline.files.drawing.openings import LEAST_OPENING
from kerfline.files.drawing.wording import fine, fine_point, place, wide
from kerfline.geometry.directions import main_direction
from kerfline.geometry.regions import enclosed
from kerfline.geometry.ring import Ring
from kerfline.model.slab import Boxout, Column, JointKind, KeepOut, Penetration, PenetrationKind
from kerfline.units import Display, counted

LARGEST_COLUMN = 3000.0
"""Closed figures on a column's layer larger than this (mm) are no columns."""

LARGEST_PIPE = 1500.0
"""Figures on a penetration's layer larger than this (mm) are openings, not pipes."""

DIAMOND_FROM = 22.5
"""A square turned from the building's direction by more than this (degrees) is a diamond."""

KINDS = (
    (PenetrationKind.DRAIN, re.compile(r"DRAIN|DRAN|DRN|(^|[^A-Z])(FD|CB|CO|SUMP)([^A-Z]|$)")),
    (PenetrationKind.CONDUIT, re.compile(r"COND|ELEC|POWR|POWER|(^|[^A-Z])E([^A-Z]|$)")),
    (PenetrationKind.POST, re.compile(r"POST|BOLLARD|(^|[^A-Z])BOLL")),
)
"""Words in a layer's name that say what goes through the slab; else it is a pipe."""


def read_columns(
    curves: Sequence[Curve],
    spots: Sequence[Spot],
    outline: Ring | None,
    display: Display,
) -> tuple[tuple[Column, ...], tuple[str, ...]]:
    """The columns, each with the boxout that its outermost figure shows, and notes.

    Args:
        curves: Curves on the columns' layers, and boxouts drawn as isolation joints.
        spots: Points on the columns' layers.
        outline: The slab; columns outside it are left out. A square that is turned from the outline's
            direction is a diamond.
        display: How lengths are written.
    """
    found, notes = _on_slab(figures(curves, spots, LARGEST_COLUMN), outline, "column", display)
    main = main_direction(outline.polygon) if outline else 0.0
    columns = []
    boxed = 0
    for number, figure in enumerate(found, start=1):
        columns.append(_column(figure, f"C{number}", main))
        boxed += figure.form in (Form.OBLONG, Form.OTHER)
    if columns:
        notes.append(
            f"{counted(len(columns), 'column')} read; each boxout is the outermost figure drawn there."
        )
    if boxed:
        notes.append(
            f"{counted(boxed, 'column')} neither square nor round: the boxout is the square around it."
        )
    return tuple(columns), tuple(notes)


def boxout_curves(curves: Sequence[Curve]) -> list[Curve]:
    """The curves on a joint's layer that go around columns.

    They are small closed curves and, where the layer's name says isolation joint, also loose pieces that
    make one.
    """
    closed = [c for c in curves if c.path.closed and small_figure(c.path.ring(), LARGEST_COLUMN)]
    loose = [c for c in curves if not c.path.closed and kind_in(c.layer) is JointKind.ISOLATION]
    rings = [
        r.polygon.exterior
        for r in enclosed([c.path for c in loose], MEETS).rings
        if small_figure(r, LARGEST_COLUMN)
    ]
    if not rings:
        return closed
    around = shapely.union_all(rings).buffer(1.0)
    return closed + [c for c in loose if around.covers(c.path.line)]


def _column(figure: Figure, name: str, main: float) -> Column:
    at, size = fine_point(figure.at), fine(figure.size)
    if figure.form is Form.POINT:
        return Column(id=name, at=at, boxout=Boxout.NONE, size=0.0)
    if figure.form is Form.ROUND:
        return Column(id=name, at=at, boxout=Boxout.CIRCLE, size=size)
    off = (figure.turn - main) % 90.0
    if figure.form is Form.SQUARE and DIAMOND_FROM < off < 90.0 - DIAMOND_FROM:
        turn = _turn(figure.turn - 45.0)
        return Column(id=name, at=at, boxout=Boxout.DIAMOND, size=size, turn=turn)
    return Column(id=name, at=at, boxout=Boxout.SQUARE, size=size, turn=_turn(figure.turn))


def _turn(angle: float) -> float:
    """A turn of a square: 0 to 90 degrees, freed of the noise of arithmetic."""
    return round(angle % 90.0, 4) % 90.0


def read_penetrations(
    curves: Sequence[Curve],
    spots: Sequence[Spot],
    outline: Ring | None,
    display: Display,
) -> tuple[tuple[Penetration, ...], tuple[str, ...]]:
    """The pipes, drains, conduits and posts, their kind from the names of their layers, and notes."""
    found, notes = _on_slab(figures(curves, spots, LARGEST_PIPE), outline, "penetration", display)
    points = sum(f.form is Form.POINT for f in found)
    if points:
        notes.append(f"{counted(points, 'penetration')} drawn as a point: no diameter is known.")
    made = tuple(
        Penetration(id=f"N{n}", at=fine_point(f.at), diameter=fine(f.size), kind=kind_of(f.layer))
        for n, f in enumerate(found, start=1)
    )
    return made, tuple(notes)


def kind_of(layer: str) -> PenetrationKind:
    """What a layer's name says goes through the slab."""
    name = own_name(layer).upper()
    return next((kind for kind, words in KINDS if words.search(name)), PenetrationKind.PIPE)


def read_keep_outs(
    curves: Sequence[Curve], outline: Ring | None, display: Display
) -> tuple[tuple[KeepOut, ...], tuple[str, ...]]:
    """The closed areas where no saw may go, named after their layers, and notes."""
    made, notes = [], []
    for layer in sorted({c.layer for c in curves}):
        own = [c.path for c in curves if c.layer == layer]
        for ring in enclosed(own, MEETS).rings:
            polygon = ring.polygon
            if polygon.area < LEAST_OPENING:
                continue
            if outline and not outline.polygon.intersects(polygon):
                notes.append(
                    f"A keep-out at {place(polygon, display)} lies outside the slab: left out."
                )
                continue
            made.append((ring, own_name(layer).lower()))
        if not any(what == own_name(layer).lower() for _, what in made):
            notes.append(f"{layer}: no closed area for a keep-out, so none was read.")
    made.sort(key=lambda m: (round(m[0].polygon.bounds[1], 1), round(m[0].polygon.bounds[0], 1)))
    areas = tuple(
        KeepOut(id=f"K{n}", outline=ring, what=what) for n, (ring, what) in enumerate(made, start=1)
    )
    return areas, tuple(notes)


def _on_slab(
    found: Sequence[Figure], outline: Ring | None, what: str, display: Display
) -> tuple[list[Figure], list[str]]:
    """The figures on the slab, and a sentence on those outside."""
    if outline is None:
        return list(found), []
    slab = outline.polygon.buffer(1.0)
    inside = [f for f in found if slab.intersects(_shape(f))]
    outside = len(found) - len(inside)
    if not outside:
        return inside, []
    first = next(f for f in found if not slab.intersects(_shape(f)))
    note = (
        f"{counted(outside, what)} outside the slab left out, the first of "
        f"{wide(first.size, display)} at {place(first.at, display)}."
    )
    return inside, [note]


def _shape(figure: Figure) -> Polygon | ShapelyPoint:
    return figure.ring.polygon if figure.ring else ShapelyPoint(figure.at)
