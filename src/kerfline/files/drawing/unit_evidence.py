"""What speaks for each unit that a drawing could be in: its header, dimensions, doors, walls, extents.

The points, and the sizes of doors, walls and plans that they hang on, are common practice, weighed on the drawings of
the forge (``tests/forge``).
"""

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace

import numpy as np
import shapely

from kerfline.files.drawing.curves import Curve
from kerfline.files.drawing.names import outline_rank, part_named
from kerfline.files.drawing.opened import Drawing
from kerfline.files.drawing.room_sizes import units_of_rooms
from kerfline.files.drawing.size import DRAWN, DrawnUnit, Size, sizes_of, unlikely
from kerfline.files.drawing.stated import units_stated
from kerfline.geometry.arrays import Numbers
from kerfline.geometry.near import Crowded, spots
from kerfline.geometry.parallel import paired
from kerfline.geometry.ring import Arc, arc_of
from kerfline.units import counted

TOLD_APART = DRAWN[:-1]
"""The units that evidence tells apart; nothing in a drawing tells the survey foot from the foot."""

HEADER = 3.0
"""Points for what the drawing itself says."""

DIMENSIONS = 4.0
"""Points for dimension texts that agree; one alone may be a slip."""

ONE_DIMENSION = 2.5

ROOMS = 4.0
"""Points for sizes that texts state of the rooms they stand in, where several agree."""

LEAST_ROOMS = 2
"""As many as that; one may agree by chance."""

DOORS = 3.0
"""Points for door swings of a door's size."""

WALLS = 1.5
"""Points for lines in pairs a wall apart: weaker, since other things are drawn in pairs."""

NO_WALLS = -1.0
"""Points of the stated unit where no line on a layer of walls has another one a wall apart, but would in another unit."""

TEXTS = 1.5
"""Points for texts of a height that is read on paper: they hang on how a plan is plotted, and so never tell alone."""

TEXT = (80.0, 700.0)
"""Height (mm) of a plan's texts: 2 to 5 mm on paper, plotted at 1:40 to 1:140; common practice."""

AGAINST = -2.0
"""Points where there are such swings, none of a door's size."""

ODD_SIZE = -1.5
"""Points where the whole would be an uncommonly large or small plan."""

ALONE = 1.5
"""Points for the one unit in which the whole has a common plan's size, where more speaks for it."""

COMMON = (3_000.0, 300_000.0)
"""Longer side (mm) of common plans; common practice."""

DOOR = (550.0, 1_300.0)
"""Width (mm) of a door leaf: 600 to 1,200, with room for how they are drawn; common practice."""

QUARTER = (75.0, 100.0)
"""Sweep (degrees) of a door's swing as it is drawn."""

HINGE = 0.15
"""A line ends this near the middle of a swing, as a share of its radius: the leaf, or the jamb."""

WALL = (75.0, 450.0)
"""Thickness (mm) of a wall: from a stud wall with boards to masonry with insulation; common practice."""

LEAST_WALL = 1_000.0
"""Length (mm) from which a pair of lines counts as a wall."""

SAMPLE = 1_200
"""Lines, the longest, that are looked at for walls."""

CLEAR = 0.25
"""Share of their length that runs in pairs for walls to speak at all."""


@dataclass(frozen=True, kw_only=True)
class UnitEvidence:
    """What speaks for one unit.

    Attributes:
        unit: The unit.
        points: The sum of what speaks for it and against it.
        words: What does, as clauses.
        possible: Whether a slab can have the size of what is drawn in it.
        walls: Share of the length of what is drawn that runs in pairs a wall apart.
    """

    unit: DrawnUnit
    points: float = 0.0
    words: tuple[str, ...] = field(default=())
    possible: bool = True
    walls: float = 0.0


def unit_evidence(drawing: Drawing) -> tuple[UnitEvidence, ...]:
    """What speaks for each unit, the most likely first."""
    curves = [c for c in drawing.curves if c.layer not in drawing.hidden] or [*drawing.curves]
    if drawing.factor != 1.0:
        curves = [c.scaled(1 / drawing.factor) for c in curves]
    sizes = sizes_of(curves)
    labels = [t for t in drawing.labels if t.layer not in drawing.hidden]
    lines = _longest(curves)
    places = [(t.text, (t.at[0] / drawing.factor, t.at[1] / drawing.factor)) for t in labels]
    seen = _Seen(
        sizes=sizes,
        stated=units_stated(drawing.stated),
        rooms=units_of_rooms(places, lines, sizes[0].longer),
        swings=_swings(curves),
        lines=lines,
        texts=[t.height / drawing.factor for t in labels if t.height],
    )
    known = [drawing.declared] if drawing.declared else []
    every = [*TOLD_APART, *(u for u in known if u not in TOLD_APART)]
    found = _alone([_for_unit(u, drawing.declared, seen) for u in every], sizes[0])
    if any(part_named(c.layer) == "walls" for c in curves):
        found = _without_walls(found, drawing.declared)
    return tuple(sorted(found, key=lambda e: (-e.possible, -round(e.points, 3))))


@dataclass(frozen=True, kw_only=True)
class _Seen:
    """What is looked at in a drawing, in its own units.

    Attributes:
        sizes: Sizes that tell of the unit.
        stated: How many dimensions state each unit.
        rooms: How many texts that state a room's size say each unit.
        swings: Radii of the swings of doors.
        lines: The longest straight lines, start and end.
        texts: Heights of texts.
    """

    sizes: Sequence[Size]
    stated: Mapping[str, int]
    rooms: Mapping[str, int]
    swings: Sequence[float]
    lines: Numbers
    texts: Sequence[float]


