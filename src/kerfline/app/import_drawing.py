"""Reads a drawing in two steps: show what it holds, then take what the user says each layer is."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass, fields
from pathlib import Path
from typing import TYPE_CHECKING, TypeVar

from kerfline.errors import InputRefused, Mistake
from kerfline.geometry.ring import Point
from kerfline.model.slab import Slab
from kerfline.units import Unit

if TYPE_CHECKING:
    from kerfline.files.drawing import Drawing, SlabParts

Read = TypeVar("Read")

MOST_POINTS = 40_000
"""Points of the drawing that the page shows; a larger drawing is shown in part and read in whole."""

ROLES = ("outline", "openings", "walls", "columns", "penetrations", "keep_outs", "joints")
"""What a layer can be."""


@dataclass(frozen=True, kw_only=True)
class SeenLayer:
    """One layer as the page shows it.

    Attributes:
        name: Its name.
        role: What it is taken for; empty where for nothing.
        hidden: Whether it is off or frozen in the drawing.
        paths: Its curves as points in mm.
        count: How many curves it holds; more than ``paths`` where not all are shown.
    """

    name: str
    role: str
    hidden: bool
    paths: tuple[tuple[Point, ...], ...]
    count: int


@dataclass(frozen=True, kw_only=True)
class SeenDrawing:
    """What a drawing holds, for the user to judge.

    Attributes:
        unit: The unit that it was read in.
        declared: What the drawing says of its unit; empty where it says nothing that can be right.
        size: Width and height of what is drawn, in drawing units.
        layers: Its layers.
        notes: Why each layer was taken for what, and what is doubtful.
    """

    unit: Unit
    declared: str
    size: tuple[float, float]
    layers: tuple[SeenLayer, ...]
    notes: tuple[str, ...]


def look_at(data: bytes, folder: Path, unit: Unit | None) -> SeenDrawing:
    """Reads a drawing and proposes what its layers are.

    Args:
        data: The DXF file.
        folder: Where a temporary copy may lie while it is read.
        unit: The unit that the user states; None to take the drawing's own.

    Raises:
        InputRefused: It is no drawing that can be read.
    """
    return _with_file(data, folder, lambda path: _seen(path, unit))


def take(
    data: bytes, folder: Path, unit: Unit, roles: Mapping[str, str], thickness: float
) -> tuple[Slab, tuple[str, ...]]:
    """The slab that a drawing gives, and what the user should know of the reading.

    Args:
        data: The DXF file.
        folder: Where a temporary copy may lie while it is read.
        unit: The unit of the drawing.
        roles: What each layer is, by its name.
        thickness: Thickness of the slab, mm.

    Raises:
        InputRefused: The layers give no slab that makes sense.
    """
    from kerfline.files.drawing import Layers, read_slab_parts

    named = {role: tuple(sorted(n for n, r in roles.items() if r == role)) for role in ROLES}
    if not named["outline"]:
        raise InputRefused(
            Mistake(what="no layer is the outline", remedy="say which layer holds the slab's edge")
        )
    layers = Layers(**named)
    parts = _with_file(data, folder, lambda path: read_slab_parts(path, layers, unit))
    return _slab(parts, thickness), parts.notes


def _slab(parts: "SlabParts", thickness: float) -> Slab:
    from kerfline.files.slab_parts import slab_of
    from kerfline.files.slab_sense import check_slab

    if parts.outline is None:
        raise InputRefused(Mistake(what="the drawing gives no outline"))
    slab = slab_of(parts, parts.outline, thickness)
    if mistakes := check_slab(slab):
        raise InputRefused(*mistakes)
    return slab


def _with_file(data: bytes, folder: Path, read: Callable[[Path], Read]) -> Read:
    """Reads bytes by way of a file of the moment, whose name is told to nobody."""
    from kerfline.files.scratch import scratch_file

    with scratch_file(folder, data, ".dxf") as path:
        try:
            return read(path)
        except InputRefused as refused:
            raise InputRefused(*(_unnamed(m, str(path)) for m in refused.mistakes)) from None


def _unnamed(mistake: Mistake, name: str) -> Mistake:
    values = {
        f.name: getattr(mistake, f.name).replace(name, "the drawing") for f in fields(mistake)
    }
    return Mistake(**values)


def _seen(path: Path, unit: Unit | None) -> SeenDrawing:
    from kerfline.files.drawing import propose

    drawing, declared = _read(path, unit)
    proposal = propose(drawing)
    x0, y0, x1, y1 = drawing.bounds
    return SeenDrawing(
        unit=drawing.unit,
        declared=declared,
        size=((x1 - x0) / drawing.factor, (y1 - y0) / drawing.factor),
        layers=_layers(drawing, _roles(drawing, proposal.layers)),
        notes=(*proposal.notes, *proposal.questions),
    )


def _read(path: Path, unit: Unit | None) -> tuple["Drawing", str]:
    """The drawing in the stated unit, else its own, else the first in which its size makes sense."""
    from kerfline.files.drawing import gather
    from kerfline.files.drawing.size import drawn_unit
    from kerfline.files.drawing.unit_choice import settled

    drawing = gather(path)
    if unit:
        return settled(drawing, drawn_unit(unit.value)), ""
    try:
        read = settled(drawing)
    except InputRefused:
        pass
    else:
        return read, read.unit_name
    for attempt in tuple(Unit)[:-1]:
        try:
            return settled(drawing, drawn_unit(attempt.value)), ""
        except InputRefused:
            continue
    return settled(drawing, drawn_unit(tuple(Unit)[-1].value)), ""


def _roles(drawing: "Drawing", layers: object) -> dict[str, str]:
    from kerfline.files.drawing.layers import chosen

    return {
        name: role
        for role in reversed(ROLES)
        for name in chosen(drawing.layers, getattr(layers, role))
    }


def _layers(drawing: "Drawing", roles: Mapping[str, str]) -> tuple[SeenLayer, ...]:
    """The layers with curves or points, the curves shown as far as the page can hold them."""
    left = MOST_POINTS
    out = []
    for name in drawing.layers:
        shown: list[tuple[Point, ...]] = []
        curves = drawing.on(name)
        for curve in curves:
            points = tuple((float(x), float(y)) for x, y in curve.path.coordinates)
            if len(points) > left:
                break
            left -= len(points)
            shown.append((*points, points[0]) if curve.path.closed else points)
        out.append(
            SeenLayer(
                name=name,
                role=roles.get(name, ""),
                hidden=name in drawing.hidden,
                paths=tuple(shown),
                count=len(curves),
            )
        )
    return tuple(out)
