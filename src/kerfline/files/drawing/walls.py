"""Walls out of a drawing: their stretches joined over doors, carried on to where they meet, put on the slab.

The sizes and shares below are common practice, weighed on the drawings of the forge (``tests/forge``).
"""

from collections.abc import Sequence
from dataclasses import replace

import numpy as np
import shapely
from shapely import LineString, Polygon
from shapely.geometry.base import BaseGeometry

from kerfline.files.drawing.curves import Curve
from kerfline.files.drawing.wall_pieces import THICKEST, Piece, pieces_of
from kerfline.files.drawing.wording import fine, fine_point, place, wide
from kerfline.geometry.chains import Gap
from kerfline.geometry.collinear import collinear_runs
from kerfline.geometry.faces import lines_of
from kerfline.geometry.near import near_pairs
from kerfline.geometry.ring import Point, Ring
from kerfline.model.slab import Wall
from kerfline.units import Display, counted

DOOR = 1220.0
"""Widest gap (mm, 4 ft) in a wall that is bridged as a door."""

UNLISTED = 300.0
"""Gaps up to this (mm) are left by walls that meet, not by doors; they are bridged without a word."""

SHORTEST = 600.0
"""A wall shorter than this (mm) decides nothing about joints."""

RIM = 150.0
"""An outer wall may stand this far (mm, 6 in) inside the slab's edge: on a ledge for bricks or boards."""

BESIDE = 2.0
"""A wall that stays that near the edge for longer than this many times as much runs along it."""

HAIR = 0.1
"""Two lines on one another lie no farther apart (mm)."""

IN_LINE = 5.0
"""Centre lines this far (mm) out of line are one wall."""

ALIKE = 12.0
"""Thicknesses this far apart (mm) are one wall's."""

FLATTEST = 0.2
"""Sine of the least angle (about 12 degrees) at which one wall is carried on to another."""


def read_walls(
    curves: Sequence[Curve],
    outline: Ring | None,
    display: Display,
    door: float = DOOR,
    mixed: frozenset[str] = frozenset(),
) -> tuple[tuple[Wall, ...], tuple[str, ...]]:
    """The interior walls, and notes on how they were found.

    Args:
        curves: Curves on the walls' layers.
        outline: The slab's outline; walls along it and outside it are left out; None where it is not known.
        display: How lengths are written.
        door: Widest gap that is bridged, mm.
        mixed: Layers that hold other things too, so that single lines are no walls.
    """
    notes: list[str] = []
    pieces: list[Piece] = []
    for layer in sorted({c.layer for c in curves}):
        own = [c for c in curves if c.layer == layer]
        found, more = pieces_of(own, layer, display, singles=layer not in mixed)
        pieces += found
        notes += more
    straight, bridged = _joined([p for p in pieces if p.straight], door, display)
    whole = [*_meeting(straight), *(p for p in pieces if not p.straight)]
    inside, more = _inside(whole, outline, display)
    return _named(inside), (*notes, *bridged, *more)


def _joined(
    pieces: Sequence[Piece], door: float, display: Display
) -> tuple[list[Piece], list[str]]:
    """Pieces in one line as one wall, over doors and meeting walls."""
    if not pieces:
        return [], []
    rows = np.asarray([p.row for p in pieces])
    thickness = np.asarray([p.thickness for p in pieces])
    out: list[Piece] = []
    doors: list[Gap] = []
    for run in collinear_runs(rows, door, IN_LINE, thickness, ALIKE):
        lengths = [float(np.hypot(*(rows[i, 2:] - rows[i, :2]))) for i in run.pieces]
        mean = float(np.average(thickness[list(run.pieces)], weights=lengths))
        out.append(Piece(path=(run.start, run.end), thickness=mean))
        doors += [g for g in run.gaps if g.size > UNLISTED]
    return out, _door_notes(doors, display)


def _door_notes(doors: Sequence[Gap], display: Display) -> list[str]:
    """A sentence on the gaps that were bridged."""
    if not doors:
        return []
    if len(doors) == 1:
        (door,) = doors
        at = f"{wide(door.size, display)} in a wall at {place(door.start, display)}"
        return [f"Bridged a gap of {at}, taken for a door."]
    sizes = [d.size for d in doors]
    span = f"{wide(min(sizes), display)} to {wide(max(sizes), display)}"
    return [f"Bridged {len(doors):,} gaps of {span} in walls, taken for doors."]


