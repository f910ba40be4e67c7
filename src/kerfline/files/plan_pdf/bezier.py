"""Curves of a page (cubic Bézier) as arcs where they are arcs, else as chords."""

import math
from collections.abc import Sequence

from kerfline.geometry.ring import Point, arc_of

ROUND = 2e-3
"""A curve whose points stray from a circle by less than this share of the radius is an arc of it.

Four curves for a full circle stray by 0.03 %; writers that make a half circle of one curve, by 1.8 %."""

PROBES = (0.25, 0.75)
CHORDS = 12
"""Straight pieces that stand for a curve that is no arc."""

STRAIGHT = 1e-3
"""A curve that strays from its chord by less than this share of it is a straight line."""


def pieces_of(start: Point, controls: Sequence[Point], end: Point) -> list[tuple[Point, float]]:
    """The pieces of a curve: where each ends, and the bulge of the piece that leads there.

    Args:
        start: First point.
        controls: The two control points.
        end: Last point.
    """
    middle = _at(start, controls, end, 0.5)
    chord = math.dist(start, end)
    if chord == 0.0:
        return [(_at(start, controls, end, i / CHORDS), 0.0) for i in range(1, CHORDS + 1)]
    rise = _left_of(start, end, middle)
    if max(abs(_left_of(start, end, c)) for c in controls) < STRAIGHT * chord:
        return [(end, 0.0)]
    bulge = -2 * rise / chord
    if abs(bulge) <= 1.0 and _is_arc(start, controls, end, bulge):
        return [(end, bulge)]
    return [(_at(start, controls, end, i / CHORDS), 0.0) for i in range(1, CHORDS + 1)]


def _is_arc(start: Point, controls: Sequence[Point], end: Point, bulge: float) -> bool:
    """Whether points of the curve lie on the circle through its ends and its middle."""
    if not bulge:
        return False
    arc = arc_of(start, end, bulge)
    return all(
        abs(math.dist(_at(start, controls, end, t), arc.centre) - arc.radius) < ROUND * arc.radius
        for t in PROBES
    )


def _at(start: Point, controls: Sequence[Point], end: Point, t: float) -> Point:
    """A point of the curve by its parameter from 0 to 1."""
    s = 1 - t
    weights = (s**3, 3 * s * s * t, 3 * s * t * t, t**3)
    points = (start, *controls, end)
    return (
        sum(w * p[0] for w, p in zip(weights, points, strict=True)),
        sum(w * p[1] for w, p in zip(weights, points, strict=True)),
    )


def _left_of(start: Point, end: Point, point: Point) -> float:
    """How far a point lies to the left of the line from start to end."""
    dx, dy = end[0] - start[0], end[1] - start[1]
    return (dx * (point[1] - start[1]) - dy * (point[0] - start[0])) / math.hypot(dx, dy)
