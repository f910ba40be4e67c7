"""The charts that are worth a try on a piece, the likeliest first; the arcs in its boundary call for round ones."""

import math
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

import numpy as np
import shapely
from shapely import LineString, Polygon
from shapely.geometry.polygon import orient

from kerfline.engine.lines.charts import Chart, RoundChart, SquareChart
from kerfline.engine.problem import Problem
from kerfline.engine.regions.directions import (
    DIGITS,
    QUARTER,
    Direction,
    is_mirrored,
    main_directions,
    misfit,
    segments,
)
from kerfline.geometry.corners import direction, turn_between
from kerfline.geometry.faces import lines_of
from kerfline.geometry.ring import Point

SMOOTH = 12.0
"""Neighbouring chords of an arc turn by no more than this (degrees)."""

BEND = 0.2
"""And by no less than this: below, the edge is straight."""

CHORDS = 4
"""An arc has this many chords at least."""

SIDE = 1.25
"""A straight side beside an arc is this many times as long as a chord of it, or its end lies near the circle all the same."""

SWEEP = 30.0
"""Arcs of less than this (degrees) do not call for radial joints."""

TRUE = 0.005
"""How far the points of an arc may lie off their circle, as a share of its radius."""

ROUND_SHARE = 0.25
"""Share of the boundary that runs along arcs of one centre, from which on radial joints are tried."""

ONE_CENTRE = 0.03
"""Centres closer than this share of the radius are one."""

STRAIGHT = 1e-12
"""Points spread across their line by less than this share of their spread along it lie in one line."""

PLACES = 3
"""Centres, radii and lengths are told to this many digits of a millimetre."""

FULL_TURN = 360.0
HALF_TURN = 180.0
GAP = 2.0
"""An angle (degrees) without concrete at least this wide is a gap in a ring."""


@dataclass(frozen=True, slots=True)
class FoundArc:
    """An arc in a boundary.

    Attributes:
        centre: Its centre, mm.
        radius: Its radius, mm.
        length: Its length, mm.
    """

    centre: Point
    radius: float
    length: float


def round_charts(piece: Polygon) -> list[RoundChart]:
    """The round chart of the boundary's main centre; none where little of it is round."""
    arcs = arcs_of(piece)
    if not arcs:
        return []
    main = max(arcs, key=lambda a: (round(_shared(a, arcs)), round(a.radius), a.centre))
    if _shared(main, arcs) < ROUND_SHARE * piece.exterior.length:
        return []
    radius = max(a.radius for a in arcs if _one_centre(a, main))
    return [RoundChart(main.centre, radius, _seam(piece, main.centre, radius))]


def seam_of(piece: Polygon, chart: RoundChart) -> list[LineString]:
    """The ray from which a round chart counts, where it runs through the piece: a joint."""
    ray = LineString([chart.centre, _on_circle(chart, 2 * chart.radius + 1.0)])
    return [part for part in lines_of(ray.intersection(piece)) if part.length > 1.0]


def _on_circle(chart: RoundChart, radius: float) -> Point:
    angle = math.radians(chart.seam)
    return chart.centre[0] + radius * math.cos(angle), chart.centre[1] + radius * math.sin(angle)


def arcs_of(piece: Polygon) -> list[FoundArc]:
    """The arcs of a boundary, each a run of chords that turn evenly."""
    solid = orient(piece)
    return [
        arc
        for ring in (solid.exterior, *solid.interiors)
        for run in _smooth_runs([(float(x), float(y)) for x, y in ring.coords[:-1]])
        for arc in _arcs_along(run)
    ]


def _arcs_along(run: Sequence[Point]) -> list[FoundArc]:
    """The arc that a run of chords is, or those between its straight sides: a tangent one turns as little as a chord."""
    whole = _fitted(run)
    parts = [run] if whole else _between_sides(run)
    return [arc for part in parts if (arc := _fitted(part)) is not None]


def _between_sides(run: Sequence[Point]) -> list[list[Point]]:
    """The stretches of a run between pieces that are too long beside their neighbours to be chords of an arc."""
    closed = run[0] == run[-1]
    steps = [math.dist(a, b) for a, b in pairwise(run)]
    beside = [steps[-1] if closed else math.inf, *steps, steps[0] if closed else math.inf]
    sides = [
        step > SIDE * min(before, after)
        for before, step, after in zip(beside, steps, beside[2:], strict=False)
    ]
    first = sides.index(True) if closed and any(sides) else 0
    ring = [*run[first:-1], *run[: first + 1]] if closed else list(run)
    parts = [[ring[0]]]
    for at, side in zip(ring[1:], [*sides[first:], *sides[:first]], strict=True):
        if side:
            parts.append([at])
        else:
            parts[-1].append(at)
    return [part for part in parts if len(part) > CHORDS]


def _smooth_runs(points: Sequence[Point]) -> list[list[Point]]:
    """Stretches of a ring along which every vertex turns a little, the same way."""
    count = len(points)
    ways = [direction(points[i], points[(i + 1) % count]) for i in range(count)]
    turns = [
        (turn_between(ways[i - 1], ways[i]) + HALF_TURN) % FULL_TURN - HALF_TURN
        for i in range(count)
    ]
    soft = [BEND < abs(t) < SMOOTH for t in turns]
    if all(soft):
        return [[*points, points[0]]]
    start = soft.index(False)
    runs: list[list[int]] = []
    current: list[int] = []
    for step in range(1, count + 1):
        i = (start + step) % count
        follows = soft[i] and (not current or turns[i] * turns[current[-1]] > 0)
        if follows:
            current.append(i)
        else:
            runs.append(current)
            current = [i] if soft[i] else []
    return [
        [points[r[0] - 1], *(points[i] for i in r), points[(r[-1] + 1) % count]]
        for r in [*runs, current]
        if len(r) >= CHORDS - 1
    ]


