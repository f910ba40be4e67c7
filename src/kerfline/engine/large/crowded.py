"""Blocks on which more stands than one search can take, divided until it can.

Every edge, wall and column brings a line that the grid of a block cannot do without. Where many stand out of line, as
short walls do that follow no common grid, a block of the usual size has thousands of cells before any bay is divided.
"""

import math
from collections import Counter
from collections.abc import Sequence

from shapely import LineString

from kerfline.engine.large.blocks import blocks, separators
from kerfline.engine.lines.lattice import fixed_lines
from kerfline.engine.regions.features import features
from kerfline.engine.regions.region import Region, X, Y
from kerfline.geometry.faces import lines_of
from kerfline.geometry.ring import Point
from kerfline.geometry.tolerance import TOUCH

MOST_CELLS = 600
"""Cells between the lines that a block cannot do without, beyond which it is divided: of floors traced from plans the
fullest has 530, and each more takes the solver ten rows."""

HALF = 0.6
"""No part of a block that is divided in two is longer than this share of it."""

LEAST = 2.0
"""Blocks that are no longer than so many spans are not divided."""


def uncrowded(parts: Sequence[Region]) -> tuple[list[Region], list[tuple[Point, Point]]]:
    """Blocks in order, the crowded ones in parts, and the joints between those."""
    done: list[Region] = []
    cuts: list[tuple[Point, Point]] = []
    waiting = list(reversed(parts))
    while waiting:
        part = waiting.pop()
        halves, between = _divided(part) if is_crowded(part) else ([], [])
        if len(halves) > 1:
            waiting.extend(reversed(halves))
            cuts.extend(between)
        else:
            done.append(part)
    return done, cuts


def is_crowded(part: Region) -> bool:
    """Whether the lines that a block cannot do without make more cells than one search can take."""
    axes = Counter(feature.axis for feature in features(part))
    if axes[X] * axes[Y] <= MOST_CELLS:
        return False  # there are no more lines than features, and those of a plain block are told at once
    counts = (len(lines) - 1 for lines in fixed_lines(part))
    return math.prod(counts) > MOST_CELLS


def _divided(part: Region) -> tuple[list[Region], list[tuple[Point, Point]]]:
    """The parts of a block, across its longer way, and the joints between them."""
    x0, y0, x1, y1 = part.gross.bounds
    axis, length = (X, x1 - x0) if x1 - x0 >= y1 - y0 else (Y, y1 - y0)
    if length <= LEAST * part.working.span:
        return [], []
    places = separators(part, axis, part.working.span, HALF * length)
    cuts = [path for at in places for path in _across(part, axis, at)]
    return list(blocks(part, (places, ()) if axis == X else ((), places))), cuts


def _across(part: Region, axis: int, at: float) -> list[tuple[Point, Point]]:
    """The joints along a separator inside a block."""
    x0, y0, x1, y1 = part.gross.bounds
    line = LineString([(at, y0), (at, y1)] if axis == X else [(x0, at), (x1, at)])
    found = (p.bounds for p in lines_of(line.intersection(part.gross)) if p.length > TOUCH)
    return [((low_x, low_y), (high_x, high_y)) for low_x, low_y, high_x, high_y in found]
