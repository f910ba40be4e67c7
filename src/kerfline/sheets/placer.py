"""Finds room for labels: no text over text, over a joint or out of its frame."""

import math
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, field
from itertools import islice

import shapely
from shapely import LineString, Polygon

from kerfline.geometry.ring import Point
from kerfline.sheets.lettering import text_corners
from kerfline.sheets.marks import Bounds, Text

CELL = 25.0
"""Side in mm of the cells that placed boxes are filed under."""

AT_ONCE = 32
"""Most spots that are held against the lines at once."""

CLEAR = 0.35
"""Least gap in mm between a text and anything else."""


Corners = tuple[Point, Point, Point, Point]


@dataclass(frozen=True)
class Spot:
    """A place that a label could take.

    Attributes:
        text: The text as it would stand there.
        leader: Points of the line from the text to what it names; empty for none.
        radius: Radius in mm of a circle around the text's middle; 0 for none.
        more: Further lines of the label.
    """

    text: Text
    leader: tuple[Point, ...] = ()
    radius: float = 0.0
    more: tuple[Text, ...] = ()

    def moved(self, by: Point) -> "Spot":
        """The same label without its leader, moved by so much."""
        text, *more = (t.moved((t.at[0] + by[0], t.at[1] + by[1])) for t in (self.text, *self.more))
        return Spot(text, radius=self.radius, more=tuple(more))

    @property
    def box(self) -> "_Box":
        """The room that the label takes up."""
        if self.more:
            return _around([text_corners(t, CLEAR) for t in (self.text, *self.more)])
        if not self.radius:
            return _Box(text_corners(self.text, CLEAR))
        x, y = self.text.at
        reach, y = self.radius, y + self.text.height / 2
        return _Box(
            (
                (x - reach, y - reach),
                (x + reach, y - reach),
                (x + reach, y + reach),
                (x - reach, y + reach),
            )
        )


class _Box:
    """A convex quadrilateral on the paper, with its bounds."""

    __slots__ = ("bounds", "corners", "upright")

    def __init__(self, corners: Corners) -> None:
        self.corners = corners
        xs, ys = [c[0] for c in corners], [c[1] for c in corners]
        self.bounds: Bounds = (min(xs), min(ys), max(xs), max(ys))
        self.upright = xs[0] in (xs[1], xs[3]) and ys[0] in (ys[1], ys[3])

    @property
    def shape(self) -> Polygon:
        """The same as a polygon."""
        return shapely.polygons(self.corners)

    def meets(self, other: "_Box") -> bool:
        """Whether two quadrilaterals have a point in common (separating axes)."""
        a, b = self.bounds, other.bounds
        if a[2] < b[0] or b[2] < a[0] or a[3] < b[1] or b[3] < a[1]:
            return False
        if self.upright and other.upright:
            return True
        return not (_parted(self.corners, other.corners) or _parted(other.corners, self.corners))


def _around(boxes: Sequence[Corners]) -> _Box:
    """The upright box around several."""
    xs = [x for box in boxes for x, _ in box]
    ys = [y for box in boxes for _, y in box]
    x0, y0, x1, y1 = min(xs), min(ys), max(xs), max(ys)
    return _Box(((x0, y0), (x1, y0), (x1, y1), (x0, y1)))


def _parted(first: Corners, second: Corners) -> bool:
    """Whether a side of the first has all of the second beyond it."""
    for i, (x0, y0) in enumerate(first):
        x1, y1 = first[(i + 1) % len(first)]
        dx, dy = x1 - x0, y1 - y0
        if all(dx * (y - y0) - dy * (x - x0) < 0 for x, y in second):
            return True
    return False


