"""A closed figure that may be the slab, with what speaks for it and against it.

The sizes and shares below are common practice, weighed on the drawings of the forge (``tests/forge``).
"""

from dataclasses import dataclass
from enum import StrEnum

from shapely import Polygon

from kerfline.geometry.ring import Point, Ring
from kerfline.geometry.wrap import grown


class Source(StrEnum):
    """How a candidate is drawn."""

    CLOSED = "closed outline"
    PIECES = "outline in pieces"
    WOVEN = "outer edge of lines that cross"
    WALLS = "outer faces of the walls"
    FILL = "edge of a hatch"
    TILES = "outer edge of tiles and walls"


@dataclass(frozen=True, kw_only=True)
class Sign:
    """One thing that speaks for a candidate or against it.

    Attributes:
        points: How much, negative where against.
        words: What, as a clause; empty where it is not worth a word.
        around: Whether it says that the line is something else's: a roof's, a site's around a building, a sheet's.
    """

    points: float
    words: str = ""
    around: bool = False


@dataclass(frozen=True, kw_only=True)
class Candidate:
    """A closed figure that may be the slab.

    Attributes:
        ring: Its edge, mm.
        layers: The layers that it is drawn on.
        source: How it is drawn.
        number: What the user calls it, from 1; 0 while they are not numbered.
        signs: What speaks for it and against it.
        inside: What lies in it, as the user reads it.
        gap: Widest gap (mm) that was bridged for it; 0 where none was.
        butted: Corners where walls butt that it goes straight past.
        alike: Whether it is one of several ways to go around the same walls: with a recess or a court, and without.
        copies: How often it is drawn, one over the other.
        courts: Areas in it that are left out as courts.
    """

    ring: Ring
    layers: tuple[str, ...]
    source: Source
    number: int = 0
    signs: tuple[Sign, ...] = ()
    inside: str = ""
    gap: float = 0.0
    butted: int = 0
    alike: bool = False
    copies: int = 1
    courts: tuple[Ring, ...] = ()

    @property
    def polygon(self) -> Polygon:
        """The area inside its edge, courts too."""
        return self.ring.polygon

    @property
    def floor(self) -> Polygon:
        """The area inside without the courts."""
        return Polygon(self.ring.polygon.exterior, [c.polygon.exterior for c in self.courts])

    @property
    def label(self) -> Point:
        """A point in it, courts apart, where its number stands."""
        inside = self.floor.representative_point()
        return (float(inside.x), float(inside.y))

    @property
    def points(self) -> float:
        """The sum of the signs."""
        return round(sum(s.points for s in self.signs), 6)

    @property
    def doubts(self) -> tuple[str, ...]:
        """What speaks against it, the gravest first."""
        against = sorted(
            (s for s in self.signs if s.points < 0 and s.words), key=lambda s: s.points
        )
        return tuple(s.words for s in against)

    @property
    def reasons(self) -> tuple[str, ...]:
        """What speaks for it, the weightiest first."""
        speak = sorted((s for s in self.signs if s.points > 0 and s.words), key=lambda s: -s.points)
        return tuple(s.words for s in speak)


LEDGE = 200.0
"""A slab goes beyond the outer faces of its walls by at most this (mm), for bricks or boards; a roof by more."""


PETTY = 0.01
ACROSS = 0.05
"""Recesses of the walls that an edge goes straight on across: under this share of its area, and of its length."""


def on_ledge(walls: Polygon, edge: Polygon) -> bool:
    """Whether an edge goes around walls a hand's breadth outside of them, straight on across small recesses."""
    if not edge.buffer(1.0).covers(walls):
        return False
    near = grown(walls, LEDGE)
    across = edge.exterior.difference(near).length <= ACROSS * edge.length
    return bool(across and edge.difference(near).area <= PETTY * edge.area)
