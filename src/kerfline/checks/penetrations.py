"""The rule on penetrations: a joint runs through, or stays clear."""

from collections.abc import Iterator

import shapely

from kerfline.checks.measures import Measures
from kerfline.checks.sources import CASTINGS, PRACTICE
from kerfline.geometry.tolerance import MEASURE
from kerfline.model.finding import Finding, Rule, Severity
from kerfline.model.layout import Joint
from kerfline.model.slab import Meeting, Penetration
from kerfline.rules.limits import Source

ON_POINT = 12.7
"""A joint this near (mm, 1/2 in) to a penetration of unknown diameter runs through it (common practice)."""


def penetrations(measures: Measures) -> Iterator[Finding]:
    """No joint runs just beside a penetration, and each is met as the job asks."""
    for penetration in measures.slab.penetrations:
        spot = shapely.Point(penetration.at)
        reach = max(penetration.diameter / 2, ON_POINT)
        near = sorted(
            (float(measures.lines[i].distance(spot)), i)
            for i in measures.joints_near(spot, max(penetration.clear, reach))
        )
        through = bool(near) and near[0][0] <= reach + MEASURE
        yield from _judged(measures, penetration, near, through=through)


CHECKS = (penetrations,)


def _judged(
    measures: Measures, penetration: Penetration, near: list[tuple[float, int]], *, through: bool
) -> Iterator[Finding]:
    where = f"{penetration.kind.value} {penetration.id} at {measures.words.place(penetration.at)}"
    if through and penetration.meeting is Meeting.CLEAR:
        joint = measures.joints[near[0][1]]
        yield _finding(
            penetration,
            joint,
            near[0][0],
            PRACTICE,
            f"{joint.id} runs through the {where}, which the job wants clear of joints.",
            _move(measures, penetration),
        )
    elif not through and penetration.meeting is Meeting.THROUGH:
        yield _finding(
            penetration,
            measures.joints[near[0][1]] if near else None,
            near[0][0] if near else None,
            CASTINGS,
            f"No joint runs through the {where}, as the job asks.",
            "Move a joint on to its centre.",
        )
    elif not through and near and near[0][0] < penetration.clear - MEASURE:
        joint = measures.joints[near[0][1]]
        yield _finding(
            penetration,
            joint,
            near[0][0],
            CASTINGS,
            f"{joint.id} passes {measures.words.length(near[0][0])} from the centre of the {where} "
            "and misses it.",
            f"Run the joint through it, or {_move(measures, penetration, first=False)}",
        )


def _move(measures: Measures, penetration: Penetration, *, first: bool = True) -> str:
    word = "Keep" if first else "keep"
    return (
        f"{word} joints {measures.words.length(penetration.clear)} from its centre and wrap it in a "
        "compressible sleeve."
    )


def _finding(
    penetration: Penetration,
    joint: Joint | None,
    distance: float | None,
    source: Source,
    message: str,
    remedy: str,
) -> Finding:
    return Finding(
        rule=Rule.PENETRATION,
        severity=Severity.WARNING,
        at=penetration.at,
        subject=f"{joint.id} at {penetration.id}" if joint else penetration.id,
        measured=distance,
        limit=penetration.clear,
        message=message,
        source=str(source),
        remedy=remedy,
    )