def _for_unit(unit: DrawnUnit, declared: DrawnUnit | None, seen: _Seen) -> UnitEvidence:
    points, words = 0.0, []
    if unit == declared:
        points += HEADER
        words.append("the drawing says so")
    agree = seen.stated.get(_like(unit), 0)
    if agree and 2 * agree > sum(seen.stated.values()):
        points += DIMENSIONS if agree > 1 else ONE_DIMENSION
        words.append(f"{counted(agree, 'dimension')} state{'s' if agree == 1 else ''} it")
    rooms = seen.rooms.get(_like(unit), 0)
    if rooms >= LEAST_ROOMS and 2 * rooms > sum(seen.rooms.values()):
        points += ROOMS
        words.append(f"the sizes of {rooms} rooms that texts state")
    if seen.swings:
        doors = sum(DOOR[0] <= r * unit.mm <= DOOR[1] for r in seen.swings)
        if 2 * doors >= len(seen.swings):
            points += DOORS
            words.append(f"{counted(doors, 'door swing')} of a door's width")
        elif not doors:
            points += AGAINST
    share = _walls(seen.lines * unit.mm) if len(seen.lines) else 0.0
    if share >= CLEAR:
        points += WALLS
        words.append("walls of a wall's thickness")
    if 2 * sum(TEXT[0] <= h * unit.mm <= TEXT[1] for h in seen.texts) > len(seen.texts):
        points += TEXTS
        words.append("texts of a height that is read on paper")
    size = seen.sizes[0].divided(1 / unit.mm)
    possible = not all(unlikely(s.divided(1 / unit.mm)) for s in seen.sizes)
    if not COMMON[0] <= size.longer <= COMMON[1]:
        points += ODD_SIZE
    return UnitEvidence(
        unit=unit, points=points, words=tuple(words), possible=possible, walls=share
    )


def _without_walls(found: Sequence[UnitEvidence], declared: DrawnUnit | None) -> list[UnitEvidence]:
    """The evidence where a layer is named for walls: the stated unit makes none of them, another one does."""
    another = any(e.possible and e.walls >= CLEAR for e in found)
    return [
        replace(e, points=e.points + NO_WALLS)
        if another and e.unit == declared and not e.walls
        else e
        for e in found
    ]


def _alone(found: Sequence[UnitEvidence], size: Size) -> list[UnitEvidence]:
    """The evidence, with what speaks for the one unit that gives the size of a common plan."""
    fitting = [e for e in found if COMMON[0] <= size.longer * e.unit.mm <= COMMON[1]]
    if len(fitting) != 1 or not fitting[0].words:
        return list(found)
    (only,) = fitting
    more = replace(
        only,
        points=only.points + ALONE,
        words=(*only.words, "no other unit makes a common plan's size of it"),
    )
    return [more if e is only else e for e in found]


def _like(unit: DrawnUnit) -> str:
    """What the user writes for the unit that evidence shows for this one."""
    return "ft" if unit.name == "US survey feet" else unit.said


def _swings(curves: Sequence[Curve]) -> list[float]:
    """Radii of the swings of doors, in drawing units."""
    return [arc.radius for arc in swings(curves)]


def swings(curves: Sequence[Curve]) -> list[Arc]:
    """The quarter circles about the end of a line, as a door's swing is about its hinge, of any size."""
    arcs = [arc for c in curves if not _speaks(c.layer) for arc in _quarters(c)]
    if not arcs:
        return []
    ends = [p for c in curves if not c.path.has_arcs for p in c.path.points]
    if not ends:
        return []
    tree = shapely.STRtree(spots(ends))
    return [
        a for a in arcs if len(tree.query(shapely.Point(a.centre), "dwithin", HINGE * a.radius))
    ]


def _speaks(layer: str) -> bool:
    """Whether a layer's name says that it holds something else than doors."""
    return part_named(layer) not in ("", "walls") or outline_rank(layer) is not None


def _quarters(curve: Curve) -> list[Arc]:
    path = curve.path
    if path.closed or len(path.points) != 2 or not path.bulges:  # noqa: PLR2004 - one arc
        return []
    arc = arc_of(path.points[0], path.points[1], path.bulges[0])
    return [arc] if QUARTER[0] <= abs(arc.sweep) <= QUARTER[1] else []


def _longest(curves: Sequence[Curve]) -> Numbers:
    """The longest straight lines, in drawing units, each once."""
    rows = [(*s.start, *s.end) for c in curves for s in c.path.segments() if not s.bulge]
    every = np.asarray(rows, dtype=float).reshape(-1, 4)
    if not len(every):
        return every
    length = np.hypot(every[:, 2] - every[:, 0], every[:, 3] - every[:, 1])
    order = np.lexsort((every[:, 1], every[:, 0], -np.round(length, 6)))[:SAMPLE]
    kept: Numbers = every[order][length[order] > 0]
    return kept


def _walls(lines: Numbers) -> float:
    """Share of the length of the lines (mm) that are faces of walls."""
    length = np.hypot(lines[:, 2] - lines[:, 0], lines[:, 3] - lines[:, 1])
    long = lines[length >= LEAST_WALL]
    total = float(length[length >= LEAST_WALL].sum())
    if not len(long) or not math.isfinite(total):
        return 0.0
    try:
        strips = paired(long, *WALL).strips
    except Crowded:
        return 0.0
    return 2 * sum(s.length for s in strips if s.length >= LEAST_WALL) / total
