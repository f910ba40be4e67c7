"""Walls out of a drawing: single lines, and pairs of parallel faces with their doors bridged."""

from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np
import shapely
from shapely import LineString

from kerfline.files.drawing.curves import Curve
from kerfline.files.drawing.wording import counted, place, wide
from kerfline.geometry.chains import MEET
from kerfline.geometry.collinear import collinear_runs
from kerfline.geometry.faces import lines_of
from kerfline.geometry.near import Floats
from kerfline.geometry.parallel import Strip, paired
from kerfline.geometry.ring import Point, Ring
from kerfline.model.slab import Wall
from kerfline.units import Display, format_depth

THINNEST = 50.0
"""Two lines closer than this (mm) are not the faces of a wall."""

THICKEST = 510.0
"""Two lines further apart than this (mm, 20 in) are not the faces of a wall."""

DOOR = 1220.0
"""Widest gap (mm, 4 ft) in a wall that is bridged as a door."""

UNLISTED = 300.0
"""Gaps up to this (mm) are left by walls that meet, not by doors; they are bridged without a word."""

ASSUMED = 114.3
"""Thickness (mm, 4 1/2 in) of a wall that is drawn as a single line; common practice for a stud wall."""

SHORTEST = 600.0
"""A wall shorter than this (mm) decides nothing about joints."""

MOSTLY = 0.5
"""From this share of paired length on, a single line on a layer is a leftover, not a wall."""

IN_LINE = 5.0
"""Centre lines this far (mm) out of line are one wall."""

ALIKE = 12.0
"""Thicknesses this far apart (mm) are one wall's."""


@dataclass(frozen=True, kw_only=True)
class _Piece:
    """A straight stretch of wall."""

    start: Point
    end: Point
    thickness: float

    @property
    def row(self) -> list[float]:
        return [*self.start, *self.end]


def read_walls(
    curves: Sequence[Curve], outline: Ring | None, display: Display, door: float = DOOR
) -> tuple[tuple[Wall, ...], tuple[str, ...]]:
    """The interior walls, and notes on how they were found.

    Args:
        curves: Curves on the walls' layers.
        outline: The slab's outline; walls along it and outside it are left out; None where it is not known.
        display: How lengths are written.
        door: Widest gap that is bridged, mm.
    """
    notes: list[str] = []
    pieces: list[_Piece] = []
    for layer in sorted({c.layer for c in curves}):
        found, more = _of_layer([c for c in curves if c.layer == layer], layer, display)
        pieces += found
        notes += more
    joined, bridged = _joined(pieces, door, display)
    inside, more = _inside(_meeting(joined), outline, display)
    return _named(inside), (*notes, *bridged, *more)


def _of_layer(
    curves: Sequence[Curve], layer: str, display: Display
) -> tuple[list[_Piece], list[str]]:
    rows = _straight(curves)
    runs = collinear_runs(rows, MEET)
    lines = np.asarray([[*r.start, *r.end] for r in runs]).reshape(-1, 4)
    faces = paired(lines, THINNEST, THICKEST)
    strips = [_piece_of(s) for s in faces.strips]
    total = sum(r.length for r in runs)
    in_pairs = total - sum(faces.left)
    if not total:
        return [], []
    singles = [
        i
        for i, r in enumerate(runs)
        if faces.left[i] > (1 - 1e-3) * r.length and r.length > THICKEST
    ]
    left = sum(faces.left)
    if in_pairs > MOSTLY * total:
        notes = [
            f"{layer}: walls were recovered from pairs of lines ({counted(len(strips), 'piece')})."
        ]
        if left > SHORTEST:
            notes.append(
                f"{layer}: lines without a partner were left out, {wide(left, display)} in all."
            )
        return strips, notes
    alone = [_Piece(start=runs[i].start, end=runs[i].end, thickness=ASSUMED) for i in singles]
    notes = []
    if alone:
        notes.append(
            f"{layer}: {counted(len(alone), 'single line')} taken as centre lines of walls "
            f"{format_depth(ASSUMED, display)} thick (assumed)."
        )
    return strips + alone, notes


def _straight(curves: Sequence[Curve]) -> Floats:
    """The straight segments of the curves."""
    rows = [(*s.start, *s.end) for c in curves for s in c.path.segments() if not s.bulge]
    return np.asarray(rows, dtype=float).reshape(-1, 4)


def _piece_of(strip: Strip) -> _Piece:
    return _Piece(start=strip.start, end=strip.end, thickness=strip.thickness)


