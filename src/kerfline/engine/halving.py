"""Divides any piece of concrete until every panel is within the span: the method that never fails.

One cut at a time, each the cheapest of a handful: square to the long side of the piece near its
middle, or through a re-entrant corner, square or parallel to the piece's edges. It serves what no chart
fits, and what a chart leaves over the span.
"""

import math
from collections.abc import Iterator
from dataclasses import replace

from shapely import LineString, Polygon

from kerfline.engine.measure.shape import Shape, rectangle_shape, shape_of
from kerfline.engine.problem import PieceLayout, Problem
from kerfline.engine.regions.region import Cut
from kerfline.engine.regions.wings import chords, corner_ways
from kerfline.geometry.corners import reentrant_corners
from kerfline.geometry.faces import SLIVER, faces
from kerfline.geometry.rectangle import enclosing_rectangle
from kerfline.geometry.ring import Point
from kerfline.geometry.tolerance import SAME
from kerfline.model.layout import Reason

SHARES = (0.5, 0.45, 0.55, 0.4, 0.6, 1 / 3, 2 / 3)
"""Where along a piece cuts are tried, besides even divisions."""

BARRED = 1e6
"""What a mm of cut through a barred area costs, in mm of joint: never, where there is another way."""

CORNER_NOTE = "re-entrant corner at {at}"


def halve(problem: Problem, piece: Polygon) -> PieceLayout:
    """Divides a piece until every panel is within the span and holds no deep re-entrant corner."""
    done: list[Polygon] = []
    cuts: list[Cut] = []
    waiting = [piece]
    while waiting:
        current = waiting.pop()
        shape = shape_of(current, problem.limits.angle)
        best = _best_cut(problem, current, shape)
        if best is None:
            done.append(current)
            continue
        parts, group = best
        cuts.extend(group)
        waiting.extend(parts)
    cost = sum(problem.price(shape_of(p, problem.limits.angle)) for p in done)
    length = sum(LineString(c.path).length for c in cuts)
    return PieceLayout(panels=tuple(done), cuts=tuple(cuts), cost=cost + length)


def _best_cut(
    problem: Problem, piece: Polygon, shape: Shape
) -> tuple[list[Polygon], tuple[Cut, ...]] | None:
    """The cheapest cut, if any is cheaper than leaving the piece or the piece must be cut."""
    must = not problem.holds(shape)
    best: tuple[float, list[Polygon], tuple[Cut, ...]] | None = None
    for group in _candidates(problem, piece):
        lines = [LineString(cut.path) for cut in group]
        parts = faces(piece, lines)
        if len(parts) < 2 or any(p.area < SLIVER * 100 for p in parts):  # noqa: PLR2004 one is uncut
            continue
        price = sum(x.length + BARRED * float(x.intersection(problem.barred).length) for x in lines)
        price += sum(_outlook(problem, p) for p in parts)
        if best is None or price < best[0] - SAME:
            best = (price, parts, group)
    if best is None or (not must and best[0] >= _outlook(problem, piece)):
        return None
    return best[1], best[2]


def _outlook(problem: Problem, piece: Polygon) -> float:
    """What a piece will cost when it is divided evenly, its own shape's faults included."""
    limits = problem.limits
    shape = shape_of(piece, limits.angle)
    if problem.holds(shape):
        return problem.price(shape)
    rows = max(1, math.ceil(shape.width / limits.span))
    bays = max(1, math.ceil(shape.span / limits.span))
    joints = (rows - 1) * shape.length + (bays - 1) * shape.width
    plain = rectangle_shape(shape.length / bays, shape.width / rows)
    faulty = replace(
        plain, fullness=shape.fullness, hollow=shape.hollow, sharp=shape.sharp, short=shape.short
    )
    fullness = piece.area / (shape.length * shape.width)
    return float(
        joints * fullness
        + problem.price(faulty)
        + problem.price(plain) * (rows * bays * fullness - 1)
    )


def _candidates(problem: Problem, piece: Polygon) -> Iterator[tuple[Cut, ...]]:
    yield from _corner_cuts(piece)
    yield from _even_cuts(problem, piece)


def _even_cuts(problem: Problem, piece: Polygon) -> Iterator[tuple[Cut, ...]]:
    """Cuts square to the long side of the piece, and to the short one, at even divisions."""
    box = enclosing_rectangle(piece)
    frame = math.radians(box.angle)
    along, across = (math.cos(frame), math.sin(frame)), (-math.sin(frame), math.cos(frame))
    note = "open floor"
    for way, other, size in ((along, across, box.length), (across, along, box.width)):
        places = [x * way[0] + y * way[1] for x, y in piece.exterior.coords]
        low = min(places)
        count = math.ceil(size / problem.limits.span - 1e-6)
        shares = {round(i / n, 6) for n in (count, count + 1) for i in range(1, n)} | set(SHARES)
        level = _level(piece, other)
        for share in sorted(shares, key=lambda s: (abs(s - SHARES[0]), s)):
            at = (
                way[0] * (low + share * size) + other[0] * level,
                way[1] * (low + share * size) + other[1] * level,
            )
            for group in chords(piece, at, other):
                yield tuple(Cut(path=path, reason=Reason.SPAN, note=note) for path in group)


def _level(piece: Polygon, way: Point) -> float:
    """Where the middle of a piece lies along a direction."""
    return piece.centroid.x * way[0] + piece.centroid.y * way[1]


def _corner_cuts(piece: Polygon) -> Iterator[tuple[Cut, ...]]:
    """Cuts that leave each re-entrant corner: on with its edges, square to them, or halving it."""
    for corner in reentrant_corners(piece):
        for way in corner_ways(piece, corner):
            for group in chords(piece, corner.at, way, through=True):
                yield tuple(
                    Cut(path=path, reason=Reason.CORNER, note=CORNER_NOTE, at=corner.at)
                    for path in group
                )