def _meeting(pieces: Sequence[Piece]) -> list[Piece]:
    """Pieces carried on to the centre lines of the walls that they meet."""
    near: dict[int, list[Piece]] = {}
    first, second = near_pairs([p.line for p in pieces], THICKEST)
    for a, b in zip(first.tolist(), second.tolist(), strict=True):
        near.setdefault(a, []).append(pieces[b])
        near.setdefault(b, []).append(pieces[a])
    out = []
    for index, piece in enumerate(pieces):
        others = near.get(index, [])
        start, end = piece.path
        path = (_carried(piece, end, start, others), _carried(piece, start, end, others))
        out.append(replace(piece, path=path))
    return out


def _carried(piece: Piece, inner: Point, at: Point, others: Sequence[Piece]) -> Point:
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


def _reach(at: Point, way: Point, thickness: float, other: Piece) -> float | None:
    """How far the end must move along its way onto another wall's centre line; None where it does not meet it."""
    (x0, y0), (x1, y1) = other.path
    dx, dy = x1 - x0, y1 - y0
    length = float(np.hypot(dx, dy))
    cross = way[0] * dy - way[1] * dx
    if abs(cross) < 0.2 * length:
        return None
    ex, ey = x0 - at[0], y0 - at[1]
    moved = (ex * dy - ey * dx) / cross
    along = (ex * way[1] - ey * way[0]) / cross * length
    slack = thickness / 2 + IN_LINE
    if not -slack <= along <= length + slack:
        return None
    reach = (other.thickness / 2 + IN_LINE) / (abs(cross) / length)
    return moved if abs(moved) <= reach else None


def _inside(
    pieces: Sequence[Piece], outline: Ring | None, display: Display
) -> tuple[list[Piece], list[str]]:
    """The pieces that stand on the slab, those along its edge and short ones left out."""
    if outline is None:
        return list(pieces), []
    slab = outline.polygon
    kept: list[Piece] = []
    outside = along = short = 0
    for piece in pieces:
        line = piece.line
        on = line.intersection(slab)
        outside += bool(line.length - on.length > THICKEST)
        free, beside = _off_edge(on, slab, piece.thickness)
        along += bool(beside)
        long = [part for part in free if part.length > SHORTEST]
        short += not long and not beside and on.length > 0
        kept += [replace(piece, path=_points(part)) for part in long]
    notes = []
    if outside:
        notes.append(f"{counted(outside, 'wall')} outside the slab left out or cut at its edge.")
    if along:
        notes.append(
            f"{counted(along, 'wall')} left out where along the slab's edge: no joint goes there."
        )
    if short:
        notes.append(f"{counted(short, 'wall')} under {wide(SHORTEST, display)} long left out.")
    return kept, notes


def _off_edge(on: BaseGeometry, slab: Polygon, thickness: float) -> tuple[list[LineString], float]:
    """The stretches of a wall that do not run along the slab's edge, and how much does (mm)."""
    reach = max(thickness, thickness / 2 + RIM)
    edge = slab.exterior.buffer(reach)
    # Where a wall only ends at the edge, it crosses this strip in about its width.
    beside = [p for p in lines_of(on.intersection(edge)) if p.length > BESIDE * reach]
    # The last bits of floats keep one line from being taken out of another.
    along = shapely.union_all(beside).buffer(HAIR)
    free = lines_of(on.difference(along)) if beside else lines_of(on)
    return free, sum(p.length for p in beside)


def _points(line: LineString) -> tuple[Point, ...]:
    return tuple((float(x), float(y)) for x, y in line.coords)


def _named(pieces: Sequence[Piece]) -> tuple[Wall, ...]:
    """The walls in reading order."""
    ordered = sorted(pieces, key=_reading)
    return tuple(
        Wall(
            id=f"W{n}",
            path=tuple(map(fine_point, _left_first(p.path))),
            thickness=fine(p.thickness),
        )
        for n, p in enumerate(ordered, start=1)
    )


def _left_first(path: tuple[Point, ...]) -> tuple[Point, ...]:
    start, end = ((round(p[0], 1), round(p[1], 1)) for p in (path[0], path[-1]))
    return path if start <= end else path[::-1]


def _reading(piece: Piece) -> tuple[float, float]:
    x0, y0, _, _ = piece.line.bounds
    return (round(y0, 1), round(x0, 1))
