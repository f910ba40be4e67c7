"""The rule on re-entrant corners: a joint leaves each of them."""

from collections.abc import Iterator
from dataclasses import dataclass

from kerfline.checks.measures import Measures
from kerfline.checks.sources import CORNER
from kerfline.checks.wording import Wording
from kerfline.geometry.ring import Point
from kerfline.model.finding import Finding, Rule, Severity


@dataclass(frozen=True)
class CornerPlace:
    """One re-entrant corner.

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
    groups = measures.slab.corner_groups
    return [
        CornerPlace(f"R{n}", tuple(c.at for c in group.corners), group.jog)
        for n, group in enumerate(groups, start=1)
    ]


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
    column = measures.square_at(corner.at)
    turned = (
        f"turn the boxout of column {column.id} so that a joint meets its point, " if column else ""
    )
    return Finding(
        rule=Rule.CORNER,
        severity=Severity.ADVICE if corner.jog else Severity.WARNING,
        at=corner.at,
        subject=corner.id,
        measured=near[1] if near else None,
        limit=0.0,
        message=f"No joint leaves the re-entrant {kind} at {words.place(corner.at)}{passes}.",
        source=str(CORNER),
        remedy=f"Run a joint from it, {turned}or place bars across it ({bars_advice(words)}); "
        "the local code and the engineer decide.",
    )
