"""Points measured on site held against the points that were set out."""

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from shapely import LineString
from shapely import Point as ShapelyPoint

from kerfline.checks.as_cut import SAME_JOINT
from kerfline.checks.sources import AS_CUT, OFF_PLAN, PRACTICE
from kerfline.checks.wording import wording_of
from kerfline.geometry.ring import Point
from kerfline.geometry.tolerance import MEASURE
from kerfline.model.finding import Finding, Rule, Severity
from kerfline.model.layout import Layout
from kerfline.model.slab import Slab
from kerfline.units import Display

REMEDY = "Measure it again; note the change on the drawing and hold the panels beside it against the rules."


@dataclass(frozen=True, kw_only=True)
class Measured:
    """A point as it was planned and as it was measured.

    Attributes:
        name: Its name.
        what: What it is, in words.
        planned: Where it should be, mm.
        found: Where it was measured, mm.
        joint: The joint that it is a point of; empty where it is of the slab, an opening or a column.
    """

    name: str
    what: str
    planned: Point
    found: Point
    joint: str = ""

    @property
    def apart(self) -> float:
        """Distance between the two, mm."""
        return math.dist(self.planned, self.found)


def off_plan(point: Measured, lines: Mapping[str, LineString]) -> float:
    """How far a measured point lies from where it should (mm); a joint's sideways from its line.

    A saw may stop short or run on, so that the end of a joint is not held to its place along the line.
    """
    line = lines.get(point.joint)
    if line is None:
        return point.apart
    return float(_longer(line).distance(ShapelyPoint(point.found)))


def surveyed(
    slab: Slab, plan: Layout, points: Sequence[Measured], display: Display
) -> tuple[Finding, ...]:
    """Holds a survey by points against the plan.

    Args:
        slab: The slab.
        plan: The layout that was set out.
        points: The points that were measured.
        display: How lengths are written in messages.

    Returns:
        A finding of the rule ``edge`` for each point more than 3/4 in off its planned place.
    """
    words = wording_of(slab, display)
    lines = {joint.id: joint.line for joint in plan.joints}
    found = []
    for point in points:
        off = off_plan(point, lines)
        if off <= OFF_PLAN + MEASURE:
            continue
        told, allowed = words.depths(off, OFF_PLAN)
        found.append(
            Finding(
                rule=Rule.EDGE,
                severity=Severity.WARNING,
                at=point.found,
                subject=point.joint or point.name,
                measured=off,
                limit=OFF_PLAN,
                message=(
                    f"Point {point.name} ({point.what}) at {words.place(point.found)} lies {told} off its "
                    f"planned place; {allowed} is allowed."
                ),
                source=str(AS_CUT if point.joint else PRACTICE),
                remedy=REMEDY,
            )
        )
    return tuple(found)


def _longer(line: LineString) -> LineString:
    """A line carried on at both ends by what a cut may be off along it."""
    points = [(float(x), float(y)) for x, y in line.coords]
    return LineString([_beyond(points[1], points[0]), *points, _beyond(points[-2], points[-1])])


def _beyond(inner: Point, end: Point) -> Point:
    size = math.dist(inner, end)
    return (
        end[0] + (end[0] - inner[0]) / size * SAME_JOINT,
        end[1] + (end[1] - inner[1]) / size * SAME_JOINT,
    )
