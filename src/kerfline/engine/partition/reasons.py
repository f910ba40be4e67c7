"""Why a run of joint is where it is, in words."""

from collections.abc import Iterable, Sequence
from dataclasses import replace
from itertools import pairwise

import shapely
from shapely import LineString, Polygon
from shapely import Point as ShapelyPoint

from kerfline.engine.lines.features import is_opening
from kerfline.engine.lines.lattice import inside_spans
from kerfline.engine.partition.true_runs import TrueRun
from kerfline.engine.regions.asking import AskingLine
from kerfline.engine.regions.region import Cut, Region, along_axis
from kerfline.engine.regions.walls import segments
from kerfline.geometry.corners import reentrant_corners
from kerfline.geometry.faces import lines_of
from kerfline.geometry.ring import Point
from kerfline.geometry.tolerance import MEASURE, TOUCH
from kerfline.model.layout import Reason
from kerfline.model.slab import GivenJoint, JointKind
from kerfline.units import enumerated, stored_length

UNDER = 0.25
"""A joint is there for a wall when this share of the wall lies over it."""

LONG_LIST = 5
"""Longer lists of names are shortened to the first and the last."""

Cause = tuple[Reason, str, Point | None]


def cuts(region: Region, outline: Polygon, runs: Sequence[TrueRun]) -> list[Cut]:
    """The cuts of the runs with their reasons; a joint of another kind on a run is a cut of its own."""
    return [
        cut for run in runs for piece in run.pieces for cut in _cuts_of(region, outline, run, piece)
    ]


def _cuts_of(
    region: Region, outline: Polygon, run: TrueRun, piece: tuple[Point, ...]
) -> Iterable[Cut]:
    """The cuts along one piece of a run, divided where a joint that differs in kind begins or ends."""
    own = [j for j in region.pinned if _differs(j) and _overlap(run, j.path) > TOUCH]
    if not own:
        kind, depth = _given(region, run)
        reason, note, at = _cause(region, outline, run)
        yield Cut(path=piece, reason=reason, note=note, at=at, kind=kind, depth=depth)
        return
    for part in _divided(piece, own):
        middle = LineString(part).interpolate(0.5, normalized=True)
        joint = next((j for j in own if LineString(j.path).distance(middle) <= TOUCH), None)
        if joint:
            reason, note, at = _of_pinned(joint)
            yield Cut(
                path=part, reason=reason, note=note, at=at, kind=joint.kind, depth=joint.depth
            )
        else:
            reason, note, at = _cause(region, outline, run, pinned=False)
            yield Cut(path=part, reason=reason, note=note, at=at, kind=JointKind.CONTROL)


def _differs(joint: GivenJoint) -> bool:
    """Whether a pinned joint is more than a control joint that happens to be wished for."""
    return joint.kind is not JointKind.CONTROL or joint.existing


def _divided(piece: tuple[Point, ...], joints: Sequence[GivenJoint]) -> list[tuple[Point, ...]]:
    """A straight piece, divided where joints along it begin or end."""
    line = LineString(piece)
    ends = [ShapelyPoint(end) for j in joints for end in (j.path[0], j.path[-1])]
    places = sorted(line.project(end) for end in ends if line.distance(end) <= TOUCH)
    inner = [p for p in places if TOUCH < p < line.length - TOUCH]
    stops = [0.0, *inner, line.length]
    spots = [line.interpolate(stop) for stop in stops]
    points = [(spot.x, spot.y) for spot in spots]
    return [
        pair for pair, length in zip(pairwise(points), _steps(stops), strict=True) if length > TOUCH
    ]


def _steps(stops: Sequence[float]) -> list[float]:
    return [after - before for before, after in pairwise(stops)]


def _given(region: Region, run: TrueRun) -> tuple[JointKind, float | None]:
    """Kind and depth of the pinned joint that a run follows."""
    joint = next((j for j in region.pinned if _overlap(run, j.path) > TOUCH), None)
    return (joint.kind, joint.depth) if joint else (JointKind.CONTROL, None)


def _cause(region: Region, outline: Polygon, run: TrueRun, *, pinned: bool = True) -> Cause:
    """The strongest reason for a run; ``pinned`` is whether a pinned joint counts as one."""
    for causes in (
        _pinned(region, run) if pinned else (),
        _walls(region, run),
        _corners(outline, run),
        _zones(region, run),
        _columns(region, run),
        _penetrations(region, run),
        _landings(region, run),
    ):
        found = next(iter(causes), None)
        if found:
            return found
    return _span(region, outline, run)


def _overlap(run: TrueRun, path: tuple[Point, ...], reach: float = TOUCH) -> float:
    """Length of a path along its own line that a run covers within a reach."""
    line = LineString(run.path)
    along = [LineString(s) for s in segments(path) if along_axis(*s) == run.run.axis]
    near = [s for s in along if shapely.dwithin(s, line, reach + TOUCH)]
    if not near:
        return 0.0
    band = line.buffer(reach, cap_style="flat")
    return sum(float(s.intersection(band).length) for s in near)


def _pinned(region: Region, run: TrueRun) -> Iterable[Cause]:
    for joint in region.pinned:
        if _overlap(run, joint.path) > TOUCH:
            yield _of_pinned(joint)


def _of_pinned(joint: GivenJoint) -> Cause:
    if joint.existing:
        return Reason.FOUND, f"existing joint {joint.id}", None
    if joint.reason == Reason.FALL:
        return Reason.FALL, joint.note, None
    return Reason.PINNED, f"pinned joint {joint.id}", None


