"""The lettered corners that tapes are held at, and which of them finds a point best."""

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import combinations

from kerfline.geometry.corners import angle_between, direction
from kerfline.geometry.ring import Point
from kerfline.geometry.tolerance import SAME, TOUCH
from kerfline.sheets.baselines import Baselines
from kerfline.sheets.edges import FormEdge

LETTERS = "BDEHLMRSTUVXY"
"""Letters of corners: A is where the baselines meet; what tags on the plan begin with and what reads as a figure
are left out."""

LEAN = 55.0
"""A tape leans against the line that it is held to by no more than this (degrees): a slip of 1/8 in on the tape
is then less than 1/4 in along the line."""

CROSSING = 45.0
"""Two tapes cross at no less than this (degrees), for the same reason."""

KNOWN = 0.5
"""A corner that has its letter already is taken where its tape is no longer than twice another's."""

MOST_CORNERS = 24
"""How many of the nearest corners are tried."""


@dataclass(frozen=True)
class Peg:
    """A corner where a tape is held.

    Attributes:
        letter: Its letter on the plan.
        at: Its place in mm.
    """

    letter: str
    at: Point


@dataclass(frozen=True, kw_only=True)
class TieSpot:
    """A point that wants a tie, with what it lies on.

    Attributes:
        line: Id of its line.
        at: Its place.
        inward: Unit vector from it into its line.
        edge: The edge that it lies on.
        carrier: Unit vector along another line, or a leg of its own, that is there before it.
    """

    line: str
    at: Point
    inward: Point
    edge: FormEdge | None = None
    carrier: Point | None = None


class Pegs:
    """The corners that tapes are held at, letters given last."""

    def __init__(self, edges: Sequence[FormEdge], base: Baselines) -> None:
        starts = [edge.points[0] for edge in edges if edge.cornered]
        self.corners = list(dict.fromkeys(starts))
        self.origin = next((c for c in starts if math.dist(c, base.origin) <= TOUCH), None)
        self.taken = {self.origin} if self.origin else set()

    def on_edge(self, spot: TieSpot) -> tuple[Point, ...]:
        """The corner that a point on an edge is taped along the edge from; none on a round one."""
        edge = spot.edge
        if edge is None or not edge.cornered:
            return ()
        ends = (edge.points[0], edge.points[-1])
        fit = [c for c in ends if edge.straight or edge.grows_from(c, spot.at)]
        if not fit:
            return ()
        if edge.straight:
            return self._take(min(fit, key=lambda c: (c not in self.taken, ends.index(c))))
        return self._take(min(fit, key=lambda c: self._length(c, spot.at)))

    def on_line(self, spot: TieSpot) -> tuple[Point, ...]:
        """The corner whose tape meets the line that a point lies on well."""
        if spot.carrier is None:
            return ()
        steep = [
            c for c in self._near(spot.at)
            if _between_lines(direction(c, spot.at), spot.carrier) <= LEAN
        ]  # fmt: skip
        if not steep:
            return ()
        return self._take(min(steep, key=lambda c: self._length(c, spot.at)))

    def crossing(self, spot: TieSpot) -> tuple[Point, ...]:
        """The two corners whose tapes cross well at a point."""
        pairs = [
            pair
            for pair in combinations(self._near(spot.at), 2)
            if _between_lines(direction(pair[0], spot.at), direction(pair[1], spot.at)) >= CROSSING
        ]
        if not pairs:
            return ()
        best = min(pairs, key=lambda p: sum(self._length(c, spot.at) for c in p))
        return self._take(*best)

    def lettered(self, corner: str) -> dict[Point, Peg]:
        """The corners that were taken with their letters, in the order of the edges from A on."""
        start = self.corners.index(self.origin) if self.origin else 0
        names = _letters(corner.removeprefix("A"))
        out = {}
        for at in [*self.corners[start:], *self.corners[:start]]:
            if at == self.origin:
                out[at] = Peg(corner, at)
            elif at in self.taken:
                out[at] = Peg(next(names), at)
        return out

    def _take(self, *corners: Point) -> tuple[Point, ...]:
        self.taken.update(corners)
        return corners

    def _length(self, corner: Point, at: Point) -> float:
        """Length of a tape, that of one from a corner without a letter counted more."""
        return math.dist(corner, at) * (KNOWN if corner in self.taken else 1.0)

    def _near(self, at: Point) -> list[Point]:
        far = [c for c in self.corners if math.dist(c, at) > SAME]
        return sorted(far, key=lambda c: self._length(c, at))[:MOST_CORNERS]


def _between_lines(first: Point, second: Point) -> float:
    """Angle between two lines, degrees, 0 to 90."""
    angle = angle_between(first, second)
    return min(angle, 180.0 - angle)


def _letters(suffix: str) -> Iterator[str]:
    times = 1
    while True:
        for letter in LETTERS:
            yield letter * times + suffix
        times += 1
