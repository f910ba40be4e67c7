"""The arcs in flattened boundaries, and the bends between two of one centre."""

import math
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import combinations, pairwise, product

from shapely import LineString, Polygon
from shapely.geometry.polygon import orient

from kerfline.geometry.corners import direction, turn_between
from kerfline.geometry.faces import points_of, rings_of
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

ONE_CENTRE = 0.03
"""Centres closer than this share of the radius are one."""

EXACT = 1e-5
"""The same of an arc that was given as one and flattened."""

STRAIGHT = 1e-12
"""Points spread across their line by less than this share of their spread along it lie in one line."""

PLACES = 3
"""Centres, radii and lengths are told to this many digits of a millimetre."""

FULL_TURN = 360.0
HALF_TURN = 180.0

LEVEL = 3.0
"""Two arcs of one centre begin together where the rays to their ends are no further apart (degrees)."""


@dataclass(frozen=True, slots=True)
class FoundArc:
    """An arc in a boundary.

    Attributes:
        centre: Its centre, mm.
        radius: Its radius, mm.
        length: Its length, mm.
        ends: Where it begins and ends.
    """

    centre: Point
    radius: float
    length: float
    ends: tuple[Point, Point]


def flattened_arcs(piece: Polygon) -> list[FoundArc]:
    """The arcs of a boundary, however short, whose chords' ends lie on them exactly: not those of a surveyor's points."""
    return arcs_of(piece, sweep=0.0, off=EXACT)


def arcs_of(piece: Polygon, sweep: float = SWEEP, off: float = TRUE) -> list[FoundArc]:
    """The arcs of a boundary, each a run of chords that turn evenly.

    Args:
        piece: The figure.
        sweep: Arcs of less than this (degrees) are left out.
        off: How far their points may lie off their circle, as a share of its radius.
    """
    return [
        arc
        for ring in rings_of(orient(piece))
        for run in _smooth_runs(points_of(ring)[:-1])
        for arc in _arcs_along(run, sweep, off)
    ]


def _arcs_along(run: Sequence[Point], sweep: float, off: float) -> list[FoundArc]:
    """The arc that a run of chords is, or those between its straight sides: a tangent one turns as little as a chord."""
    whole = _fitted(run, sweep, off)
    parts = [run] if whole else _between_sides(run)
    return [arc for part in parts if (arc := _fitted(part, sweep, off)) is not None]


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
    turns = [_turn(ways[i - 1], ways[i]) for i in range(count)]
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


def _turn(first: Point, second: Point) -> float:
    """Angle from one vector to another, degrees, anticlockwise above zero: -180 <= turn < 180."""
    return (turn_between(first, second) + HALF_TURN) % FULL_TURN - HALF_TURN


def _fitted(run: Sequence[Point], sweep: float, off: float) -> FoundArc | None:
    """The circle through a run's points, where they all lie on it."""
    centre = _centre_of(run)
    if centre is None:
        return None
    reaches = [math.dist(at, centre) for at in run]
    radius = round(math.fsum(reaches) / len(reaches), PLACES)
    length = round(math.fsum(math.dist(a, b) for a, b in pairwise(run)), PLACES)
    worst = max(abs(reach - radius) for reach in reaches)
    if radius == 0.0 or worst > off * radius or length < math.radians(sweep) * radius:
        return None
    return FoundArc(centre, radius, length, (run[0], run[-1]))


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


def share_centre(first: FoundArc, second: FoundArc) -> bool:
    """Whether two arcs turn about one centre."""
    return math.dist(first.centre, second.centre) < ONE_CENTRE * max(first.radius, second.radius)


def bend_ends(piece: Polygon) -> list[LineString]:
    """The lines square across a strip of concrete where it begins and ceases to bend; none along its edge.

    A strip bends between two arcs of one centre. A joint there parts what is divided by rays from what is divided
    square, and both are even.
    """
    out: list[LineString] = []
    open_ = [a for a in arcs_of(piece) if a.ends[0] != a.ends[1]]
    for outer, inner in combinations(sorted(open_, key=lambda a: -a.radius), 2):
        if not share_centre(outer, inner):
            continue
        for far, near in product(outer.ends, inner.ends):
            line = LineString([near, far])
            if _is_level(outer.centre, far, near) and _parts(piece, line):
                out.append(line)
    return out


def _is_level(centre: Point, far: Point, near: Point) -> bool:
    """Whether two points lie on one ray, the nearer first."""
    turn = _turn(direction(centre, far), direction(centre, near))
    return abs(turn) <= LEVEL and math.dist(far, centre) > math.dist(near, centre)


def _parts(piece: Polygon, line: LineString) -> bool:
    """Whether a line runs through concrete, with something on either side of it."""
    along = float(line.intersection(piece.boundary).length)
    return bool(piece.buffer(1.0).covers(line)) and along <= line.length / 2