@dataclass
class Placer:
    """What takes up room inside a frame, and the labels that have found room.

    Attributes:
        frame: Where labels must stay, mm of paper.
        lines: Lines that no label may cross.
        soft: Areas that labels stay off where they can, such as hatching.
        outer: A wider frame for labels that find no room in the first; None for none.
    """

    frame: Bounds
    lines: Sequence[LineString] = ()
    soft: Sequence[Polygon] = ()
    outer: Bounds | None = None
    _cells: dict[tuple[int, int], list[_Box]] = field(default_factory=dict)
    _leaders: dict[tuple[int, int], list[_Box]] = field(default_factory=dict)

    def __post_init__(self) -> None:
        """Files the lines."""
        self.crossing = False
        self._tree = shapely.STRtree(list(self.lines))
        self._soft = shapely.union_all(list(self.soft))
        shapely.prepare(self._soft)

    def reserve_text(self, texts: Iterable[Text]) -> None:
        """Keeps labels off texts that stand already."""
        for text in texts:
            self._file(_Box(text_corners(text)))

    def place(self, spots: Iterable[Spot]) -> Spot | None:
        """Takes the first spot that is free, one off the soft areas before one on them.

        Args:
            spots: Where the label could stand, best first.

        Returns:
            The spot, now reserved with its leader; None where none is free.
        """
        second: tuple[Spot, _Box] | None = None
        for spot, box in self._free_ones(spots):
            if self._soft.is_empty or not self._soft.intersects(box.shape):
                return self._take(spot, box)
            second = second or (spot, box)
        return self._take(*second) if second else None

    def reach(self, spots: Iterable[Spot]) -> Spot | None:
        """Takes the first spot that is free in the wider frame; its leader may cross other leaders."""
        frame = self.frame
        self.frame, self.crossing = self.outer or frame, True
        try:
            return self.place(spots)
        finally:
            self.frame, self.crossing = frame, False

    def _take(self, spot: Spot, box: _Box) -> Spot:
        self._file(box)
        if spot.leader:
            self._file(_strip(spot.leader), self._leaders)
        return spot

    def _free_ones(self, spots: Iterable[Spot]) -> Iterator[tuple[Spot, _Box]]:
        """The spots that are free, in order: one is looked at, then twice as many each time, the lines asked at once."""
        waiting, count = iter(spots), 1
        while some := list(islice(waiting, count)):
            boxed = ((spot, spot.box) for spot in some)
            room = [
                (spot, box)
                for spot, box in boxed
                if self._inside(box) and not self._taken(box) and self._leader_free(spot.leader)
            ]
            crossed = self._crossed([box for _, box in room])
            yield from (found for k, found in enumerate(room) if k not in crossed)
            count = min(2 * count, AT_ONCE)

    def _inside(self, box: _Box) -> bool:
        """Whether a box lies in the frame."""
        x0, y0, x1, y1 = box.bounds
        left, bottom, right, top = self.frame
        return x0 >= left and y0 >= bottom and x1 <= right and y1 <= top

    def _crossed(self, boxes: Sequence[_Box]) -> set[int]:
        """Which of some boxes lie on a line."""
        if not boxes:
            return set()
        shapes = shapely.polygons([box.corners for box in boxes])
        return set(self._tree.query(shapes, predicate="intersects")[0].tolist())

    def _leader_free(self, leader: tuple[Point, ...]) -> bool:
        return not leader or not self._taken(_strip(leader), leaders=not self.crossing)

    def _file(self, box: _Box, cells: dict[tuple[int, int], list[_Box]] | None = None) -> None:
        filed = self._cells if cells is None else cells
        for key in _cells(box.bounds):
            filed.setdefault(key, []).append(box)

    def _taken(self, box: _Box, *, leaders: bool = True) -> bool:
        filed = (self._cells, self._leaders) if leaders else (self._cells,)
        for key in _cells(box.bounds):
            for cells in filed:
                for other in cells.get(key, ()):
                    if box.meets(other):
                        return True
        return False


def _strip(leader: tuple[Point, ...]) -> _Box:
    """The thin box that a straight leader takes up, anticlockwise."""
    (x0, y0), (x1, y1) = leader[0], leader[-1]
    size = math.hypot(x1 - x0, y1 - y0) or 1.0
    dx, dy = -(y1 - y0) / size * CLEAR / 2, (x1 - x0) / size * CLEAR / 2
    return _Box(((x0 - dx, y0 - dy), (x1 - dx, y1 - dy), (x1 + dx, y1 + dy), (x0 + dx, y0 + dy)))


def _cells(bounds: Bounds) -> list[tuple[int, int]]:
    left, bottom, right, top = bounds
    columns = range(int(left // CELL), int(right // CELL) + 1)
    rows = range(int(bottom // CELL), int(top // CELL) + 1)
    return [(x, y) for x in columns for y in rows]


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
