"""The rule on edges: joints lie in the concrete, once each, and where the job wants them."""

import math
from collections import defaultdict
from collections.abc import Iterator, Sequence

import numpy as np
import shapely
from shapely import LineString, Polygon
from shapely.geometry.base import BaseGeometry

from kerfline.checks.along import Run, Span, left_of, merged, runs_of
from kerfline.checks.measures import Measures
from kerfline.checks.net import EDGE
from kerfline.checks.sources import PRACTICE
from kerfline.geometry.arrays import Flags, Integers, Shapes
from kerfline.geometry.ends import STRAIGHT
from kerfline.geometry.faces import lines_of
from kerfline.geometry.ring import Point
from kerfline.geometry.tolerance import SAME, TOUCH
from kerfline.model.falls import asked_lines
from kerfline.model.finding import Finding, Rule, Severity
from kerfline.model.slab import JointKind

SHARED = 50.0
"""Two lines that share less than this (mm) cross rather than lie on each other."""

AT_BORDER = 25.4
"""A joint within this (mm) of a zone's border, its place rounded to an inch, is at it."""


def outside(measures: Measures) -> Iterator[Finding]:
    """No joint runs beyond the slab's edge or into an opening."""
    gross = measures.slab.gross
    shapely.prepare(gross)
    words = measures.words
    for joint in measures.joints:
        if gross.covers(joint.line):
            continue
        for part in lines_of(joint.line.difference(gross)):
            if _reach(gross, part) <= TOUCH:
                continue
            whole = part.length >= joint.length - SAME
            what = (
                "lies outside the concrete"
                if whole
                else (f"runs {words.length(part.length)} beyond the edge of the concrete")
            )
            yield _finding(
                joint.id,
                _middle(part),
                Severity.ERROR,
                measured=float(part.length),
                message=f"{joint.id} {what} at {words.place(_middle(part))}.",
                remedy="Leave it out." if whole else "Stop it at the edge.",
            )


def on_edges(measures: Measures) -> Iterator[Finding]:
    """No control joint lies along the slab's own edge."""
    words = measures.words
    for index, pieces in sorted(_along_edges(measures).items()):
        joint = measures.joints[index]
        total = math.fsum(piece.length for piece in pieces)
        if total > SHARED and joint.kind is not JointKind.ISOLATION:
            at = max(map(_size_and_middle, pieces))[1:]
            yield _finding(
                joint.id,
                at,
                Severity.WARNING,
                measured=float(total),
                message=f"{joint.id} lies along the edge of the concrete for {words.length(total)} at "
                f"{words.place(at)}.",
                remedy="Leave that stretch out: the edge is a joint already.",
            )


def _along_edges(measures: Measures) -> dict[int, list[LineString]]:
    """For each joint the pieces of edge that it lies on."""
    net = measures.net
    edges = [piece for piece, owner in zip(net.pieces, net.owners, strict=True) if owner == EDGE]
    middles = shapely.line_interpolate_point(np.asarray(edges), 0.5, normalized=True)
    asked, joints = measures.tree.query(middles, "dwithin", TOUCH)
    found: dict[int, list[LineString]] = defaultdict(list)
    for piece, joint in zip(asked.tolist(), joints.tolist(), strict=True):
        found[joint].append(edges[piece])
    return found


def duplicates(measures: Measures) -> Iterator[Finding]:
    """No stretch of joint is drawn twice."""
    words = measures.words
    for one, two, shared in _overlaps(measures):
        first, second = measures.joints[one], measures.joints[two]
        at = _middle(shared)
        yield _finding(
            second.id,
            at,
            Severity.WARNING,
            measured=float(shared.length),
            message=f"{second.id} lies on {first.id} for {words.length(shared.length)} at {words.place(at)}.",
            remedy=f"Leave the stretch out of one of them, {first.id} or {second.id}.",
        )


def pinned(measures: Measures) -> Iterator[Finding]:
    """Every joint that the job pins is in the layout."""
    words = measures.words
    kept = {joint.path for joint in measures.joints}
    for given in measures.slab.pinned:
        if given.path in kept:
            continue
        wanted = measures.on_concrete(LineString(given.path))
        total, at = _missing(_bare(measures, wanted, 2 * TOUCH))
        if at:
            yield _finding(
                given.id,
                at,
                Severity.ERROR,
                measured=total,
                message=f"{words.length(total)} of the given joint {given.id} is missing from the layout "
                f"at {words.place(at)}.",
                remedy="Put it back, or take it out of the job.",
            )


def zone_borders(measures: Measures) -> Iterator[Finding]:
    """A joint runs along the border of every zone of another thickness."""
    words = measures.words
    for zone in measures.slab.zones:
        if not zone.joint_at_border:
            continue
        border = measures.on_concrete(LineString(zone.outline.polygon.exterior.coords))
        bare = [
            part
            for part in _bare(measures, border, AT_BORDER)
            if not shapely.dwithin(measures.boundary, shapely.Point(_middle(part)), AT_BORDER)
        ]
        total, at = _missing(bare)
        if at:
            yield _finding(
                zone.id,
                at,
                Severity.WARNING,
                measured=total,
                message=f"{words.length(total)} of the border of zone {zone.id} has no joint, as at "
                f"{words.place(at)}; the slab is {words.depth(zone.thickness)} thick inside it.",
                remedy="Run a joint along the border.",
            )


