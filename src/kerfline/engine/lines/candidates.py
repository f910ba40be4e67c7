"""Where joints may lie in a chart: through marks first, then at even divisions between them.

For nets of any chart; of a rectangular grid see ``lattice``, which says why it has a maker of its own.
"""

import itertools
import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace

import numpy as np
import shapely
from shapely import LinearRing, Polygon

from kerfline.engine.lines.charts import Chart, SquareChart, bounds_in
from kerfline.engine.lines.divisions import (
    ROW,
    divided,
    extent,
    free_spans,
)
from kerfline.engine.measure.shape import hull_of
from kerfline.engine.problem import Problem
from kerfline.engine.steps import Steps, filled
from kerfline.engine.symmetry import (
    Ends,
    are_symmetric,
    is_symmetric,
    with_images,
    with_lower_images,
)
from kerfline.geometry.arrays import Numbers
from kerfline.geometry.corners import reentrant_corners
from kerfline.geometry.faces import lines_of, polygons_of
from kerfline.geometry.ring import Point
from kerfline.geometry.tolerance import CORNER_TURN
from kerfline.model.layout import Reason

TILT = math.tan(math.radians(2.5))
"""A joint between two corners may run this far off its axis (rise over run): survey noise."""

BESIDE = 30.0
"""A joint that goes round a keep-out stays this far (mm) from it."""

LANDING = 3000.0
"""Weight of the end of a neighbour's joint among the marks; a corner weighs its depth in mm."""

ASKED = 1e6
"""Weight of the ends of a settled joint: more than any corner's, so that joints run on in line with it."""

BESIDE_WEIGHT = 300.0
"""Weight of a place beside a barred area: less than a landing, as the joint may as well pass farther off."""

BROAD = 1e4
"""Smaller barred areas (mm2) are forbidden lines, which joints run beside anyway."""

CROWD = 0.09
"""Even divisions closer than this share of the span to a better line are left out."""

NEAR = 0.4
"""Features closer to one another than this share of the least width share one line."""

MOST = 24
"""Candidate lines through features along one axis at most."""

PER_BAY = 2.5
"""Candidate lines at even divisions for each span of the extent."""

LEAST = 6
"""Candidate lines at even divisions in any case."""

FURTHER = 4
"""Further lines beside poor panels in any case."""

APART = 20.0
"""Further lines this close (mm) to another are not worth their own."""

JOG = 100.0
"""A re-entrant corner less deep than this (mm) gets no candidate line of its own."""


@dataclass(frozen=True, slots=True)
class Mark:
    """A point that a candidate line should pass through, in the chart's coordinates.

    Attributes:
        at: The point.
        weight: What it is worth.
        reason: Why.
        ends: The far end of a wall, which the line follows.
        room: Features no closer than this (mm) get lines of their own beside it, as the joint here may
            yield to them; None where none lies near.
    """

    at: Point
    weight: float
    reason: Reason
    ends: tuple[Point, ...] = ()
    room: float | None = None


def marks(problem: Problem, chart: Chart, axis: int, jog: float) -> list[Mark]:
    """Re-entrant corners, targets, walls along the other axis and the neighbour's joint ends.

    Args:
        problem: The piece.
        chart: The chart.
        axis: Number of the axis on which the lines through the marks are all but constant.
        jog: A re-entrant corner less deep than this (mm) gets no line of its own.
    """
    hull = hull_of(problem.concrete).exterior
    out = []
    for corner in reentrant_corners(problem.concrete):
        depth = _jog(corner.at, hull, problem.concrete)
        if depth > jog:
            out.append(Mark(_place(chart, corner.at), depth, Reason.CORNER))
    points = [(t.at, max(t.weight, 1000.0), t.reason) for t in problem.targets]
    points += [(p, LANDING, Reason.SPAN) for p in problem.landings]
    out += [Mark(_place(chart, at), weight, reason) for at, weight, reason in points]
    out += _beside_barred(problem, chart)
    for line in problem.lines:
        for part in lines_of(line.path.intersection(problem.concrete)):
            places = chart.measure(shapely.get_coordinates(part))
            out += [*_line_marks(places, axis, line.reason), *_knee_marks(places)]
    for wall in problem.walls:
        places = chart.measure(shapely.get_coordinates(wall.path))
        found = _line_marks(places, axis, Reason.WALL)
        out += [replace(found[0], ends=(found[1].at,), room=wall.slack)] if found else []
    return out


def _beside_barred(problem: Problem, chart: Chart) -> list[Mark]:
    """Places just beside areas where no joint may go."""
    out = []
    for area in polygons_of(problem.barred):
        if area.area < BROAD:
            continue
        low_u, low_v, high_u, high_v = bounds_in(chart, area)
        for u, v in ((low_u - BESIDE, low_v - BESIDE), (high_u + BESIDE, high_v + BESIDE)):
            out.append(Mark((u, v), BESIDE_WEIGHT, Reason.SPAN))
    return out


