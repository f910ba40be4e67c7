"""Finds room for labels: no text over text, over a joint or out of its frame."""

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field

import numpy as np
import shapely
from shapely import LineString, Polygon

from kerfline.geometry.ring import Point
from kerfline.sheets.lettering import text_corners
from kerfline.sheets.marks import Bounds, Text

CELL = 25.0
"""Side in mm of the cells that placed boxes are filed under."""

CLEAR = 0.35
"""Least gap in mm between a text and anything else."""


@dataclass(frozen=True)
class Spot:
    """A place that a label could take.

    Attributes:
        text: The text as it would stand there.
        leader: Points of the line from the text to what it names; empty for none.
    """

    text: Text
    leader: tuple[Point, ...] = ()


@dataclass
class Placer:
    """What takes up room inside a frame, and the labels that have found room.

    Attributes:
        frame: Where labels must stay, mm of paper.
        lines: Lines that no label may cross.
        soft: Areas that labels stay off where they can, such as hatching.
    """

    frame: Bounds
    lines: Sequence[LineString] = ()
    soft: Sequence[Polygon] = ()
    _cells: dict[tuple[int, int], list[Polygon]] = field(default_factory=dict)

    def __post_init__(self) -> None:
        """Files the lines, chopped so that long slanting ones do not fill the index."""
        self._tree = shapely.STRtree(list(self.lines))
        self._soft = shapely.union_all(list(self.soft))
        shapely.prepare(self._soft)
        self._frame = shapely.box(*self.frame)
        shapely.prepare(self._frame)

    def reserve(self, shapes: Iterable[Polygon]) -> None:
        """Keeps labels off areas."""
        for shape in shapes:
            for key in _cells(shape.bounds):
                self._cells.setdefault(key, []).append(shape)

    def reserve_text(self, texts: Iterable[Text]) -> None:
        """Keeps labels off texts that stand already."""
        self.reserve(Polygon(text_corners(t)) for t in texts)

    def place(self, spots: Iterable[Spot]) -> Spot | None:
        """Takes the first spot that is free, one off the soft areas before one on them.

        Args:
            spots: Where the label could stand, best first.

        Returns:
            The spot, now reserved with its leader; None where none is free.
        """
        second: tuple[Spot, Polygon] | None = None
        for spot in spots:
            box = Polygon(text_corners(spot.text)).buffer(CLEAR, join_style="mitre")
            if not self._free(box) or not self._leader_free(spot.leader):
                continue
            if not self._soft.intersects(box):
                return self._take(spot, box)
            second = second or (spot, box)
        return self._take(*second) if second else None

    def _take(self, spot: Spot, box: Polygon) -> Spot:
        self.reserve([box])
        if spot.leader:
            self.reserve([LineString(spot.leader).buffer(CLEAR / 2)])
        return spot

    def _free(self, box: Polygon) -> bool:
        if not self._frame.covers(box):
            return False
        return not len(self._tree.query(box, predicate="intersects")) and not self._taken(box)

    def _leader_free(self, leader: tuple[Point, ...]) -> bool:
        return not leader or not self._taken(LineString(leader))

    def _taken(self, shape: Polygon | LineString) -> bool:
        near = [other for key in _cells(shape.bounds) for other in self._cells.get(key, ())]
        return bool(near) and bool(np.any(shapely.intersects(shape, np.asarray(near))))


def _cells(bounds: Bounds) -> list[tuple[int, int]]:
    x0, y0, x1, y1 = (math.floor(v / CELL) for v in bounds)
    return [(x, y) for x in range(x0, x1 + 1) for y in range(y0, y1 + 1)]


def spread(wished: Sequence[float], gap: float) -> list[float]:
    """Moves positions on a line apart as little as possible.

    Args:
        wished: Where each would like to be, ascending.
        gap: Least distance between neighbours.

    Returns:
        The positions, least squares from the wished ones (pooled blocks of an isotonic fit).
    """
    blocks: list[tuple[float, int]] = []
    for i, place in enumerate(wished):
        mean, count = place - i * gap, 1
        while blocks and blocks[-1][0] > mean:
            before, size = blocks.pop()
            mean = (mean * count + before * size) / (count + size)
            count += size
        blocks.append((mean, count))
    flat = [mean for mean, count in blocks for _ in range(count)]
    return [mean + i * gap for i, mean in enumerate(flat)]
