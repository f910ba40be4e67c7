"""Stretches of wall out of the lines and arcs of one layer: pairs of faces, or single lines.

The sizes and shares below are common practice, weighed on the drawings of the forge (``tests/forge``).
"""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from shapely import LineString, Polygon

from kerfline.files.drawing.curves import Curve
from kerfline.files.drawing.wording import wide
from kerfline.geometry.arcs import ArcRun, arc_runs, paired_arcs
from kerfline.geometry.arrays import Numbers
from kerfline.geometry.chains import MEET
from kerfline.geometry.collinear import collinear_runs
from kerfline.geometry.near import Crowded
from kerfline.geometry.parallel import paired
from kerfline.geometry.rectangle import enclosing_rectangle
from kerfline.geometry.ring import Arc, Point, arc_of
from kerfline.units import Display, counted, format_depth

THINNEST = 50.0
"""Two lines closer than this (mm) are not the faces of a wall."""

THICKEST = 510.0
"""Two lines further apart than this (mm, 20 in) are not the faces of a wall."""

MASONRY = 900.0
"""Thickest walls (mm): of old masonry, rubble and earth. Only on layers of walls, where no thinner ones explain them."""

THING = 1_200.0
SLENDER = 2.0
"""Where other things are drawn too, a closed figure no longer than the first (mm), and less than so many times as long as
wide, is a column or stands in a room."""

ASSUMED = 114.3
"""Thickness (mm, 4 1/2 in) of a wall that is drawn as a single line; common practice for a stud wall."""

MOSTLY = 0.5
"""From this share of paired length on, a single line on a layer is a leftover, not a wall."""

UNMENTIONED = 600.0
"""Leftover lines of less than this (mm) in all are ends of walls: nothing to speak of."""

SWING = 1300.0
"""A quarter circle up to this radius (mm) is the swing of a door."""

QUARTER = 100.0
"""Sweep (degrees) up to which an arc may be the swing of a door."""

ALL_ROUND = 359.0
"""An arc of more than this (degrees) is a circle: a column, a tank, a bubble."""


@dataclass(frozen=True, kw_only=True)
class Piece:
    """A stretch of wall: its centre line and its thickness, in mm."""

    path: tuple[Point, ...]
    thickness: float

    @property
    def straight(self) -> bool:
        """Whether it runs straight."""
        return len(self.path) == 2  # noqa: PLR2004 - two points

    @property
    def line(self) -> LineString:
        """The centre line."""
        return LineString(self.path)

    @property
    def row(self) -> list[float]:
        """Both ends of a straight stretch as ``x0 y0 x1 y1``."""
        return [*self.path[0], *self.path[-1]]


@dataclass(frozen=True, kw_only=True)
class Faces:
    """What the lines of a layer give when they are read as the faces of walls.

    Attributes:
        pieces: The stretches between pairs of faces.
        singles: Long lines and arcs that are a face of nothing.
        length: Length of all lines, mm, each place counted once.
        left: Length of what is a face of nothing.
        lines: The lines that are faces for the greater part of their length.
    """

    pieces: tuple[Piece, ...]
    singles: tuple[Piece, ...]
    length: float
    left: float
    lines: tuple[LineString, ...] = ()

    @property
    def mostly(self) -> bool:
        """Whether most of what is drawn is faces of walls."""
        return self.length - self.left > MOSTLY * self.length


def faces_of_walls(curves: Sequence[Curve]) -> Faces:
    """Reads a layer that holds walls and nothing else: as ``faces_of``, or with thicker walls where only they pair."""
    found = faces_of(curves)
    if found.mostly:
        return found
    thick = faces_of(curves, MASONRY)
    return thick if thick.mostly else found


def faces_of(curves: Sequence[Curve], thickest: float = THICKEST) -> Faces:
    """Reads lines and arcs as faces of walls, and wide lines as walls of their width.

    Args:
        curves: The curves.
        thickest: Two lines further apart than this (mm) are not the faces of a wall.
    """
    bodies = pieces_of_width(curves)
    curves = [c for c in curves if not THINNEST <= c.width <= THICKEST]
    runs = [r for r in collinear_runs(_straight(curves), MEET) if r.length > MEET]
    lines = np.asarray([[*r.start, *r.end] for r in runs], dtype=float).reshape(-1, 4)
    found = paired(lines, THINNEST, thickest)
    bent, arcs = _paired_arcs(arc_runs(_arcs(curves), MEET))
    strips = [Piece(path=(s.start, s.end), thickness=s.thickness) for s in found.strips]
    singles = [
        Piece(path=(r.start, r.end), thickness=ASSUMED)
        for r, free in zip(runs, found.left, strict=True)
        if free > (1 - 1e-3) * r.length and r.length > THICKEST
    ]
    singles += [Piece(path=a.points, thickness=ASSUMED) for a in arcs]
    alone = sum(p.line.length for p in singles if not p.straight)
    return Faces(
        pieces=(*bodies, *strips, *bent),
        singles=tuple(singles),
        length=sum(r.length for r in runs)
        + alone
        + 2 * sum(p.line.length for p in (*bodies, *bent)),
        left=sum(found.left) + alone,
        lines=tuple(
            LineString([r.start, r.end])
            for r, free in zip(runs, found.left, strict=True)
            if free < (1 - MOSTLY) * r.length
        ),
    )


