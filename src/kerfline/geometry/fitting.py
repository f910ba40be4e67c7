"""Ends of lines brought exactly onto what they were meant to stop on: an edge, or another line."""

import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
import shapely
from shapely import LineString
from shapely.ops import substring

from kerfline.geometry.arrays import Indices, Numbers
from kerfline.geometry.near import lines, spots
from kerfline.geometry.ring import Point
from kerfline.geometry.smooth import Line, end_of
from kerfline.geometry.tolerance import SAME, TOUCH

FLATTEST = math.sin(math.radians(10.0))
"""A line that is met at less than 10 degrees is not one to stop on."""

EDGE = -1
"""Owner of the edges among the targets."""


@dataclass(frozen=True, kw_only=True)
class Fit:
    """One end that was moved.

    Attributes:
        line: Index of the line.
        at: Where the end is now.
        by: How far it moved (mm): positive carried on, negative cut back.
        onto: Index of the line that it stops on, or ``EDGE``.
    """

    line: int
    at: Point
    by: float
    onto: int


def fitted(
    paths: Sequence[Line], edges: Sequence[LineString], reach: Sequence[float]
) -> tuple[list[Line], list[Fit]]:
    """Moves each end along its line onto the nearest edge or other line within reach.

    An end that stops short is carried on, one that runs past is cut back; an end that nothing is near
    stays. Two lines that both stop short of their corner are carried on to it.

    Args:
        paths: Open lines.
        edges: Boundaries.
        reach: For each line how far its ends may move, mm.
    """
    if not paths:
        return [], []
    ends = [end_of(paths, e) for e in range(2 * len(paths))]
    rows, owners = _targets(paths, edges)
    loose = _loose(ends, rows, owners)
    stubs = np.asarray(
        [[*ends[e][0], *_at(ends[e], reach[e // 2])] for e in loose], dtype=float
    ).reshape(-1, 4)
    rows = np.vstack([rows, stubs])
    owners = np.concatenate([owners, np.asarray([e // 2 for e in loose], dtype=np.intp)])
    moves = _moves(ends, rows, owners, np.repeat(np.asarray(reach, dtype=float), 2))
    out = [_moved(path, moves.get(2 * i), moves.get(2 * i + 1)) for i, path in enumerate(paths)]
    fits = [
        Fit(line=end // 2, at=_at(ends[end], by), by=by, onto=onto)
        for end, (by, onto) in sorted(moves.items())
    ]
    return out, fits


def _targets(paths: Sequence[Line], edges: Sequence[LineString]) -> tuple[Numbers, Indices]:
    """Every straight piece that an end may stop on, with its owner."""
    rows, owners = [], []
    whole = [(EDGE, shapely.get_coordinates(e)) for e in edges]
    whole += [(i, np.asarray(p)) for i, p in enumerate(paths)]
    for owner, points in whole:
        rows.append(np.hstack([points[:-1], points[1:]]))
        owners.append(np.full(len(points) - 1, owner, dtype=np.intp))
    return np.vstack(rows), np.concatenate(owners)


def _loose(ends: Sequence[tuple[Point, Point]], rows: Numbers, owners: Indices) -> list[int]:
    """Ends that touch nothing."""
    asked = np.asarray(spots([at for at, _ in ends]), dtype=object)
    found = shapely.STRtree(lines(rows)).query(asked, predicate="dwithin", distance=TOUCH)
    touching = {int(e) for e, r in zip(*found, strict=True) if owners[r] != e // 2}
    return [e for e in range(len(ends)) if e not in touching]


def _moves(
    ends: Sequence[tuple[Point, Point]], rows: Numbers, owners: Indices, reach: Numbers
) -> dict[int, tuple[float, int]]:
    """For each end that is to move, how far and onto what."""
    rays = np.asarray(
        [[*_at(e, -far), *_at(e, far)] for e, far in zip(ends, reach.tolist(), strict=True)]
    )
    asked = np.asarray(lines(rays), dtype=object)
    end, row = shapely.STRtree(lines(rows)).query(asked, predicate="dwithin", distance=TOUCH)
    other = owners[row] != end // 2
    end, row = end[other], row[other]
    by, hits = _reached(ends, rows, end, row, reach)
    order = np.lexsort((owners[row], np.round(np.abs(by), 6), end))
    moves: dict[int, tuple[float, int]] = {}
    settled: set[int] = set()
    for i in order[hits[order]].tolist():
        which = int(end[i])
        if which in settled:
            continue
        settled.add(which)
        if abs(by[i]) > SAME / 10:
            moves[which] = (float(by[i]), int(owners[row[i]]))
    return moves


def _reached(
    ends: Sequence[tuple[Point, Point]], rows: Numbers, end: Indices, row: Indices, reach: Numbers
) -> tuple[Numbers, np.ndarray[tuple[int], np.dtype[np.bool_]]]:
    """How far along its line each end must move to meet each piece, and whether it may."""
    at = np.asarray([e[0] for e in ends])[end]
    way = np.asarray([e[1] for e in ends])[end]
    start, vector = rows[row, :2], rows[row, 2:] - rows[row, :2]
    size = np.maximum(np.hypot(vector[:, 0], vector[:, 1]), 1e-9)
    cross = way[:, 0] * vector[:, 1] - way[:, 1] * vector[:, 0]
    fair = np.abs(cross) > FLATTEST * size
    safe = np.where(fair, cross, 1.0)
    off = start - at
    by = (off[:, 0] * vector[:, 1] - off[:, 1] * vector[:, 0]) / safe
    along = (off[:, 0] * way[:, 1] - off[:, 1] * way[:, 0]) / safe * size
    on_piece = (along >= -TOUCH) & (along <= size + TOUCH)
    return by, fair & on_piece & (np.abs(by) <= reach[end])


def _at(end: tuple[Point, Point], by: float) -> Point:
    (x, y), (ux, uy) = end
    return (x + ux * by, y + uy * by)


def _moved(path: Line, head: tuple[float, int] | None, tail: tuple[float, int] | None) -> Line:
    """The line with its ends moved."""
    if head:
        path = _tail_moved(path[::-1], head[0])[::-1]
    if tail:
        path = _tail_moved(path, tail[0])
    return path


def _tail_moved(path: Line, by: float) -> Line:
    *_, inner, at = path
    last = math.dist(inner, at)
    if by < -last + SAME:
        line = LineString(path)
        cut = substring(line, 0.0, max(line.length + by, SAME))
        return tuple((float(x), float(y)) for x, y in cut.coords)
    share = by / last
    moved = (at[0] + (at[0] - inner[0]) * share, at[1] + (at[1] - inner[1]) * share)
    # A curve is carried on by a piece of its own; a straight line just gets longer.
    straight = len(path) == 2  # noqa: PLR2004
    return (*path[:-1], moved) if straight or by < TOUCH else (*path, moved)