def _joined(
    pieces: Sequence[_Piece], door: float, display: Display
) -> tuple[list[_Piece], list[str]]:
    """Pieces in one line as one wall, over doors and meeting walls."""
    if not pieces:
        return [], []
    rows = np.asarray([p.row for p in pieces])
    thickness = np.asarray([p.thickness for p in pieces])
    out, notes = [], []
    for run in collinear_runs(rows, door, IN_LINE, thickness, ALIKE):
        lengths = [float(np.hypot(*(rows[i, 2:] - rows[i, :2]))) for i in run.pieces]
        mean = float(np.average(thickness[list(run.pieces)], weights=lengths))
        out.append(_Piece(start=run.start, end=run.end, thickness=mean))
        notes += [
            f"Bridged a gap of {wide(g.size, display)} in a wall at {place(g.start, display)}, taken "
            "for a door."
            for g in run.gaps
            if g.size > UNLISTED
        ]
    return out, notes


def _meeting(pieces: Sequence[_Piece]) -> list[_Piece]:
    """Pieces carried on to the centre lines of the walls that they meet."""
    lines = [LineString([p.start, p.end]) for p in pieces]
    tree = shapely.STRtree(lines)
    out = []
    for index, piece in enumerate(pieces):
        near = tree.query(lines[index], predicate="dwithin", distance=THICKEST)
        others = [pieces[i] for i in sorted(near.tolist()) if i != index]
        start = _carried(piece, piece.end, piece.start, others)
        end = _carried(piece, piece.start, piece.end, others)
        out.append(replace(piece, start=start, end=end))
    return out


def _carried(piece: _Piece, inner: Point, at: Point, others: Sequence[_Piece]) -> Point:
    """The end of a wall, moved onto the centre line of a wall that it meets."""
    size = float(np.hypot(at[0] - inner[0], at[1] - inner[1]))
    ux, uy = (at[0] - inner[0]) / size, (at[1] - inner[1]) / size
    best: tuple[float, Point] | None = None
    for other in others:
        moved = _reach(at, (ux, uy), piece.thickness, other)
        if moved is None or moved <= -size:
            continue
        if best is None or abs(moved) < abs(best[0]):
            best = (moved, (at[0] + ux * moved, at[1] + uy * moved))
    return best[1] if best else at


def _reach(at: Point, way: Point, thickness: float, other: _Piece) -> float | None:
    """How far the end must move along its way onto another wall's centre line; None where it does not meet it."""
    dx, dy = other.end[0] - other.start[0], other.end[1] - other.start[1]
    length = float(np.hypot(dx, dy))
    cross = way[0] * dy - way[1] * dx
    if abs(cross) < 0.2 * length:
        return None
    ex, ey = other.start[0] - at[0], other.start[1] - at[1]
    moved = (ex * dy - ey * dx) / cross
    along = (ex * way[1] - ey * way[0]) / cross * length
    slack = thickness / 2 + IN_LINE
    if not -slack <= along <= length + slack:
        return None
    reach = (other.thickness / 2 + IN_LINE) / max(abs(cross) / length, 0.2)
    return moved if abs(moved) <= reach else None


def _inside(
    pieces: Sequence[_Piece], outline: Ring | None, display: Display
) -> tuple[list[_Piece], list[str]]:
    """The pieces that stand on the slab, those along its edge and short ones left out."""
    if outline is None:
        return list(pieces), []
    slab = outline.polygon
    kept: list[_Piece] = []
    outside = along = short = 0
    for piece in pieces:
        line = LineString([piece.start, piece.end])
        on = line.intersection(slab)
        outside += bool(line.length - on.length > THICKEST)
        edge = slab.exterior.buffer(piece.thickness)
        free = [part for part in lines_of(on.difference(edge)) if part.length > 0]
        free_length = sum(part.length for part in free)
        if on.length > SHORTEST and free_length < SHORTEST:
            along += 1
        elif on.length <= SHORTEST:
            short += bool(on.length)
        else:
            kept += [
                replace(piece, start=_point(p.coords[0]), end=_point(p.coords[-1]))
                for p in lines_of(on)
                if p.length > SHORTEST
            ]
    notes = []
    if outside:
        notes.append(f"{counted(outside, 'wall')} outside the slab left out or cut at its edge.")
    if along:
        notes.append(
            f"{counted(along, 'wall')} along the slab's edge left out: no joint goes there."
        )
    if short:
        notes.append(f"{counted(short, 'wall')} under {wide(SHORTEST, display)} long left out.")
    return kept, notes


def _point(coordinates: Sequence[float]) -> Point:
    return (float(coordinates[0]), float(coordinates[1]))


def _named(pieces: Sequence[_Piece]) -> tuple[Wall, ...]:
    """The walls in reading order."""
    ordered = sorted(pieces, key=lambda p: _reading(p.start, p.end))
    return tuple(
        Wall(id=f"W{n}", path=_left_first(p), thickness=p.thickness)
        for n, p in enumerate(ordered, start=1)
    )


def _left_first(piece: _Piece) -> tuple[Point, ...]:
    ends = sorted((piece.start, piece.end), key=lambda p: (round(p[0], 1), round(p[1], 1)))
    return tuple(ends)


def _reading(start: Point, end: Point) -> tuple[float, float]:
    return (round(min(start[1], end[1]), 1), round(min(start[0], end[0]), 1))