def pieces_of_width(curves: Sequence[Curve]) -> list[Piece]:
    """The stretches of wall that are drawn as lines of a wall's width."""
    return [
        Piece(path=(s.start, s.end), thickness=c.width)
        for c in curves
        if THINNEST <= c.width <= THICKEST
        for s in c.path.segments()
        if not s.bulge
    ]


def pairs_of(curves: Sequence[Curve]) -> tuple[Piece, ...]:
    """The stretches of wall between pairs of faces; none where too much is drawn to pair it."""
    try:
        return faces_of(curves).pieces
    except Crowded:
        return ()


def pieces_of(
    curves: Sequence[Curve], layer: str, display: Display, *, singles: bool = True
) -> tuple[list[Piece], list[str]]:
    """The stretches of wall on one layer, and notes on how they were found.

    Args:
        curves: The curves of the layer.
        layer: Its name.
        display: How lengths are written.
        singles: Whether a single line may be the centre line of a wall; not where other things are drawn too.
    """
    faces = faces_of_walls(curves) if singles else faces_of([c for c in curves if not _thing(c)])
    if faces.mostly or not singles:
        return [*faces.pieces], _pair_notes(layer, len(faces.pieces), faces.left, display)
    return (
        [*faces.pieces, *faces.singles],
        _single_notes(layer, len(faces.singles), display),
    )


def _thing(curve: Curve) -> bool:
    """Whether a curve is a column or stands in a room, by its size and shape."""
    if not curve.path.closed:
        return False
    box = enclosing_rectangle(Polygon(curve.path.coordinates))
    return box.length <= THING and box.length < SLENDER * box.width


def _pair_notes(layer: str, count: int, left: float, display: Display) -> list[str]:
    notes = [f"{layer}: walls recovered from pairs of lines ({counted(count, 'piece')})."]
    if left > UNMENTIONED:
        without = "ends of walls, jambs, faces whose other side is not drawn"
        notes.append(
            f"{layer}: lines without a partner left out, {wide(left, display)} in all ({without})."
        )
    return notes


def _single_notes(layer: str, count: int, display: Display) -> list[str]:
    if not count:
        return []
    thick = format_depth(ASSUMED, display)
    what = f"{counted(count, 'single line')} taken as centre lines of walls"
    return [f"{layer}: {what} {thick} thick (assumed)."]


def _straight(curves: Sequence[Curve]) -> Numbers:
    """The straight segments of the curves."""
    rows = [(*s.start, *s.end) for c in curves for s in c.path.segments() if not s.bulge]
    every = np.asarray(rows, dtype=float).reshape(-1, 4)
    # What is drawn again and again on one spot is there once.
    _, first = np.unique(np.round(every, 1), axis=0, return_index=True)
    return every[np.sort(first)]


def _arcs(curves: Sequence[Curve]) -> list[Arc]:
    return [arc_of(s.start, s.end, s.bulge) for c in curves for s in c.path.segments() if s.bulge]


def _paired_arcs(runs: Sequence[ArcRun]) -> tuple[list[Piece], list[ArcRun]]:
    """Pairs of arcs about one centre as curved walls, and the arcs that are left and may be walls."""
    strips = paired_arcs([r.arc for r in runs], THINNEST, THICKEST, MOSTLY)
    used = {face for strip in strips for face in strip.faces}
    made = [Piece(path=s.points, thickness=s.thickness) for s in strips]
    return made, [r for i, r in enumerate(runs) if i not in used and not _no_wall(r.arc)]


def _no_wall(arc: Arc) -> bool:
    """Whether an arc by itself is the swing of a door or a whole circle."""
    return (arc.radius <= SWING and arc.sweep <= QUARTER) or arc.sweep > ALL_ROUND