def _fitted(run: Sequence[Point]) -> FoundArc | None:
    """The circle through a run's points, where they all lie on it."""
    centre = _centre_of(run)
    if centre is None:
        return None
    reaches = [math.dist(at, centre) for at in run]
    radius = round(math.fsum(reaches) / len(reaches), PLACES)
    length = round(math.fsum(math.dist(a, b) for a, b in pairwise(run)), PLACES)
    off = max(abs(reach - radius) for reach in reaches)
    if radius == 0.0 or off > TRUE * radius or length < math.radians(SWEEP) * radius:
        return None
    return FoundArc(centre, radius, length)


def _centre_of(run: Sequence[Point]) -> Point | None:
    """The centre of the circle that fits points best; None where they lie in one line.

    The sum of the squares of ``(p - c)^2 - r^2`` is made least (Kasa 1976, by memory; the tests fit circles
    that are known). In sums about the points' own middle, exactly rounded, and to a thousandth of a millimetre:
    a library's least squares differ in the last bits from one processor to the next, and a vertex on the ray
    that the way around is counted from then changes sides.
    """
    middle = tuple(math.fsum(p[axis] for p in run) / len(run) for axis in (0, 1))
    places = [(x - middle[0], y - middle[1]) for x, y in run]
    uu, uv, vv = (math.fsum(p[i] * p[j] for p in places) for i, j in ((0, 0), (0, 1), (1, 1)))
    cubes = [math.fsum(p[axis] * (p[0] ** 2 + p[1] ** 2) for p in places) / 2 for axis in (0, 1)]
    spread = uu * vv - uv * uv
    if spread <= STRAIGHT * (uu + vv) ** 2:
        return None
    u = (cubes[0] * vv - cubes[1] * uv) / spread
    v = (cubes[1] * uu - cubes[0] * uv) / spread
    return round(middle[0] + u, PLACES), round(middle[1] + v, PLACES)


def _one_centre(first: FoundArc, second: FoundArc) -> bool:
    return math.dist(first.centre, second.centre) < ONE_CENTRE * max(first.radius, second.radius)


def _shared(arc: FoundArc, arcs: Sequence[FoundArc]) -> float:
    return sum(a.length for a in arcs if _one_centre(a, arc))


def _seam(piece: Polygon, centre: Point, radius: float) -> float:
    """The middle of the widest gap around the centre; the ray through a corner where there is none."""
    places = shapely.get_coordinates(piece.exterior)
    angles = np.degrees(np.arctan2(places[:, 1] - centre[1], places[:, 0] - centre[0]))
    ordered = np.unique(np.round(angles, 6) % FULL_TURN)
    gaps = np.diff(np.append(ordered, ordered[0] + FULL_TURN))
    for index in np.argsort(-np.round(gaps, 3), kind="stable"):
        middle = float(ordered[index] + gaps[index] / 2) % FULL_TURN
        away = math.radians(middle)
        ray = LineString(
            [
                centre,
                (centre[0] + 2 * radius * math.cos(away), centre[1] + 2 * radius * math.sin(away)),
            ]
        )
        if gaps[index] < GAP:
            break
        if not ray.intersection(piece).length:
            return middle
    return float(ordered[0])


ANOTHER = 0.18
"""Share of the boundary along another direction from which on that direction is tried."""

TAPER = (3.0, 40.0)
"""Angle (degrees) between two long edges whose bisector is tried as an axis."""

LONG = 0.5
"""A long edge is at least this share of the longest."""

MOST = 4
"""Charts tried on one piece."""

MOST_LARGE = 2
"""Charts tried on a piece of many panels."""

LARGE = 12.0
"""Area, in squares of the span, from which on a piece is large."""

APART = 1.0
"""Charts turned by less than this (degrees) are one."""


def likely_charts(problem: Problem) -> list[Chart]:
    """Square charts along the main directions and bisectors, and the round chart of its arcs.

    On a symmetric piece only those remain in which a layout can be symmetric.
    """
    directions = main_directions(
        problem.concrete, [line.path for line in (*problem.lines, *problem.walls)]
    )
    turns = [0.0, *_tapers(problem), *(d.angle for d in _others(directions))]
    kept: list[float] = []
    for turn in turns:
        if all(misfit(turn, other) >= APART for other in kept):
            kept.append(turn)
    if is_mirrored(problem.concrete, 0.0):
        kept = [turn for turn in kept if is_mirrored(problem.concrete, turn)]
    large = problem.concrete.area > LARGE * problem.limits.span**2
    squares: list[Chart] = [SquareChart(_small(turn)) for turn in kept]
    return [squares[0], *round_charts(problem.concrete), *squares[1:]][
        : MOST_LARGE if large else MOST
    ]


def _others(directions: Sequence[Direction]) -> list[Direction]:
    return [d for d in directions if d.share >= ANOTHER]


def _small(turn: float) -> float:
    """The same axes, turned by no more than 45 degrees."""
    return turn - QUARTER if turn > QUARTER / 2 else turn


def _tapers(problem: Problem) -> list[float]:
    """Bisectors of long edges that all but face each other."""
    angles, lengths = segments([problem.concrete.exterior])
    if not lengths.size:
        return []
    long = lengths >= LONG * lengths.max()
    whole = np.unique(np.round(angles[long], 3))
    out = []
    for i, first in enumerate(whole):
        for second in whole[i + 1 :]:
            gap = misfit(float(first), float(second))
            if TAPER[0] <= gap <= TAPER[1]:
                mean = np.angle(
                    np.exp(4j * math.radians(first)) + np.exp(4j * math.radians(second))
                )
                out.append(round(math.degrees(float(mean)) / 4, DIGITS) % QUARTER)
    return out