def _line_marks(points: Numbers, axis: int, reason: Reason) -> list[Mark]:
    """The ends of the stretches of a settled joint that run along an axis."""
    out = []
    for start, end in itertools.pairwise(points):
        run, drift = abs(end[1 - axis] - start[1 - axis]), abs(end[axis] - start[axis])
        if run > ROW and drift <= 2 * TILT * run:
            out += [Mark((float(p[0]), float(p[1])), ASKED, reason) for p in (start, end)]
    return out


def _knee_marks(points: Numbers) -> list[Mark]:
    """Places where a settled joint turns: a joint that meets it there leaves no hooked panel."""
    steps = np.diff(points, axis=0)
    turns = np.abs(np.diff(np.degrees(np.arctan2(steps[:, 1], steps[:, 0]))))
    bends = np.minimum(turns, 360.0 - turns) > CORNER_TURN
    return [
        Mark((float(u), float(v)), LANDING, Reason.SPAN)
        for (u, v), bend in zip(points[1:-1], bends, strict=True)
        if bend
    ]


def _place(chart: Chart, at: Point) -> Point:
    u, v = chart.measure(np.asarray([at], dtype=float))[0]
    return float(u), float(v)


def _jog(at: Point, hull: LinearRing, shape: Polygon) -> float:
    """How deep a re-entrant corner lies under the hull; of an opening's, the opening's size."""
    for hole in shape.interiors:
        if hole.distance(shapely.Point(at)) < 1.0:
            return math.sqrt(Polygon(hole).area)
    return float(hull.distance(shapely.Point(at)))


@dataclass(frozen=True, slots=True)
class CandidateLine:
    """A candidate line.

    Attributes:
        through: Points of the line in the chart's coordinates, in order along it, the first and last
            beyond the piece.
        reason: Why it is a candidate.
    """

    through: tuple[Point, ...]
    reason: Reason

    def place(self, axis: int) -> float:
        """The line's coordinate on its axis on the whole: the mean of its points."""
        return sum(p[axis] for p in self.through) / len(self.through)

    def position(self, axis: int, along: Numbers) -> Numbers:
        """The line's coordinate on its axis at places along it."""
        points = np.asarray(self.through)
        found: Numbers = np.interp(along, points[:, 1 - axis], points[:, axis])
        return found


def candidate_lines(
    problem: Problem,
    chart: Chart,
    axis: int,
    others: Sequence[CandidateLine] = (),
) -> tuple[CandidateLine, ...]:
    """The candidate lines on which the coordinate of one axis is all but constant, in order.

    Args:
        problem: The piece.
        chart: The chart.
        axis: Number of the axis.
        others: Candidate lines of the other axis, where they are known: the spans between them are
            divided evenly too.

    No two neighbours are further apart than the span, so that every cell of the net can be a panel.
    """
    span = problem.limits.span
    low, high = extent(problem.concrete, chart, axis)
    across = extent(problem.concrete, chart, 1 - axis)
    featured = _featured(
        marks(problem, chart, axis, JOG), axis, across, NEAR * problem.limits.width
    )
    taken = [s.place(axis) for s in featured]
    mirror = _mirror(problem, chart, axis, taken)
    room = max(LEAST, math.ceil(PER_BAY * (high - low) / span))
    if problem.stay is None:
        levels = [s.place(1 - axis) for s in others]
        even = _even_positions(problem, chart, axis, taken, levels)[:room]
        even = with_lower_images(even, mirror) if mirror else even
        even += _more(problem, chart, axis, featured, even)
    else:
        even = _beside(problem.stay[axis], axis, featured)
        further = _more(problem, chart, axis, featured, even)
        even += further[: max(FURTHER, room - len(even))]
        even = with_images(even, mirror) if mirror else even
    even += filled(sorted([low, *taken, *even, high]), span, _steps(problem, chart, axis))
    plain = [CandidateLine(straight(p, axis, across), Reason.SPAN) for p in even if low < p < high]
    return tuple(sorted([*featured, *plain], key=lambda s: s.place(axis)))


def _mirror(problem: Problem, chart: Chart, axis: int, taken: Sequence[float]) -> Ends | None:
    """The ends of a piece on an axis between which it and the places that are taken are symmetric; None where not."""
    ends = extent(problem.concrete, chart, axis)
    if not isinstance(chart, SquareChart) or not are_symmetric(taken, ends):
        return None
    return ends if is_symmetric(problem.concrete, chart.turn, axis) else None


def _more(
    problem: Problem,
    chart: Chart,
    axis: int,
    featured: Sequence[CandidateLine],
    even: Sequence[float],
) -> list[float]:
    """The further places that are wanted, those left out that all but coincide with a line."""
    steps = _steps(problem, chart, axis)
    places = [steps.nearest(p) if steps else p for p in problem.more[axis]]
    clear = [p for p in places if all(abs(p - e) > APART for e in even)]
    return _beside(clear, axis, featured)


def _beside(places: Sequence[float], axis: int, featured: Sequence[CandidateLine]) -> list[float]:
    """Places, those left out that all but coincide with a line."""
    on_axis = [[at[axis] for at in line.through] for line in featured]
    taken = [(min(places) - APART, max(places) + APART) for places in on_axis]
    return [p for p in places if not any(low <= p <= high for low, high in taken)]


