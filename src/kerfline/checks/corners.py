"""The rule on re-entrant corners: a joint leaves each of them."""

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

import shapely

from kerfline.checks.measures import Measures
from kerfline.checks.sources import CORNER, JOG
from kerfline.checks.wording import Wording
from kerfline.geometry.corners import Corner, corners_by_ring
from kerfline.geometry.ring import Point
from kerfline.model.finding import Finding, Rule, Severity

TIP = 1.0
"""A corner this near (mm) to the point of a diamond is that point, and the rule on columns has it."""


@dataclass(frozen=True)
class CornerPlace:
    """One re-entrant corner, which a chamfer may make of several vertices.

    Attributes:
        id: ``R1``, ``R2``, ... in the order of the edges.
        vertices: Its vertices.
        jog: Whether it is only a step shallower than ``JOG``.
    """

    id: str
    vertices: tuple[Point, ...]
    jog: bool

    @property
    def at(self) -> Point:
        """Where it is: its middle vertex."""
        return self.vertices[len(self.vertices) // 2]


def corner_places(measures: Measures) -> list[CornerPlace]:
    """The re-entrant corners of the concrete, the points of diamonds left out."""
    tips = shapely.STRtree([shapely.Point(p) for c in measures.slab.columns for p in c.points])
    found = [
        (group, jog)
        for ring in corners_by_ring(measures.concrete)
        for group, jog in _groups(ring)
        if not any(len(tips.query(shapely.Point(v), "dwithin", TIP)) for v in group)
    ]
    return [CornerPlace(f"R{n}", group, jog) for n, (group, jog) in enumerate(found, start=1)]


def corners(measures: Measures) -> Iterator[Finding]:
    """A joint leaves every re-entrant corner; where none can, bars lie across it."""
    for corner in corner_places(measures):
        if not any(measures.net.leaves(v) for v in corner.vertices):
            yield _finding(measures, corner)


CHECKS = (corners,)


def bars_advice(words: Wording) -> str:
    """The bars that are usual across a corner or ahead of a stopped joint, and who decides."""
    return words.either(
        "2 or 3 No. 4 bars, 3 to 4 ft long, 3 in apart at 45 degrees, the first 2 in from the corner",
        "2 or 3 bars of 12 mm, 0.9 to 1.2 m long, 75 mm apart at 45 degrees, the first 50 mm from the corner",
    )


def _finding(measures: Measures, corner: CornerPlace) -> Finding:
    words = measures.words
    near = measures.nearest_joint(corner.at)
    passes = f"; the nearest, {near[0].id}, passes {words.length(near[1])} away" if near else ""
    kind = "jog" if corner.jog else "corner"
    return Finding(
        rule=Rule.CORNER,
        severity=Severity.ADVICE if corner.jog else Severity.WARNING,
        at=corner.at,
        subject=corner.id,
        measured=near[1] if near else None,
        limit=0.0,
        message=f"No joint leaves the re-entrant {kind} at {words.place(corner.at)}{passes}.",
        source=str(CORNER),
        remedy=f"Run a joint from it, or place bars across it ({bars_advice(words)}); "
        "the local code and the engineer decide.",
    )


def _groups(ring: Sequence[Corner]) -> list[tuple[tuple[Point, ...], bool]]:
    """The re-entrant corners of a ring: vertices, and whether each is a jog.

    Re-entrant vertices that a run shorter than ``JOG`` joins are one chamfered corner. A corner that so
    short a run parts from an outward corner is a jog.
    """
    count = len(ring)
    near = [_gap(ring[i], ring[(i + 1) % count]) <= JOG for i in range(count)]
    starts = [
        i
        for i, c in enumerate(ring)
        if c.reentrant and not (count > 1 and near[i - 1] and ring[i - 1].reentrant)
    ]
    groups = []
    for start in starts:
        end = start
        while near[end % count] and ring[(end + 1) % count].reentrant and end - start < count - 1:
            end += 1
        members = tuple(ring[i % count].at for i in range(start, end + 1))
        groups.append((members, near[start - 1] or near[end % count]))
    return groups


def _gap(one: Corner, two: Corner) -> float:
    return math.dist(one.at, two.at)
