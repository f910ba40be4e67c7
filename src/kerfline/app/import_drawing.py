"""Reads a file that holds a plan in two steps: show what it holds, then take what the user says each layer is."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass, fields, replace
from pathlib import Path
from typing import TYPE_CHECKING, TypeVar

from kerfline.app.drawing_words import told_in_lines
from kerfline.app.slab_edit import positive_length
from kerfline.errors import InputRefused, Mistake
from kerfline.geometry.ring import Point
from kerfline.model.slab import Slab
from kerfline.units import Unit, depth_unit

if TYPE_CHECKING:
    from kerfline.files.drawing import Drawing
    from kerfline.files.slab_parts import SlabParts

Read = TypeVar("Read")

MOST_POINTS = 40_000
"""Points of the drawing that the page shows; a larger drawing is shown in part and read in whole."""

ROLES = ("outline", "openings", "walls", "columns", "penetrations", "keep_outs", "joints")
"""What a layer can be."""

MODELLED = {
    "outline": "slab",
    "openings": "holes in it",
    "walls": "walls above it",
    "columns": "columns",
    "penetrations": "round holes",
}
"""What the parts of a building model are called where the page lists layers."""


@dataclass(frozen=True, kw_only=True)
class Brought:
    """A file that was brought to the page, and what is said of it.

    Attributes:
        data: Its bytes: a DXF, a DWG, a PDF or a building model.
        unit: The unit that the user states; None leaves it to the file.
        page: Page of a PDF, from 1; 0 where it is not said.
        scale: Scale of that page as text; empty where it is not said.
    """

    data: bytes
    unit: Unit | None = None
    page: int = 0
    scale: str = ""


@dataclass(frozen=True, kw_only=True)
class Taken:
    """What was taken of such a file.

    Attributes:
        slab: The slab.
        notes: How it was read and what was repaired, ten lines at most.
    """

    slab: Slab
    notes: tuple[str, ...]


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
        courts: What is left out of it as courts, mm.
        label: Where its number stands, mm.
        words: Its size, where it is drawn, what lies in it and what is doubtful.
    """

    number: int
    ring: tuple[Point, ...]
    courts: tuple[tuple[Point, ...], ...]
    label: Point
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


def look_at(brought: Brought, folder: Path) -> SeenDrawing:
    """Reads a file and proposes what its layers are.

    Args:
        brought: The file.
        folder: Where a temporary copy may lie while it is read.

    Raises:
        InputRefused: It is nothing that a plan can be read from, or it says too little of its scale.
    """

    def seen(path: Path) -> SeenDrawing:
        return _seen_model(path) if _is_model(path) else _seen(_gathered(path, brought), brought)

    return _with_file(brought.data, folder, seen)


def take(
    brought: Brought, folder: Path, roles: Mapping[str, str], thickness: str, slab: int = 0
) -> Taken:
    """The slab that a file gives, and what the user should know of the reading.

    Args:
        brought: The file; ``unit`` is that of the drawing and of the job.
        folder: Where a temporary copy may lie while it is read.
        roles: What each layer is, by its name.
        thickness: Thickness of the slab as text; only a building model may say it itself.
        slab: Number of the candidate that is the slab; 0 takes the layer that is its outline.

    Raises:
        InputRefused: The layers give no slab that makes sense.
    """
    layers = {role: tuple(sorted(n for n, r in roles.items() if r == role)) for role in ROLES}
    if not slab and not layers["outline"]:
        raise InputRefused(
            Mistake(what="no layer is the outline", remedy="say which layer holds the slab's edge")
        )

    def parts(path: Path) -> "tuple[SlabParts, float]":
        if _is_model(path):
            return _of_model(path, layers)
        return _of_drawing(_gathered(path, brought), brought, layers, slab), 0.0

    read, own = _with_file(brought.data, folder, parts)
    return Taken(
        slab=_slab(read, _thickness(thickness, brought.unit or Unit.MM, own)),
        notes=tuple(told_in_lines(read.reading, read.notes, "they are kept with the job")),
    )


def _is_model(path: Path) -> bool:
    from kerfline.files.kinds import DRAWINGS, Kind, cannot_start, kind_of

    kind = kind_of(path)
    if kind not in DRAWINGS:
        raise InputRefused(cannot_start(kind, path))
    return kind is Kind.IFC


def _gathered(path: Path, brought: Brought) -> "Drawing":
    """What a DXF, a DWG or a page of a PDF holds; a page is in its unit already."""
    from kerfline.files.drawing import gather
    from kerfline.files.kinds import Kind, kind_of
    from kerfline.files.plan_pdf.read_pdf import PageChoice, read_pdf

    if kind_of(path) is not Kind.PDF:
        return gather(path)
    return read_pdf(path, PageChoice(page=brought.page, scale=brought.scale, units=brought.unit))


