"""Floors that fall to a drain: the lines in which their planes meet, and the joints asked for along them."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from enum import StrEnum

import shapely
from shapely import LineString
from shapely import Point as ShapelyPoint
from shapely.geometry.base import BaseGeometry

from kerfline.geometry.corners import corners
from kerfline.geometry.faces import lines_of
from kerfline.geometry.ring import Point
from kerfline.geometry.tolerance import SAME, TOUCH
from kerfline.model.layout import Reason
from kerfline.model.slab import Fall, FallJoints, GivenJoint, Slab

STRETCH = 50.0
"""A shorter piece (mm) of such a line is no joint of its own."""


class Crease(StrEnum):
    """What two planes that meet do there: water runs along a valley and away from a ridge."""

    VALLEY = "valley"
    RIDGE = "ridge"


@dataclass(frozen=True)
class FallLine:
    """A line in which the planes of a fall meet each other or the floor around.

    Attributes:
        fall: Name of the fall.
        crease: What they do there.
        path: The line.
    """

    fall: str
    crease: Crease
    path: tuple[Point, ...]


def given_joints(slab: Slab) -> tuple[GivenJoint, ...]:
    """The joints that must stay: those that the user draws, and those that falls ask for beside them."""
    drawn = slab.pinned
    if not slab.falls:
        return drawn
    there = shapely.union_all([LineString(j.path) for j in drawn])
    asked = [
        GivenJoint(
            id=f"{line.fall}/{number}",
            path=_points(part),
            reason=Reason.FALL.value,
            note=f"{line.crease} of fall {line.fall}",
        )
        for number, line in enumerate(asked_lines(slab), start=1)
        for part in _beside(LineString(line.path), there)
    ]
    return (*drawn, *asked)


def asked_lines(slab: Slab) -> list[FallLine]:
    """The lines of all falls along which a joint is asked for, each once, where they run through concrete."""
    taken: BaseGeometry = slab.concrete.boundary
    out: list[FallLine] = []
    for fall in slab.falls:
        for line in fall_lines(fall):
            if fall.joints not in (FallJoints.BOTH, FallJoints(f"{line.crease}s")):
                continue
            inside = LineString(line.path).intersection(slab.concrete)
            out += [FallLine(fall.id, line.crease, _points(p)) for p in _beside(inside, taken)]
            taken = shapely.union(taken, LineString(line.path))
    return out


def fall_lines(fall: Fall) -> Iterator[FallLine]:
    """Every line in which the planes of a fall meet.

    Each side of the area carries a plane down to the drain. Two of them meet in a valley at a corner that
    points outward and in a ridge at one that points inward; the border, where the fall begins, is a ridge;
    a channel is a valley along its own length.
    """
    drain = _drain(fall)
    if len(fall.to) > 1:
        yield FallLine(fall.id, Crease.VALLEY, fall.to)
    for corner in corners(fall.area.polygon):
        low = shapely.shortest_line(ShapelyPoint(corner.at), drain)
        if low.length > SAME:
            crease = Crease.RIDGE if corner.reentrant else Crease.VALLEY
            yield FallLine(fall.id, crease, _points(low))
    for side in _sides(fall):
        yield FallLine(fall.id, Crease.RIDGE, side)


def sides_down(fall: Fall) -> Iterator[tuple[Point, Point]]:
    """For every side of a fall its middle and the place of the drain that the floor falls to from there."""
    for side in _sides(fall):
        middle = LineString(side).interpolate(0.5, normalized=True)
        start, end = _points(shapely.shortest_line(middle, _drain(fall)))
        if start != end:
            yield start, end


def _drain(fall: Fall) -> BaseGeometry:
    return ShapelyPoint(fall.to[0]) if len(fall.to) == 1 else LineString(fall.to)


def _sides(fall: Fall) -> Iterator[tuple[Point, ...]]:
    """The border of a fall from corner to corner, or in quarters where it has none."""
    ring = _points(LineString(fall.area.polygon.exterior.coords))[:-1]
    count = len(ring)
    turns = {corner.at for corner in corners(fall.area.polygon)}
    stops = [i for i, at in enumerate(ring) if at in turns]
    stops = stops or [count * quarter // 4 for quarter in range(4)]
    for start, end in zip(stops, [*stops[1:], stops[0] + count], strict=True):
        yield tuple(ring[i % count] for i in range(start, end + 1))


def _beside(line: BaseGeometry, there: BaseGeometry) -> Sequence[LineString]:
    """The stretches of a line that do not lie along what is there already."""
    shared = lines_of(line.intersection(there.buffer(TOUCH, cap_style="flat")))
    along = [part for part in shared if part.length > STRETCH]
    left = line.difference(shapely.union_all(along).buffer(SAME)) if along else line
    found = lines_of(shapely.line_merge(left) if left.geom_type == "MultiLineString" else left)
    return [part for part in found if part.length > STRETCH]


def _points(line: LineString) -> tuple[Point, ...]:
    return tuple((float(x), float(y)) for x, y in line.coords)
