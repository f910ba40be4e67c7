"""Places the circles of the column grid: above and right of the plan, near the edge that they belong to."""

import shapely
from shapely import LineString, Polygon

from kerfline.geometry.ring import Point
from kerfline.model.slab import Slab
from kerfline.sheets.baselines import Baselines
from kerfline.sheets.column_grid import GridLine, apart, column_grid, draw_grid_line, grid_room
from kerfline.sheets.lettering import text_corners
from kerfline.sheets.marks import Board, Path, Text
from kerfline.sheets.parts import MATCH_ROOM, Choice
from kerfline.sheets.plan_labels import path_line
from kerfline.sheets.strings import Shown

NEAREST = 14.0
"""A tail begins no nearer to the edge than this (mm): beyond the dimensions."""

TRY = 3.0
"""Step in mm by which a circle is moved out until it stands clear."""


def draw_grid(
    board: Board,
    slab: Slab,
    base: Baselines,
    shown: Shown,
    choice: Choice,
    part: int,
    height: float,
) -> None:
    """Draws the circles of the grid lines that cross one part, beyond its dimensions.

    Args:
        board: Where they go; what stands there already is kept clear of.
        slab: The slab, whose columns make the grid.
        base: What offsets are measured from.
        shown: What the part shows of the slab.
        choice: Paper, scale and parts.
        part: Which part.
        height: Capital height in mm.
    """
    grid = column_grid(slab, base)
    x0, y0, x1, y1 = choice.parts[part]
    left, bottom, right, top = shown.bounds
    several = MATCH_ROOM if len(choice.parts) > 1 else 0.0
    for lines, upright in ((grid.along, True), (grid.across, False)):
        low, high = (x0, x1) if upright else (y0, y1)
        start = left if upright else bottom
        far = top if upright else right
        room = choice.rims[3 if upright else 2] - several - grid_room(lines, height)
        drawn: dict[float, list[tuple[float, float, GridLine]]] = {}
        for line in apart([g for g in lines if low <= g.offset <= high], height, shown.scale):
            place = start + (line.offset - low) / shown.scale
            edge = _edge(shown, place, upright=upright)
            at = edge + min(room, NEAREST)
            while at < far + room:
                one = Board()
                around = draw_grid_line(
                    one, line, lines, _foot(place, at, upright), height, upright=upright
                )
                if _is_clear(shapely.box(*around), board, shown):
                    break
                at = min(at + TRY, far + room)
            drawn.setdefault(round(edge), []).append((at, place, line))
        for row in drawn.values():  # those along one edge stand in one row
            out = max(at for at, _, _ in row)
            for _, place, line in row:
                draw_grid_line(
                    board, line, lines, _foot(place, out, upright), height, upright=upright
                )


def _foot(place: float, out: float, upright: bool) -> Point:  # noqa: FBT001 - the way is its meaning
    return (place, out) if upright else (out, place)


def _edge(shown: Shown, place: float, *, upright: bool) -> float:
    """How far up or right the slab reaches at a place along the sheet."""
    left, bottom, right, top = shown.bounds
    ends = [(place, bottom), (place, top)] if upright else [(left, place), (right, place)]
    across = shown.slab.intersection(LineString(ends))
    if across.is_empty:
        return top if upright else right
    _, _, x, y = across.bounds
    return float(y if upright else x)


def _is_clear(box: Polygon, board: Board, shown: Shown) -> bool:
    """Whether a circle stands on no text, line or concrete."""
    if shown.slab.intersects(box):
        return False
    for mark in board:
        if isinstance(mark, Path) and path_line(mark).intersects(box):
            return False
        if isinstance(mark, Text) and Polygon(text_corners(mark)).intersects(box):
            return False
    return True