def falls(measures: Measures) -> Iterator[Finding]:
    """A joint runs along every valley and ridge that a fall asks one for."""
    words = measures.words
    for line in asked_lines(measures.slab):
        wanted = measures.on_concrete(LineString(line.path))
        total, at = _missing(_bare(measures, wanted, AT_BORDER))
        if at:
            yield _finding(
                line.fall,
                at,
                Severity.WARNING,
                measured=total,
                message=f"{words.length(total)} of a {line.crease} of fall {line.fall} has no joint, "
                f"as at {words.place(at)}.",
                remedy="Run a joint along it, or let the fall ask for none there.",
            )


CHECKS = (outside, on_edges, duplicates, pinned, zone_borders, falls)


def _finding(
    subject: str, at: Point, severity: Severity, *, measured: float, message: str, remedy: str
) -> Finding:
    return Finding(
        rule=Rule.EDGE,
        severity=severity,
        at=at,
        subject=subject,
        measured=measured,
        limit=0.0,
        message=message,
        source=str(PRACTICE),
        remedy=remedy,
    )


def _missing(bare: Sequence[LineString]) -> tuple[float, Point | None]:
    """Length of stretches without a joint, mm, and the middle of the longest; no place where it is no matter."""
    total = float(sum(part.length for part in bare))
    if total <= SHARED:
        return total, None
    return total, _middle(max(bare, key=lambda part: part.length))


def _reach(gross: Polygon, part: LineString) -> float:
    """How far a line outside the slab reaches from it, at its vertices and middle."""
    spots = [*part.coords, _middle(part)]
    return float(max(gross.distance(shapely.Point(spot)) for spot in spots))


def _middle(line: LineString) -> Point:
    spot = line.interpolate(0.5, normalized=True)
    return (float(spot.x), float(spot.y))


def _size_and_middle(line: LineString) -> tuple[float, float, float]:
    """A length in whole mm and the middle, so that of equals one is the greatest, in whatever order they come."""
    return (round(line.length), *_middle(line))


def _overlaps(measures: Measures) -> list[tuple[int, int, LineString]]:
    """Pairs of joints that lie on each other, and the longest stretch that they share."""
    lines = np.asarray(measures.lines)
    if not len(lines):
        return []
    # Most pairs cross: told apart by their directions before anything is asked of their shapes.
    bounds = shapely.bounds(lines) + np.array([-TOUCH, -TOUCH, TOUCH, TOUCH])
    pairs = measures.tree.query(shapely.box(*bounds.T))
    one, two = pairs[:, pairs[0] < pairs[1]]
    doubtful = _may_share(lines, one, two)
    one, two = one[doubtful], two[doubtful]
    near = shapely.dwithin(lines[one], lines[two], TOUCH)
    found = []
    for a, b in zip(one[near].tolist(), two[near].tolist(), strict=True):
        strip = lines[a].buffer(TOUCH, cap_style="flat", quad_segs=1)
        shared = lines_of(lines[b].intersection(strip))
        longest = max(shared, key=lambda part: part.length, default=None)
        if longest is not None and longest.length > SHARED:
            found.append((a, b, longest))
    return sorted(found, key=lambda row: row[:2])


def _may_share(lines: Shapes, one: Integers, two: Integers) -> Flags:
    """Which pairs may lie on each other: bent lines, and straight ones that run along each other."""
    straight = shapely.get_num_points(lines) == STRAIGHT
    start = shapely.get_coordinates(shapely.get_point(lines, 0))
    end = shapely.get_coordinates(shapely.get_point(lines, -1))
    length = np.hypot(*(end - start).T)
    way = (end - start) / np.maximum(length, SAME)[:, None]
    turn = way[one, 0] * way[two, 1] - way[one, 1] * way[two, 0]
    ends = np.stack([start[two] - start[one], end[two] - start[one]])
    along = np.sort((ends * way[one]).sum(axis=2), axis=0)
    shared = np.minimum(along[1], length[one]) - np.maximum(along[0], 0.0)
    parallel = (np.abs(turn) <= 2 * TOUCH / SHARED) & (shared > SHARED)
    either: Flags = parallel | ~(straight[one] & straight[two])
    return either


def _bare(measures: Measures, wanted: BaseGeometry, within: float) -> list[LineString]:
    """The stretches of a line that no joint lies along within a distance; crossings do not count."""
    return [
        LineString([run.at(start), run.at(end)])
        for line in lines_of(wanted)
        for run in runs_of([(float(x), float(y)) for x, y in line.coords])
        for start, end in left_of((0.0, run.length), _served(measures, run, within))
        if end - start > min(SHARED, run.length / 2)
    ]


def _served(measures: Measures, run: Run, within: float) -> list[Span]:
    near = measures.joints_near(run.line, within)
    return merged(
        (beside.start, beside.end)
        for index in near
        for beside in run.alongside(measures.lines[index], within)
    )
