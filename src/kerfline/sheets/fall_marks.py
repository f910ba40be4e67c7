"""Arrows that tell which way a floor falls."""

import math
from collections.abc import Iterator

import shapely

from kerfline.geometry.ring import Point
from kerfline.model.falls import sides_down
from kerfline.model.slab import Fall, Slab
from kerfline.sheets.marks import Layer, Mark, Path
from kerfline.sheets.view import View

START = 0.1
"""Where an arrow begins, as a share of the way from the middle of a side down to the drain."""

REACH = 0.3
"""Its length as a share of that way, short of the middle of the plane, where the panel's number stands."""

LONGEST = 9.0
SHORTEST = 3.0
"""Most and least length of an arrow, mm of paper."""

HEAD = 1.8
WIDTH = 0.25
"""Length of its head and width of its lines, mm of paper."""


def fall_arrows(slab: Slab, view: View) -> Iterator[Mark]:
    """An arrow on every plane that lies in the view's window, down from its side to the drain."""
    for fall in slab.falls:
        for tail, tip in arrow_ends(fall, view):
            yield from arrow(tail, tip, fall.id, in_plan=True)


def arrow_ends(fall: Fall, view: View) -> Iterator[tuple[Point, Point]]:
    """Tail and tip of each arrow of a fall on the paper."""
    for high, low in sides_down(fall):
        start, end = view.to_paper(high), view.to_paper(low)
        whole = math.dist(start, end)
        length = min(REACH * whole, LONGEST)
        if length < SHORTEST:
            continue
        way = ((end[0] - start[0]) / whole, (end[1] - start[1]) / whole)
        tail = (start[0] + START * whole * way[0], start[1] + START * whole * way[1])
        tip = (tail[0] + length * way[0], tail[1] + length * way[1])
        if view.window_box.covers(shapely.LineString([tail, tip])):
            yield tail, tip


def slope_text(percent: float) -> str:
    """How steeply a floor falls, as it stands on the plan: ``1.5 %``."""
    return f"{percent:g} %"


def arrow(tail: Point, tip: Point, ref: str, *, in_plan: bool = False) -> Iterator[Path]:
    """A thin arrow with an open head."""
    size = math.dist(tail, tip)
    dx, dy = (tip[0] - tail[0]) / size, (tip[1] - tail[1]) / size
    neck, half = (tip[0] - HEAD * dx, tip[1] - HEAD * dy), HEAD / 3
    barbs = [(neck[0] - side * dy, neck[1] + side * dx) for side in (half, -half)]
    for points in ((tail, tip), (barbs[0], tip, barbs[1])):
        yield Path(layer=Layer.SYMBOL, points=points, width=WIDTH, ref=ref, in_plan=in_plan)
