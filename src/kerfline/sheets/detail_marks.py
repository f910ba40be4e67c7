"""What details are drawn of: slab in section, dowels, dimension lines, sizes as the trade sells them."""

from collections.abc import Callable
from dataclasses import dataclass

import shapely

from kerfline.geometry.ring import Point
from kerfline.model.layout import Dowels
from kerfline.quantities.dowels import Dowel
from kerfline.sheets.hatch import hatch_lines
from kerfline.sheets.marks import Board, Bounds, Fill, Layer, Path
from kerfline.units import Display, format_depth

SECTION_SCALE = {Display.FEET_INCHES: 8.0, Display.METRIC: 10.0}

SIDE = 22.0
"""Half width of slab that a section shows, mm of paper."""

SECTION_ROOM = 80.0
"""Depth of concrete that a section shows at the most, mm of paper."""

PLAN_SIDE = 30.0
"""Half width that a detail in plan has, mm of paper."""


@dataclass(frozen=True)
class Detail:
    """A typical detail.

    Attributes:
        title: Its title.
        words: What it says, under the drawing.
        scale: Scale denominator.
        tall: Height of its drawing, mm.
        draw: Draws it around a point at half its width and the top of its drawing.
    """

    title: str
    words: str
    scale: float
    tall: float
    draw: Callable[[Board, Point], None]


def scale_for(extent: float, room: float, usual: float) -> float:
    """The usual scale of a detail, halved as often as an extent (mm) needs to fit a room (mm of paper)."""
    scale = usual
    while extent > room * scale:
        scale *= 2
    return scale


METRIC_SIZES = (6, 8, 10, 12, 16, 20, 25, 32, 40)
"""Bars and fillers as they are sold in metric countries, mm (common practice)."""

LARGE = 40.0


def trade_size(mm: float, display: Display) -> str:
    """A length of a detail as it is bought or set out: in mm a size that is sold, or a round one."""
    if display is Display.FEET_INCHES:
        return format_depth(mm, display)
    if mm <= LARGE:
        return f"{min(METRIC_SIZES, key=lambda size: abs(size - mm))} mm"
    unit = 5 if mm < 4 * LARGE else 50
    return f"{round(mm / unit) * unit} mm"


def draw_dowel(board: Board, at: Point, dowel: Dowel | Dowels, scale: float) -> None:
    """A dowel across a joint, its middle at a point."""
    x, y = at
    half = min(dowel.length / 2 / scale, SIDE - 1.0)
    rise = dowel.diameter / 2 / scale
    ring = ((x - half, y - rise), (x + half, y - rise), (x + half, y + rise), (x - half, y + rise))
    board.add(Fill(layer=Layer.DETAIL, rings=(ring,), tone=0.45))
    board.add(Path(layer=Layer.DETAIL, points=ring, closed=True, width=0.25))


def draw_fixed(board: Board, bounds: Bounds) -> None:
    """Something that stands beside the slab or on it: a wall, a footing."""
    board.box(Layer.DETAIL, bounds)
    for line in hatch_lines(shapely.box(*bounds), 2.2, 135.0):
        (ax, ay), (bx, by) = line.coords[0], line.coords[-1]
        board.line(Layer.DETAIL, (ax, ay), (bx, by), width=0.13)


def draw_slab(board: Board, bounds: Bounds) -> None:
    """A piece of slab in section, its ends left open."""
    x0, y0, x1, y1 = bounds
    board.line(Layer.DETAIL, (x0, y1), (x1, y1), width=0.5)
    board.line(Layer.DETAIL, (x0, y0), (x1, y0), width=0.5)
    for i, (dx, dy) in enumerate(STONES):
        x, y = x0 + dx * (x1 - x0), y0 + dy * (y1 - y0)
        size = 0.5 + 0.15 * (i % 3)
        board.add(
            Path(
                layer=Layer.DETAIL,
                points=((x - size, y - size / 2), (x + size, y - size / 3), (x, y + size)),
                closed=True,
                width=0.13,
            )
        )


STONES = (
    (0.05, 0.3), (0.12, 0.75), (0.2, 0.2), (0.27, 0.6), (0.34, 0.35), (0.41, 0.8),
    (0.6, 0.25), (0.66, 0.7), (0.74, 0.4), (0.81, 0.78), (0.88, 0.22), (0.95, 0.58),
)  # fmt: skip
"""Where the stones that mark concrete in section stand, as shares of the piece."""


def draw_measure(board: Board, x: float, low: float, high: float) -> None:
    """A small dimension line between two levels; its value stands in the words below."""
    board.line(Layer.DIMENSION, (x, low), (x, high))
    for y in (low, high):
        board.line(Layer.DIMENSION, (x - 0.8, y), (x + 0.8, y))
        board.line(Layer.DIMENSION, (x - 0.5, y - 0.5), (x + 0.5, y + 0.5), width=0.35)
