"""How far out each dimension string stands, so that no text of one meets a line or a text of another."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from functools import cached_property
from itertools import product

import shapely
from shapely import LineString, MultiPolygon, Polygon, STRtree

from kerfline.sheets.dimension_marks import axis_of, draw_string
from kerfline.sheets.lettering import text_corners
from kerfline.sheets.marks import Board, Mark, Path, Text
from kerfline.sheets.plan_labels import path_line
from kerfline.sheets.strings import DimensionString, Shown
from kerfline.units import Display

TRIES = tuple(3.0 * n for n in range(12))
"""How much further out a string may stand than usual, mm."""

LEANS = (0.0, 0.8, -0.8)
"""Where a text may stand: a chain's in the middle of its bay or toward either end, a running string's straight out or
stepped aside by that much of its pitch."""


def draw_strings(
    board: Board,
    strings: Sequence[DimensionString],
    shown: Shown,
    limits: tuple[tuple[float, float], tuple[float, float]],
    display: Display,
    height: float,
) -> None:
    """Draws the strings, each as near to its edge as it stands clear of the others and of the concrete.

    One that stands clear nowhere is left out where the outer strings tell all that it would.

    Args:
        board: Where they go.
        strings: The strings.
        shown: What is shown of the slab.
        limits: From where to where on the paper texts may stand, along and up.
        display: How lengths are written.
        height: Capital height in mm.
    """
    placed: list[_Placed] = []
    drawn = Ink.of(board)

    def nearest(string: DimensionString, others: Sequence[_Placed]) -> _Placed:
        """A string as near to its edge as it stands clear of the others, or where it meets the fewest."""
        around = [drawn, *(other.ink for other in others)]
        tried: list[_Placed] = []
        for way in _ways(string):
            one = Board()
            axis = axis_of(way, shown.origin, shown.scale, limits[way.side.upright], height)
            draw_string(one, way, axis, display, height)
            ink = Ink.of(one)
            tried.append(_Placed(string, one, ink, meetings(ink, around, shown.slab)))
            if not tried[-1].met:
                break
        return min(tried, key=lambda t: t.met)

    def meets(k: int) -> int:
        """How often a string that has its place stands on the others or on the concrete now."""
        around = [drawn, *(other.ink for other in placed[:k] + placed[k + 1 :])]
        return meetings(placed[k].ink, around, shown.slab)

    for string in strings:
        placed.append(nearest(string, placed))
    for k in range(len(placed)):  # what came later may have been in the way, or may make way
        if meets(k):
            placed[k] = nearest(placed[k].string, placed[:k] + placed[k + 1 :])
    for k, one in enumerate(placed):
        if not (one.string.spare and meets(k)):
            board.take(one.board)


@dataclass(frozen=True)
class Ink:
    """What marks cover: the boxes of their texts and their lines, filed for whoever must stand clear of them."""

    texts: tuple[Polygon, ...]
    lines: tuple[LineString, ...]

    @classmethod
    def of(cls, marks: Iterable[Mark]) -> "Ink":
        """That of some marks."""
        drawn = list(marks)
        corners = [text_corners(m) for m in drawn if isinstance(m, Text)]
        boxes = shapely.polygons(corners) if corners else ()
        return cls(tuple(boxes), tuple(path_line(m) for m in drawn if isinstance(m, Path)))

    @cached_property
    def _filed_texts(self) -> STRtree:
        return STRtree(self.texts)

    @cached_property
    def _filed(self) -> STRtree:
        return STRtree([*self.texts, *self.lines])

    def meets(self, new: "Ink") -> int:
        """How often a text of this or the other stands on a text or a line of the other one."""
        under = self._filed.query(new.texts, predicate="intersects") if new.texts else ((),)
        over = self._filed_texts.query(new.lines, predicate="intersects") if new.lines else ((),)
        return len(under[0]) + len(over[0])


@dataclass(frozen=True)
class _Placed:
    """A string as it is drawn, what it covers, and how often it met what stood there when it was."""

    string: DimensionString
    board: Board
    ink: Ink
    met: int


def _ways(string: DimensionString) -> list[DimensionString]:
    """The places of a string, the nearest first: only one beside a stretch further in has room to go further out."""
    inner = string.stretch.depth > 0
    tries = TRIES if inner else TRIES[:1]
    ways = [replace(string, out=out, lean=lean) for out, lean in product(tries, LEANS)]
    if inner and not string.running:
        ways += [replace(way, square=True) for way in ways]
    return ways


def meetings(new: Ink, old: Sequence[Ink], slab: Polygon | MultiPolygon) -> int:
    """How often a text of one stands on a text or a line of the others or on the concrete."""
    on_slab = int(shapely.intersects(slab, list(new.texts)).sum()) if new.texts else 0
    return on_slab + sum(one.meets(new) for one in old)
