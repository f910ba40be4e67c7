"""How far out each dimension string stands, so that no text of one meets a line or a text of another."""

from collections.abc import Sequence
from dataclasses import replace
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
"""Where in its bay a text of a chain may stand: in the middle, or toward either end."""


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
    for string in strings:
        tries = TRIES if string.stretch.depth > 0 else TRIES[:1]
        drawn: list[tuple[int, int, Board]] = []
        ways = [replace(string, out=out, lean=lean) for out, lean in product(tries, LEANS)]
        if not string.running and string.stretch.depth > 0:
            ways += [replace(way, square=True) for way in ways]
        for placed in ways:
            one = Board()
            axis = axis_of(placed, shown.origin, shown.scale, limits[placed.side.upright], height)
            draw_string(one, placed, axis, display, height)
            met = meetings(list(one), list(board), shown.slab)
            drawn.append((met, len(drawn), one))
            if not drawn[-1][0]:
                break
        met, _, best = min(drawn, key=lambda d: d[:2])
        if not (met and string.spare):
            board.take(best)


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
