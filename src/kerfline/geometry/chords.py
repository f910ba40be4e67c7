"""Takes the even chords that a curve was made of back to the arc that they stand for."""

import math
from collections.abc import Sequence

from kerfline.geometry.ring import Point, Ring

FEWEST = 4
"""Chords that make an arc; three even ones may be a bay window."""

EVEN = 0.01
"""Share by which chords of one arc, and the turns between them, may differ."""

FLATTEST, STEEPEST = 0.05, 12.0
"""Turns from one chord of an arc to the next, degrees."""

HALF = 180.0


def with_arcs(points: Sequence[Point]) -> Ring:
    """A closed line whose runs of even chords, each turning by the same from the one before, are arcs.

    Args:
        points: Its corners; the last leads to the first.
    """
    start = max(range(len(points)), key=lambda i: (round(abs(_turn(points, i)), 6), -i))
    turned = [*points[start:], *points[:start]]
    corners: list[Point] = []
    bulges: list[float] = []
    at = 0
    while at < len(turned):
        chords = _even_from(turned, at)
        for first, last in _arcs(turned, at, chords):
            corners.append(turned[first])
            bulges.append(_bulge(turned, first, last))
        at += chords
    return Ring(tuple(corners), tuple(bulges) if any(bulges) else ())


def _arcs(points: Sequence[Point], at: int, chords: int) -> list[tuple[int, int]]:
    """From which corner to which a run of even chords is drawn: as one arc, as two, or chord by chord."""
    if chords < FEWEST:
        return [(at + i, at + i + 1) for i in range(chords)]
    if chords * abs(_turn(points, at + 1)) <= HALF:
        return [(at, at + chords)]
    middle = at + chords // 2
    return [(at, middle), (middle, at + chords)]


def _bulge(points: Sequence[Point], first: int, last: int) -> float:
    """The bulge of an arc through a run of corners: an angle at its edge is half of that at its centre."""
    if last - first == 1:
        return 0.0
    count = len(points)
    (ax, ay), (mx, my) = points[first % count], points[(first + last) // 2 % count]
    bx, by = points[last % count]
    ux, uy, vx, vy = mx - ax, my - ay, bx - mx, by - my
    half = math.atan2(ux * vy - uy * vx, ux * vx + uy * vy)
    return math.tan(half / 2)


def _even_from(points: Sequence[Point], at: int) -> int:
    """How many chords from a corner on are as long and turn as much as the first of them."""
    length, turn = _length(points, at), _turn(points, at + 1)
    if not FLATTEST <= abs(turn) <= STEEPEST:
        return 1
    count = 1
    while at + count < len(points) and _alike(_length(points, at + count), length):
        if not _alike(_turn(points, at + count), turn):
            break
        count += 1
    return count


def _alike(one: float, other: float) -> bool:
    return abs(one - other) <= EVEN * abs(other)


def _length(points: Sequence[Point], at: int) -> float:
    return math.dist(points[at % len(points)], points[(at + 1) % len(points)])


def _turn(points: Sequence[Point], at: int) -> float:
    """The turn at a corner, degrees anticlockwise."""
    count = len(points)
    (ax, ay), (bx, by), (cx, cy) = (
        points[at % count - 1],
        points[at % count],
        points[(at + 1) % count],
    )
    ux, uy, vx, vy = bx - ax, by - ay, cx - bx, cy - by
    return math.degrees(math.atan2(ux * vy - uy * vx, ux * vx + uy * vy))
