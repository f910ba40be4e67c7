"""How far out each dimension string stands, so that no text of one meets a line or a text of another."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from itertools import product

import shapely
from shapely import MultiPolygon, Polygon

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

    def nearest(string: DimensionString, others: Sequence[_Placed]) -> _Placed:
        """A string as near to its edge as it stands clear of the others, or where it meets the fewest."""
        around = [*board, *(mark for other in others for mark in other.board)]
        tried: list[_Placed] = []
        for way in _ways(string):
            one = Board()
            axis = axis_of(way, shown.origin, shown.scale, limits[way.side.upright], height)
            draw_string(one, way, axis, display, height)
            tried.append(_Placed(string, one, meetings(list(one), around, shown.slab)))
            if not tried[-1].met:
                break
        return min(tried, key=lambda t: t.met)

    for string in strings:
        placed.append(nearest(string, placed))
    for k in range(len(placed)):  # what came later may have been in the way, or may make way
        others = placed[:k] + placed[k + 1 :]
        if _meets(placed[k], board, others, shown.slab):
            placed[k] = nearest(placed[k].string, others)
    for k, one in enumerate(placed):
        if not (one.string.spare and _meets(one, board, placed[:k] + placed[k + 1 :], shown.slab)):
            board.take(one.board)


@dataclass(frozen=True)
class _Placed:
    """A string as it is drawn, and how often it met what stood there when it was."""

    string: DimensionString
    board: Board
    met: int


def _ways(string: DimensionString) -> list[DimensionString]:
    """The places of a string, the nearest first: only one beside a stretch further in has room to go further out."""
    inner = string.stretch.depth > 0
    tries = TRIES if inner else TRIES[:1]
    ways = [replace(string, out=out, lean=lean) for out, lean in product(tries, LEANS)]
    if inner and not string.running:
        ways += [replace(way, square=True) for way in ways]
    return ways


def _meets(
    one: _Placed, board: Board, others: Sequence[_Placed], slab: Polygon | MultiPolygon
) -> int:
    around = [*board, *(mark for other in others for mark in other.board)]
    return meetings(list(one.board), around, slab)


def meetings(new: Sequence[Mark], old: Sequence[Mark], slab: Polygon | MultiPolygon) -> int:
    """How often a text of one stands on a text or a line of the other or on the concrete."""
    boxes, lines = _texts(new), _lines(new)
    other_boxes, other_lines = _texts(old), _lines(old)
    return (
        _count(boxes, [*other_boxes, *other_lines])
        + _count(other_boxes, lines)
        + sum(bool(slab.intersects(box)) for box in boxes)
    )


def _texts(marks: Sequence[Mark]) -> list[Polygon]:
    return [Polygon(text_corners(m)) for m in marks if isinstance(m, Text)]


def _lines(marks: Sequence[Mark]) -> list[shapely.LineString]:
    return [path_line(m) for m in marks if isinstance(m, Path)]


def _count(first: Sequence[shapely.Geometry], second: Sequence[shapely.Geometry]) -> int:
    if not first or not second:
        return 0
    return len(shapely.STRtree(second).query(first, predicate="intersects")[0])