def _steps(problem: Problem, chart: Chart, axis: int) -> Steps | None:
    """The whole steps on an axis, where the chart's axes are those of the frame."""
    square = isinstance(chart, SquareChart) and chart.turn == 0.0
    return problem.steps[axis] if square and problem.steps else None


def straight(position: float, axis: int, across: tuple[float, float]) -> tuple[Point, ...]:
    """A straight line at a place on an axis, from beyond one side of a piece to beyond the other."""
    at = (position, across[0]) if axis == 0 else (across[0], position)
    return _through([at], axis, across)[::2]


def _through(points: Sequence[Point], axis: int, across: tuple[float, float]) -> tuple[Point, ...]:
    """A line through points, in order along it, and straight on to beyond both sides of a piece."""
    margin = max(10.0, (across[1] - across[0]) / 100)
    ends = (
        (at[axis], far)
        for at, far in ((points[0], across[0] - margin), (points[-1], across[1] + margin))
    )
    first, last = (end if axis == 0 else end[::-1] for end in ends)
    return (first, *points, last)


def _featured(
    marks: Sequence[Mark], axis: int, across: tuple[float, float], near: float
) -> list[CandidateLine]:
    """Lines through the marks, the weightiest first.

    Marks near a line that it cannot bend to are left, and lines that cross a weightier one.
    """
    ordered = sorted(
        marks, key=lambda m: (-m.weight, round(m.at[axis], 1), round(m.at[1 - axis], 1))
    )
    lines: list[list[Mark]] = []
    for mark in ordered:
        home = next((line for line in lines if _bends_to(line, mark, axis)), None)
        if home is not None:
            home.append(mark)
        elif (
            all(
                abs(m.at[axis] - mark.at[axis]) > (near if m.room is None else min(m.room, near))
                for line in lines
                for m in line
            )
            or mark.weight >= ASKED
        ):
            lines.append([mark])
    out: list[CandidateLine] = []
    for line in lines[:MOST]:
        points = [p for m in line for p in (m.at, *m.ends)]
        inner = _distinct(sorted(points, key=lambda p: p[1 - axis]), axis)
        reason = max(line, key=lambda m: m.weight).reason
        found = CandidateLine(_through(inner, axis, across), reason)
        if all(_apart(found, other, axis) for other in out):
            out.append(found)
    return out


def _bends_to(line: Sequence[Mark], mark: Mark, axis: int) -> bool:
    """Whether a line through marks may bend to one more of them without leaving its axis or a wall."""
    for other in line:
        drift = abs(other.at[axis] - mark.at[axis])
        run = abs(other.at[1 - axis] - mark.at[1 - axis])
        tilt = TILT if mark.room is None and other.room is None else 0.0
        if drift > 1.0 and drift > tilt * run:
            return False
    return True


def _distinct(points: Iterable[Point], axis: int) -> list[Point]:
    """Points of a line, those level with their forerunner left out."""
    out: list[Point] = []
    for point in points:
        if not out or point[1 - axis] - out[-1][1 - axis] > 1.0:
            out.append(point)
    return out


def _apart(line: CandidateLine, other: CandidateLine, axis: int) -> bool:
    """Whether two lines neither cross nor touch."""
    along = np.array(sorted({p[1 - axis] for p in (*line.through, *other.through)}))
    gap = line.position(axis, along) - other.position(axis, along)
    return bool((gap > 1.0).all() or (gap < -1.0).all())


def _even_positions(
    problem: Problem, chart: Chart, axis: int, taken: Sequence[float], others: Sequence[float]
) -> list[float]:
    """Even divisions of the free spans in every row, the most useful first.

    Where no feature takes a line, those of the whole extent come before: the rows of a round outline
    are all of different lengths, and the widest matters most.
    """
    steps, crowd = _steps(problem, chart, axis), CROWD * problem.limits.span
    low, high = extent(problem.concrete, chart, axis)
    whole = [] if taken else filled([low, high], problem.limits.span, steps)
    wanted = [
        place
        for span in free_spans(problem, chart, axis, others)
        for place in divided(span, taken, problem.limits, steps)
    ]
    return [*whole, *_thinned(wanted, [*taken, *whole], crowd, steps)]


def _thinned(
    wanted: Sequence[tuple[float, float]],
    taken: Sequence[float],
    crowd: float,
    steps: Steps | None,
) -> list[float]:
    """Pools positions that all but coincide and drops those too near a better one."""
    pooled: list[tuple[float, float]] = []
    for position, weight in sorted(wanted):
        if pooled and position - pooled[-1][0] < crowd / 4:
            old, total = pooled[-1]
            mean = (old * total + position * weight) / (total + weight)
            pooled[-1] = (steps.nearest(mean) if steps else mean, total + weight)
        else:
            pooled.append((position, weight))
    kept: list[float] = []
    for position, _ in sorted(pooled, key=lambda p: (-round(p[1], 3), p[0])):
        if all(abs(position - other) > crowd for other in [*kept, *taken]):
            kept.append(position)
    return kept
