"""Which walls have their joint, how far off centre it lies, and why others have none."""

from collections.abc import Sequence

import shapely
from shapely import LineString

from kerfline.engine.aslant import drift_of
from kerfline.engine.orthogonal.costs import BESIDE_REACH, STUB
from kerfline.engine.orthogonal.features import segments, strip_half
from kerfline.engine.region import Region
from kerfline.geometry.corners import direction
from kerfline.geometry.tolerance import MEASURE, TOUCH
from kerfline.model.slab import Wall
from kerfline.units import stored_length

COVERED = 0.9
"""A wall has its joint when this share of it lies over one."""

AT_EDGE = 152.4
"""A wall whose face is within this (mm, six inches) of the slab's edge stands on the edge."""

SQUARE = 0.2
"""Sine of the angle under which a joint counts as along a wall."""


def walls_left(region: Region, joints: Sequence[LineString]) -> dict[str, str]:
    """Id of each wall without a joint, and why, in words with stored lengths."""
    out: dict[str, str] = {}
    for wall in region.walls:
        reach = _reach(wall)
        bare = sum(
            _on_concrete(region, s) - _covered(s, reach, joints)
            for s in segments(wall.path)
            if not _on_edge(region, wall, s)
        )
        if bare > max((1 - COVERED) * wall.line.length, STUB):
            part = COVERED * wall.line.length > bare
            text = stored_length(bare)
            out[wall.id] = (f"along {text} of it: " if part else "") + _why(region, wall)
    return out


def wall_shifts(region: Region, joints: Sequence[LineString]) -> dict[str, float]:
    """Id of each wall whose joint lies off its centre line, and by how much in mm."""
    out: dict[str, float] = {}
    for wall in region.walls:
        for start, end in segments(wall.path):
            near = [j for j in joints if _along((start, end), _reach(wall), j) > STUB]
            middle = shapely.Point((start[0] + end[0]) / 2, (start[1] + end[1]) / 2)
            shift = min((float(j.distance(middle)) for j in near), default=0.0)
            if shift > TOUCH:
                out[wall.id] = max(shift, out.get(wall.id, 0.0))
    return out


def _reach(wall: Wall) -> float:
    return wall.thickness / 2 if wall.takes_joint else strip_half(wall) + BESIDE_REACH


def _along(
    segment: tuple[tuple[float, float], tuple[float, float]], reach: float, joint: LineString
) -> float:
    """Length of a joint that runs along a segment within a reach of it."""
    way = direction(*segment)
    own = direction(_xy(joint.coords[0]), _xy(joint.coords[-1]))
    if abs(way[0] * own[1] - way[1] * own[0]) > SQUARE:
        return 0.0
    band = LineString(segment).buffer(reach + TOUCH, cap_style="flat")
    return float(joint.intersection(band).length)


def _xy(at: tuple[float, ...]) -> tuple[float, float]:
    return (at[0], at[1])


def _covered(
    segment: tuple[tuple[float, float], tuple[float, float]],
    reach: float,
    joints: Sequence[LineString],
) -> float:
    return min(sum(_along(segment, reach, j) for j in joints), LineString(segment).length)


def _on_concrete(region: Region, segment: tuple[tuple[float, float], tuple[float, float]]) -> float:
    """Length of a wall's segment that does not stand over a boxout or an opening."""
    return float(LineString(segment).intersection(region.concrete).length)


def _on_edge(
    region: Region, wall: Wall, segment: tuple[tuple[float, float], tuple[float, float]]
) -> bool:
    band = region.gross.exterior.buffer(wall.thickness / 2 + AT_EDGE)
    return bool(band.covers(LineString(segment)))


def _why(region: Region, wall: Wall) -> str:
    limits = region.working
    if not wall.takes_joint:
        return "no joint fits beside its strip within the limits"
    if drift_of(wall.line) > wall.thickness:
        return "it is short and runs aslant of the joints around it"
    gap = min((_clear(region, wall, s) for s in segments(wall.path)), default=0.0)
    if gap < limits.width - MEASURE:
        narrow, least = (stored_length(v) for v in (gap, limits.width))
        return (
            f"a joint under it would leave a panel {narrow} wide, under the least width of {least}"
        )
    return f"a joint under it would make panels longer than {limits.aspect:g} times their width"


def _clear(
    region: Region, wall: Wall, segment: tuple[tuple[float, float], tuple[float, float]]
) -> float:
    """Distance from the middle of a wall to the nearest edge or parallel wall."""
    middle = shapely.Point((segment[0][0] + segment[1][0]) / 2, (segment[0][1] + segment[1][1]) / 2)
    edge = float(region.gross.boundary.distance(middle))
    others = [
        float(LineString(s).distance(middle))
        for w in region.walls
        for s in segments(w.path)
        if w.id != wall.id and _parallel(s, segment)
    ]
    return min([edge, *others])


def _parallel(
    one: tuple[tuple[float, float], tuple[float, float]],
    other: tuple[tuple[float, float], tuple[float, float]],
) -> bool:
    a, b = direction(*one), direction(*other)
    return abs(a[0] * b[1] - a[1] * b[0]) < SQUARE