def _of_drawing(
    drawing: "Drawing", brought: Brought, layers: Mapping[str, tuple[str, ...]], slab: int
) -> "SlabParts":
    """The parts of a drawing: around a numbered candidate, or on the layers of the outline."""
    from kerfline.files.drawing import ReadingWishes, reading
    from kerfline.files.drawing.account import Chosen, account
    from kerfline.files.drawing.size import drawn_unit

    told = {role: names for role, names in layers.items() if not (slab and role == "outline")}
    unit = drawn_unit(brought.unit.value) if brought.unit and not drawing.sure else None
    read = reading(drawing, ReadingWishes(unit=unit, layers=told, slab=slab or None))
    by = Chosen(
        layers=read.look.layers,
        told={role: names for role, names in told.items() if names},
        notes=read.look.proposal.notes,
    )
    return replace(read.parts, reading=account(read.drawing, read.parts, by))


def _of_model(path: Path, layers: Mapping[str, tuple[str, ...]]) -> "tuple[SlabParts, float]":
    """The parts of a building model that the user did not take out, and its slab's own thickness (mm)."""
    from kerfline.files.building.floors import FloorChoice
    from kerfline.files.building.read_apart import read_building_apart

    read = read_building_apart(path, FloorChoice())

    def kept(part: str) -> bool:
        return MODELLED[part] in layers[part]

    parts = read.parts
    return (
        replace(
            parts,
            openings=parts.openings if kept("openings") else (),
            walls=parts.walls if kept("walls") else (),
            columns=parts.columns if kept("columns") else (),
            penetrations=parts.penetrations if kept("penetrations") else (),
            reading=read.reading,
        ),
        read.thickness or 0.0,
    )


def _thickness(text: str, unit: Unit, own: float) -> float:
    """The thickness (mm) that was typed, else the model's own."""
    if own and not text.strip():
        return own
    return positive_length(text, depth_unit(unit), "thickness")


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

    with scratch_file(folder, data, ".drawing") as path:
        try:
            return read(path)
        except InputRefused as refused:
            unnamed = [_unnamed(m, (str(path), path.name)) for m in refused.mistakes]
            raise InputRefused(*unnamed) from None


def _unnamed(mistake: Mistake, names: tuple[str, ...]) -> Mistake:
    values = {f.name: str(getattr(mistake, f.name)) for f in fields(mistake)}
    for name in names:
        values = {key: text.replace(name, "the drawing") for key, text in values.items()}
    return Mistake(**values)


def _seen_model(path: Path) -> SeenDrawing:
    """What a building model gives, each part shown as a layer that may be left out."""
    from kerfline.files.building.floors import FloorChoice
    from kerfline.files.building.read_apart import read_building_apart

    read = read_building_apart(path, FloorChoice())
    drawn: dict[str, list[tuple[Point, ...]]] = {
        "outline": [_closed(read.parts.outline.coordinates)] if read.parts.outline else [],
        "openings": [_closed(o.coordinates) for o in read.parts.openings],
        "walls": [w.path for w in read.parts.walls],
        "columns": [_closed(c.outline.coordinates) for c in read.parts.columns if c.outline],
        "penetrations": [],
    }
    layers = tuple(
        SeenLayer(
            name=MODELLED[part], role=part, hidden=False, paths=tuple(paths), count=len(paths)
        )
        for part, paths in drawn.items()
        if paths or getattr(read.parts, part)
    )
    x0, y0, x1, y1 = read.parts.outline.polygon.bounds if read.parts.outline else (0.0,) * 4
    return SeenDrawing(
        unit=read.unit,
        known=True,
        candidates=(),
        slab=0,
        declared=f"{read.unit.value}, and what each thing is",
        size=((x1 - x0) / read.unit.mm, (y1 - y0) / read.unit.mm),
        layers=layers,
        notes=read.reading,
    )


def _closed(points: tuple[Point, ...]) -> tuple[Point, ...]:
    return (*points, points[0])


def _seen(drawing: "Drawing", brought: Brought) -> SeenDrawing:
    from kerfline.files.drawing import ReadingWishes, look_at
    from kerfline.files.drawing.candidates.question import described
    from kerfline.files.drawing.size import drawn_unit

    shown, known = _unit_of(drawing, brought.unit)
    unit = None if drawing.sure else drawn_unit(shown.value)
    look = look_at(drawing, ReadingWishes(unit=unit))
    drawing, proposal = look.drawing, look.proposal
    x0, y0, x1, y1 = drawing.bounds
    candidates = tuple(
        SeenCandidate(
            number=c.number,
            ring=c.ring.coordinates,
            courts=tuple(court.coordinates for court in c.courts),
            label=c.label,
            words=described(c, shown.display),
        )
        for c in proposal.decision.candidates
    )
    mm = shown.mm if drawing.sure else drawing.factor
    return SeenDrawing(
        unit=shown,
        known=known,
        candidates=candidates,
        slab=look.slab.number if look.slab and not look.question else 0,
        declared="" if brought.unit or not known else drawing.unit_name,
        size=((x1 - x0) / mm, (y1 - y0) / mm),
        layers=_layers(drawing, _roles(drawing, proposal.layers)),
        notes=(*proposal.notes, *proposal.questions),
    )


def _unit_of(drawing: "Drawing", unit: Unit | None) -> tuple[Unit, bool]:
    """The unit that is stated, else the drawing's own; where that is open, one to show it in, and that it is."""
    from kerfline.files.drawing.size import drawn_unit
    from kerfline.files.drawing.unit_choice import settled

    if unit:
        return unit, True
    if drawing.sure:
        return drawing.unit, True
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
