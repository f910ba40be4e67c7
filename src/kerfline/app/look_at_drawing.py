"""What a file holds that was brought to the page: its layers and what each may be, for the user to judge."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING

import shapely

from kerfline.app.brought import MODELLED, ROLES, Brought, gathered, is_model, unnamed
from kerfline.errors import InputRefused
from kerfline.geometry.ring import Point
from kerfline.units import Unit, format_depth

if TYPE_CHECKING:
    from kerfline.files.building import FloorQuestion
    from kerfline.files.drawing import Drawing

MOST_POINTS = 40_000
"""Points of the drawing that the page shows; a larger drawing is shown in part and read in whole."""


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
        label: Where its number stands, mm.
        courts: What is left out of it as courts, mm.
        words: Its size, where it is drawn, what lies in it and what is doubtful.
    """

    number: int
    ring: tuple[Point, ...]
    label: Point
    words: str
    courts: tuple[tuple[Point, ...], ...] = ()


@dataclass(frozen=True, kw_only=True)
class SeenDrawing:
    """What a drawing holds, for the user to judge.

    Attributes:
        unit: The unit that it was read in.
        known: Whether that is its unit, by what it says and shows, or by what the user said; else it is
            one in which its size can be shown.
        declared: What the drawing says of its unit; empty where it says nothing that can be right.
        size: Width and height of what is drawn: mm where it is measured, else in drawing units.
        measured: Whether its size is certain, so that the unit is that of the job alone.
        layers: Its layers; none where a question comes first.
        notes: Why each layer was taken for what, and what is doubtful.
        candidates: The figures, or floors, that may be the slab, the likeliest first.
        slab: Number of the figure that is clearly it; 0 where the user must say.
        model: Whether it is a building model.
        storeys: Its storeys that have floors, from the lowest up.
        asks: What only the user can say of its floors; empty where nothing is.
        together: Whether all of those floors can be one slab.
        thickness: Thickness of its slab as text; empty where it says none.
    """

    unit: Unit
    known: bool
    declared: str
    size: tuple[float, float]
    measured: bool
    layers: tuple[SeenLayer, ...] = ()
    notes: tuple[str, ...] = ()
    candidates: tuple[SeenCandidate, ...] = ()
    slab: int = 0
    model: bool = False
    storeys: tuple[str, ...] = ()
    asks: str = ""
    together: bool = False
    thickness: str = ""


def look_at(
    path: Path, brought: Brought, progress: Callable[[str], None] | None = None
) -> SeenDrawing:
    """Reads a file and proposes what its layers are.

    Args:
        path: The file.
        brought: What is said of it.
        progress: Told in words what is being done.

    Raises:
        InputRefused: It is nothing that a plan can be read from, or it says too little of its scale.
    """
    tell = progress or (lambda _: None)
    with unnamed(path):
        if is_model(path):
            tell("Reading the building model; a whole house takes a few seconds")
            return _seen_model(path, brought)
        tell("Reading its lines")
        drawing = gathered(path, brought)
        tell("Looking for the slab")
        return _seen(drawing, brought)


def _seen_model(path: Path, brought: Brought) -> SeenDrawing:
    """What a building model gives, each part shown as a layer that may be left out."""
    from kerfline.files.building import FloorChoice, FloorQuestion
    from kerfline.files.building.read_apart import read_building_apart

    try:
        read = read_building_apart(path, FloorChoice(storey=brought.storey, slab=brought.floor))
    except FloorQuestion as question:
        return _asked(question, brought)
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
    bounds = read.parts.outline.polygon.bounds if read.parts.outline else (0.0,) * 4
    return SeenDrawing(
        unit=brought.unit or read.unit,
        known=True,
        declared=f"{read.unit.value}, and what each thing is",
        size=_size(bounds),
        measured=True,
        layers=layers,
        notes=read.reading,
        model=True,
        storeys=read.storeys,
        thickness=format_depth(read.thickness, read.unit.display) if read.thickness else "",
    )


def _asked(question: "FloorQuestion", brought: Brought) -> SeenDrawing:
    """A building model of which only the user can say which floor is the slab on ground."""
    floors = [shapely.Polygon(each.ring) for each in question.offers]
    return SeenDrawing(
        unit=brought.unit or question.unit,
        known=True,
        declared="",
        size=_size(shapely.union_all(floors).bounds),
        measured=True,
        candidates=tuple(
            SeenCandidate(
                number=each.number, ring=each.ring, label=_inside(floor), words=each.words
            )
            for each, floor in zip(question.offers, floors, strict=True)
        ),
        model=True,
        storeys=question.storeys,
        asks=question.asks,
        together=question.together,
    )


def _inside(floor: shapely.Polygon) -> Point:
    spot = floor.representative_point()
    return (float(spot.x), float(spot.y))


def _size(bounds: tuple[float, float, float, float]) -> tuple[float, float]:
    x0, y0, x1, y1 = bounds
    return (x1 - x0, y1 - y0)


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
    wide, high = _size(drawing.bounds)
    mm = 1.0 if drawing.sure else drawing.factor
    return SeenDrawing(
        unit=shown,
        known=known,
        candidates=candidates,
        slab=look.slab.number if look.slab and not look.question else 0,
        declared="" if brought.unit or not known else drawing.unit_name,
        size=(wide / mm, high / mm),
        measured=drawing.sure,
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
            shown.append(points)
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