def _walls(region: Region, run: TrueRun) -> Iterable[Cause]:
    names = []
    near = region.wall_tree.query(LineString(run.path), "dwithin", region.thickest / 2 + 2 * TOUCH)
    for wall in (region.walls[n] for n in sorted(near.tolist())):
        under = _overlap(run, wall.path, wall.thickness / 2) if wall.takes_joint else 0.0
        along = sum(
            LineString(s).length for s in segments(wall.path) if along_axis(*s) == run.run.axis
        )
        if under > UNDER * min(along, LineString(run.path).length):
            names.append(wall.id)
    if names:
        word = "walls" if len(names) > 1 else "wall"
        yield Reason.WALL, f"under {word} {_listed(sorted(set(names), key=_natural))}", None


def _natural(name: str) -> tuple[str, int]:
    digits = "".join(c for c in name if c.isdigit())
    return (name.rstrip("0123456789"), int(digits or 0))


def _listed(names: Sequence[str]) -> str:
    if len(names) > LONG_LIST:
        return f"{names[0]} to {names[-1]}, {len(names)} in all"
    return enumerated(names)


def _corners(outline: Polygon, run: TrueRun) -> Iterable[Cause]:
    line = LineString(run.path)
    holes = list(outline.interiors)
    for corner in reentrant_corners(outline):
        spot = ShapelyPoint(corner.at)
        if line.distance(spot) > TOUCH:
            continue
        if any(hole.distance(spot) <= TOUCH for hole in holes):
            yield Reason.OPENING, "corner of the opening at {at}", corner.at
        else:
            yield Reason.CORNER, "re-entrant corner at {at}", corner.at


def _zones(region: Region, run: TrueRun) -> Iterable[Cause]:
    for zone in region.zones:
        ring = tuple((float(x), float(y)) for x, y in zone.area.exterior.coords)
        if _overlap(run, ring) > TOUCH:
            yield Reason.ZONE, f"border of zone {zone.id}", None


def _columns(region: Region, run: TrueRun) -> Iterable[Cause]:
    x0, y0, x1, y1 = LineString(run.path).buffer(TOUCH).bounds
    beside = (c for c in region.columns if x0 <= c.at[0] <= x1 and y0 <= c.at[1] <= y1)
    small = [c for c in beside if not is_opening(c, region)]
    far = shapely.distance(LineString(run.path), [ShapelyPoint(c.at) for c in small])
    names = [c.id for c, gap in zip(small, far, strict=True) if gap <= TOUCH]
    if names:
        word = "columns" if len(names) > 1 else "column"
        yield Reason.COLUMN, f"{word} {_listed(sorted(names, key=_natural))}", None


def _penetrations(region: Region, run: TrueRun) -> Iterable[Cause]:
    line = LineString(run.path)
    for hole in region.penetrations:
        if line.distance(ShapelyPoint(hole.at)) <= max(hole.diameter / 2, TOUCH):
            yield Reason.PENETRATION, f"through {hole.kind} {hole.id}", None


def _landings(region: Region, run: TrueRun) -> Iterable[Cause]:
    line = LineString(run.path)
    if any(line.distance(ShapelyPoint(at)) <= TOUCH for at in region.landings):
        yield Reason.SPAN, "continues the joint of the next part", None


def _span(region: Region, outline: Polygon, run: TrueRun) -> Cause:
    """The free span that a run divides, or the aspect that it mends."""
    axis = run.run.axis
    (x0, y0), (x1, y1) = run.path
    middle = ((x0 + x1) / 2, (y0 + y1) / 2)
    walls = [
        s[0][axis]
        for w in region.walls
        for s in segments(w.path)
        if along_axis(*s) == axis and _between(s, middle[1 - axis], 1 - axis)
    ]
    reach = max(
        (
            min((w for w in [*walls, b] if w > middle[axis] + MEASURE), default=b)
            - max((w for w in [*walls, a] if w < middle[axis] - MEASURE), default=a)
            for a, b in inside_spans(axis, outline, middle[1 - axis])
            if a <= middle[axis] <= b
        ),
        default=0.0,
    )
    limit = region.working.span
    text, bound = (stored_length(v) for v in (reach, limit))
    if reach > limit + MEASURE:
        return Reason.SPAN, f"open floor: {text} is more than {bound}", None
    return (
        Reason.ASPECT,
        f"keeps the panels within {region.working.aspect:g} times as long as wide",
        None,
    )


def _between(segment: tuple[Point, Point], level: float, axis: int) -> bool:
    low, high = sorted((segment[0][axis], segment[1][axis]))
    return low <= level <= high


def named_under(cuts: Sequence[Cut], lines: Sequence[AskingLine]) -> tuple[Cut, ...]:
    """The cuts, those that lie under walls with that as their reason."""
    return tuple(_named(cut, lines) for cut in cuts)


def _named(cut: Cut, lines: Sequence[AskingLine]) -> Cut:
    if cut.reason in (Reason.PINNED, Reason.FOUND, Reason.ZONE, Reason.PATTERN):
        return cut
    under = [line for line in lines if _covers(line, LineString(cut.path))]
    if not under:
        return cut
    names = sorted({line.name for line in under}, key=lambda n: (len(n), n))
    word = "walls" if len(names) > 1 else "wall"
    return replace(cut, reason=Reason.WALL, note=f"under {word} {enumerated(names)}", at=None)


def _covers(wall: AskingLine, joint: LineString) -> bool:
    """Whether a joint lies under most of a wall, or a wall over most of a joint."""
    under = lines_of(joint.intersection(wall.band))
    long = sum(x.length for x in under if wall.runs_along(x))
    return long > 0.5 * min(wall.path.length, joint.length)
