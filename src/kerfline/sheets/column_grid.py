"""The column grid: lines through columns that stand in rows, named at the rim of the plan in circles."""

import math
import re
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from string import ascii_uppercase

from kerfline.geometry.ring import Point
from kerfline.model.slab import Column, Slab
from kerfline.sheets.baselines import Baselines
from kerfline.sheets.lettering import text_width
from kerfline.sheets.marks import Anchor, Board, Bounds, Layer
from kerfline.sheets.stations import PLACE

LEAST = 2
"""So many columns in a row are a line of the grid, and so many lines each way a grid."""

LETTERS = tuple(letter for letter in ascii_uppercase if letter not in "AIO")
"""Letters of grid lines that the job does not name: A is the corner that is measured from, and I and O are taken for
figures (common practice)."""

OWN_NAME = re.compile(r"([A-Z]{1,2})[-. /]?(\d{1,2})")
"""A column that is named after its two grid lines, such as B3 or B-3."""

RADIUS = 1.7
"""Radius of a circle in capital heights."""

TAIL = 3.0
"""Length of the line from a circle toward the plan, mm; and room between them."""


@dataclass(frozen=True)
class GridLine:
    """A line of the grid.

    Attributes:
        name: What stands in its circle.
        offset: Along the baseline that it crosses, mm.
    """

    name: str
    offset: float


@dataclass(frozen=True)
class ColumnGrid:
    """The lines that cross the first and the second baseline; none where columns stand in no rows."""

    along: tuple[GridLine, ...] = ()
    across: tuple[GridLine, ...] = ()


def column_grid(slab: Slab, base: Baselines) -> ColumnGrid:
    """The grid of a slab's columns.

    The lines have the names that the columns give them (B3 stands on B and on 3), else figures along the
    first baseline and letters along the second.
    """
    places = [(column, base.local(column.at)) for column in slab.columns]
    groups = [_rows(places, axis) for axis in (0, 1)]
    if min(len(found) for found in groups) < LEAST:
        return ColumnGrid()
    along, across = (
        _own_names(groups[axis]) or _usual_names(axis, len(groups[axis])) for axis in (0, 1)
    )
    return ColumnGrid(_lines(along, groups[0], 0), _lines(across, groups[1], 1))


Place = tuple[Column, Point]


def _rows(places: Iterable[Place], axis: int) -> list[list[Place]]:
    """Columns at one offset along a baseline, two or more, ascending."""
    rows: list[list[Place]] = []
    for place in sorted(places, key=lambda p: (p[1][axis], p[0].id)):
        if rows and place[1][axis] - rows[-1][0][1][axis] <= PLACE:
            rows[-1].append(place)
        else:
            rows.append([place])
    return [row for row in rows if len(row) >= LEAST]


def _own_names(rows: Sequence[Sequence[Place]]) -> list[str]:
    """The names that the columns' own names give the lines; none where they do not agree."""
    found = [[OWN_NAME.fullmatch(column.id) for column, _ in row] for row in rows]
    for part in (1, 2):
        names = [{match[part] if match else "" for match in row} for row in found]
        single = [next(iter(n)) for n in names if len(n) == 1]
        if len(single) == len(rows) == len(set(single)) and all(single):
            return single
    return []


def _usual_names(axis: int, count: int) -> list[str]:
    if axis == 0:
        return [f"{n}" for n in range(1, count + 1)]
    return [LETTERS[i % len(LETTERS)] * (1 + i // len(LETTERS)) for i in range(count)]


def _lines(
    names: Sequence[str], rows: Sequence[Sequence[Place]], axis: int
) -> tuple[GridLine, ...]:
    middles = (sum(at[axis] for _, at in row) / len(row) for row in rows)
    return tuple(GridLine(name, middle) for name, middle in zip(names, middles, strict=True))


def grid_room(lines: Sequence[GridLine], height: float) -> float:
    """Room in mm that the circles of some lines take beyond the dimensions."""
    return 2 * _radius(lines, height) + TAIL + 1.0 if lines else 0.0


def _radius(lines: Sequence[GridLine], height: float) -> float:
    widest = max(text_width(line.name, height) for line in lines)
    return max(RADIUS * height, math.hypot(widest, height) / 2 + 0.8)


def draw_grid_line(
    board: Board,
    line: GridLine,
    lines: Sequence[GridLine],
    foot: Point,
    height: float,
    *,
    upright: bool,
) -> Bounds:
    """A circle with the name of a line and its tail; the room that both take.

    Args:
        board: Where it goes.
        line: The line.
        lines: All lines of its way, whose circles are alike.
        foot: Where its tail begins, beyond the dimensions.
        height: Capital height in mm.
        upright: Whether the line runs up the sheet, its circle above the plan; else it stands at the right.
    """
    radius = _radius(lines, height)
    x, y = foot
    end = (x, y + TAIL) if upright else (x + TAIL, y)
    cx, cy = (x, y + TAIL + radius) if upright else (x + TAIL + radius, y)
    board.line(Layer.GRID, foot, end, ref=f"grid line {line.name}")
    board.circle(Layer.GRID, (cx, cy), radius)
    board.text(Layer.GRID_NAME, (cx, cy - height / 2), line.name, height, anchor=Anchor.MIDDLE)
    left, low = (cx - radius, y) if upright else (x, cy - radius)
    return (left, low, cx + radius, cy + radius)


def apart(lines: Sequence[GridLine], height: float, scale: float) -> list[GridLine]:
    """The lines whose circles stand clear of one another at a scale, the first of those that do not."""
    kept: list[GridLine] = []
    for line in lines:
        if not kept or (line.offset - kept[-1].offset) / scale >= 2 * _radius(lines, height) + 0.5:
            kept.append(line)
    return kept
