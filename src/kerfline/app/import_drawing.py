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
class SeenCandidate:
    """One figure that may be the slab.

    Attributes:
        number: What the user calls it, from 1.
        ring: Its edge, mm.
        words: Its size, where it is drawn, what lies in it and what is doubtful.
    """

    number: int
    ring: tuple[Point, ...]
    words: str


@dataclass(frozen=True, kw_only=True)
class SeenDrawing:
    """What a drawing holds, for the user to judge.

    Attributes:
        unit: The unit that it was read in.
        known: Whether that is its unit, by what it says and shows, or by what the user said; else it is
            one in which its size can be shown.
        candidates: The figures that may be the slab, the likeliest first.
        slab: Number of the one that is clearly it; 0 where the user must say.
        declared: What the drawing says of its unit; empty where it says nothing that can be right.
        size: Width and height of what is drawn, in drawing units.
        layers: Its layers.
        notes: Why each layer was taken for what, and what is doubtful.
    """

    unit: Unit
    known: bool
    candidates: tuple[SeenCandidate, ...]
    slab: int
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
    data: bytes,
    folder: Path,
    unit: Unit,
    roles: Mapping[str, str],
    thickness: float,
    slab: int = 0,
) -> tuple[Slab, tuple[str, ...]]:
    """The slab that a drawing gives, and what the user should know of the reading.

    Args:
        data: The DXF file.
        folder: Where a temporary copy may lie while it is read.
        unit: The unit of the drawing.
        roles: What each layer is, by its name.
        thickness: Thickness of the slab, mm.
        slab: Number of the candidate that is the slab; 0 takes the layer that is its outline.

    Raises:
        InputRefused: The layers give no slab that makes sense.
    """
    from kerfline.files.drawing import Layers, read_slab_parts

    if slab:
        return _candidate(data, folder, unit, roles, thickness, slab)
    named = {role: tuple(sorted(n for n, r in roles.items() if r == role)) for role in ROLES}
    if not named["outline"]:
        raise InputRefused(
            Mistake(what="no layer is the outline", remedy="say which layer holds the slab's edge")
        )
    layers = Layers(**named)
    parts = _with_file(data, folder, lambda path: read_slab_parts(path, layers, unit))
    return _slab(parts, thickness), parts.notes


def _candidate(
    data: bytes,
    folder: Path,
    unit: Unit,
    roles: Mapping[str, str],
    thickness: float,
    slab: int,
) -> tuple[Slab, tuple[str, ...]]:
    """The slab of a numbered candidate, with the other parts from the layers that were named."""
    from kerfline.files.drawing import ReadingWishes, gather, reading
    from kerfline.files.drawing.size import drawn_unit

    layers = {
        role: tuple(sorted(n for n, r in roles.items() if r == role))
        for role in ROLES
        if role != "outline"
    }
    wishes = ReadingWishes(unit=drawn_unit(unit.value), layers=layers, slab=slab)
    parts = _with_file(data, folder, lambda path: reading(gather(path), wishes)).parts
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
    from kerfline.files.drawing import ReadingWishes, gather, look_at
    from kerfline.files.drawing.candidates.question import described
    from kerfline.files.drawing.size import drawn_unit

    drawing = gather(path)
    shown, known = _unit_of(drawing, unit)
    look = look_at(drawing, ReadingWishes(unit=drawn_unit(shown.value)))
    drawing, proposal = look.drawing, look.proposal
    x0, y0, x1, y1 = drawing.bounds
    candidates = tuple(
        SeenCandidate(
            number=c.number,
            ring=tuple((float(x), float(y)) for x, y in c.ring.coordinates),
            words=described(c, shown.display),
        )
        for c in proposal.decision.candidates
    )
    return SeenDrawing(
        unit=shown,
        known=known,
        candidates=candidates,
        slab=look.slab.number if look.slab and not look.question else 0,
        declared="" if unit or not known else drawing.unit_name,
        size=((x1 - x0) / drawing.factor, (y1 - y0) / drawing.factor),
        layers=_layers(drawing, _roles(drawing, proposal.layers)),
        notes=(*proposal.notes, *proposal.questions),
    )


def _unit_of(drawing: "Drawing", unit: Unit | None) -> tuple[Unit, bool]:
    """The unit that is stated, else the drawing's own; where that is open, one to show it in, and that it is."""
    from kerfline.files.drawing.size import drawn_unit
    from kerfline.files.drawing.unit_choice import settled

    if unit:
        return unit, True
    try:
        return settled(drawing).unit, True
    except InputRefused:
        pass
    for attempt in tuple(Unit)[:-1]:
        try:
            settled(drawing, drawn_unit(attempt.value))
        except InputRefused:
            continue
        return attempt, False
    return tuple(Unit)[-1], False


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
